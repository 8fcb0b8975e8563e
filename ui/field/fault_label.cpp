#include "ui/field/fault_label.h"

#include <QAccessible>
#include <QEvent>
#include <QLabel>

#include "ui/look/look.h"

namespace ductwright::ui {
namespace {

class FaultLabel : public QLabel {
 public:
  explicit FaultLabel(QWidget* parent) : QLabel(parent) {
    setWordWrap(true);
    setTextFormat(Qt::PlainText);
    setTextInteractionFlags(Qt::TextSelectableByMouse);
    setInk(this, faultInk(palette()));
    hide();
  }
};

}  // namespace

QLabel* faultLabel(QWidget* parent) { return new FaultLabel(parent); }

void tell(QLabel* label, const QString& sentence) {
  if (label->text() == sentence && label->isHidden() == sentence.isEmpty()) return;
  label->setText(sentence);
  label->setHidden(sentence.isEmpty());
  QAccessibleEvent event(label, QAccessible::NameChanged);
  QAccessible::updateAccessibility(&event);
}

}  // namespace ductwright::ui
