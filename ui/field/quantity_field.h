#pragma once

#include <QWidget>
#include <optional>

#include "quantity/unit.h"

class QLabel;
class QLineEdit;

namespace ductwright::ui {

// A line for one quantity, in any unit of its dimension; the project's unit stands beside it. A slip is told in
// a sentence below the line while typing.
class QuantityField : public QWidget {
  Q_OBJECT

 public:
  explicit QuantityField(QWidget* parent = nullptr);

  void setDimension(quantity::Dimension dimension, quantity::System system);
  void setSi(std::optional<double> si);
  void setText(const QString& text);
  void setName(const QString& accessibleName);
  void setLarge();  // for entry in the field

  [[nodiscard]] bool isEmpty() const;
  [[nodiscard]] bool isValid() const;  // empty is valid
  [[nodiscard]] std::optional<double> si() const;
  // What a verb is given: the text, with the unit that the field shows where none was typed.
  [[nodiscard]] QString typed() const;
  [[nodiscard]] QLineEdit* line() const { return m_line; }
  void tellFault(const QString& sentence);

 signals:
  void edited();
  void entered();

 private:
  void check();

  QLineEdit* m_line;
  QLabel* m_unit;
  QLabel* m_fault;
  quantity::Dimension m_dimension = quantity::Dimension::number;
  quantity::System m_system = quantity::System::ip;
};

}  // namespace ductwright::ui
