#include "ui/unit/readings_box.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSignalBlocker>
#include <QTableView>
#include <QVBoxLayout>

#include "ui/field/fault_label.h"
#include "ui/look/look.h"
#include "ui/rows/table.h"
#include "ui/session/session.h"
#include "ui/words/words.h"

namespace ductwright::ui {

ReadingsBox::ReadingsBox(Session& session, fleet::Procedure procedure, QWidget* parent)
    : QWidget(parent), m_session(session), m_procedure(procedure), m_run(new QComboBox(this)),
      m_table(new QTableView(this)), m_empty(quiet(tr("No reading in this run yet."), this)),
      m_withdraw(new QPushButton(tr("Withdraw…"), this)), m_correct(new QPushButton(tr("Correct…"), this)),
      m_newRun(new QPushButton(tr("New run…"), this)), m_reason(new QLineEdit(this)), m_do(new QPushButton(this)),
      m_fault(faultLabel(this)) {
  makeButtons();
  m_table->setModel(&m_model);
  makeListLike(*m_table);
  m_table->setAccessibleName(tr("Readings"));
  m_table->setMinimumHeight(110);
  static constexpr int kWidths[] = {94, 176, 92, 96, 74, 130, 150, 92, 74, 140};
  for (int column = 0; column < ReadingsModel::columns; ++column) m_table->setColumnWidth(column, kWidths[column]);
  connect(m_table->selectionModel(), &QItemSelectionModel::currentRowChanged, this, &ReadingsBox::showButtons);
  connect(&m_model, &QAbstractItemModel::dataChanged, this, &ReadingsBox::showButtons);
  connect(m_run, &QComboBox::currentIndexChanged, this, &ReadingsBox::showRun);
  finish({});
}

void ReadingsBox::makeButtons() {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins({});
  column->setSpacing(4);
  auto* top = new QHBoxLayout;
  m_run->setAccessibleName(tr("Run"));
  top->addWidget(m_run);
  top->addStretch();
  for (QPushButton* button : {m_correct, m_withdraw, m_newRun}) top->addWidget(button);
  column->addLayout(top);
  auto* ask = new QHBoxLayout;
  m_reason->setAccessibleName(tr("Reason"));
  ask->addWidget(m_reason, 1);
  ask->addWidget(m_do);
  column->addLayout(ask);
  column->addWidget(m_fault);
  column->addWidget(m_empty);
  column->addWidget(m_table, 1);
  connect(m_withdraw, &QPushButton::clicked, this, &ReadingsBox::withdraw);
  connect(m_newRun, &QPushButton::clicked, this, &ReadingsBox::startRun);
  connect(m_correct, &QPushButton::clicked, this, [this] {
    if (const auto* reading = current()) emit correctionWanted(*reading);
  });
  connect(m_do, &QPushButton::clicked, this, &ReadingsBox::act);
  connect(m_reason, &QLineEdit::returnPressed, this, &ReadingsBox::act);
}

void ReadingsBox::show(std::shared_ptr<const fleet::UnitRecord> record) {
  const bool sameUnit = m_record && record && m_record->unit.id == record->unit.id;
  m_record = std::move(record);
  if (!m_record) return m_model.clear();
  if (!sameUnit) finish({});
  const int current = m_record->currentRun(m_procedure).value_or(1);
  const int before = m_run->count() > 0 ? m_run->itemData(m_run->count() - 1).toInt() : 0;
  if (before != current || m_run->count() == 0) {
    const QSignalBlocker block(m_run);
    m_run->clear();
    for (int run = 1; run < current; ++run) m_run->addItem(tr("Run %1, superseded").arg(run), run);
    m_run->addItem(tr("Run %1").arg(current), current);
    m_run->setCurrentIndex(m_run->count() - 1);
  } else if (!sameUnit) {
    const QSignalBlocker block(m_run);
    m_run->setCurrentIndex(m_run->count() - 1);
  }
  showRun();
}

void ReadingsBox::showRun() {
  if (!m_record || !m_session.snapshot()) return;
  m_model.show(*m_record, m_procedure, m_run->currentData().toInt(), m_session.snapshot()->system);
  if (!m_table->currentIndex().isValid() && m_model.rowCount() > 0) m_table->setCurrentIndex(m_model.index(0, 0));
  m_empty->setVisible(m_model.rowCount() == 0);
  m_table->setVisible(m_model.rowCount() > 0);
  showButtons();
}

const fleet::Reading* ReadingsBox::current() const {
  const QModelIndex index = m_table->currentIndex();
  return index.isValid() && index.row() < m_model.rowCount() ? &m_model.row(index.row()).reading : nullptr;
}

void ReadingsBox::showButtons() {
  const fleet::Reading* reading = current();
  const bool mayChange = reading && !reading->withdrawn && !m_session.state().readOnly;
  m_withdraw->setEnabled(mayChange);
  m_correct->setEnabled(mayChange);
  m_newRun->setEnabled(m_record && m_record->currentRun(m_procedure) && !m_session.state().readOnly);
}

void ReadingsBox::select(const fleet::FactKey& key) {
  const auto run = [&]() -> std::optional<int> {
    for (const fleet::Reading& reading : m_record->readings)
      if (reading.key == key) return reading.run;
    return std::nullopt;
  }();
  if (!run) return;
  m_run->setCurrentIndex(m_run->findData(*run));
  if (const auto row = m_model.rowOf(key)) {
    m_table->setCurrentIndex(m_model.index(*row, ReadingsModel::value));
    m_table->scrollTo(m_table->currentIndex());
  }
}

void ReadingsBox::askReason(const QString& prompt, const Act& act) {
  m_act = act;
  m_reason->setPlaceholderText(prompt);
  m_reason->clear();
  m_do->setText(tr("Do it"));
  m_reason->show();
  m_do->show();
  m_reason->setFocus();
}

void ReadingsBox::act() {
  const QString reason = m_reason->text().trimmed();
  if (reason.isEmpty()) return tell(m_fault, tr("Give the reason first."));
  if (m_act) m_act(reason);
}

void ReadingsBox::finish(const QString& fault) {
  tell(m_fault, fault);
  if (!fault.isEmpty()) return;
  m_reason->hide();
  m_do->hide();
  m_act = nullptr;
}

void ReadingsBox::withdraw() {
  const fleet::Reading* reading = current();
  if (!reading) return;
  askReason(tr("Why is this reading withdrawn?"), [this, unit = m_record->unit.id, key = reading->key](const QString& reason) {
    m_session.perform<void>(
        this,
        [unit, key, reason](project::OpenProject& project) { return project.withdrawReading(unit, key, reason.toStdString()); },
        [this](const Result<void>& done) { finish(done ? QString() : text(done.error().sentence)); });
  });
}

void ReadingsBox::startRun() {
  askReason(tr("Why is it done again? The run before is superseded as a whole."),
            [this, unit = m_record->unit.id, procedure = m_procedure](const QString& reason) {
              m_session.perform<int>(
                  this,
                  [unit, procedure, reason](project::OpenProject& project) {
                    return project.startRun(unit, procedure, reason.toStdString());
                  },
                  [this](const Result<int>& done) { finish(done ? QString() : text(done.error().sentence)); });
            });
}

}  // namespace ductwright::ui
