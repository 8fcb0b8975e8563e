#include "ui/unit/design_panel.h"

#include <QComboBox>
#include <QCoreApplication>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

#include "ui/field/fault_label.h"
#include "ui/field/quantity_field.h"
#include "ui/look/look.h"
#include "ui/session/session.h"
#include "ui/unit/design_fields.h"
#include "ui/words/words.h"

namespace ductwright::ui {
namespace {

QString designLabel(const char* label) { return QCoreApplication::translate("design", label); }

void choose(QComboBox* box, int value) { box->setCurrentIndex(box->findData(value)); }

template <class Enum>
Enum chosen(const QComboBox* box) {
  return static_cast<Enum>(box->currentData().toInt());
}

}  // namespace

DesignPanel::DesignPanel(Session& session, QWidget* parent)
    : QWidget(parent), m_session(session), m_reason(new QLineEdit(this)), m_fault(faultLabel(this)),
      m_store(new QPushButton(tr("Store the change"), this)), m_takeBack(new QPushButton(tr("Take back"), this)) {
  auto* fields = new QWidget(this);
  auto* columns = new QHBoxLayout(fields);
  columns->setSpacing(kMargin * 2);
  QFormLayout* forms[3];
  for (QFormLayout*& form : forms) {
    form = new QFormLayout;
    form->setFieldGrowthPolicy(QFormLayout::ExpandingFieldsGrow);
    form->setHorizontalSpacing(kGap);
    form->setVerticalSpacing(6);
    columns->addLayout(form, 1);
  }
  makeTexts(forms[0]);
  makeChoices(forms[0]);
  const auto numbers = designNumbers();
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    auto* field = new QuantityField(fields);
    field->setName(designLabel(numbers[i].label));
    forms[i < numbers.size() / 2 ? 1 : 2]->addRow(designLabel(numbers[i].label), field);
    m_numbers.push_back(field);
    connect(field, &QuantityField::edited, this, &DesignPanel::showButtons);
  }
  auto* scroll = new QScrollArea(this);
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setWidget(fields);
  auto* column = new QVBoxLayout(this);
  column->addWidget(scroll, 1);
  auto* row = new QHBoxLayout;
  m_reason->setPlaceholderText(tr("Reason for the change"));
  m_reason->setAccessibleName(tr("Reason for the change"));
  for (QWidget* widget : std::initializer_list<QWidget*>{m_reason, m_store, m_takeBack}) widget->setMinimumHeight(kTarget - 4);
  row->addWidget(m_reason, 1);
  row->addWidget(m_store);
  row->addWidget(m_takeBack);
  column->addWidget(m_fault);
  column->addLayout(row);
  connect(m_store, &QPushButton::clicked, this, &DesignPanel::store);
  connect(m_reason, &QLineEdit::returnPressed, this, &DesignPanel::store);
  connect(m_takeBack, &QPushButton::clicked, this, &DesignPanel::takeBack);
  showButtons();
}

void DesignPanel::makeTexts(QFormLayout* form) {
  for (const DesignText& field : designTexts()) {
    auto* line = new QLineEdit(this);
    line->setAccessibleName(designLabel(field.label));
    form->addRow(designLabel(field.label), line);
    m_texts.push_back(line);
    connect(line, &QLineEdit::textEdited, this, &DesignPanel::showButtons);
  }
}

template <class Enum>
QComboBox* DesignPanel::choice(QFormLayout* form, const QString& label) {
  auto* box = new QComboBox(this);
  box->setAccessibleName(label);
  for (const Enum value : fleet::valuesOf<Enum>()) box->addItem(word(value), static_cast<int>(value));
  form->addRow(label, box);
  connect(box, &QComboBox::activated, this, [this] {
    m_choiceTouched = true;
    showButtons();
  });
  return box;
}

