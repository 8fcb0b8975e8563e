#include "ui/unit/forming_verdict.h"

#include <QGridLayout>
#include <QLabel>
#include <algorithm>

#include "ui/look/look.h"
#include "ui/words/words.h"

namespace ductwright::ui {
namespace {

using verdict::Because;
using verdict::CheckKind;
using verdict::Outcome;

// The check that the reading bears on most: of its step, judged before not judged, and by its own quantity first.
const verdict::Check* concerned(const verdict::UnitVerdict& forming, const project::NewReading& reading) {
  const auto weight = [&](const verdict::Check& check) {
    if (check.procedure != reading.procedure || check.step != reading.step) return -1;
    const bool reported = reading.quantity == fleet::ReadingQuantity::reportedFlow;
    const bool own = (check.kind == CheckKind::reportedAgainstMeasured) == reported;
    return (check.outcome != Outcome::untested ? 2 : 0) + (check.because == Because::early ? 1 : 0) + (own ? 1 : 0);
  };
  const auto best = std::max_element(forming.checks.begin(), forming.checks.end(),
                                     [&](const auto& a, const auto& b) { return weight(a) < weight(b); });
  return best == forming.checks.end() || weight(*best) < 0 ? nullptr : &*best;
}

}  // namespace

FormingVerdict::FormingVerdict(QWidget* parent)
    : QWidget(parent), m_mark(new QLabel(this)), m_check(sentence({}, this)), m_unit(quiet({}, this)) {
  auto* grid = new QGridLayout(this);
  grid->setContentsMargins({});
  grid->setHorizontalSpacing(kGap);
  grid->setVerticalSpacing(2);
  grid->addWidget(m_mark, 0, 0, Qt::AlignTop);
  grid->addWidget(m_check, 0, 1);
  grid->addWidget(m_unit, 1, 1);
  grid->setColumnStretch(1, 1);
  m_check->setAccessibleName(tr("Verdict of the reading being typed"));
  grid->setRowStretch(2, 1);
  setMinimumHeight(3 * fontMetrics().height() + 6);  // so that nothing moves while the words change
  clear({});
}

void FormingVerdict::show(const verdict::UnitVerdict& forming, const verdict::UnitVerdict* before,
                          const project::NewReading& reading, quantity::System system) {
  const verdict::Check* check = concerned(forming, reading);
  const Outcome outcome = check ? check->outcome : Outcome::notApplicable;
  m_mark->setPixmap(markIcon(outcome, palette()).pixmap(20));
  m_mark->setAccessibleName(word(outcome));
  m_check->setText(check ? text(verdict::sentence(*check, system)) : tr("Kept and shown, not judged."));
  const bool early = check && check->because == Because::early;
  setInk(m_check, early ? doubtInk(parentWidget()->palette()) : parentWidget()->palette().color(QPalette::WindowText));
  const QString now = word(forming.outcome), score = scoreText(forming.score);
  if (!before || before->outcome == forming.outcome)
    m_unit->setText(tr("The unit would be: %1, score %2").arg(now, score));
  else
    m_unit->setText(tr("The unit would be: %1, score %2 (it is: %3)").arg(now, score, word(before->outcome)));
}

void FormingVerdict::clear(const QString& hint) {
  m_mark->setPixmap(markIcon(Outcome::untested, palette()).pixmap(20));
  m_mark->setAccessibleName({});
  setInk(m_check, quietInk(palette()));
  m_check->setText(hint);
  m_unit->clear();
}

QString FormingVerdict::words() const { return m_check->text() + QLatin1Char('\n') + m_unit->text(); }

}  // namespace ductwright::ui
