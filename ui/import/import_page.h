#pragma once

#include <QWidget>
#include <optional>

#include "project/import.h"
#include "ui/rows/text_rows.h"

class QCheckBox;
class QComboBox;
class QLabel;
class QLineEdit;
class QProgressBar;
class QPushButton;
class QTabWidget;

namespace ductwright::ui {

class ColumnTable;
class ImportRun;
class PathField;
class Session;

// A table into the project: read, looked at, then taken, all or the good rows, as one action.
class ImportPage : public QWidget {
  Q_OBJECT

 public:
  explicit ImportPage(Session& session, QWidget* parent = nullptr);
  // Shows the preview of a file; without a kind, the file's name is asked.
  void begin(std::optional<project::TableKind> kind, const QString& path);
  [[nodiscard]] const std::optional<project::ImportPreview>& preview() const { return m_preview; }
  [[nodiscard]] ColumnTable& columns() { return *m_columns; }
  [[nodiscard]] ImportRun& run() { return *m_run; }

 public slots:
  void take();
  void cancel();

 signals:
  void imported(ductwright::project::TableKind kind, const QString& outcome);

 private:
  QWidget* source();
  QWidget* decision();
  void makeLists();
  void connectAll();
  void read(const QString& mapping = {});
  void showPreview(const project::ImportPreview& preview);
  void showLists(const project::ImportPreview& preview);
  void showDecision();
  void finish(const project::ImportOutcome& outcome);
  void fail(const QString& sentence);
  void clear();
  [[nodiscard]] project::TableKind kind() const;

  Session& m_session;
  ImportRun* m_run;
  std::optional<project::ImportPreview> m_preview;
  bool m_taking = false;
  QComboBox* m_kind = nullptr;
  PathField* m_path = nullptr;
  QComboBox* m_sheet = nullptr;
  QLabel* m_sheetLabel = nullptr;
  QLabel* m_summary;
  QLabel* m_fault;
  QTabWidget* m_tabs;
  ColumnTable* m_columns;
  TextRows* m_problems;
  TextRows* m_changes;
  QCheckBox* m_goodOnly = nullptr;
  QLineEdit* m_reason = nullptr;
  QProgressBar* m_progress = nullptr;
  QPushButton* m_take = nullptr;
  QPushButton* m_cancel = nullptr;
};

}  // namespace ductwright::ui
