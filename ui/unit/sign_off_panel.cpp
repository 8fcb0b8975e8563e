#include "ui/unit/sign_off_panel.h"

#include <QComboBox>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include "ui/field/fault_label.h"
#include "ui/look/look.h"
#include "ui/session/session.h"
#include "ui/settings/author_form.h"
#include "ui/words/words.h"

namespace ductwright::ui {

SignOffPanel::SignOffPanel(Session& session, QWidget* parent)
    : QWidget(parent), m_session(session), m_state(sentence({}, this)), m_signatures(sentence({}, this)),
      m_author(new AuthorForm(session, this)), m_meaning(new QComboBox(this)), m_exceptionsLabel(sentence({}, this)),
      m_exceptions(new QPlainTextEdit(this)), m_fault(faultLabel(this)), m_sign(new QPushButton(tr("Sign this unit"), this)) {
  auto* row = new QHBoxLayout(this);
  row->setSpacing(kMargin * 2);
  row->addWidget(form(), 1);
  auto* side = new QVBoxLayout;
  side->setSpacing(6);
  side->addWidget(subheading(tr("Signatures"), this));
  m_signatures->setAccessibleName(tr("Signatures of this unit"));
  side->addWidget(m_signatures);
  side->addSpacing(kMargin);
  side->addWidget(subheading(tr("What a signature claims"), this));
  side->addWidget(sentence(tr("The signed schedule, readings, instruments, criteria and verdict are frozen by their digest. "
                              "Any later change of them shows the signature as broken, with who, when and why. The digest is "
                              "printed in the report."),
                           this));
  side->addSpacing(kMargin);
  side->addWidget(subheading(tr("What it does not claim"), this));
  side->addWidget(quiet(tr("It is not a qualified electronic signature, not a trusted time, and no claim of compliance with a "
                           "regulation. That the whole file was set back to an earlier copy shows only against a digest kept "
                           "elsewhere, such as a printed report."),
                        this));
  side->addStretch();
  row->addLayout(side, 1);
}

QWidget* SignOffPanel::form() {
  auto* box = new QWidget(this);
  auto* column = new QVBoxLayout(box);
  column->setContentsMargins({});
  column->addWidget(subheading(tr("Sign"), box));
  column->addWidget(m_state);
  column->addWidget(m_author);
  m_meaning->setEditable(true);
  m_meaning->setAccessibleName(tr("Meaning of the signature"));
  m_meaning->addItem(tr("Tested as recorded; results reviewed"));
  m_meaning->addItem(tr("Results reviewed and accepted"));
  m_meaning->addItem(tr("Witnessed on site"));
  auto* meaning = new QLabel(tr("&Meaning"), box);
  meaning->setBuddy(m_meaning);
  column->addWidget(meaning);
  column->addWidget(m_meaning);
  column->addWidget(m_exceptionsLabel);
  m_exceptions->setAccessibleName(tr("Exceptions"));
  m_exceptions->setTabChangesFocus(true);
  m_exceptions->setMaximumHeight(96);
  column->addWidget(m_exceptions);
  column->addWidget(m_fault);
  m_sign->setMinimumHeight(kTarget);
  column->addWidget(m_sign);
  column->addStretch();
  connect(m_sign, &QPushButton::clicked, this, &SignOffPanel::sign);
  return box;
}

void SignOffPanel::show(std::shared_ptr<const fleet::UnitRecord> record, const verdict::UnitVerdict* verdict) {
  const bool sameUnit = m_record && record && m_record->unit.id == record->unit.id;
  m_record = std::move(record);
  if (!m_record || !verdict) return;
  if (!sameUnit) {
    m_exceptions->clear();
    tell(m_fault, {});
  }
  const bool pass = verdict->outcome == verdict::Outcome::pass;
  m_state->setText(pass ? tr("The unit passes with score %1.").arg(scoreText(verdict->score))
                        : tr("The unit is: %1. It can be signed only with its exceptions named.").arg(word(verdict->outcome)));
  m_exceptionsLabel->setText(pass ? tr("Exceptions, if any") : tr("Exceptions (needed)"));
  m_sign->setEnabled(!m_session.state().readOnly);
  showSignatures();
}

void SignOffPanel::showSignatures() {
  QStringList lines;
  for (auto it = m_record->signOffs.rbegin(); it != m_record->signOffs.rend(); ++it) {
    const fleet::SignOff& signOff = *it;
    const QString signedBy = tr("%1, %2, %3: %4")
                                 .arg(text(signOff.person), word(signOff.role), text(signOff.at.shortText()), text(signOff.meaning));
    if (signOff.brokenBecause.empty()) {
      //: A signature that stands, then the beginning of its digest.
      lines << tr("Stands. %1 (digest %2…)").arg(signedBy, text(signOff.digest).left(16));
    } else {
      lines << tr("Broken on %1 by %2, because: %3. It was: %4")
                   .arg(signOff.brokenAt ? text(signOff.brokenAt->shortText()) : dash(), text(signOff.brokenBy),
                        text(signOff.brokenBecause), signedBy);
    }
  }
  m_signatures->setText(lines.isEmpty() ? tr("Nobody has signed this unit yet.") : lines.join(QStringLiteral("\n\n")));
}

QString SignOffPanel::words() const { return m_signatures->text(); }

void SignOffPanel::sign() {
  if (!m_record || !m_author->isComplete()) return;
  m_sign->setEnabled(false);
  m_session.perform<fleet::SignOffId>(
      this,
      [unit = m_record->unit.id, meaning = m_meaning->currentText().trimmed().toStdString(),
       exceptions = m_exceptions->toPlainText().trimmed().toStdString()](project::OpenProject& project) {
        return project.signOff(unit, meaning, exceptions);
      },
      [this](const Result<fleet::SignOffId>& done) {
        m_sign->setEnabled(!m_session.state().readOnly);
        tell(m_fault, done ? QString() : text(done.error().sentence));
        if (done) m_exceptions->clear();
      });
}

}  // namespace ductwright::ui
