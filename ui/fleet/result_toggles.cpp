#include "ui/fleet/result_toggles.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QToolButton>

#include "ui/look/look.h"
#include "ui/words/words.h"

namespace ductwright::ui {

using verdict::Outcome;

ResultToggles::ResultToggles(QWidget* parent) : QWidget(parent) {
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins({});
  row->setSpacing(kGap / 2);
  for (QToolButton*& button : m_buttons) {
    button = new QToolButton(this);
    button->setCheckable(true);
    button->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
    button->setMinimumHeight(36);
    row->addWidget(button);
    connect(button, &QToolButton::toggled, this, &ResultToggles::chosenChanged);
  }
  setCounts({});
  drawMarks();
}

void ResultToggles::setCounts(const verdict::FleetCounts& counts) {
  const std::array numbers = {counts.pass, counts.fail, counts.cannotTell, counts.untested};
  for (std::size_t i = 0; i < m_buttons.size(); ++i) {
    const QString result = word(static_cast<Outcome>(i));
    //: A result and how many units have it, "fail 9".
    m_buttons[i]->setText(tr("%1 %2").arg(result).arg(numbers[i]));
    m_buttons[i]->setAccessibleName(tr("Show only: %1, %n unit(s)", nullptr, static_cast<int>(numbers[i])).arg(result));
    m_buttons[i]->setToolTip(tr("Show only the units with this result: %1").arg(result));
  }
}

QSet<int> ResultToggles::chosen() const {
  QSet<int> outcomes;
  for (std::size_t i = 0; i < m_buttons.size(); ++i)
    if (m_buttons[i]->isChecked()) outcomes << static_cast<int>(i);
  return outcomes;
}

void ResultToggles::choose(const QSet<int>& outcomes) {
  for (std::size_t i = 0; i < m_buttons.size(); ++i)
    m_buttons[i]->setChecked(outcomes.contains(static_cast<int>(i)));
}

void ResultToggles::changeEvent(QEvent* event) {
  if (event->type() == QEvent::PaletteChange) drawMarks();
  QWidget::changeEvent(event);
}

void ResultToggles::drawMarks() {
  for (std::size_t i = 0; i < m_buttons.size(); ++i)
    if (m_buttons[i]) m_buttons[i]->setIcon(markIcon(static_cast<Outcome>(i), palette()));
}

}  // namespace ductwright::ui
