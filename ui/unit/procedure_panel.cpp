#include "ui/unit/procedure_panel.h"

#include <QLabel>
#include <QSplitter>
#include <QTableView>
#include <QVBoxLayout>

#include "plot/unit_figures.h"
#include "ui/look/look.h"
#include "ui/look/mark_delegate.h"
#include "ui/rows/table.h"
#include "ui/session/session.h"
#include "ui/unit/cautions.h"
#include "ui/unit/entry_form.h"
#include "ui/unit/figure_view.h"
#include "ui/unit/readings_box.h"
#include "ui/words/words.h"

namespace ductwright::ui {
namespace {

using fleet::Procedure;
using verdict::Criterion;

Criterion criterionOf(Procedure procedure) { return static_cast<Criterion>(procedure); }
static_assert(static_cast<int>(Criterion::airflow) == static_cast<int>(Procedure::airflow) &&
              static_cast<int>(Criterion::reheatLockout) == static_cast<int>(Procedure::reheatLockout) &&
              static_cast<int>(Criterion::dischargeRise) == static_cast<int>(Procedure::dischargeRise));

plot::Figure figureOf(Procedure procedure, const plot::Evidence& evidence) {
  switch (procedure) {
    case Procedure::airflow: return plot::airflowFigure(evidence);
    case Procedure::reheatLockout: return plot::lockoutFigure(evidence);
    case Procedure::dischargeRise: break;
  }
  return plot::riseFigure(evidence);
}

}  // namespace

ProcedurePanel::ProcedurePanel(Session& session, Procedure procedure, QWidget* parent)
    : QWidget(parent), m_session(session), m_procedure(procedure), m_entry(new EntryForm(session, procedure, this)),
      m_readings(new ReadingsBox(session, procedure, this)), m_figure(new FigureView(this)), m_caution(sentence({}, this)),
      m_notes(sentence({}, this)), m_table(new QTableView(this)) {
  auto* split = new QSplitter(Qt::Horizontal, this);
  split->addWidget(left());
  split->addWidget(right());
  split->setChildrenCollapsible(false);
  split->setStretchFactor(0, 1);
  split->setStretchFactor(1, 1);
  split->setSizes({500, 500});
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, kGap, 0, 0);
  column->addWidget(split);
  connect(m_entry, &EntryForm::recorded, m_readings, &ReadingsBox::select);
  connect(m_readings, &ReadingsBox::correctionWanted, m_entry, &EntryForm::correct);
  connect(m_figure, &FigureView::pointChosen, this, [this](const plot::Source& source) {
    if (source.reading) m_readings->select(*source.reading);
  });
}

QWidget* ProcedurePanel::left() {
  auto* side = new QWidget(this);
  auto* column = new QVBoxLayout(side);
  column->setContentsMargins(0, 0, kGap, 0);
  column->setSpacing(kGap);
  m_caution->setAccessibleName(tr("Caution"));
  column->addWidget(m_caution);
  column->addWidget(m_entry);
  column->addWidget(m_readings, 1);
  side->setMinimumWidth(380);
  return side;
}

QWidget* ProcedurePanel::right() {
  auto* split = new QSplitter(Qt::Vertical, this);
  split->addWidget(m_figure);
  auto* below = new QWidget(split);
  auto* column = new QVBoxLayout(below);
  column->setContentsMargins(0, kGap, 0, 0);
  m_table->setModel(&m_checks);
  makeListLike(*m_table);
  m_table->setAccessibleName(tr("Checks"));
  m_table->setItemDelegate(new MarkDelegate(ChecksModel::outcomeRole, m_table));
  static constexpr int kWidths[] = {112, 96, 84, 84, 84, 176, 84, 96, 84, 120};
  for (int i = 0; i < ChecksModel::columns; ++i) m_table->setColumnWidth(i, kWidths[i]);
  m_notes->setAccessibleName(tr("Explanations"));
  column->addWidget(m_table, 1);
  column->addWidget(m_notes);
  split->addWidget(below);
  split->setChildrenCollapsible(false);
  split->setStretchFactor(0, 3);
  split->setStretchFactor(1, 2);
  return split;
}

void ProcedurePanel::show(const std::shared_ptr<const fleet::UnitRecord>& record, const verdict::UnitVerdict* verdict) {
  m_entry->show(record);
  m_readings->show(record);
  if (!record || !m_session.snapshot()) return m_checks.clear();
  const QStringList cautions = cautionsFor(record->unit, m_procedure);
  m_caution->setText(cautions.join(QLatin1Char('\n')));
  m_caution->setHidden(cautions.isEmpty());
  setInk(m_caution, doubtInk(palette()));
  const fleet::Snapshot& project = *m_session.snapshot();
  if (!verdict) return;
  m_checks.show(*verdict, criterionOf(m_procedure), project.system);
  if (!m_table->currentIndex().isValid() && m_checks.rowCount() > 0) m_table->setCurrentIndex(m_checks.index(0, 0));
  m_figure->show(figureOf(m_procedure, {*record, *verdict, project.criteria, project.system}));
  showNotes(*verdict);
}

void ProcedurePanel::showNotes(const verdict::UnitVerdict& verdict) {
  QStringList notes;
  for (const verdict::Note& note : verdict.notes)
    if (note.criterion == criterionOf(m_procedure)) notes << text(verdict::sentence(note, m_session.snapshot()->system));
  notes.removeDuplicates();
  m_notes->setText(notes.join(QLatin1Char('\n')));
  m_notes->setHidden(notes.isEmpty());
}

}  // namespace ductwright::ui
