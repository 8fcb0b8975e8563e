#include "ui/settings/author_form.h"

#include <QComboBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QSettings>
#include <QSignalBlocker>
#include <QVBoxLayout>

#include "ui/field/fault_label.h"
#include "ui/session/session.h"
#include "ui/words/words.h"

namespace ductwright::ui {
namespace {

const QString kPerson = QStringLiteral("author/person");
const QString kRole = QStringLiteral("author/role");

}  // namespace

AuthorForm::AuthorForm(Session& session, QWidget* parent)
    : QWidget(parent), m_session(session), m_person(new QLineEdit(this)), m_role(new QComboBox(this)),
      m_fault(faultLabel(this)) {
  auto* form = new QFormLayout(this);
  form->setContentsMargins({});
  m_person->setObjectName(QStringLiteral("person"));
  m_person->setAccessibleName(tr("Your name"));
  m_person->setPlaceholderText(tr("as it will stand beside readings and signatures"));
  m_role->setAccessibleName(tr("Your role"));
  for (const fleet::Role role : fleet::valuesOf<fleet::Role>()) m_role->addItem(word(role), static_cast<int>(role));
  auto* personColumn = new QVBoxLayout;
  personColumn->setSpacing(2);
  personColumn->addWidget(m_person);
  personColumn->addWidget(m_fault);
  form->addRow(tr("Your &name"), personColumn);
  qobject_cast<QLabel*>(form->labelForField(personColumn))->setBuddy(m_person);
  form->addRow(tr("Your &role"), m_role);
  showAuthor();
  connect(m_person, &QLineEdit::editingFinished, this, &AuthorForm::take);
  connect(m_person, &QLineEdit::textEdited, this, [this] { tell(m_fault, {}); });
  connect(m_role, &QComboBox::activated, this, &AuthorForm::take);
  connect(&session, &Session::authorChanged, this, &AuthorForm::showAuthor);
}

void AuthorForm::showAuthor() {
  const project::Author& author = m_session.author();
  const QString person = QString::fromStdString(author.person);
  if (m_person->text() != person) m_person->setText(person);
  m_role->setCurrentIndex(m_role->findData(static_cast<int>(author.role)));
}

bool AuthorForm::isComplete() {
  take();
  const bool complete = !m_session.author().person.empty();
  tell(m_fault, complete ? QString() : tr("Write your name: every action carries the name of who did it."));
  if (!complete) m_person->setFocus();
  return complete;
}

void AuthorForm::take() {
  const project::Author author{m_person->text().trimmed().toStdString(),
                               static_cast<fleet::Role>(m_role->currentData().toInt())};
  if (author.person == m_session.author().person && author.role == m_session.author().role) return;
  QSettings settings;
  settings.setValue(kPerson, m_person->text().trimmed());
  settings.setValue(kRole, m_role->currentData());
  m_session.setAuthor(author);
}

project::Author rememberedAuthor() {
  const QSettings settings;
  const int role = settings.value(kRole, 0).toInt();
  const auto roles = fleet::valuesOf<fleet::Role>();
  return {settings.value(kPerson).toString().toStdString(),
          role >= 0 && role < static_cast<int>(roles.size()) ? static_cast<fleet::Role>(role) : fleet::Role::agent};
}

}  // namespace ductwright::ui
