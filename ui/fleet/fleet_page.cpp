#include "ui/fleet/fleet_page.h"

#include <QComboBox>
#include <QEvent>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSignalBlocker>
#include <QStackedLayout>
#include <QTableView>
#include <QVBoxLayout>

#include "ui/fleet/result_toggles.h"
#include "ui/look/look.h"
#include "ui/look/mark_delegate.h"
#include "ui/rows/table.h"
#include "ui/session/session.h"
#include "ui/words/words.h"

namespace ductwright::ui {
namespace {

// Keeps the choice where it is still offered.
void offer(QComboBox* box, const QString& all, const QStringList& values) {
  const QSignalBlocker block(box);
  const QString before = box->currentData().toString();
  box->clear();
  box->addItem(all, QString());
  for (const QString& value : values) box->addItem(value, value);
  box->setCurrentIndex(std::max(0, box->findData(before)));
}

}  // namespace

FleetPage::FleetPage(Session& session, QWidget* parent)
    : QWidget(parent), m_session(session), m_filter(&m_model, nullptr) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(kMargin, kMargin, kMargin, kMargin);
  column->setSpacing(kGap);
  auto* top = new QHBoxLayout;
  top->addWidget(heading(tr("Fleet"), this));
  top->addStretch();
  m_results = new ResultToggles(this);
  top->addWidget(m_results);
  column->addLayout(top);
  column->addWidget(filterRow());

  makeTable();
  auto* empty = new QWidget(this);
  auto* emptyColumn = new QVBoxLayout(empty);
  m_emptyText = sentence({}, empty);
  m_emptyText->setAlignment(Qt::AlignCenter);
  m_emptyAction = new QPushButton(empty);
  m_emptyAction->setMinimumHeight(kTarget);
  emptyColumn->addStretch();
  emptyColumn->addWidget(m_emptyText);
  emptyColumn->addWidget(m_emptyAction, 0, Qt::AlignHCenter);
  emptyColumn->addStretch();
  m_stack = new QStackedLayout;
  m_stack->addWidget(m_table);
  m_stack->addWidget(empty);
  column->addLayout(m_stack, 1);

  connect(m_results, &ResultToggles::chosenChanged, this, &FleetPage::applyFilter);
  connect(m_emptyAction, &QPushButton::clicked, this, [this] {
    if (m_model.rowCount() == 0) emit importWanted();
    else clearFilter();
  });
  connect(&session, &Session::opened, this, &FleetPage::showState);
  connect(&session, &Session::closed, this, &FleetPage::showState);
  connect(&session, &Session::changed, this, &FleetPage::showState);
  showState();
}

QWidget* FleetPage::filterRow() {
  auto* bar = new QWidget(this);
  auto* row = new QHBoxLayout(bar);
  row->setContentsMargins({});
  row->setSpacing(kGap);
  m_search = new QLineEdit(bar);
  m_search->setPlaceholderText(tr("Find by tag, zone, floor…"));
  m_search->setClearButtonEnabled(true);
  m_search->setAccessibleName(tr("Find units"));
  m_search->setMinimumWidth(160);
  row->addWidget(m_search, 1);
  const auto combo = [&](const QString& accessibleName) {
    auto* box = new QComboBox(bar);
    box->setAccessibleName(accessibleName);
    box->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    row->addWidget(box);
    connect(box, &QComboBox::currentIndexChanged, this, &FleetPage::applyFilter);
    return box;
  };
  m_floor = combo(tr("Floor filter"));
  m_airHandler = combo(tr("Air handler filter"));
  m_kind = combo(tr("Kind filter"));
  m_clear = new QPushButton(tr("Clear"), bar);
  m_clear->setAccessibleName(tr("Clear the filter"));
  row->addWidget(m_clear);
  m_shown = new QLabel(bar);
  m_shown->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
  m_shown->setMinimumWidth(m_shown->fontMetrics().horizontalAdvance(QStringLiteral("00000 of 00000 units")));
  row->addWidget(m_shown);
  connect(m_search, &QLineEdit::textChanged, this, &FleetPage::applyFilter);
  connect(m_search, &QLineEdit::returnPressed, this, [this] { m_table->setFocus(); });
  connect(m_clear, &QPushButton::clicked, this, &FleetPage::clearFilter);
  return bar;
}

