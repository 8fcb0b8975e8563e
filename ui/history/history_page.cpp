#include "ui/history/history_page.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QScrollArea>
#include <QTableView>
#include <QVBoxLayout>

#include "ui/field/fault_label.h"
#include "ui/look/look.h"
#include "ui/rows/table.h"
#include "ui/session/session.h"
#include "ui/words/words.h"

namespace ductwright::ui {
namespace {

constexpr std::size_t kMost = 2000;  // entries shown at once

}  // namespace

HistoryPage::HistoryPage(Session& session, QWidget* parent)
    : QWidget(parent), m_session(session), m_unit(new QLineEdit(this)), m_fault(faultLabel(this)),
      m_table(new QTableView(this)), m_detail(sentence({}, this)) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(kMargin, kMargin, kMargin, kMargin);
  auto* top = new QHBoxLayout;
  top->addWidget(heading(tr("History"), this));
  top->addStretch();
  m_unit->setPlaceholderText(tr("Only of unit…"));
  m_unit->setAccessibleName(tr("Only the history of this unit"));
  m_unit->setClearButtonEnabled(true);
  m_unit->setMinimumWidth(200);
  top->addWidget(m_unit);
  column->addLayout(top);
  column->addWidget(m_fault);
  m_table->setModel(&m_model);
  makeListLike(*m_table);
  m_table->setAccessibleName(tr("History"));
  static constexpr int kWidths[] = {126, 210, 330, 200, 300};
  for (int i = 0; i < HistoryModel::columns; ++i) m_table->setColumnWidth(i, kWidths[i]);
  column->addWidget(m_table, 3);
  m_detail->setAlignment(Qt::AlignTop | Qt::AlignLeft);
  m_detail->setAccessibleName(tr("The chosen action, whole"));
  auto* scroll = new QScrollArea(this);
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setWidget(m_detail);
  column->addWidget(scroll, 1);
  connect(m_table->selectionModel(), &QItemSelectionModel::currentRowChanged, this, &HistoryPage::showCurrent);
  connect(m_unit, &QLineEdit::textChanged, this, &HistoryPage::read);
  connect(&session, &Session::changed, this, [this] {
    if (isVisible()) read();
  });
}

void HistoryPage::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  read();
}

void HistoryPage::read() {
  if (!m_session.isOpen()) return;
  using Entries = std::vector<project::HistoryEntry>;
  m_session.perform<Entries>(
      this,
      [unit = m_unit->text().trimmed().toStdString()](project::OpenProject& project) { return project.history(unit, kMost); },
      [this](const Result<Entries>& entries) {
        tell(m_fault, entries ? QString() : text(entries.error().sentence));
        if (!entries) return;
        m_model.show(*entries);
        if (!m_table->currentIndex().isValid() && m_model.rowCount() > 0) m_table->setCurrentIndex(m_model.index(0, 0));
        showCurrent();
      });
}

void HistoryPage::showCurrent() {
  const QModelIndex index = m_table->currentIndex();
  if (!index.isValid()) return m_detail->clear();
  const project::HistoryEntry& entry = m_model.row(index.row()).entry;
  QStringList lines{text(entry.action)};
  if (!entry.reason.empty()) lines << tr("Because: %1").arg(text(entry.reason));
  for (const std::string& change : entry.changes) lines << text(change);
  if (lines.size() > 200) lines = lines.mid(0, 200) << tr("…");
  m_detail->setText(lines.join(QLatin1Char('\n')));
}

}  // namespace ductwright::ui
