#pragma once

class QApplication;

namespace ductwright::ui {

// Names, icon, drawings and translation, once for the program, before the first window.
void prepareApplication(QApplication& application);

}  // namespace ductwright::ui
