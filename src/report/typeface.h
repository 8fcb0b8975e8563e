#pragma once

#include <QFont>
#include <QString>
#include <QStringList>
#include <array>
#include <vector>

namespace ductwright::report {

// The sizes in which a report is set, in points.
enum class Type : std::uint8_t { title, part, heading, strong, lead, body, cell, cellHead, small };
inline constexpr std::size_t kTypes = 9;

// Noto Sans without shaping: its text comes out of a PDF as it went in, and a text is as wide as its letters.
class Typeface {
 public:
  Typeface();

  [[nodiscard]] const QFont& font(Type type) const { return m_faces[index(type)].font; }
  [[nodiscard]] double lineHeight(Type type) const { return m_faces[index(type)].size * 1.25; }
  [[nodiscard]] double baseline(Type type) const { return m_faces[index(type)].size; }
  [[nodiscard]] double width(QStringView text, Type type) const;
  // Lines no wider than `width`, broken at blanks, but not between a number and its unit; inside a word only where
  // it alone is too wide.
  [[nodiscard]] QStringList wrapped(const QString& text, Type type, double width) const;

 private:
  struct Face {
    QFont font;
    double size = 0;
    std::vector<float> advances;  // by UTF-16 code unit, filled when first asked for
  };
  static std::size_t index(Type type) { return static_cast<std::size_t>(type); }
  [[nodiscard]] double advance(QChar letter, Type type) const;

  mutable std::array<Face, kTypes> m_faces;
};

}  // namespace ductwright::report
