#include "ui/look/mark_delegate.h"

#include "ui/look/look.h"

namespace ductwright::ui {

void MarkDelegate::initStyleOption(QStyleOptionViewItem* option, const QModelIndex& index) const {
  QStyledItemDelegate::initStyleOption(option, index);
  const QVariant outcome = index.data(m_role);
  if (!outcome.isValid()) return;
  if (m_palette != option->palette.cacheKey()) {
    m_icons.clear();
    m_palette = option->palette.cacheKey();
  }
  QIcon& icon = m_icons[outcome.toInt()];
  if (icon.isNull()) icon = markIcon(static_cast<verdict::Outcome>(outcome.toInt()), option->palette);
  option->icon = icon;
  option->features |= QStyleOptionViewItem::HasDecoration;
  option->decorationSize = QSize(18, 18);
}

}  // namespace ductwright::ui
