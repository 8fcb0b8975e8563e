#pragma once

#include <QWidget>
#include <functional>

class QLabel;
class QLineEdit;
class QPushButton;

namespace ductwright::ui {

// One line at the top of the window: what could not be done and what to do next; it may ask for a reason.
// It never stops the work.
class Strip : public QWidget {
  Q_OBJECT

 public:
  explicit Strip(QWidget* parent = nullptr);
  void say(const QString& sentence);
  // Asks for a reason and calls `act` with it.
  void ask(const QString& sentence, const QString& action, const std::function<void(const QString&)>& act);
  [[nodiscard]] QString sentence() const;

 private:
  QLabel* m_sentence;
  QLineEdit* m_reason;
  QPushButton* m_act;
  std::function<void(const QString&)> m_then;
};

}  // namespace ductwright::ui
