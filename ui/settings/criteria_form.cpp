#include "ui/settings/criteria_form.h"

#include <QComboBox>
#include <QCoreApplication>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>
#include <cstring>

#include "ui/field/fault_label.h"
#include "ui/field/quantity_field.h"
#include "ui/look/look.h"
#include "ui/session/session.h"
#include "ui/settings/criteria_fields.h"
#include "ui/words/words.h"

namespace ductwright::ui {
namespace {

QString criteriaWord(const char* word) { return QCoreApplication::translate("criteria", word); }

}  // namespace

CriteriaForm::CriteriaForm(Session& session, QWidget* parent)
    : QWidget(parent), m_session(session), m_version(quiet({}, this)), m_rule(new QComboBox(this)),
      m_reason(new QLineEdit(this)), m_fault(faultLabel(this)), m_store(new QPushButton(tr("Store the criteria"), this)),
      m_takeBack(new QPushButton(tr("Take back"), this)) {
  auto* body = new QWidget(this);
  auto* columns = new QHBoxLayout(body);
  columns->setSpacing(kMargin * 2);
  QFormLayout* forms[2];
  for (QFormLayout*& form : forms) {
    columns->addLayout(form = new QFormLayout, 1);
    form->setHorizontalSpacing(kGap);
    form->setVerticalSpacing(6);
  }
  m_rule->setAccessibleName(tr("Decision rule"));
  m_rule->addItem(tr("simple acceptance"), static_cast<int>(fleet::DecisionRule::simple));
  m_rule->addItem(tr("guarded acceptance"), static_cast<int>(fleet::DecisionRule::guarded));
  forms[0]->addRow(tr("Decision rule"), m_rule);
  const auto fields = criteriaFields();
  const char* group = nullptr;
  for (std::size_t i = 0; i < fields.size(); ++i) {
    QFormLayout* form = forms[i < 19 ? 0 : 1];  // airflow, lockout and rise at the left
    if (!group || std::strcmp(group, fields[i].group) != 0) form->addRow(subheading(criteriaWord(group = fields[i].group), body));
    auto* field = new QuantityField(body);
    field->setName(criteriaWord(fields[i].label));
    form->addRow(criteriaWord(fields[i].label), field);
    m_fields.push_back(field);
    connect(field, &QuantityField::edited, this, &CriteriaForm::showButtons);
  }
  auto* scroll = new QScrollArea(this);
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setWidget(body);
  auto* column = new QVBoxLayout(this);
  column->addWidget(m_version);
  column->addWidget(scroll, 1);
  column->addWidget(m_fault);
  auto* row = new QHBoxLayout;
  m_reason->setPlaceholderText(tr("Reason for the change"));
  m_reason->setAccessibleName(tr("Reason for the change"));
  row->addWidget(m_reason, 1);
  row->addWidget(m_store);
  row->addWidget(m_takeBack);
  column->addLayout(row);
  connect(m_rule, &QComboBox::activated, this, [this] {
    m_ruleTouched = true;
    showButtons();
  });
  connect(m_store, &QPushButton::clicked, this, &CriteriaForm::store);
  connect(m_reason, &QLineEdit::returnPressed, this, &CriteriaForm::store);
  connect(m_takeBack, &QPushButton::clicked, this, [this] { fill(true); });
  showButtons();
}

void CriteriaForm::showState() { fill(false); }

void CriteriaForm::fill(bool alsoTouched) {
  const fleet::Snapshot* project = m_session.snapshot();
  if (!project) return;
  const auto fields = criteriaFields();
  for (std::size_t i = 0; i < fields.size(); ++i) {
    if (!alsoTouched && m_fields[i]->line()->isModified()) continue;
    m_fields[i]->setDimension(fields[i].dimension, project->system);
    m_fields[i]->setSi(fields[i].read(project->criteria));
  }
  if (alsoTouched || !m_ruleTouched) {
    m_rule->setCurrentIndex(m_rule->findData(static_cast<int>(project->criteria.rule)));
    m_ruleTouched = false;
  }
  m_version->setText(tr("Version %1. Whatever is judged is judged by these; where no source is published, the defaults are common practice.")
                         .arg(project->criteria.version));
  showButtons();
}

std::optional<fleet::Criteria> CriteriaForm::criteria() const {
  if (!m_session.snapshot()) return std::nullopt;
  fleet::Criteria made = m_session.snapshot()->criteria;
  const auto fields = criteriaFields();
  for (std::size_t i = 0; i < fields.size(); ++i) {
    if (!m_fields[i]->line()->isModified()) continue;
    const auto si = m_fields[i]->si();
    if (!si) return std::nullopt;
    fields[i].write(made, *si);
  }
  if (m_ruleTouched) made.rule = static_cast<fleet::DecisionRule>(m_rule->currentData().toInt());
  return made;
}

void CriteriaForm::showButtons() {
  const auto made = criteria();
  const bool differs = m_session.snapshot() && (!made || *made != m_session.snapshot()->criteria);
  m_store->setEnabled(differs && made && !m_session.state().readOnly);
  m_takeBack->setEnabled(differs);
  m_reason->setEnabled(differs);
}

void CriteriaForm::store() {
  const auto made = criteria();
  if (!made || !m_store->isEnabled()) return;
  m_store->setEnabled(false);
  m_session.perform<void>(
      this,
      [criteria = *made, reason = m_reason->text().trimmed().toStdString()](project::OpenProject& project) {
        return project.putCriteria(criteria, reason);
      },
      [this](const Result<void>& done) {
        tell(m_fault, done ? QString() : text(done.error().sentence));
        if (!done) return showButtons();
        m_reason->clear();
        fill(true);
      });
}

}  // namespace ductwright::ui
