#include "drive.h"

#include <QAbstractButton>
#include <QApplication>
#include <QComboBox>
#include <QDeadlineTimer>
#include <QLineEdit>
#include <QPushButton>
#include <QTest>

namespace ductwright::ui::drive {

bool until(const std::function<bool()>& condition) {
  const QDeadlineTimer deadline(60'000);
  while (!condition()) {
    if (deadline.hasExpired()) return false;
    QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents | QEventLoop::AllEvents, 20);
  }
  return true;
}

void settle() {
  QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
  QCoreApplication::processEvents();
}

void type(QWidget* field, const QString& text) {
  if (!field) return;
  field->setFocus();
  if (auto* line = qobject_cast<QLineEdit*>(field)) line->selectAll();
  QTest::keyClick(field, Qt::Key_Delete);
  QTest::keyClicks(field, text);
}

bool press(const QWidget& parent, const QString& button) {
  settle();  // what was just made is shown first
  auto* found = named<QAbstractButton>(parent, button);
  if (!found || !found->isEnabled()) return false;
  found->click();
  return true;
}

bool choose(QComboBox* box, const QString& item) {
  const int index = box ? box->findText(item) : -1;
  if (index < 0) return false;
  box->setCurrentIndex(index);
  emit box->activated(index);
  return true;
}

}  // namespace ductwright::ui::drive
