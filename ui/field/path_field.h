#pragma once

#include <QWidget>

class QLabel;
class QLineEdit;

namespace ductwright::ui {

// A path that is typed or chosen in the platform's own dialog.
class PathField : public QWidget {
  Q_OBJECT

 public:
  enum class For { opening, saving };

  PathField(For use, const QString& accessibleName, const QString& filter, QWidget* parent = nullptr);
  [[nodiscard]] QString path() const;
  void setPath(const QString& path);
  void setFilter(const QString& filter) { m_filter = filter; }
  void tellFault(const QString& sentence);
  [[nodiscard]] QLineEdit* line() const { return m_line; }

 signals:
  void changed();

 private:
  void browse();

  For m_use;
  QString m_filter;
  QLineEdit* m_line;
  QLabel* m_fault;
};

}  // namespace ductwright::ui
