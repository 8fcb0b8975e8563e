#pragma once

#include <QString>

class QLabel;
class QWidget;

namespace ductwright::ui {

// The sentence that stands beside a field while something about it is wrong; takes no room otherwise.
QLabel* faultLabel(QWidget* parent);
void tell(QLabel* label, const QString& sentence);

}  // namespace ductwright::ui
