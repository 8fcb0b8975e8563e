#pragma once

#include <QWidget>

#include "project/project.h"
#include "ui/rows/text_rows.h"

class QLabel;
class QTabWidget;
class QTableView;

namespace ductwright::ui {

class Session;

// The desk review: what is wrong with the schedule before anyone goes on site, which controller profiles would
// serve, what the controllers hold instead, and what many units have in common.
class ReviewPage : public QWidget {
  Q_OBJECT

 public:
  explicit ReviewPage(Session& session, QWidget* parent = nullptr);
  [[nodiscard]] TextRows& findings() { return *m_findings; }

 signals:
  void unitChosen(ductwright::fleet::UnitId unit);

 protected:
  void showEvent(QShowEvent* event) override;

 private:
  struct Lists {
    std::vector<TextRow> findings, profiles, settings, patterns;
  };

  TextRows* addList(const QStringList& headers, const QSet<int>& numeric, const QList<int>& widths, const QString& title,
                    const QString& empty);
  void review();
  void take(const Lists& lists);
  [[nodiscard]] static Lists listsOf(const project::State& state);

  Session& m_session;
  bool m_stale = true;
  QLabel* m_count;
  QTabWidget* m_tabs;
  TextRows* m_findings;
  TextRows* m_profiles;
  TextRows* m_settings;
  TextRows* m_patterns;
};

}  // namespace ductwright::ui
