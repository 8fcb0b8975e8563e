#include "ui/review/review_page.h"

#include <QLabel>
#include <QStackedWidget>
#include <QTabWidget>
#include <QTableView>
#include <QVBoxLayout>

#include "ui/look/look.h"
#include "ui/rows/table.h"
#include "ui/session/session.h"
#include "ui/words/words.h"
#include "verdict/patterns.h"
#include "verdict/review.h"

namespace ductwright::ui {
namespace {

QString list(const std::vector<std::string>& words) {
  QStringList out;
  for (const std::string& each : words) out << text(each);
  return out.join(QStringLiteral(", "));
}

}  // namespace

ReviewPage::ReviewPage(Session& session, QWidget* parent)
    : QWidget(parent), m_session(session), m_count(quiet({}, this)), m_tabs(new QTabWidget(this)) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(kMargin, kMargin, kMargin, kMargin);
  column->addWidget(heading(tr("Desk review"), this));
  column->addWidget(m_count);
  m_tabs->setDocumentMode(true);
  m_tabs->setAccessibleName(tr("Parts of the desk review"));
  column->addWidget(m_tabs, 1);
  m_findings = addList({tr("Severity"), tr("Subject"), tr("Finding"), tr("Evidence"), tr("Who fixes it")}, {}, {90, 100, 360, 260, 150},
                       tr("Schedule"), tr("The desk review finds nothing wrong with the schedule."));
  m_profiles = addList({tr("Unit"), tr("Scheduled profile"), tr("It serves"), tr("It lacks"), tr("Would serve, least capable first")}, {},
                       {90, 160, 80, 260, 320}, tr("Controller profiles"),
                       tr("Import the project's controller profiles to see which would serve each unit."));
  m_settings = addList({tr("Unit"), tr("Setting"), tr("Scheduled"), tr("Found"), tr("Read at")}, {2, 3}, {90, 200, 140, 140, 140},
                       tr("Settings as found"), tr("No setting read from a controller differs from the schedule."));
  m_patterns = addList({tr("Subject"), tr("What many units have in common"), tr("Units"), tr("Who looks into it")}, {2},
                       {160, 560, 60, 160}, tr("Patterns"), tr("No pattern over the fleet stands out."));
  connect(&session, &Session::opened, this, [this] {
    m_stale = true;
    if (isVisible()) review();
  });
  connect(&session, &Session::changed, this, [this] {
    m_stale = true;
    if (isVisible()) review();
  });
}

TextRows* ReviewPage::addList(const QStringList& headers, const QSet<int>& numeric, const QList<int>& widths, const QString& title,
                              const QString& empty) {
  auto* model = new TextRows(headers, numeric, this);
  auto* stack = new QStackedWidget(m_tabs);
  auto* table = new QTableView(stack);
  table->setModel(model);
  makeListLike(*table);
  table->setAccessibleName(title);
  for (int i = 0; i < widths.size(); ++i) table->setColumnWidth(i, widths[i]);
  auto* words = sentence(empty, stack);
  words->setAlignment(Qt::AlignCenter);
  stack->addWidget(words);
  stack->addWidget(table);
  m_tabs->addTab(stack, title);
  connect(table, &QTableView::activated, this, [this, model](const QModelIndex& index) {
    if (const auto unit = model->row(index.row()).unit; !unit.isNull()) emit unitChosen(unit);
  });
  const auto showEither = [=] {
    stack->setCurrentIndex(model->rowCount() > 0 ? 1 : 0);
    if (model->rowCount() > 0 && !table->currentIndex().isValid()) table->setCurrentIndex(model->index(0, 0));
  };
  connect(model, &QAbstractItemModel::rowsInserted, stack, showEither);
  connect(model, &QAbstractItemModel::rowsRemoved, stack, showEither);
  return model;
}

void ReviewPage::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  review();
}

// Off the screen's thread, and only when somebody looks.
void ReviewPage::review() {
  if (!m_session.isOpen() || !m_stale) return;
  m_stale = false;
  m_session.perform<Lists>(
      this, [state = m_session.state()](project::OpenProject&) { return Result<Lists>(listsOf(state)); },
      [this](const Result<Lists>& lists) {
        if (lists) take(*lists);
      });
}

void ReviewPage::take(const Lists& lists) {
  m_findings->show(lists.findings);
  m_profiles->show(lists.profiles);
  m_settings->show(lists.settings);
  m_patterns->show(lists.patterns);
  m_count->setText(tr("%n finding(s) in the schedule, before anyone goes on site", nullptr, m_findings->rowCount()));
}

ReviewPage::Lists ReviewPage::listsOf(const project::State& state) {
  Lists lists;
  const fleet::Snapshot& project = *state.snapshot;
  for (const verdict::Finding& of : verdict::deskReview(project))
    lists.findings.push_back({{word(of.severity), text(of.unit), text(of.finding), text(of.evidence), word(of.party)}, of.unitId});
  if (!project.profiles.empty())
    for (const verdict::ProfileNeed& need : verdict::profileNeeds(project))
      lists.profiles.push_back({{text(need.tag), need.scheduled.empty() ? dash() : text(need.scheduled),
                                 need.scheduledServes ? tr("yes") : tr("no"), list(need.lacking),
                                 need.serve.empty() ? tr("none of the project's profiles") : list(need.serve)},
                                need.unit});
  for (const verdict::SettingDifference& of : verdict::settingDifferences(project))
    lists.settings.push_back({{text(of.tag), text(of.setting), text(of.scheduled), text(of.found),
                               of.readAt ? text(of.readAt->shortText()) : QString()},
                              of.unit});
  if (state.verdicts)
    for (const verdict::Pattern& of : verdict::patterns(project, *state.verdicts))
      lists.patterns.push_back({{text(of.subject), text(of.sentence), QString::number(of.units.size()), word(of.party)},
                                of.units.empty() ? fleet::UnitId{} : of.units.front()});
  return lists;
}

}  // namespace ductwright::ui
