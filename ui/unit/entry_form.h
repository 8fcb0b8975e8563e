#pragma once

#include <QWidget>
#include <memory>
#include <optional>

#include "project/project.h"
#include "ui/unit/entry_order.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;

namespace ductwright::ui {

class FormingVerdict;
class QuantityField;
class Session;

// One reading, one gesture: what is read, the number in any unit, the instrument, how long was waited. The verdict
// forms while typing; Enter records and goes on to the next reading that is usually taken.
class EntryForm : public QWidget {
  Q_OBJECT

 public:
  EntryForm(Session& session, fleet::Procedure procedure, QWidget* parent = nullptr);

  // Keeps what is typed as long as the unit stays the same.
  void show(std::shared_ptr<const fleet::UnitRecord> record);
  void expect(const Expected& expected);
  // Changes from recording to correcting this reading, until it is stored or given up.
  void correct(const fleet::Reading& reading);

  [[nodiscard]] project::NewReading reading() const;
  [[nodiscard]] QuantityField& value() { return *m_value; }
  [[nodiscard]] FormingVerdict& forming() { return *m_forming; }

 public slots:
  void record();
  void giveUp();

 signals:
  void recorded(const ductwright::fleet::FactKey& key);

 private:
  void makeFields();
  void offerSteps();
  void offerInstruments();
  void takeQuantity();
  void form();
  void stored(const Result<fleet::FactKey>& key, const Expected& what);
  [[nodiscard]] Expected expected() const;
  [[nodiscard]] bool needsReason() const;
  [[nodiscard]] QString hint() const;

  Session& m_session;
  fleet::Procedure m_procedure;
  std::shared_ptr<const fleet::UnitRecord> m_record;
  std::optional<fleet::FactKey> m_corrected;
  QComboBox* m_step;
  QComboBox* m_quantity;
  QuantityField* m_value;
  QComboBox* m_instrument;
  QuantityField* m_waited;
  QLineEdit* m_outlet;
  QLineEdit* m_note;
  QLineEdit* m_reason;
  QLabel* m_fault;
  FormingVerdict* m_forming;
  QPushButton* m_store;
  QPushButton* m_giveUp;
};

}  // namespace ductwright::ui
