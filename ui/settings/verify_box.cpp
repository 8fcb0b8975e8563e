#include "ui/settings/verify_box.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QProgressBar>
#include <QPushButton>
#include <QVBoxLayout>

#include "ui/look/look.h"
#include "ui/session/session.h"
#include "ui/words/words.h"

namespace ductwright::ui {

VerifyBox::VerifyBox(Session& session, QWidget* parent)
    : QWidget(parent), m_session(session), m_verify(new QPushButton(tr("Verify the file"), this)),
      m_cancel(new QPushButton(tr("Cancel"), this)), m_progress(new QProgressBar(this)), m_outcome(sentence({}, this)) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins({});
  column->addWidget(quiet(tr("Computes every record's digest, the journal's chain and the signatures anew."), this));
  auto* row = new QHBoxLayout;
  row->addWidget(m_verify);
  row->addWidget(m_progress, 1);
  row->addWidget(m_cancel);
  row->addStretch();
  column->addLayout(row);
  column->addWidget(m_outcome);
  m_progress->setRange(0, 1000);
  m_progress->setAccessibleName(tr("Progress of the verification"));
  m_outcome->setAccessibleName(tr("Outcome of the verification"));
  connect(m_verify, &QPushButton::clicked, this, &VerifyBox::verify);
  connect(m_cancel, &QPushButton::clicked, this, [this] {
    m_stop.request_stop();
    setRunning(false);
    m_outcome->setText(tr("Cancelled."));
  });
  connect(&session, &Session::opened, m_outcome, &QLabel::clear);
  setRunning(false);
}

void VerifyBox::verify() {
  m_stop = {};
  m_outcome->clear();
  m_progress->setValue(0);
  setRunning(true);
  const std::stop_token token = m_stop.get_token();
  m_session.performLong<project::Integrity>(
      this,
      [](project::OpenProject& project, const project::Progress& progress, std::stop_token stop) {
        return project.verify(progress, stop);
      },
      token, [this](double share) { m_progress->setValue(static_cast<int>(share * 1000)); },
      [this, token](const Result<project::Integrity>& integrity) {
        if (!token.stop_requested()) tellOutcome(integrity);
      });
}

void VerifyBox::tellOutcome(const Result<project::Integrity>& integrity) {
  setRunning(false);
  const bool sound = integrity && integrity->sound;
  setInk(m_outcome, sound ? palette().color(QPalette::WindowText) : faultInk(palette()));
  if (!integrity) return m_outcome->setText(text(integrity.error().sentence));
  if (sound) return m_outcome->setText(tr("The file is sound."));
  QStringList findings;
  for (const std::string& finding : integrity->findings) findings << text(finding);
  m_outcome->setText(findings.mid(0, 20).join(QLatin1Char('\n')));
}

void VerifyBox::setRunning(bool running) {
  m_verify->setEnabled(!running);
  m_progress->setVisible(running);
  m_cancel->setVisible(running);
}

QString VerifyBox::words() const { return m_outcome->text(); }

}  // namespace ductwright::ui
