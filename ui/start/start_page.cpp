#include "ui/start/start_page.h"

#include <QDir>
#include <QFileDialog>
#include <QFileInfo>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QListWidget>
#include <QProgressBar>
#include <QPushButton>
#include <QStackedWidget>
#include <QVBoxLayout>

#include "ui/field/fault_label.h"
#include "ui/look/look.h"
#include "ui/settings/author_form.h"
#include "ui/start/new_project_form.h"
#include "ui/start/recent.h"

namespace ductwright::ui {

StartPage::StartPage(Session& session, QWidget* parent)
    : QWidget(parent), m_author(new AuthorForm(session, this)), m_new(new NewProjectForm(this)),
      m_stack(new QStackedWidget(this)), m_fault(faultLabel(this)), m_busyText(sentence({}, this)),
      m_busy(new QProgressBar(this)) {
  auto* column = new QVBoxLayout;
  column->setSpacing(kGap * 2);
  column->addWidget(heading(tr("Prove every terminal unit of a building"), this));
  column->addWidget(sentence(tr("From the design schedule, through the readings taken at the box, to a verdict for "
                                "each unit, a closed deficiency list, signatures and a report."),
                             this));
  m_author->setMaximumWidth(460);
  column->addWidget(m_author);
  column->addWidget(m_fault);
  m_busy->setRange(0, 0);
  m_busy->setTextVisible(false);
  m_busy->setAccessibleName(tr("Working"));
  column->addWidget(m_busyText);
  column->addWidget(m_busy);
  m_stack->addWidget(ways());
  m_stack->addWidget(m_new);
  column->addWidget(m_stack, 1);
  setBusy({});

  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(kMargin * 2, kMargin * 2, kMargin * 2, kMargin);
  row->addLayout(column, 4);
  row->addStretch(1);

  connect(m_new, &NewProjectForm::cancelled, this, [this] { m_stack->setCurrentIndex(0); });
  connect(m_new, &NewProjectForm::wanted, this, [this](const auto& path, const auto& project, const auto& schedule) {
    if (m_author->isComplete()) emit createWanted(path, project, schedule);
  });
}

QWidget* StartPage::ways() {
  auto* page = new QWidget(this);
  auto* column = new QVBoxLayout(page);
  column->setContentsMargins({});
  auto* grid = new QGridLayout;
  grid->setHorizontalSpacing(kMargin);
  grid->setVerticalSpacing(kGap);
  grid->setColumnStretch(1, 1);
  int row = 0;
  const auto way = [&](const QString& label, const QString& name, const QString& words, auto act) {
    auto* button = new QPushButton(label, page);
    button->setObjectName(name);
    button->setMinimumHeight(kTarget);
    button->setMinimumWidth(220);
    grid->addWidget(button, row, 0);
    grid->addWidget(sentence(words, page), row, 1);
    ++row;
    connect(button, &QPushButton::clicked, this, act);
  };
  way(tr("&New from a schedule…"), QStringLiteral("new"),
      tr("Begin with the mechanical schedule, CSV or XLSX: one row a unit."), &StartPage::beginNew);
  way(tr("&Open a project…"), QStringLiteral("open"), tr("Go on with a project file (.ductwright)."),
      &StartPage::chooseProject);
  way(tr("Open the &sample"), QStringLiteral("sample"),
      tr("A copy of an invented building, with readings and planted faults, to look around in."),
      [this] { whenNamed([this] { emit sampleWanted(); }); });
  column->addLayout(grid);

  m_recentTitle = subheading(tr("Recent"), page);
  m_recent = new QListWidget(page);
  m_recent->setAccessibleName(tr("Recent projects"));
  m_recent->setFrameShape(QFrame::NoFrame);
  column->addSpacing(kMargin);
  column->addWidget(m_recentTitle);
  column->addWidget(m_recent, 1);
  column->addStretch();
  connect(m_recent, &QListWidget::itemActivated, this, [this](QListWidgetItem* item) {
    const QString path = item->data(Qt::UserRole).toString();
    whenNamed([this, path] { emit openWanted(path); });
  });
  showRecent();
  return page;
}

void StartPage::showRecent() {
  m_recent->clear();
  for (const QString& path : recentProjects()) {
    const QFileInfo file(path);
    auto* item = new QListWidgetItem(
        //: A project's name and the folder it is in.
        tr("%1 — %2").arg(file.completeBaseName(), QDir::toNativeSeparators(file.absolutePath())), m_recent);
    item->setData(Qt::UserRole, path);
    item->setSizeHint(QSize(0, kTarget - 8));
  }
  m_recentTitle->setVisible(m_recent->count() > 0);
  m_recent->setVisible(m_recent->count() > 0);
  if (m_recent->count() > 0) m_recent->setCurrentRow(0);
}

void StartPage::whenNamed(const std::function<void()>& act) {
  tell(m_fault, {});
  if (m_author->isComplete()) act();
}

void StartPage::beginNew() {
  tell(m_fault, {});
  m_stack->setCurrentIndex(1);
  m_new->setFocus();
}

void StartPage::chooseProject() {
  whenNamed([this] {
    const QString path = QFileDialog::getOpenFileName(this, tr("Open a project"), {}, tr("Projects (*.ductwright)"));
    if (!path.isEmpty()) emit openWanted(path);
  });
}

void StartPage::setBusy(const QString& what) {
  m_busyText->setText(what);
  m_busyText->setHidden(what.isEmpty());
  m_busy->setHidden(what.isEmpty());
  m_stack->setEnabled(what.isEmpty());
  if (what.isEmpty()) m_stack->setCurrentIndex(m_stack->currentIndex());
}

void StartPage::tellFault(const QString& sentence) {
  if (m_stack->currentIndex() == 1) m_new->tellFault(sentence);
  else tell(m_fault, sentence);
}

}  // namespace ductwright::ui
