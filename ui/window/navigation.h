#pragma once

#include <QListWidget>

namespace ductwright::ui {

// The pages of the window, in the order in which they stand at its left.
enum class Page { start, fleet, unit, deficiencies, review, import, report, history, project };
inline constexpr int kPages = 9;

class Navigation : public QListWidget {
  Q_OBJECT

 public:
  explicit Navigation(QWidget* parent = nullptr);
  void goTo(Page page);
  void setReachable(Page page, bool reachable);
  [[nodiscard]] static QString title(Page page);

 signals:
  void wanted(ductwright::ui::Page page);

 protected:
  void changeEvent(QEvent* event) override;

 private:
  void drawIcons();
};

}  // namespace ductwright::ui
