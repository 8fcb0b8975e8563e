#include "ui/field/path_field.h"

#include <QFileDialog>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>

#include "ui/field/fault_label.h"

namespace ductwright::ui {

PathField::PathField(For use, const QString& accessibleName, const QString& filter, QWidget* parent)
    : QWidget(parent), m_use(use), m_filter(filter), m_line(new QLineEdit(this)), m_fault(faultLabel(this)) {
  auto* grid = new QGridLayout(this);
  grid->setContentsMargins({});
  grid->setVerticalSpacing(2);
  auto* choose = new QPushButton(tr("Choose…"), this);
  //: The button beside a path field, which is named.
  choose->setAccessibleName(tr("Choose: %1").arg(accessibleName));
  m_line->setAccessibleName(accessibleName);
  grid->addWidget(m_line, 0, 0);
  grid->addWidget(choose, 0, 1);
  grid->addWidget(m_fault, 1, 0, 1, 2);
  setFocusProxy(m_line);
  connect(choose, &QPushButton::clicked, this, &PathField::browse);
  connect(m_line, &QLineEdit::textChanged, this, [this] {
    tellFault({});
    emit changed();
  });
}

QString PathField::path() const { return m_line->text().trimmed(); }

void PathField::setPath(const QString& path) { m_line->setText(path); }

void PathField::tellFault(const QString& sentence) { tell(m_fault, sentence); }

void PathField::browse() {
  const QString chosen = m_use == For::opening
                             ? QFileDialog::getOpenFileName(this, m_line->accessibleName(), path(), m_filter)
                             : QFileDialog::getSaveFileName(this, m_line->accessibleName(), path(), m_filter);
  if (!chosen.isEmpty()) setPath(chosen);
}

}  // namespace ductwright::ui
