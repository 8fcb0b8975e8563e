#include "ui/settings/project_page.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QTabWidget>
#include <QVBoxLayout>

#include "ui/look/look.h"
#include "ui/session/session.h"
#include "ui/settings/author_form.h"
#include "ui/settings/criteria_form.h"
#include "ui/settings/describe_form.h"
#include "ui/settings/verify_box.h"

namespace ductwright::ui {

ProjectPage::ProjectPage(Session& session, QWidget* parent)
    : QWidget(parent), m_session(session), m_describe(new DescribeForm(session, this)),
      m_criteria(new CriteriaForm(session, this)), m_verify(new VerifyBox(session, this)) {
  auto* first = new QWidget(this);
  auto* column = new QVBoxLayout;
  column->addWidget(subheading(tr("The project"), first));
  column->addWidget(m_describe);
  column->addSpacing(kMargin);
  column->addWidget(subheading(tr("Who works"), first));
  column->addWidget(new AuthorForm(session, first));
  column->addSpacing(kMargin);
  column->addWidget(subheading(tr("The file"), first));
  column->addWidget(m_verify);
  column->addStretch();
  auto* row = new QHBoxLayout(first);
  row->addLayout(column, 2);
  row->addStretch(1);
  auto* tabs = new QTabWidget(this);
  tabs->setDocumentMode(true);
  tabs->setAccessibleName(tr("Parts of the project"));
  tabs->addTab(first, tr("Project"));
  tabs->addTab(m_criteria, tr("Acceptance criteria"));
  auto* page = new QVBoxLayout(this);
  page->setContentsMargins(kMargin, kMargin, kMargin, kMargin);
  page->addWidget(heading(tr("Project"), this));
  page->addWidget(tabs, 1);
  connect(&session, &Session::opened, this, &ProjectPage::showState);
  connect(&session, &Session::changed, this, [this](const project::Notice& notice) {
    if (notice.designChanged) showState();
  });
}

void ProjectPage::showState() {
  m_describe->showState();
  m_criteria->showState();
}

}  // namespace ductwright::ui
