#include "ui/import/import_page.h"

#include <QCheckBox>
#include <QComboBox>
#include <QFileInfo>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QProgressBar>
#include <QPushButton>
#include <QSignalBlocker>
#include <QTabWidget>
#include <QTableView>
#include <QVBoxLayout>

#include "ui/field/fault_label.h"
#include "ui/field/path_field.h"
#include "ui/import/column_table.h"
#include "ui/import/import_run.h"
#include "ui/look/look.h"
#include "ui/rows/table.h"
#include "ui/session/session.h"
#include "ui/words/words.h"

namespace ductwright::ui {
namespace {

using project::ImportChange;
using project::TableKind;

struct Kind {
  TableKind kind;
  QString words;
  const char* inName;  // of a file, by habit
};

std::vector<Kind> kinds() {
  return {{TableKind::schedule, ImportPage::tr("Schedule: the terminal units"), "schedule"},
          {TableKind::readings, ImportPage::tr("Readings"), "reading"},
          {TableKind::instruments, ImportPage::tr("Instruments and their accuracy"), "instrument"},
          {TableKind::airHandlers, ImportPage::tr("Air handlers"), "handler"},
          {TableKind::profiles, ImportPage::tr("Controller profiles"), "profile"},
          {TableKind::roomSensors, ImportPage::tr("Room sensors"), "sensor"},
          {TableKind::segments, ImportPage::tr("Network segments"), "segment"},
          {TableKind::settings, ImportPage::tr("Settings as found"), "setting"}};
}

QString whatWord(ImportChange::What what) {
  switch (what) {
    case ImportChange::What::added: return ImportPage::tr("added");
    case ImportChange::What::changed: return ImportPage::tr("changed");
    case ImportChange::What::unchanged: return ImportPage::tr("unchanged");
    case ImportChange::What::dropped: return ImportPage::tr("not in the file");
  }
  return {};
}

QTableView* listView(TextRows* model, const QString& name, const QList<int>& widths) {
  auto* table = new QTableView;
  table->setModel(model);
  makeListLike(*table);
  table->setAccessibleName(name);
  for (int i = 0; i < widths.size(); ++i) table->setColumnWidth(i, widths[i]);
  QObject::connect(model, &QAbstractItemModel::rowsInserted, table, [table, model] {
    if (!table->currentIndex().isValid()) table->setCurrentIndex(model->index(0, 0));
  });
  return table;
}

}  // namespace

ImportPage::ImportPage(Session& session, QWidget* parent)
    : QWidget(parent), m_session(session), m_run(new ImportRun(session, this)), m_summary(sentence({}, this)),
      m_fault(faultLabel(this)), m_tabs(new QTabWidget(this)), m_columns(new ColumnTable(this)) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(kMargin, kMargin, kMargin, kMargin);
  column->addWidget(heading(tr("Import"), this));
  column->addWidget(source());
  column->addWidget(m_summary);
  column->addWidget(m_fault);
  makeLists();
  column->addWidget(m_tabs, 1);
  column->addWidget(decision());
  connectAll();
  clear();
}

QWidget* ImportPage::source() {
  auto* box = new QWidget(this);
  auto* form = new QFormLayout(box);
  form->setContentsMargins({});
  m_kind = new QComboBox(box);
  m_kind->setAccessibleName(tr("What the file holds"));
  for (const Kind& kind : kinds()) m_kind->addItem(kind.words, static_cast<int>(kind.kind));
  m_path = new PathField(PathField::For::opening, tr("File to import"), tr("Tables (*.csv *.xlsx *.tsv *.txt)"), box);
  m_sheet = new QComboBox(box);
  m_sheet->setAccessibleName(tr("Sheet of the workbook"));
  form->addRow(tr("&What it holds"), m_kind);
  form->addRow(tr("&File (CSV or XLSX)"), m_path);
  form->addRow(tr("&Sheet"), m_sheet);
  m_sheetLabel = qobject_cast<QLabel*>(form->labelForField(m_sheet));
  return box;
}

void ImportPage::makeLists() {
  m_problems = new TextRows({tr("Row"), tr("Column"), tr("The row"), tr("What was found, what to do")}, {0}, this);
  m_changes = new TextRows({tr("What"), tr("Row"), tr("Subject"), tr("Details")}, {1}, this);
  m_tabs->setDocumentMode(true);
  m_tabs->setAccessibleName(tr("Parts of the preview"));
  m_tabs->addTab(m_columns, tr("Columns"));
  m_tabs->addTab(listView(m_problems, tr("Problems"), {60, 180, 110, 560}), tr("Problems"));
  m_tabs->addTab(listView(m_changes, tr("Changes"), {110, 60, 140, 560}), tr("Changes"));
}