void FleetPage::makeTable() {
  m_table = new QTableView(this);
  m_table->setModel(&m_filter);
  makeListLike(*m_table);
  m_table->setAccessibleName(tr("Units of the fleet"));
  m_table->setItemDelegate(new MarkDelegate(FleetModel::outcomeRole, m_table));
  m_table->setSortingEnabled(true);
  m_table->sortByColumn(FleetModel::tag, Qt::AscendingOrder);
  static constexpr int kWidths[] = {100, 122, 68, 126, 136, 136, 66, 104, 140, 110, 140, 84, 68, 140};
  for (int column = 0; column < FleetModel::columns; ++column) m_table->setColumnWidth(column, kWidths[column]);
  connect(m_table, &QTableView::activated, this, &FleetPage::chooseCurrent);
  for (auto signal : {&QAbstractItemModel::rowsInserted, &QAbstractItemModel::rowsRemoved})
    connect(&m_filter, signal, this, &FleetPage::keepCurrent);
}

void FleetPage::showState() {
  const project::State& state = m_session.state();
  m_model.setState(state);
  m_results->setCounts(state.verdicts ? state.verdicts->counts : verdict::FleetCounts{});
  refreshChoices();
  tellWhatIsShown();
}

void FleetPage::refreshChoices() {
  offer(m_floor, tr("All floors"), m_model.valuesOf(FleetModel::floor));
  offer(m_airHandler, tr("All air handlers"), m_model.valuesOf(FleetModel::airHandler));
  offer(m_kind, tr("All kinds"), m_model.valuesOf(FleetModel::kind));
}

void FleetPage::applyFilter() {
  m_filter.choose({m_search->text(), m_results->chosen(), m_floor->currentData().toString(),
                   m_airHandler->currentData().toString(), m_kind->currentData().toString()});
  keepCurrent();
  tellWhatIsShown();
}

void FleetPage::clearFilter() {
  m_search->clear();
  m_results->choose({});
  for (QComboBox* box : {m_floor, m_airHandler, m_kind}) box->setCurrentIndex(0);
}

void FleetPage::tellWhatIsShown() {
  const int all = m_model.rowCount(), shown = m_filter.rowCount();
  m_shown->setText(shown == all ? tr("%n unit(s)", nullptr, all) : tr("%1 of %n unit(s)", nullptr, all).arg(shown));
  m_clear->setEnabled(!m_filter.choice().isEmpty());
  m_stack->setCurrentIndex(shown > 0 ? 0 : 1);
  if (shown > 0) return;
  m_emptyText->setText(all == 0 ? tr("No unit yet. Units come from the mechanical schedule: one row a unit, as CSV or XLSX.")
                                : tr("No unit matches the filter."));
  m_emptyAction->setText(all == 0 ? tr("Import a schedule…") : tr("Show all units"));
}

// Screen readers walk from the current cell: there is one whenever there is a row.
void FleetPage::keepCurrent() {
  if (!m_table->currentIndex().isValid() && m_filter.rowCount() > 0)
    m_table->setCurrentIndex(m_filter.index(0, FleetModel::tag));
}

void FleetPage::chooseCurrent() {
  const QModelIndex current = m_filter.mapToSource(m_table->currentIndex());
  if (current.isValid()) emit unitChosen(m_model.row(current.row()).record->unit.id);
}

void FleetPage::select(fleet::UnitId unit) {
  const auto row = m_model.rowOf(unit);
  if (!row) return;
  const QModelIndex shown = m_filter.mapFromSource(m_model.index(*row, FleetModel::tag));
  if (shown.isValid()) m_table->setCurrentIndex(shown);
}

std::optional<fleet::UnitId> FleetPage::neighbour(fleet::UnitId unit, int steps) const {
  const auto row = m_model.rowOf(unit);
  if (!row) return std::nullopt;
  const QModelIndex shown = m_filter.mapFromSource(m_model.index(*row, 0));
  const QModelIndex next = m_filter.index(shown.row() + steps, 0);
  if (!shown.isValid() || !next.isValid()) return std::nullopt;
  return m_model.row(m_filter.mapToSource(next).row()).record->unit.id;
}

void FleetPage::focusSearch() {
  m_search->setFocus();
  m_search->selectAll();
}

void FleetPage::changeEvent(QEvent* event) {
  if (event->type() == QEvent::PaletteChange && m_table) m_table->viewport()->update();
  QWidget::changeEvent(event);
}

}  // namespace ductwright::ui
