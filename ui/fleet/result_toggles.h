#pragma once

#include <QSet>
#include <QWidget>
#include <array>

#include "verdict/judge.h"

class QToolButton;

namespace ductwright::ui {

// How many units have each result; each count is a switch that shows only those.
class ResultToggles : public QWidget {
  Q_OBJECT

 public:
  explicit ResultToggles(QWidget* parent = nullptr);
  void setCounts(const verdict::FleetCounts& counts);
  [[nodiscard]] QSet<int> chosen() const;
  void choose(const QSet<int>& outcomes);

 signals:
  void chosenChanged();

 protected:
  void changeEvent(QEvent* event) override;

 private:
  void drawMarks();

  std::array<QToolButton*, 4> m_buttons{};
};

}  // namespace ductwright::ui
