#pragma once

#include <QWidget>

#include "project/project.h"

class QComboBox;
class QLabel;
class QLineEdit;

namespace ductwright::ui {

class PathField;
class QuantityField;

// What a new project needs: the schedule it begins with, a name, the units, the site's elevation, a place.
class NewProjectForm : public QWidget {
  Q_OBJECT

 public:
  explicit NewProjectForm(QWidget* parent = nullptr);
  void tellFault(const QString& sentence);

 signals:
  void wanted(const QString& projectPath, const ductwright::project::NewProject& project, const QString& schedule);
  void cancelled();

 private:
  void suggestFromSchedule();
  void suggestPlace();
  void submit();

  PathField* m_schedule;
  QLineEdit* m_name;
  QLabel* m_nameFault;
  QComboBox* m_system;
  QuantityField* m_elevation;
  PathField* m_place;
  QString m_suggestedPlace;
};

}  // namespace ductwright::ui
