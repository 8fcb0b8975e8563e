#pragma once

#include <QAbstractTableModel>
#include <algorithm>
#include <utility>
#include <vector>

namespace ductwright::ui {

// A table of values that is brought up to date by comparison: views hear of the rows that came, went or changed,
// and of no others; the model is never reset. A Row has `sameRecord(a, b)` (the same thing, perhaps changed) and
// `a == b` (nothing to redraw), both found beside its type.
template <class Row>
class RowModel : public QAbstractTableModel {
 public:
  using QAbstractTableModel::QAbstractTableModel;

  [[nodiscard]] const Row& row(int index) const { return m_rows[static_cast<std::size_t>(index)]; }
  [[nodiscard]] const std::vector<Row>& rows() const { return m_rows; }
  [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override {
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
  }

 protected:
  void showRows(std::vector<Row> rows) {
    const bool same = std::equal(rows.begin(), rows.end(), m_rows.begin(), m_rows.end(),
                                 [](const Row& a, const Row& b) { return sameRecord(a, b); });
    if (!same) replaceMiddle(rows);
    announceChanges(std::move(rows));
  }
  void redrawAll() {
    if (!m_rows.empty()) emit dataChanged(index(0, 0), index(rowCount() - 1, columnCount() - 1));
  }

 private:
  static auto at(std::vector<Row>& list, std::size_t i) { return list.begin() + static_cast<std::ptrdiff_t>(i); }

  // Removes and inserts between the rows that both lists begin and end with.
  void replaceMiddle(std::vector<Row>& rows) {
    const std::size_t least = std::min(m_rows.size(), rows.size());
    std::size_t head = 0, tail = 0;
    while (head < least && sameRecord(m_rows[head], rows[head])) ++head;
    while (tail < least - head && sameRecord(m_rows[m_rows.size() - 1 - tail], rows[rows.size() - 1 - tail])) ++tail;
    if (const std::size_t end = m_rows.size() - tail; end > head) {
      beginRemoveRows({}, static_cast<int>(head), static_cast<int>(end) - 1);
      m_rows.erase(at(m_rows, head), at(m_rows, end));
      endRemoveRows();
    }
    if (const std::size_t end = rows.size() - tail; end > head) {
      beginInsertRows({}, static_cast<int>(head), static_cast<int>(end) - 1);
      m_rows.insert(at(m_rows, head), at(rows, head), at(rows, end));
      endInsertRows();
    }
  }

  // One notice for each stretch of changed rows.
  void announceChanges(std::vector<Row> rows) {
    std::size_t first = rows.size();
    const auto announce = [&](std::size_t end) {
      if (first < end)
        emit dataChanged(index(static_cast<int>(first), 0), index(static_cast<int>(end) - 1, columnCount() - 1));
      first = rows.size();
    };
    for (std::size_t i = 0; i < rows.size(); ++i) {
      if (rows[i] == m_rows[i]) {
        announce(i);
        continue;
      }
      m_rows[i] = std::move(rows[i]);
      first = std::min(first, i);
    }
    announce(rows.size());
  }

  std::vector<Row> m_rows;
};

}  // namespace ductwright::ui
