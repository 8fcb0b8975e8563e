#pragma once

#include <QWidget>
#include <memory>
#include <optional>
#include <vector>

#include "project/project.h"

class QComboBox;
class QFormLayout;
class QLabel;
class QLineEdit;
class QPushButton;

namespace ductwright::ui {

class QuantityField;
class Session;

// What the schedule asks of the unit. Changes are gathered and stored as one action; fields that were not touched
// follow what happens elsewhere, an undo too.
class DesignPanel : public QWidget {
  Q_OBJECT

 public:
  explicit DesignPanel(Session& session, QWidget* parent = nullptr);
  void show(std::shared_ptr<const fleet::UnitRecord> record);

  // The unit as the fields say; nothing where a field cannot be read.
  [[nodiscard]] std::optional<fleet::Unit> unit() const;
  [[nodiscard]] QuantityField* number(const QString& label) const;

 public slots:
  void store();
  void takeBack();

 private:
  void makeTexts(QFormLayout* form);
  void makeChoices(QFormLayout* form);
  template <class Enum>
  QComboBox* choice(QFormLayout* form, const QString& label);
  void fill(bool alsoTouched);
  void showButtons();

  Session& m_session;
  std::shared_ptr<const fleet::UnitRecord> m_record;
  std::vector<QuantityField*> m_numbers;
  std::vector<QLineEdit*> m_texts;
  QComboBox* m_kind = nullptr;
  QComboBox* m_heat = nullptr;
  QComboBox* m_position = nullptr;
  QComboBox* m_basis = nullptr;
  bool m_choiceTouched = false;
  QLineEdit* m_reason;
  QLabel* m_fault;
  QPushButton* m_store;
  QPushButton* m_takeBack;
};

}  // namespace ductwright::ui