QWidget* ImportPage::decision() {
  auto* box = new QWidget(this);
  auto* column = new QVBoxLayout(box);
  column->setContentsMargins({});
  m_goodOnly = new QCheckBox(box);
  column->addWidget(m_goodOnly);
  auto* row = new QHBoxLayout;
  m_reason = new QLineEdit(box);
  m_reason->setPlaceholderText(tr("Reason (needed where a signed unit changes)"));
  m_reason->setAccessibleName(tr("Reason for the import"));
  m_take = new QPushButton(tr("Import"), box);
  m_take->setObjectName(QStringLiteral("take"));
  m_cancel = new QPushButton(tr("Cancel"), box);
  m_progress = new QProgressBar(box);
  m_progress->setRange(0, 1000);
  m_progress->setAccessibleName(tr("Progress of the import"));
  for (QWidget* widget : std::initializer_list<QWidget*>{m_reason, m_take, m_cancel}) widget->setMinimumHeight(kTarget);
  row->addWidget(m_reason, 1);
  row->addWidget(m_progress, 1);
  row->addWidget(m_take);
  row->addWidget(m_cancel);
  column->addLayout(row);
  return box;
}

void ImportPage::connectAll() {
  connect(m_path, &PathField::changed, this, [this] { read(); });
  connect(m_kind, &QComboBox::currentIndexChanged, this, [this] { read(); });
  connect(m_sheet, &QComboBox::activated, this, [this] { read(); });
  connect(m_columns, &ColumnTable::mappingChanged, this, &ImportPage::read);
  connect(m_goodOnly, &QCheckBox::toggled, this, &ImportPage::showDecision);
  connect(m_take, &QPushButton::clicked, this, &ImportPage::take);
  connect(m_cancel, &QPushButton::clicked, this, &ImportPage::cancel);
  connect(m_run, &ImportRun::progressed, this, [this](double share) {
    m_progress->setValue(static_cast<int>(share * 1000));
    showDecision();
  });
  connect(m_run, &ImportRun::previewed, this, &ImportPage::showPreview);
  connect(m_run, &ImportRun::imported, this, &ImportPage::finish);
  connect(m_run, &ImportRun::failed, this, &ImportPage::fail);
  connect(m_run, &ImportRun::cancelled, this, [this] {
    m_taking = false;
    m_summary->setText(tr("Cancelled: the project is as it was."));
    showDecision();
  });
  connect(&m_session, &Session::closed, this, [this] {
    m_run->cancel();
    m_path->setPath({});
    clear();
  });
}

TableKind ImportPage::kind() const { return static_cast<TableKind>(m_kind->currentData().toInt()); }

void ImportPage::begin(std::optional<TableKind> wanted, const QString& path) {
  {
    const QSignalBlocker block(m_kind);
    const QString name = QFileInfo(path).fileName().toLower();
    for (const Kind& kind : kinds())
      if (wanted ? kind.kind == *wanted : name.contains(QLatin1String(kind.inName)))
        m_kind->setCurrentIndex(m_kind->findData(static_cast<int>(kind.kind)));
  }
  if (m_path->path() == path) return read();
  m_path->setPath(path);
}

void ImportPage::read(const QString& mapping) {
  if (m_taking) return;
  const QString path = m_path->path();
  if (!m_session.isOpen() || !QFileInfo(path).isFile()) {
    m_run->cancel();
    clear();
    return m_path->tellFault(path.isEmpty() ? QString() : tr("There is no such file."));
  }
  m_path->tellFault({});
  tell(m_fault, {});
  m_summary->setText(tr("Reading the file…"));
  const bool sameFile = m_preview && m_preview->request.path == path.toStdString();
  project::ImportRequest request{kind(), path.toStdString(), {}, mapping.toStdString()};
  if (sameFile && m_sheet->count() > 1) request.sheet = m_sheet->currentText().toStdString();
  m_preview.reset();
  m_run->preview(request);
}

