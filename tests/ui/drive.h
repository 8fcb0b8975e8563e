#pragma once

#include <QList>
#include <QString>
#include <QWidget>
#include <functional>

class QComboBox;
class QLineEdit;
class QPushButton;

// Drives a real window as a person would: by names and keys.
namespace ductwright::ui::drive {

// Lets events happen until `condition` holds; false when it does not within a long time (a broken test, not a slow one).
bool until(const std::function<bool()>& condition);
// Until nothing is left to happen.
void settle();

// The shown child of this class whose accessible name (or text, for a button) is `name`; null when there is none.
template <class Widget>
Widget* named(const QWidget& parent, const QString& name) {
  for (Widget* widget : parent.findChildren<Widget*>()) {
    if (!widget->isVisibleTo(&parent)) continue;
    const QString text = widget->property("text").toString().remove(QLatin1Char('&'));
    if (widget->accessibleName() == name || text == name || widget->objectName() == name) return widget;
  }
  return nullptr;
}

void type(QWidget* field, const QString& text);  // replaces what the field holds, key by key
bool press(const QWidget& parent, const QString& button);
bool choose(QComboBox* box, const QString& item);

}  // namespace ductwright::ui::drive
