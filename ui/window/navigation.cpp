#include "ui/window/navigation.h"

#include <QEvent>
#include <QSignalBlocker>
#include <array>

#include "ui/look/look.h"

namespace ductwright::ui {

Navigation::Navigation(QWidget* parent) : QListWidget(parent) {
  setAccessibleName(tr("Pages"));
  setFrameShape(QFrame::NoFrame);
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  setIconSize(QSize(20, 20));
  setUniformItemSizes(true);
  for (int i = 0; i < kPages; ++i) {
    auto* item = new QListWidgetItem(title(static_cast<Page>(i)), this);
    item->setSizeHint(QSize(0, kTarget));
    item->setData(Qt::AccessibleTextRole, item->text());
  }
  setFixedWidth(fontMetrics().horizontalAdvance(title(Page::deficiencies)) + 76);
  setCurrentRow(0);
  drawIcons();
  connect(this, &QListWidget::currentRowChanged, this, [this](int row) {
    if (row >= 0) emit wanted(static_cast<Page>(row));
  });
}

void Navigation::goTo(Page page) {
  const QSignalBlocker block(this);
  setCurrentRow(static_cast<int>(page));
}

void Navigation::setReachable(Page page, bool reachable) {
  QListWidgetItem* of = item(static_cast<int>(page));
  of->setFlags(reachable ? Qt::ItemIsSelectable | Qt::ItemIsEnabled : Qt::NoItemFlags);
}

QString Navigation::title(Page page) {
  switch (page) {
    case Page::start: return tr("Start");
    case Page::fleet: return tr("Fleet");
    case Page::unit: return tr("Unit");
    case Page::deficiencies: return tr("Deficiencies");
    case Page::review: return tr("Desk review");
    case Page::import: return tr("Import");
    case Page::report: return tr("Report");
    case Page::history: return tr("History");
    case Page::project: return tr("Project");
  }
  return {};
}

void Navigation::changeEvent(QEvent* event) {
  if (event->type() == QEvent::PaletteChange) drawIcons();
  QListWidget::changeEvent(event);
}

void Navigation::drawIcons() {
  static constexpr std::array kIcons = {"start",  "fleet",  "unit",    "deficiencies", "review",
                                        "import", "report", "history", "project"};
  for (int i = 0; i < count(); ++i)
    item(i)->setIcon(lineIcon(QString::fromLatin1(kIcons[static_cast<std::size_t>(i)]), palette()));
}

}  // namespace ductwright::ui
