#include "ui/field/quantity_field.h"

#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>

#include "ui/field/fault_label.h"
#include "ui/look/look.h"
#include "ui/words/words.h"

namespace ductwright::ui {

QuantityField::QuantityField(QWidget* parent)
    : QWidget(parent), m_line(new QLineEdit(this)), m_unit(new QLabel(this)), m_fault(faultLabel(this)) {
  auto* grid = new QGridLayout(this);
  grid->setContentsMargins({});
  grid->setHorizontalSpacing(6);
  grid->setVerticalSpacing(2);
  m_line->setAlignment(Qt::AlignRight);
  grid->addWidget(m_line, 0, 0);
  grid->addWidget(m_unit, 0, 1);
  grid->addWidget(m_fault, 1, 0, 1, 2);
  grid->setColumnStretch(0, 1);
  setFocusProxy(m_line);
  connect(m_line, &QLineEdit::textEdited, this, [this] {
    check();
    emit edited();
  });
  connect(m_line, &QLineEdit::returnPressed, this, &QuantityField::entered);
}

void QuantityField::setDimension(quantity::Dimension dimension, quantity::System system) {
  m_dimension = dimension;
  m_system = system;
  m_unit->setText(dimension == quantity::Dimension::flag ? tr("yes / no") : unitSymbol(dimension, system));
  check();
}

void QuantityField::setSi(std::optional<double> si) { setText(writtenNumber(si, m_dimension, m_system)); }

void QuantityField::setText(const QString& text) {
  m_line->setText(text);
  check();
}

void QuantityField::setName(const QString& accessibleName) { m_line->setAccessibleName(accessibleName); }

void QuantityField::setLarge() {
  m_line->setMinimumHeight(kTarget);
  QFont font = m_line->font();
  font.setPointSizeF(font.pointSizeF() * 1.3);
  m_line->setFont(font);
}

bool QuantityField::isEmpty() const { return m_line->text().trimmed().isEmpty(); }

bool QuantityField::isValid() const { return isEmpty() || si().has_value(); }

std::optional<double> QuantityField::si() const {
  if (isEmpty()) return std::nullopt;
  const auto read = quantity::readQuantity(m_line->text().toStdString(), m_dimension, m_system);
  return read ? std::optional(read->si) : std::nullopt;
}

QString QuantityField::typed() const {
  const QString typed = m_line->text().trimmed();
  const auto read = quantity::readQuantity(typed.toStdString(), m_dimension, m_system);
  if (!read || read->unitWasTyped || !read->unit || read->unit->symbol.empty()) return typed;
  return QStringLiteral("%1 %2").arg(typed, text(read->unit->symbol));
}

void QuantityField::tellFault(const QString& sentence) { tell(m_fault, sentence); }

void QuantityField::check() {
  if (isEmpty()) return tell(m_fault, {});
  const auto read = quantity::readQuantity(m_line->text().toStdString(), m_dimension, m_system);
  tell(m_fault, read ? QString() : text(read.error().sentence));
}

}  // namespace ductwright::ui
