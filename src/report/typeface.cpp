#include "typeface.h"

#include <QFontMetricsF>

namespace ductwright::report {
namespace {

struct Style {
  int size;
  bool bold;
};
constexpr std::array<Style, kTypes> kStyles{{{18, true}, {14, true}, {9, true}, {10, true}, {9, false}, {8, false}, {7, false}, {7, true}, {6, false}}};
constexpr float kUnknown = -1;

}  // namespace

Typeface::Typeface() {
  for (std::size_t i = 0; i < kTypes; ++i) {
    QFont font(QStringLiteral("Noto Sans"));
    font.setStyleHint(QFont::SansSerif);
    font.setPixelSize(kStyles[i].size);
    font.setBold(kStyles[i].bold);
    font.setStyleStrategy(QFont::PreferNoShaping);
    font.setHintingPreference(QFont::PreferNoHinting);
    m_faces[i] = {font, static_cast<double>(kStyles[i].size), std::vector<float>(0x10000, kUnknown)};
  }
}

double Typeface::advance(QChar letter, Type type) const {
  Face& face = m_faces[index(type)];
  float& known = face.advances[letter.unicode()];
  if (known == kUnknown) known = static_cast<float>(QFontMetricsF(face.font).horizontalAdvance(letter));
  return static_cast<double>(known);
}

double Typeface::width(QStringView text, Type type) const {
  double sum = 0;
  for (const QChar letter : text) sum += advance(letter, type);
  return sum;
}

QStringList Typeface::wrapped(const QString& text, Type type, double width) const {
  QStringList lines;
  qsizetype start = 0, blank = -1;
  double used = 0, usedAtBlank = 0;
  for (qsizetype i = 0; i < text.size(); ++i) {
    const QChar letter = text[i];
    if (letter == u'\n') {
      lines.append(text.mid(start, i - start));
      start = i + 1;
      used = 0;
      blank = -1;
      continue;
    }
    used += advance(letter, type);
    if (letter == u' ' && !(i > 0 && text[i - 1].isDigit())) {
      blank = i;
      usedAtBlank = used;
      continue;
    }
    if (used <= width || i == start) continue;
    const qsizetype end = blank > start ? blank : i;
    lines.append(text.mid(start, end - start));
    used = blank > start ? used - usedAtBlank : advance(letter, type);
    start = blank > start ? blank + 1 : i;
    blank = -1;
  }
  if (start < text.size() || lines.isEmpty()) lines.append(text.mid(start));
  return lines;
}

}  // namespace ductwright::report
