#include "ui/deficiencies/deficiencies_page.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSplitter>
#include <QTableView>
#include <QVBoxLayout>

#include "ui/deficiencies/deficiency_detail.h"
#include "ui/look/look.h"
#include "ui/rows/table.h"
#include "ui/session/session.h"
#include "ui/words/words.h"

namespace ductwright::ui {

using fleet::DeficiencyState;

DeficienciesPage::DeficienciesPage(Session& session, QWidget* parent)
    : QWidget(parent), m_session(session), m_filter(&m_model, nullptr), m_table(new QTableView(this)),
      m_detail(new DeficiencyDetail(session, this)) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(kMargin, kMargin, kMargin, kMargin);
  column->addWidget(heading(tr("Deficiencies"), this));
  column->addWidget(filterRow());
  m_empty = sentence({}, this);
  column->addWidget(m_empty);
  m_table->setModel(&m_filter);
  makeListLike(*m_table);
  m_table->setAccessibleName(tr("Deficiencies"));
  m_table->setSortingEnabled(true);
  m_table->sortByColumn(DeficiencyModel::severity, Qt::AscendingOrder);
  static constexpr int kWidths[] = {52, 84, 76, 124, 270, 160, 130, 60};
  for (int i = 0; i < DeficiencyModel::columns; ++i) m_table->setColumnWidth(i, kWidths[i]);
  auto* split = new QSplitter(Qt::Horizontal, this);
  split->addWidget(m_table);
  split->addWidget(m_detail);
  split->setChildrenCollapsible(false);
  split->setStretchFactor(0, 3);
  split->setStretchFactor(1, 2);
  m_detail->setMinimumWidth(310);
  column->addWidget(split, 1);
  connect(m_table->selectionModel(), &QItemSelectionModel::currentRowChanged, this, &DeficienciesPage::showCurrent);
  connect(m_table, &QTableView::activated, this, [this](const QModelIndex& index) {
    emit unitChosen(m_model.row(m_filter.mapToSource(index).row()).deficiency.unit);
  });
  connect(m_detail, &DeficiencyDetail::unitChosen, this, &DeficienciesPage::unitChosen);
  connect(&session, &Session::opened, this, &DeficienciesPage::showState);
  connect(&session, &Session::changed, this, [this](const project::Notice& notice) {
    if (notice.deficienciesChanged || notice.unitListChanged || notice.designChanged) showState();
  });
  applyFilter();
}

QWidget* DeficienciesPage::filterRow() {
  auto* bar = new QWidget(this);
  auto* row = new QHBoxLayout(bar);
  row->setContentsMargins({});
  m_search = new QLineEdit(bar);
  m_search->setPlaceholderText(tr("Find by unit or words…"));
  m_search->setAccessibleName(tr("Find deficiencies"));
  m_search->setClearButtonEnabled(true);
  row->addWidget(m_search, 1);
  m_party = new QComboBox(bar);
  m_party->setAccessibleName(tr("Party filter"));
  m_party->addItem(tr("All parties"));
  for (const fleet::Party party : fleet::valuesOf<fleet::Party>()) m_party->addItem(word(party), static_cast<int>(party));
  row->addWidget(m_party);
  m_state = new QComboBox(bar);
  m_state->setAccessibleName(tr("State filter"));
  m_state->addItem(tr("Open"));
  m_state->addItem(tr("All states"));
  for (const DeficiencyState state : fleet::valuesOf<DeficiencyState>()) m_state->addItem(word(state), static_cast<int>(state));
  row->addWidget(m_state);
  m_onlyUnit = new QPushButton(bar);
  row->addWidget(m_onlyUnit);
  m_shown = new QLabel(bar);
  row->addWidget(m_shown);
  connect(m_search, &QLineEdit::textChanged, this, &DeficienciesPage::applyFilter);
  for (QComboBox* box : {m_party, m_state}) connect(box, &QComboBox::currentIndexChanged, this, &DeficienciesPage::applyFilter);
  connect(m_onlyUnit, &QPushButton::clicked, this, [this] {
    m_unit.reset();
    applyFilter();
  });
  return bar;
}

void DeficienciesPage::showState() {
  m_model.setState(m_session.state());
  applyFilter();
}

void DeficienciesPage::showOnly(fleet::UnitId unit) {
  m_unit = unit;
  m_state->setCurrentIndex(1);
  applyFilter();
}

void DeficienciesPage::applyFilter() {
  DeficiencyFilter::Choice choice;
  if (m_party->currentIndex() > 0) choice.party = static_cast<fleet::Party>(m_party->currentData().toInt());
  if (m_state->currentIndex() == 1) choice.states = DeficiencyFilter::States::all;
  if (m_state->currentIndex() > 1) {
    choice.states = DeficiencyFilter::States::one;
    choice.state = static_cast<DeficiencyState>(m_state->currentData().toInt());
  }
  choice.unit = m_unit;
  choice.words = m_search->text().trimmed();
  m_filter.choose(choice);
  if (!m_table->currentIndex().isValid() && m_filter.rowCount() > 0) m_table->setCurrentIndex(m_filter.index(0, 0));
  showCurrent();
  tellWhatIsShown();
}

void DeficienciesPage::showCurrent() {
  const QModelIndex index = m_filter.mapToSource(m_table->currentIndex());
  m_detail->show(index.isValid() ? &m_model.row(index.row()).deficiency : nullptr);
}

void DeficienciesPage::tellWhatIsShown() {
  const fleet::UnitRecord* unit = m_unit && m_session.snapshot() ? m_session.snapshot()->unit(*m_unit) : nullptr;
  m_onlyUnit->setVisible(unit != nullptr);
  if (unit) m_onlyUnit->setText(tr("Only %1: show all").arg(text(unit->unit.tag)));
  const int all = m_model.rowCount(), shown = m_filter.rowCount();
  m_shown->setText(tr("%1 of %n deficiency(s)", nullptr, all).arg(shown));
  m_empty->setVisible(shown == 0);
  m_empty->setText(all == 0 ? tr("No deficiency. A check that fails raises one by itself; a new run that passes proves it.")
                            : tr("No deficiency matches the filter."));
}

}  // namespace ductwright::ui