void DesignPanel::makeChoices(QFormLayout* form) {
  m_kind = choice<fleet::UnitKind>(form, tr("Kind"));
  m_heat = choice<fleet::HeatKind>(form, tr("Heat"));
  m_position = choice<fleet::HeaterPosition>(form, tr("Heater position"));
  m_basis = choice<fleet::FlowBasis>(form, tr("Flow basis"));
}

void DesignPanel::show(std::shared_ptr<const fleet::UnitRecord> record) {
  const bool sameUnit = m_record && record && m_record->unit.id == record->unit.id;
  m_record = std::move(record);
  if (!m_record) return;
  if (!sameUnit) tell(m_fault, {});
  fill(!sameUnit);
}

void DesignPanel::fill(bool alsoTouched) {
  const fleet::Unit& unit = m_record->unit;
  const auto system = m_session.snapshot() ? m_session.snapshot()->system : quantity::System::ip;
  const auto numbers = designNumbers();
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    if (!alsoTouched && m_numbers[i]->line()->isModified()) continue;
    m_numbers[i]->setDimension(numbers[i].dimension, system);
    m_numbers[i]->setSi(numbers[i].read(unit));
  }
  const auto texts = designTexts();
  for (std::size_t i = 0; i < texts.size(); ++i)
    if (alsoTouched || !m_texts[i]->isModified()) m_texts[i]->setText(text(unit.*texts[i].member));
  if (alsoTouched || !m_choiceTouched) {
    choose(m_kind, static_cast<int>(unit.kind));
    choose(m_heat, static_cast<int>(unit.heat));
    choose(m_position, static_cast<int>(unit.heaterPosition));
    choose(m_basis, static_cast<int>(unit.flowBasis));
    m_choiceTouched = false;
  }
  showButtons();
}

std::optional<fleet::Unit> DesignPanel::unit() const {
  if (!m_record) return std::nullopt;
  fleet::Unit unit = m_record->unit;
  const auto numbers = designNumbers();
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    if (!m_numbers[i]->line()->isModified()) continue;  // the shown digits are not the whole value
    if (!m_numbers[i]->isValid()) return std::nullopt;
    numbers[i].write(unit, m_numbers[i]->si());
  }
  const auto texts = designTexts();
  for (std::size_t i = 0; i < texts.size(); ++i)
    if (m_texts[i]->isModified()) unit.*texts[i].member = m_texts[i]->text().trimmed().toStdString();
  if (m_choiceTouched) {
    unit.kind = chosen<fleet::UnitKind>(m_kind);
    unit.heat = chosen<fleet::HeatKind>(m_heat);
    unit.heaterPosition = chosen<fleet::HeaterPosition>(m_position);
    unit.flowBasis = chosen<fleet::FlowBasis>(m_basis);
  }
  return unit;
}

QuantityField* DesignPanel::number(const QString& label) const {
  for (std::size_t i = 0; i < m_numbers.size(); ++i)
    if (designLabel(designNumbers()[i].label) == label) return m_numbers[i];
  return nullptr;
}

void DesignPanel::showButtons() {
  const auto changed = unit();
  const bool differs = m_record && (!changed || *changed != m_record->unit);
  m_store->setEnabled(differs && changed && !m_session.state().readOnly);
  m_takeBack->setEnabled(differs);
  m_reason->setEnabled(differs);
}

void DesignPanel::store() {
  const auto changed = unit();
  if (!changed || !m_store->isEnabled()) return;
  m_store->setEnabled(false);
  m_session.perform<void>(
      this,
      [unit = *changed, reason = m_reason->text().trimmed().toStdString()](project::OpenProject& project) {
        return project.putUnit(unit, reason);
      },
      [this](const Result<void>& done) {
        tell(m_fault, done ? QString() : text(done.error().sentence));
        if (done) takeBack();
        else showButtons();
      });
}

void DesignPanel::takeBack() {
  if (!m_record) return;
  m_reason->clear();
  tell(m_fault, {});
  fill(true);
}

}  // namespace ductwright::ui
