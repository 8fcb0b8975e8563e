#include "ui/deficiencies/deficiency_detail.h"

#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

#include "ui/field/fault_label.h"
#include "ui/look/look.h"
#include "ui/session/session.h"
#include "ui/words/words.h"

namespace ductwright::ui {
namespace {

using fleet::DeficiencyState;

// The verb of a move, as its button says it.
QString verb(DeficiencyState to) {
  switch (to) {
    case DeficiencyState::raised: return DeficiencyDetail::tr("Raise again");
    case DeficiencyState::accepted: return DeficiencyDetail::tr("Accept");
    case DeficiencyState::disputed: return DeficiencyDetail::tr("Dispute");
    case DeficiencyState::workReported: return DeficiencyDetail::tr("Report the work");
    case DeficiencyState::awaitingRetest: return DeficiencyDetail::tr("Ready for retest");
    case DeficiencyState::proven: return DeficiencyDetail::tr("Proven");
    case DeficiencyState::withdrawn: return DeficiencyDetail::tr("Withdraw");
  }
  return {};
}

}  // namespace

DeficiencyDetail::DeficiencyDetail(Session& session, QWidget* parent)
    : QWidget(parent), m_session(session), m_title(subheading({}, this)), m_facts(quiet({}, this)),
      m_evidence(sentence({}, this)), m_closes(sentence({}, this)), m_life(sentence({}, this)),
      m_unit(new QPushButton(this)), m_note(new QLineEdit(this)), m_fault(faultLabel(this)), m_moves(new QWidget(this)) {
  m_title->setWordWrap(true);
  auto* body = new QWidget(this);
  auto* text = new QVBoxLayout(body);
  text->setContentsMargins(0, 0, kGap, 0);
  text->addWidget(m_title);
  text->addWidget(m_facts);
  text->addWidget(m_unit, 0, Qt::AlignLeft);
  text->addSpacing(kGap);
  text->addWidget(subheading(tr("Evidence"), this));
  text->addWidget(m_evidence);
  text->addWidget(subheading(tr("What closes it"), this));
  text->addWidget(m_closes);
  text->addWidget(subheading(tr("Its life so far"), this));
  text->addWidget(m_life);
  text->addStretch();
  auto* scroll = new QScrollArea(this);
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setWidget(body);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(kGap, 0, 0, 0);
  column->addWidget(scroll, 1);
  m_note->setPlaceholderText(tr("Note: what was done, why"));
  m_note->setAccessibleName(tr("Note to the move"));
  m_note->setMinimumHeight(kTarget - 4);
  column->addWidget(m_note);
  column->addWidget(m_fault);
  column->addWidget(m_moves);
  new QGridLayout(m_moves);
  m_moves->layout()->setContentsMargins({});
  connect(m_unit, &QPushButton::clicked, this, [this] {
    if (m_deficiency) emit unitChosen(m_deficiency->unit);
  });
  connect(&session, &Session::authorChanged, this, &DeficiencyDetail::showMoves);
  show(nullptr);
}

void DeficiencyDetail::show(const fleet::Deficiency* deficiency) {
  const bool same = deficiency && m_deficiency && m_deficiency->id == deficiency->id;
  m_deficiency = deficiency ? std::optional(*deficiency) : std::nullopt;
  setVisible(deficiency != nullptr);
  if (!deficiency) return;
  if (!same) {
    m_note->clear();
    tell(m_fault, {});
  }
  m_title->setText(tr("No. %1: %2").arg(deficiency->number).arg(text(deficiency->title)));
  m_facts->setText(tr("%1 · %2 · %3").arg(word(deficiency->severity), word(deficiency->party), word(deficiency->state())));
  const auto* record = m_session.snapshot() ? m_session.snapshot()->unit(deficiency->unit) : nullptr;
  m_unit->setVisible(record != nullptr);
  if (record) m_unit->setText(tr("Open unit %1").arg(text(record->unit.tag)));
  m_evidence->setText(text(deficiency->evidence));
  m_closes->setText(text(deficiency->closes));
  QStringList life;
  for (const fleet::DeficiencyMove& move : deficiency->moves) {
    const QString line = tr("%1 %2, by %3, %4").arg(text(move.at.shortText()), word(move.to), text(move.by), word(move.role));
    life << (move.note.empty() ? line : tr("%1: %2").arg(line, text(move.note)));
  }
  m_life->setText(life.join(QLatin1Char('\n')));
  showMoves();
}

void DeficiencyDetail::showMoves() {
  qDeleteAll(m_moves->findChildren<QPushButton*>(QString(), Qt::FindDirectChildrenOnly));
  if (!m_deficiency || !m_session.project()) return;
  auto* grid = static_cast<QGridLayout*>(m_moves->layout());
  const auto moves = m_session.state().readOnly ? std::vector<DeficiencyState>{} : m_session.project()->movesOf(*m_deficiency);
  int place = 0;
  for (const DeficiencyState to : moves) {
    auto* button = new QPushButton(verb(to), m_moves);
    button->setMinimumHeight(kTarget);
    grid->addWidget(button, place / 2, place % 2);
    ++place;
    connect(button, &QPushButton::clicked, this, [this, to] { move(to); });
  }
  m_note->setVisible(place > 0);
}

void DeficiencyDetail::move(DeficiencyState to) {
  m_session.perform<void>(
      this,
      [id = m_deficiency->id, to, note = m_note->text().trimmed().toStdString()](project::OpenProject& project) {
        return project.moveDeficiency(id, to, note);
      },
      [this](const Result<void>& done) {
        tell(m_fault, done ? QString() : text(done.error().sentence));
        if (done) m_note->clear();
        else m_note->setFocus();
      });
}

QString DeficiencyDetail::words() const {
  return QStringList{m_title->text(), m_facts->text(), m_evidence->text(), m_closes->text(), m_life->text()}.join(QLatin1Char('\n'));
}

}  // namespace ductwright::ui
