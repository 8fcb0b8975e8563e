#pragma once

#include <QWidget>
#include <optional>

#include "project/project.h"

class QLabel;

namespace ductwright::ui {

// What the reading being typed would make of its check and of the unit, before it is recorded.
class FormingVerdict : public QWidget {
  Q_OBJECT

 public:
  explicit FormingVerdict(QWidget* parent = nullptr);
  // `before` is the verdict as it stands.
  void show(const verdict::UnitVerdict& forming, const verdict::UnitVerdict* before, const project::NewReading& reading,
            quantity::System system);
  void clear(const QString& hint);
  [[nodiscard]] QString words() const;

 private:
  QLabel* m_mark;
  QLabel* m_check;
  QLabel* m_unit;
};

}  // namespace ductwright::ui
