#pragma once

#include <QHash>
#include <QStyledItemDelegate>

namespace ductwright::ui {

// Puts the state's mark before a cell's word, where the model gives an outcome under `role`.
class MarkDelegate : public QStyledItemDelegate {
  Q_OBJECT

 public:
  MarkDelegate(int role, QObject* parent) : QStyledItemDelegate(parent), m_role(role) {}

 protected:
  void initStyleOption(QStyleOptionViewItem* option, const QModelIndex& index) const override;

 private:
  int m_role;
  mutable QHash<int, QIcon> m_icons;
  mutable qint64 m_palette = 0;
};

}  // namespace ductwright::ui
