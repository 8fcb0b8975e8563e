#include "ui/start/new_project_form.h"

#include <QComboBox>
#include <QDir>
#include <QFileInfo>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QStandardPaths>
#include <QVBoxLayout>

#include "ui/field/fault_label.h"
#include "ui/field/path_field.h"
#include "ui/field/quantity_field.h"
#include "ui/look/look.h"

namespace ductwright::ui {

using quantity::Dimension;
using quantity::System;

NewProjectForm::NewProjectForm(QWidget* parent)
    : QWidget(parent),
      m_schedule(new PathField(PathField::For::opening, tr("Schedule file"), tr("Schedules (*.csv *.xlsx)"), this)),
      m_name(new QLineEdit(this)), m_nameFault(faultLabel(this)), m_system(new QComboBox(this)),
      m_elevation(new QuantityField(this)),
      m_place(new PathField(PathField::For::saving, tr("Project file"), tr("Projects (*.ductwright)"), this)) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins({});
  column->addWidget(subheading(tr("New project from a schedule"), this));
  auto* form = new QFormLayout;
  form->addRow(tr("&Schedule (CSV or XLSX)"), m_schedule);
  m_name->setAccessibleName(tr("Building name"));
  auto* nameColumn = new QVBoxLayout;
  nameColumn->setSpacing(2);
  nameColumn->addWidget(m_name);
  nameColumn->addWidget(m_nameFault);
  auto* nameLabel = new QLabel(tr("&Building"), this);
  nameLabel->setBuddy(m_name);
  form->addRow(nameLabel, nameColumn);
  m_system->setAccessibleName(tr("Units"));
  m_system->addItem(tr("I-P: cfm, °F, in. w.g."), static_cast<int>(System::ip));
  m_system->addItem(tr("SI: L/s, °C, Pa"), static_cast<int>(System::si));
  form->addRow(tr("&Units"), m_system);
  m_elevation->setName(tr("Site elevation"));
  m_elevation->setDimension(Dimension::elevation, System::ip);
  m_elevation->setText(QStringLiteral("0"));
  form->addRow(tr("Site &elevation"), m_elevation);
  form->addRow(tr("&Keep the project in"), m_place);
  column->addLayout(form);
  column->addWidget(quiet(tr("Elevation sets the air's density. There is no Save: each action is stored when made."), this));

  auto* buttons = new QHBoxLayout;
  auto* create = new QPushButton(tr("Create and read the schedule"), this);
  create->setObjectName(QStringLiteral("create"));
  create->setMinimumHeight(kTarget);
  auto* cancel = new QPushButton(tr("Cancel"), this);
  cancel->setMinimumHeight(kTarget);
  buttons->addWidget(create);
  buttons->addWidget(cancel);
  buttons->addStretch();
  column->addLayout(buttons);
  column->addStretch();

  connect(m_schedule, &PathField::changed, this, &NewProjectForm::suggestFromSchedule);
  connect(m_name, &QLineEdit::textEdited, this, [this] {
    tell(m_nameFault, {});
    suggestPlace();
  });
  connect(m_system, &QComboBox::currentIndexChanged, this, [this] {
    m_elevation->setDimension(Dimension::elevation, static_cast<System>(m_system->currentData().toInt()));
  });
  connect(create, &QPushButton::clicked, this, &NewProjectForm::submit);
  connect(cancel, &QPushButton::clicked, this, &NewProjectForm::cancelled);
}

void NewProjectForm::suggestFromSchedule() {
  const QFileInfo file(m_schedule->path());
  if (m_name->text().isEmpty() && file.exists()) m_name->setText(file.completeBaseName());
  suggestPlace();
}

// Beside the schedule, unless the person chose a place.
void NewProjectForm::suggestPlace() {
  if (m_place->path() != m_suggestedPlace) return;
  const QFileInfo schedule(m_schedule->path());
  const QString folder = schedule.exists() ? schedule.absolutePath()
                                           : QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation);
  QString file = m_name->text().trimmed();
  file.replace(QLatin1Char('/'), QLatin1Char('-'));
  m_suggestedPlace = file.isEmpty() ? QString() : QDir(folder).filePath(file + QStringLiteral(".ductwright"));
  m_place->setPath(m_suggestedPlace);
}

void NewProjectForm::tellFault(const QString& sentence) { m_place->tellFault(sentence); }

void NewProjectForm::submit() {
  const QString schedule = m_schedule->path();
  const bool named = !m_name->text().trimmed().isEmpty();
  m_schedule->tellFault(schedule.isEmpty() || QFileInfo(schedule).isFile() ? QString() : tr("There is no such file."));
  tell(m_nameFault, named ? QString() : tr("Give the building a name: it heads every page of the report."));
  m_place->tellFault(m_place->path().isEmpty() ? tr("Choose where the project is kept.") : QString());
  const auto elevation = m_elevation->si();
  if (!elevation) m_elevation->tellFault(tr("Give the elevation above the sea, 0 at the coast."));
  if ((!schedule.isEmpty() && !QFileInfo(schedule).isFile()) || !named || m_place->path().isEmpty() || !elevation) return;
  emit wanted(m_place->path(),
              {m_name->text().trimmed().toStdString(), static_cast<System>(m_system->currentData().toInt()),
               quantity::Length::fromSi(*elevation)},
              schedule);
}

}  // namespace ductwright::ui
