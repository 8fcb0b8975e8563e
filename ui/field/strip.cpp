#include "ui/field/strip.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>

#include "ui/look/look.h"

namespace ductwright::ui {

Strip::Strip(QWidget* parent) : QWidget(parent) {
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(kMargin, kGap / 2, kMargin, kGap / 2);
  m_sentence = ui::sentence({}, this);
  m_sentence->setAccessibleName(tr("Message"));
  m_reason = new QLineEdit(this);
  m_reason->setPlaceholderText(tr("Reason"));
  m_reason->setAccessibleName(tr("Reason"));
  m_act = new QPushButton(this);
  auto* hide = new QPushButton(tr("Dismiss"), this);
  hide->setAccessibleName(tr("Dismiss the message"));
  row->addWidget(m_sentence, 1);
  row->addWidget(m_reason, 1);
  row->addWidget(m_act);
  row->addWidget(hide);
  setAutoFillBackground(true);
  setBackgroundRole(QPalette::ToolTipBase);
  setForegroundRole(QPalette::ToolTipText);
  m_sentence->setForegroundRole(QPalette::ToolTipText);
  QWidget::hide();
  connect(hide, &QPushButton::clicked, this, &QWidget::hide);
  const auto act = [this] {
    if (m_reason->text().trimmed().isEmpty()) return m_reason->setFocus();
    QWidget::hide();
    m_then(m_reason->text().trimmed());
  };
  connect(m_act, &QPushButton::clicked, this, act);
  connect(m_reason, &QLineEdit::returnPressed, this, act);
}

void Strip::say(const QString& sentence) {
  m_sentence->setText(sentence);
  m_reason->hide();
  m_act->hide();
  setVisible(!sentence.isEmpty());
}

void Strip::ask(const QString& sentence, const QString& action, const std::function<void(const QString&)>& act) {
  m_sentence->setText(sentence);
  m_reason->clear();
  m_reason->show();
  m_act->setText(action);
  m_act->show();
  m_then = act;
  show();
  m_reason->setFocus();
}

QString Strip::sentence() const { return isHidden() ? QString() : m_sentence->text(); }

}  // namespace ductwright::ui
