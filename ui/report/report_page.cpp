#include "ui/report/report_page.h"

#include <QComboBox>
#include <QDesktopServices>
#include <QDir>
#include <QFileInfo>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QProgressBar>
#include <QPushButton>
#include <QUrl>
#include <QVBoxLayout>

#include "ui/field/path_field.h"
#include "ui/look/look.h"
#include "ui/session/session.h"
#include "ui/words/words.h"

namespace ductwright::ui {

ReportPage::ReportPage(Session& session, const QString& commandLine, QWidget* parent)
    : QWidget(parent), m_session(session), m_run(new ReportRun(session, commandLine, this)), m_kind(new QComboBox(this)),
      m_format(new QComboBox(this)), m_place(new PathField(PathField::For::saving, tr("Report file"), {}, this)),
      m_about(quiet({}, this)), m_progress(new QProgressBar(this)), m_write(new QPushButton(tr("Write the report"), this)),
      m_cancel(new QPushButton(tr("Cancel"), this)), m_outcome(sentence({}, this)), m_show(new QPushButton(tr("Open it"), this)) {
  auto* column = new QVBoxLayout;
  column->addWidget(heading(tr("Report"), this));
  column->addWidget(m_about);
  column->addWidget(form());
  column->addWidget(m_outcome);
  column->addWidget(m_show, 0, Qt::AlignLeft);
  column->addStretch();
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(kMargin, kMargin, kMargin, kMargin);
  row->addLayout(column, 3);
  row->addStretch(1);
  m_show->hide();
  connect(m_kind, &QComboBox::currentIndexChanged, this, &ReportPage::tellKind);
  connect(m_format, &QComboBox::currentIndexChanged, this, &ReportPage::suggestPlace);
  connect(m_write, &QPushButton::clicked, this, &ReportPage::write);
  connect(m_cancel, &QPushButton::clicked, this, &ReportPage::cancel);
  connect(m_show, &QPushButton::clicked, this, [this] { QDesktopServices::openUrl(QUrl::fromLocalFile(m_place->path())); });
  connect(m_run, &ReportRun::progressed, this, [this](double share) { m_progress->setValue(static_cast<int>(share * 1000)); });
  connect(m_run, &ReportRun::finished, this, &ReportPage::tellOutcome);
  connect(m_run, &ReportRun::cancelled, this, [this] {
    setRunning(false);
    m_outcome->setText(tr("Cancelled: nothing was written."));
  });
  setRunning(false);
  tellKind();
}

QWidget* ReportPage::form() {
  auto* box = new QWidget(this);
  auto* form = new QFormLayout(box);
  form->setContentsMargins({});
  m_kind->setAccessibleName(tr("Kind of report"));
  m_kind->addItem(tr("Commissioning report"), QStringLiteral("commissioning"));
  m_kind->addItem(tr("Unit pages"), QStringLiteral("unit"));
  m_kind->addItem(tr("Deficiencies"), QStringLiteral("deficiencies"));
  m_kind->addItem(tr("Turnover: as-left settings"), QStringLiteral("turnover"));
  m_format->setAccessibleName(tr("Format"));
  m_format->addItem(tr("PDF, to read and print"), QStringLiteral("pdf"));
  m_format->addItem(tr("XLSX workbook"), QStringLiteral("xlsx"));
  m_format->addItem(tr("CSV"), QStringLiteral("csv"));
  form->addRow(tr("&Report"), m_kind);
  form->addRow(tr("&Format"), m_format);
  form->addRow(tr("&Where"), m_place);
  m_progress->setRange(0, 1000);
  m_progress->setAccessibleName(tr("Progress of the report"));
  auto* buttons = new QHBoxLayout;
  for (QPushButton* button : {m_write, m_cancel}) {
    button->setMinimumHeight(kTarget);
    buttons->addWidget(button);
  }
  buttons->addWidget(m_progress, 1);
  form->addRow(QString(), buttons);
  return box;
}

void ReportPage::tellKind() {
  const QString kind = m_kind->currentData().toString();
  if (kind == QLatin1String("commissioning"))
    m_about->setText(tr("For the owner's representative: is this building proven, by whom, with what doubt, and what is open. "
                        "Then the fleet, the exceptions, a page a unit, deficiencies, instruments, signatures, method."));
  else if (kind == QLatin1String("unit"))
    m_about->setText(tr("A page a unit with its three figures, checks and readings."));
  else if (kind == QLatin1String("deficiencies"))
    m_about->setText(tr("Every deficiency with its party, state, evidence and the reading that closes it."));
  else
    m_about->setText(tr("The as-left setpoints and flow coefficients, for whoever runs the building."));
  suggestPlace();
}

// Beside the project, unless the person chose a place.
void ReportPage::suggestPlace() {
  if (m_place->path() != m_suggested || !m_session.isOpen()) return;
  const QFileInfo project(m_session.path());
  m_suggested = project.dir().filePath(QStringLiteral("%1-%2.%3").arg(project.completeBaseName(), m_kind->currentData().toString(),
                                                                     m_format->currentData().toString()));
  m_place->setPath(m_suggested);
}

void ReportPage::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  suggestPlace();
}

void ReportPage::write() {
  const QString place = m_place->path();
  if (place.isEmpty()) return m_place->tellFault(tr("Choose where the report goes."));
  if (!QFileInfo(place).dir().exists()) return m_place->tellFault(tr("There is no such folder."));
  const QString ending = m_format->currentData().toString();
  if (QFileInfo(place).suffix().toLower() != ending)
    return m_place->tellFault(tr("The name must end in .%1 for this format.").arg(ending));
  m_outcome->clear();
  m_show->hide();
  setRunning(true);
  m_run->start({m_kind->currentData().toString(), place});
}

void ReportPage::cancel() { m_run->cancel(); }

void ReportPage::setRunning(bool running) {
  m_write->setEnabled(!running);
  m_cancel->setVisible(running);
  m_progress->setVisible(running);
  for (QWidget* field : std::initializer_list<QWidget*>{m_kind, m_format, m_place}) field->setEnabled(!running);
}

void ReportPage::tellOutcome(const QString& fault) {
  setRunning(false);
  const bool done = fault.isEmpty();
  setInk(m_outcome, done ? palette().color(QPalette::WindowText) : faultInk(palette()));
  m_outcome->setText(done ? tr("Written: %1").arg(QDir::toNativeSeparators(m_place->path())) : fault);
  m_show->setVisible(done);
}

}  // namespace ductwright::ui