void ImportPage::showPreview(const project::ImportPreview& preview) {
  m_preview = preview;
  if (preview.request.sheet.empty() || m_sheet->count() != static_cast<int>(preview.sheets.size())) {
    m_sheet->clear();
    for (const std::string& sheet : preview.sheets) m_sheet->addItem(text(sheet));
  }
  m_sheet->setVisible(preview.sheets.size() > 1);
  m_sheetLabel->setVisible(preview.sheets.size() > 1);
  m_columns->show(preview);
  showLists(preview);
  if (!preview.missing.empty()) {
    QStringList missing;
    for (const std::string& name : preview.missing) missing << text(name);
    m_summary->setText(tr("No column was found for: %1. Say below which column holds it.").arg(missing.join(QStringLiteral(", "))));
    m_tabs->setCurrentIndex(0);
  } else {
    m_summary->setText(tr("%n row(s): %1 to add, %2 to change, %3 unchanged, %4 with problems that keep them out.", nullptr,
                          static_cast<int>(preview.rows))
                           .arg(preview.added)
                           .arg(preview.changed)
                           .arg(preview.unchanged)
                           .arg(preview.rows - std::min(preview.rows, preview.good)) +
                       //: %1 is the kind of file, its encoding, the mark between its cells and its decimal mark.
                       QLatin1Char(' ') + tr("Read as %1.").arg(text(preview.recognised)));
    m_tabs->setCurrentIndex(preview.good < preview.rows ? 1 : preview.changes.empty() ? 0 : 2);
  }
  m_goodOnly->setChecked(false);
  showDecision();
}

void ImportPage::showLists(const project::ImportPreview& preview) {
  std::vector<TextRow> problems, changes;
  for (const project::ImportProblem& of : preview.problems)
    problems.push_back({{of.row > 0 ? QString::number(of.row) : QString(), text(of.column), of.stops ? tr("stays out") : tr("goes in"),
                         text(of.sentence)},
                        {}});
  for (const ImportChange& of : preview.changes) {
    QStringList details;
    for (const std::string& detail : of.details) details << text(detail);
    changes.push_back({{whatWord(of.what), of.row > 0 ? QString::number(of.row) : QString(), text(of.subject),
                        details.join(QStringLiteral("; "))},
                       {}});
  }
  m_tabs->setTabText(1, tr("Problems (%1)").arg(problems.size()));
  m_tabs->setTabText(2, tr("Changes (%1)").arg(changes.size()));
  m_problems->show(std::move(problems));
  m_changes->show(std::move(changes));
}

void ImportPage::showDecision() {
  const bool running = m_run->isRunning();
  const bool whole = m_preview && m_preview->missing.empty();
  const bool bad = whole && m_preview->good < m_preview->rows;
  m_goodOnly->setVisible(bad && !running);
  if (bad) m_goodOnly->setText(tr("Take the %1 good rows alone and leave the others out").arg(m_preview->good));
  m_take->setEnabled(whole && !running && m_preview->good > 0 && (!bad || m_goodOnly->isChecked()) && !m_session.state().readOnly);
  m_cancel->setVisible(running);
  m_progress->setVisible(running);
  m_reason->setVisible(!running);
  for (QWidget* field : std::initializer_list<QWidget*>{m_kind, m_path, m_sheet, m_columns}) field->setEnabled(!m_taking);
}

void ImportPage::take() {
  if (!m_preview || !m_take->isEnabled()) return;
  tell(m_fault, {});
  m_taking = true;
  project::ImportPreview wanted = *m_preview;
  wanted.onlyGoodRows = m_goodOnly->isChecked();
  m_run->import(wanted, m_reason->text().trimmed());
  showDecision();
}

void ImportPage::cancel() { m_run->cancel(); }

void ImportPage::finish(const project::ImportOutcome& outcome) {
  m_taking = false;
  const QString words = tr("Imported: %1 added, %2 changed, %3 unchanged, %4 left out. Undo takes it back as one action.")
                            .arg(outcome.added)
                            .arg(outcome.changed)
                            .arg(outcome.unchanged)
                            .arg(outcome.skipped);
  const TableKind taken = kind();
  m_reason->clear();
  {
    const QSignalBlocker block(m_path);
    m_path->setPath({});
  }
  clear();
  m_summary->setText(words);
  emit imported(taken, words);
}

void ImportPage::fail(const QString& sentence) {
  m_taking = false;
  if (!m_preview) m_summary->clear();
  tell(m_fault, sentence);
  showDecision();
}

void ImportPage::clear() {
  m_preview.reset();
  m_sheet->clear();
  m_sheet->hide();
  m_sheetLabel->hide();
  m_columns->show({});
  showLists({});
  tell(m_fault, {});
  m_summary->setText(tr("Choose a file. Nothing is stored before you have seen what it would do."));
  showDecision();
}

}  // namespace ductwright::ui
