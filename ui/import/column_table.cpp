#include "ui/import/column_table.h"

#include <QComboBox>
#include <QHeaderView>

#include "exchange/mapping.h"
#include "ui/look/look.h"
#include "ui/rows/table.h"
#include "ui/words/words.h"

namespace ductwright::ui {

ColumnTable::ColumnTable(QWidget* parent) : QTableWidget(0, columns, parent) {
  setHorizontalHeaderLabels({tr("Column of the file"), tr("First value"), tr("Taken for"), tr("Unit of bare numbers")});
  setAccessibleName(tr("Columns of the file and what they are taken for"));
  makeListLike(*this);
  horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
  verticalHeader()->setDefaultSectionSize(36);
  setColumnWidth(header, 220);
  setColumnWidth(example, 150);
  setColumnWidth(meaning, 260);
}

void ColumnTable::show(const project::ImportPreview& preview) {
  m_mapping = preview.mapping;
  setRowCount(0);
  setRowCount(static_cast<int>(preview.columns.size()));
  for (int row = 0; row < rowCount(); ++row) addRow(row, preview);
  if (rowCount() > 0) setCurrentCell(0, 0);
}

void ColumnTable::addRow(int row, const project::ImportPreview& preview) {
  const auto source = static_cast<std::size_t>(row);
  const project::MappedColumn& column = preview.columns[source];
  const auto put = [&](int at, const QString& words) { setItem(row, at, new QTableWidgetItem(words)); };
  put(header, text(column.header));
  const bool hasRow = preview.sampleRows.size() > 1 && source < preview.sampleRows[1].size();
  put(example, hasRow ? text(preview.sampleRows[1][source]) : QString());
  const auto known = exchange::columnsOf(preview.request.kind);
  const bool measured = std::any_of(known.begin(), known.end(), [&](const exchange::Column& each) {
    return each.name == column.meaning && each.dimension &&
           !quantity::unitFor(*each.dimension, quantity::System::ip).symbol.empty();
  });
  put(unit, !column.unit.empty() ? text(column.unit) : measured ? tr("the project's") : QString());
  auto* box = new QComboBox(this);
  //: %1 is a column's header.
  box->setAccessibleName(tr("Meaning of the column %1").arg(text(column.header)));
  box->addItem(tr("not used"), QString());
  for (const exchange::Column& each : known)
    box->addItem(each.required ? tr("%1 (needed)").arg(text(each.name)) : text(each.name), text(each.name));
  box->setCurrentIndex(std::max(0, box->findData(text(column.meaning))));
  if (!column.meaning.empty() && column.confidence < 1) box->setToolTip(tr("Recognised by a synonym: look at it twice."));
  setCellWidget(row, meaning, box);
  connect(box, &QComboBox::activated, this, [this, source, box] { choose(source, box->currentData().toString()); });
}

void ColumnTable::choose(std::size_t source, const QString& column) {
  auto mapping = exchange::readMapping(m_mapping);
  if (!mapping || source >= mapping->headers.size()) return;
  mapping->set(mapping->headers[source].source, column.toStdString());
  emit mappingChanged(text(mapping->text()));
}

}  // namespace ductwright::ui
