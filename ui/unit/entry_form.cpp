#include "ui/unit/entry_form.h"

#include <QComboBox>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSignalBlocker>
#include <QVBoxLayout>

#include "ui/field/fault_label.h"
#include "ui/field/quantity_field.h"
#include "ui/look/look.h"
#include "ui/session/session.h"
#include "ui/unit/forming_verdict.h"
#include "ui/words/words.h"

namespace ductwright::ui {

using fleet::Procedure;
using fleet::ReadingQuantity;
using quantity::Dimension;

EntryForm::EntryForm(Session& session, Procedure procedure, QWidget* parent)
    : QWidget(parent), m_session(session), m_procedure(procedure), m_step(new QComboBox(this)),
      m_quantity(new QComboBox(this)), m_value(new QuantityField(this)), m_instrument(new QComboBox(this)),
      m_waited(new QuantityField(this)), m_outlet(new QLineEdit(this)), m_note(new QLineEdit(this)),
      m_reason(new QLineEdit(this)), m_fault(faultLabel(this)), m_forming(new FormingVerdict(this)),
      m_store(new QPushButton(this)), m_giveUp(new QPushButton(tr("Give up"), this)) {
  makeFields();
  giveUp();
  connect(m_quantity, &QComboBox::currentIndexChanged, this, &EntryForm::takeQuantity);
  connect(m_step, &QComboBox::currentIndexChanged, this, &EntryForm::form);
  connect(m_instrument, &QComboBox::currentTextChanged, this, &EntryForm::form);
  connect(m_outlet, &QLineEdit::textEdited, this, &EntryForm::form);
  for (QuantityField* field : {m_value, m_waited}) {
    connect(field, &QuantityField::edited, this, &EntryForm::form);
    connect(field, &QuantityField::entered, this, &EntryForm::record);
  }
  for (QLineEdit* line : {m_outlet, m_note, m_reason}) connect(line, &QLineEdit::returnPressed, this, &EntryForm::record);
  connect(m_store, &QPushButton::clicked, this, &EntryForm::record);
  connect(m_giveUp, &QPushButton::clicked, this, &EntryForm::giveUp);
}

void EntryForm::makeFields() {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins({});
  column->setSpacing(6);
  auto* grid = new QGridLayout;
  grid->setHorizontalSpacing(kGap);
  grid->setVerticalSpacing(2);
  grid->setColumnStretch(0, 1);
  grid->setColumnStretch(1, 1);
  column->addLayout(grid);
  const auto put = [&](const QString& label, QWidget* field, QWidget* buddy, int place) {
    auto* name = new QLabel(label, this);
    name->setBuddy(buddy);
    const int row = place / 2 * 2, side = place % 2;
    grid->addWidget(name, row, side);
    grid->addWidget(field, row + 1, side, Qt::AlignTop);
  };
  put(tr("&Step"), m_step, m_step, 0);
  put(tr("&Quantity"), m_quantity, m_quantity, 1);
  put(tr("&Value"), m_value, m_value->line(), 2);
  put(tr("&Instrument"), m_instrument, m_instrument, 3);
  put(tr("&Waited since the command"), m_waited, m_waited->line(), 4);
  put(tr("N&ote"), m_note, m_note, 5);
  m_step->setAccessibleName(tr("Step"));
  m_quantity->setAccessibleName(tr("Quantity"));
  m_value->setName(tr("Value"));
  m_value->setLarge();
  m_value->line()->setObjectName(QStringLiteral("value"));
  m_instrument->setEditable(true);
  m_instrument->setInsertPolicy(QComboBox::NoInsert);
  m_instrument->setAccessibleName(tr("Instrument, by serial number"));
  m_instrument->lineEdit()->setPlaceholderText(tr("none: default accuracy"));
  m_waited->setName(tr("Waited since the command"));
  m_waited->setDimension(Dimension::duration, quantity::System::si);
  m_note->setAccessibleName(tr("Note"));
  m_outlet->setAccessibleName(tr("Outlet"));
  m_outlet->setPlaceholderText(tr("Outlet: its mark or number"));
  m_reason->setAccessibleName(tr("Reason"));
  for (QWidget* field : std::initializer_list<QWidget*>{m_step, m_quantity, m_instrument, m_waited->line(), m_note,
                                                        m_outlet, m_reason, m_store, m_giveUp})
    field->setMinimumHeight(kTarget - 4);
  column->addWidget(m_outlet);
  column->addWidget(m_forming);
  column->addWidget(m_reason);
  column->addWidget(m_fault);
  auto* buttons = new QHBoxLayout;
  buttons->addWidget(m_store, 1);
  buttons->addWidget(m_giveUp);
  column->addLayout(buttons);
  for (const ReadingQuantity quantity : quantitiesOf(m_procedure))
    m_quantity->addItem(word(quantity), static_cast<int>(quantity));
}

void EntryForm::show(std::shared_ptr<const fleet::UnitRecord> record) {
  const bool sameUnit = m_record && record && m_record->unit.id == record->unit.id;
  m_record = std::move(record);
  if (!m_record) return;
  offerSteps();
  offerInstruments();
  if (sameUnit) return form();
  giveUp();
  m_value->setText({});
  if (const auto first = nextReading(*m_record, m_procedure)) expect(*first);
  takeQuantity();
}

// Keeps the chosen step where it is still offered.
void EntryForm::offerSteps() {
  const QSignalBlocker block(m_step);
  const QVariant before = m_step->currentData();
  m_step->clear();
  for (const int step : stepsOf(*m_record, m_procedure)) m_step->addItem(stepWord(m_procedure, step), step);
  m_step->setCurrentIndex(std::max(0, m_step->findData(before)));
}

void EntryForm::offerInstruments() {
  if (!m_session.snapshot()) return;
  const QSignalBlocker block(m_instrument);
  const QString before = m_instrument->currentText();
  m_instrument->clear();
  for (const fleet::Instrument& instrument : m_session.snapshot()->instruments)
    if (instrument.accuracyFor(expected().quantity)) m_instrument->addItem(text(instrument.serial));
  m_instrument->setCurrentText(before);
}

Expected EntryForm::expected() const {
  return {m_step->currentData().toInt(), static_cast<ReadingQuantity>(m_quantity->currentData().toInt())};
}

void EntryForm::expect(const Expected& expected) {
  if (m_step->findData(expected.step) < 0) m_step->addItem(stepWord(m_procedure, expected.step), expected.step);
  m_step->setCurrentIndex(m_step->findData(expected.step));
  m_quantity->setCurrentIndex(m_quantity->findData(static_cast<int>(expected.quantity)));
}

void EntryForm::correct(const fleet::Reading& reading) {
  m_corrected = reading.key;
  expect({reading.step, reading.quantity});
  m_value->setText(text(reading.typed.text()));
  m_instrument->setCurrentText(text(reading.instrument.text()));
  m_waited->setText(reading.waited ? QString::number(static_cast<double>(*reading.waited)) : QString());
  m_outlet->setText(text(reading.outlet.text()));
  m_note->setText(text(reading.note.text()));
  m_store->setText(tr("Store the correction"));
  m_giveUp->show();
  form();
  m_value->line()->setFocus();
  m_value->line()->selectAll();
}

void EntryForm::giveUp() {
  if (m_corrected) m_value->setText({});
  m_corrected.reset();
  m_store->setText(tr("Record"));
  m_giveUp->hide();
  m_reason->clear();
  tell(m_fault, {});
  form();
}

void EntryForm::takeQuantity() {
  const auto system = m_session.snapshot() ? m_session.snapshot()->system : quantity::System::ip;
  m_value->setDimension(fleet::dimensionOf(expected().quantity), system);
  m_outlet->setVisible(expected().quantity == ReadingQuantity::outletFlow);
  if (m_record) offerInstruments();
  form();
}

bool EntryForm::needsReason() const {
  if (m_corrected) return true;
  if (!m_record) return false;
  const auto& signOffs = m_record->signOffs;
  return std::any_of(signOffs.begin(), signOffs.end(), [](const auto& signOff) { return signOff.brokenBecause.empty(); });
}

project::NewReading EntryForm::reading() const {
  project::NewReading made;
  made.procedure = m_procedure;
  made.step = expected().step;
  made.quantity = expected().quantity;
  made.typed = m_value->typed().toStdString();
  if (made.quantity == ReadingQuantity::outletFlow) made.outlet = m_outlet->text().trimmed().toStdString();
  made.instrument = m_instrument->currentText().trimmed().toStdString();
  made.note = m_note->text().trimmed().toStdString();
  made.waitedSeconds = m_waited->si();
  return made;
}

QString EntryForm::hint() const {
  if (m_procedure == Procedure::airflow && m_record) {
    const auto flow = scheduledFlow(m_record->unit, static_cast<fleet::AirflowStep>(expected().step));
    if (flow && m_session.snapshot())
      return tr("Scheduled: %1").arg(written(flow->si(), Dimension::airflow, m_session.snapshot()->system));
  }
  return tr("The verdict forms here while you type.");
}

// Judges the unit as it would be, at each key.
void EntryForm::form() {
  m_reason->setVisible(needsReason());
  m_reason->setPlaceholderText(m_corrected ? tr("Reason for the correction") : tr("Reason: the unit is signed, this reopens it"));
  m_store->setEnabled(m_session.isOpen() && !m_session.state().readOnly);
  if (!m_record || !m_session.project() || m_value->isEmpty() || !m_value->si()) return m_forming->clear(hint());
  const project::NewReading typed = reading();
  const auto forming = m_session.project()->preview(m_record->unit.id, typed, m_corrected);
  if (!forming) return m_forming->clear(text(forming.error().sentence));
  m_forming->show(*forming, m_session.verdictOf(m_record->unit.id), typed, m_session.snapshot()->system);
}

void EntryForm::record() {
  if (!m_record || !m_store->isEnabled()) return;
  tell(m_fault, {});
  if (m_value->isEmpty()) return m_value->tellFault(tr("Type the value."));
  if (!m_value->isValid() || !m_waited->isValid()) return;
  if (needsReason() && m_reason->text().trimmed().isEmpty()) {
    m_reason->setFocus();
    return tell(m_fault, m_corrected ? tr("Say why it is corrected: the old reading stays readable, struck.")
                                     : tr("The unit is signed. Say why it is read again: this reopens it."));
  }
  m_store->setEnabled(false);
  const auto work = [unit = m_record->unit.id, typed = reading(), reason = m_reason->text().trimmed().toStdString(),
                     corrected = m_corrected](project::OpenProject& project) {
    return corrected ? project.correctReading(unit, *corrected, typed, reason) : project.addReading(unit, typed, reason);
  };
  m_session.perform<fleet::FactKey>(this, work, [this, what = expected()](const auto& key) { stored(key, what); });
}

void EntryForm::stored(const Result<fleet::FactKey>& key, const Expected& what) {
  m_store->setEnabled(true);
  if (!key) return tell(m_fault, text(key.error().sentence));
  giveUp();
  m_value->setText({});
  m_note->clear();
  if (what.quantity != ReadingQuantity::outletFlow && m_record)
    if (const auto next = nextReading(*m_record, m_procedure, what)) expect(*next);
  form();
  m_value->line()->setFocus();
  emit recorded(*key);
}

}  // namespace ductwright::ui
