#pragma once

#include <QString>
#include <optional>
#include <string_view>

#include "fleet/vocabulary.h"
#include "quantity/unit.h"
#include "verdict/verdict.h"

// The trade's words and numbers as they stand on screen, in the reader's language.
namespace ductwright::ui {

inline QString text(std::string_view utf8) {
  return QString::fromUtf8(utf8.data(), static_cast<qsizetype>(utf8.size()));
}

// The translation of a word from one of the closed lists.
QString translatedWord(std::string_view word);

template <class Enum>
QString word(Enum value) {
  return translatedWord(name(value));
}

// "cooling max", "point 3", "heat forced".
QString stepWord(fleet::Procedure procedure, int step);

// "450 cfm" in the project's system; an em dash where there is none.
QString written(std::optional<double> si, quantity::Dimension dimension, quantity::System system);
// The number alone, for a field whose unit stands beside it; empty where there is none.
QString writtenNumber(std::optional<double> si, quantity::Dimension dimension, quantity::System system);
QString unitSymbol(quantity::Dimension dimension, quantity::System system);

// A whole number from 0 to 100; an em dash where nothing was judged.
QString scoreText(const std::optional<double>& score);

inline QString dash() { return QStringLiteral("—"); }

}  // namespace ductwright::ui
