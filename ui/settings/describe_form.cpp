#include "ui/settings/describe_form.h"

#include <QComboBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>

#include "ui/field/fault_label.h"
#include "ui/field/quantity_field.h"
#include "ui/session/session.h"
#include "ui/words/words.h"

namespace ductwright::ui {

using quantity::Dimension;
using quantity::System;

DescribeForm::DescribeForm(Session& session, QWidget* parent)
    : QWidget(parent), m_session(session), m_name(new QLineEdit(this)), m_system(new QComboBox(this)),
      m_elevation(new QuantityField(this)), m_reason(new QLineEdit(this)), m_fault(faultLabel(this)),
      m_store(new QPushButton(tr("Store"), this)) {
  auto* form = new QFormLayout(this);
  form->setContentsMargins({});
  m_name->setAccessibleName(tr("Building name"));
  m_system->setAccessibleName(tr("Units"));
  m_system->addItem(tr("I-P: cfm, °F, in. w.g."), static_cast<int>(System::ip));
  m_system->addItem(tr("SI: L/s, °C, Pa"), static_cast<int>(System::si));
  m_elevation->setName(tr("Site elevation"));
  m_reason->setAccessibleName(tr("Reason for the change"));
  m_reason->setPlaceholderText(tr("needed where a signed unit changes"));
  form->addRow(tr("&Building"), m_name);
  form->addRow(tr("&Units"), m_system);
  form->addRow(tr("Site &elevation"), m_elevation);
  form->addRow(tr("Reason"), m_reason);
  form->addRow(QString(), m_fault);
  form->addRow(QString(), m_store);
  connect(m_name, &QLineEdit::textEdited, this, &DescribeForm::showButtons);
  connect(m_elevation, &QuantityField::edited, this, &DescribeForm::showButtons);
  connect(m_system, &QComboBox::activated, this, [this] {
    m_systemTouched = true;
    showButtons();
  });
  connect(m_store, &QPushButton::clicked, this, &DescribeForm::store);
}

void DescribeForm::showState() { fill(false); }

void DescribeForm::fill(bool alsoTouched) {
  const fleet::Snapshot* project = m_session.snapshot();
  if (!project) return;
  if (alsoTouched || !m_name->isModified()) m_name->setText(text(project->projectName));
  if (alsoTouched || !m_elevation->line()->isModified()) {
    m_elevation->setDimension(Dimension::elevation, project->system);
    m_elevation->setSi(project->elevation.si());
  }
  if (alsoTouched || !m_systemTouched) {
    m_system->setCurrentIndex(m_system->findData(static_cast<int>(project->system)));
    m_systemTouched = false;
  }
  showButtons();
}

std::optional<project::NewProject> DescribeForm::described() const {
  const auto elevation = m_elevation->si();
  if (!elevation || m_name->text().trimmed().isEmpty() || !m_session.snapshot()) return std::nullopt;
  return project::NewProject{m_name->text().trimmed().toStdString(), static_cast<System>(m_system->currentData().toInt()),
                             m_elevation->line()->isModified() ? quantity::Length::fromSi(*elevation) : m_session.snapshot()->elevation};
}

void DescribeForm::showButtons() {
  const auto made = described();
  const fleet::Snapshot* project = m_session.snapshot();
  m_store->setEnabled(made && project && !m_session.state().readOnly &&
                      (made->name != project->projectName || made->system != project->system || made->elevation != project->elevation));
}

void DescribeForm::store() {
  const auto made = described();
  if (!made) return;
  m_store->setEnabled(false);
  m_session.perform<void>(
      this,
      [made = *made, reason = m_reason->text().trimmed().toStdString()](project::OpenProject& project) {
        return project.describe(made, reason);
      },
      [this](const Result<void>& done) {
        tell(m_fault, done ? QString() : text(done.error().sentence));
        if (!done) return showButtons();
        m_reason->clear();
        fill(true);
      });
}

}  // namespace ductwright::ui
