#include "ui/unit/unit_page.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QTabWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "ui/fleet/fleet_model.h"
#include "ui/look/look.h"
#include "ui/session/session.h"
#include "ui/unit/design_panel.h"
#include "ui/unit/procedure_panel.h"
#include "ui/unit/sign_off_panel.h"
#include "ui/words/words.h"

namespace ductwright::ui {
namespace {

using fleet::Procedure;
using verdict::Outcome;

std::shared_ptr<const fleet::UnitRecord> recordOf(const fleet::Snapshot& project, fleet::UnitId unit) {
  const auto found = std::find_if(project.units.begin(), project.units.end(), [&](const auto& r) { return r->unit.id == unit; });
  return found == project.units.end() ? nullptr : *found;
}

QString factsOf(const fleet::Unit& unit, quantity::System system) {
  QStringList facts{UnitPage::tr("floor %1").arg(text(unit.floor))};
  if (!unit.zone.empty()) facts << text(unit.zone);
  if (!unit.airHandler.empty()) facts << text(unit.airHandler);
  facts << word(unit.kind);
  if (unit.heat != fleet::HeatKind::none) facts << word(unit.heat);
  if (unit.inletDiameter)
    facts << UnitPage::tr("inlet %1").arg(written(unit.inletDiameter->si(), quantity::Dimension::length, system));
  return facts.join(QStringLiteral(" · "));
}

}  // namespace

UnitPage::UnitPage(Session& session, QWidget* parent)
    : QWidget(parent), m_session(session), m_tabs(new QTabWidget(this)), m_design(new DesignPanel(session, this)),
      m_signOff(new SignOffPanel(session, this)) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(kMargin, kMargin, kMargin, kGap);
  column->setSpacing(kGap);
  column->addWidget(header());
  for (const Procedure procedure : fleet::valuesOf<Procedure>()) {
    auto* panel = new ProcedurePanel(session, procedure, this);
    m_panels[static_cast<std::size_t>(procedure)] = panel;
    QString title = word(procedure);
    title[0] = title[0].toUpper();
    m_tabs->addTab(panel, title);
  }
  m_tabs->addTab(m_design, tr("Design"));
  m_tabs->addTab(m_signOff, tr("Sign-off"));
  m_tabs->setDocumentMode(true);
  m_tabs->setAccessibleName(tr("Parts of the unit"));
  column->addWidget(m_tabs, 1);
  connect(&session, &Session::opened, this, &UnitPage::showState);
  connect(&session, &Session::changed, this, &UnitPage::takeNotice);
}

QWidget* UnitPage::header() {
  auto* box = new QWidget(this);
  auto* column = new QVBoxLayout(box);
  column->setContentsMargins({});
  column->setSpacing(2);
  auto* row = new QHBoxLayout;
  m_mark = new QLabel(box);
  m_tag = heading({}, box);
  m_result = subheading({}, box);
  m_deficiencies = new QPushButton(box);
  row->addWidget(m_mark);
  row->addWidget(m_tag);
  row->addSpacing(kGap);
  row->addWidget(m_result);
  row->addStretch();
  row->addWidget(m_deficiencies);
  const auto step = [&](const QString& label, const QString& name, int steps) {
    auto* button = new QPushButton(label, box);
    button->setAccessibleName(name);
    button->setToolTip(name);
    row->addWidget(button);
    connect(button, &QPushButton::clicked, this, [this, steps] { emit stepWanted(steps); });
  };
  step(tr("‹ Previous"), tr("Previous unit of the fleet table"), -1);
  step(tr("Next ›"), tr("Next unit of the fleet table"), 1);
  column->addLayout(row);
  m_facts = quiet({}, box);
  column->addWidget(m_facts);
  m_alarm = sentence(tr("Heat was seen on where it must not be. Make it safe first; local codes and licensed trades decide how."), box);
  column->addWidget(m_alarm);
  connect(m_deficiencies, &QPushButton::clicked, this, [this] { emit deficienciesWanted(m_unit); });
  return box;
}

void UnitPage::showUnit(fleet::UnitId unit) {
  m_unit = unit;
  showState();
}

void UnitPage::takeNotice(const project::Notice& notice) {
  const bool mine = std::find(notice.units.begin(), notice.units.end(), m_unit) != notice.units.end();
  if (mine || notice.unitListChanged || notice.designChanged || notice.deficienciesChanged) showState();
}

void UnitPage::showState() {
  const fleet::Snapshot* project = m_session.snapshot();
  if (!project) return;
  auto record = recordOf(*project, m_unit);
  if (!record && !project->units.empty()) {
    record = project->units.front();
    m_unit = record->unit.id;
  }
  setEnabled(record != nullptr);
  if (!record) return;
  const verdict::UnitVerdict* verdict = m_session.verdictOf(m_unit);
  showHeader(*record, verdict);
  showTabs(*record, verdict);
  for (ProcedurePanel* panel : m_panels) panel->show(record, verdict);
  m_design->show(record);
  m_signOff->show(record, verdict);
}

void UnitPage::showHeader(const fleet::UnitRecord& record, const verdict::UnitVerdict* verdict) {
  const Outcome outcome = verdict ? verdict->outcome : Outcome::untested;
  m_mark->setPixmap(markIcon(outcome, palette()).pixmap(24));
  m_tag->setText(text(record.unit.tag));
  m_result->setText(verdict && verdict->score ? tr("%1, score %2").arg(word(outcome), scoreText(verdict->score)) : word(outcome));
  m_facts->setText(factsOf(record.unit, m_session.snapshot()->system));
  m_alarm->setVisible(verdict && verdict->safety);
  setInk(m_alarm, faultInk(palette()));
  const auto& all = m_session.snapshot()->deficiencies;
  const auto open = std::count_if(all.begin(), all.end(), [&](const auto& d) { return d.unit == m_unit && isOpen(d); });
  m_deficiencies->setText(tr("%n open deficiency(s)", nullptr, static_cast<int>(open)));
}

void UnitPage::showTabs(const fleet::UnitRecord& record, const verdict::UnitVerdict* verdict) {
  for (std::size_t i = 0; i < m_panels.size(); ++i) {
    const Outcome outcome = verdict ? verdict->criteria[i].outcome : Outcome::untested;
    m_tabs->setTabIcon(static_cast<int>(i), markIcon(outcome, palette()));
    m_tabs->setTabToolTip(static_cast<int>(i), word(outcome));
  }
  const bool stands = std::any_of(record.signOffs.begin(), record.signOffs.end(), [](const auto& s) { return s.brokenBecause.empty(); });
  m_tabs->setTabText(4, record.signOffs.empty() ? tr("Sign-off") : stands ? tr("Sign-off: signed") : tr("Sign-off: broken"));
}

}  // namespace ductwright::ui
