#include "ui/unit/checks_model.h"

#include <cmath>

#include "ui/words/words.h"

namespace ductwright::ui {
namespace {

bool isNumeric(int column) {
  return column >= ChecksModel::measured && column <= ChecksModel::expected && column != ChecksModel::kind;
}

bool sameNumber(double a, double b) { return a == b || (std::isnan(a) && std::isnan(b)); }

// Some checks judge a difference from what is expected: shown, all are whole numbers of the quantity itself.
double offset(const verdict::Check& check) {
  const bool difference = check.kind == verdict::CheckKind::reportedAgainstMeasured || check.kind == verdict::CheckKind::rise;
  return difference && std::isfinite(check.expected) ? check.expected : 0;
}

// The low and high of an open interval are infinite.
QString bound(double si, quantity::Dimension dimension, quantity::System system) {
  return std::isfinite(si) ? written(si, dimension, system) : dash();
}

}  // namespace

bool sameRecord(const CheckRow& a, const CheckRow& b) {
  return a.check.criterion == b.check.criterion && a.check.kind == b.check.kind && a.check.step == b.check.step;
}

bool operator==(const CheckRow& a, const CheckRow& b) {
  return sameRecord(a, b) && a.check.outcome == b.check.outcome && a.check.because == b.check.because &&
         a.check.close == b.check.close && a.check.lacking == b.check.lacking &&
         a.check.settlesWith == b.check.settlesWith && sameNumber(a.check.measured, b.check.measured) &&
         sameNumber(a.check.expected, b.check.expected) && sameNumber(a.check.low, b.check.low) &&
         sameNumber(a.check.high, b.check.high) && sameNumber(a.check.u, b.check.u) &&
         sameNumber(a.check.conformity, b.check.conformity);
}

void ChecksModel::show(const verdict::UnitVerdict& verdict, verdict::Criterion criterion, quantity::System system) {
  std::vector<CheckRow> rows;
  for (const verdict::Check& check : verdict.checks)
    if (check.criterion == criterion) rows.push_back({check});
  const bool otherUnits = system != m_system;
  m_system = system;
  showRows(std::move(rows));
  if (otherUnits) redrawAll();
}

int ChecksModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : columns; }

QString ChecksModel::display(const verdict::Check& check, int column) const {
  switch (column) {
    case result: return check.close ? tr("%1, close").arg(word(check.outcome)) : word(check.outcome);
    case step: return stepWord(check.procedure, check.step);
    case kind: return word(check.kind);
    case expected: return bound(check.expected, check.dimension, m_system);
    case measured: return bound(offset(check) + check.measured, check.dimension, m_system);
    case low: return bound(offset(check) + check.low, check.dimension, m_system);
    case high: return bound(offset(check) + check.high, check.dimension, m_system);
    case doubt: {
      if (!std::isfinite(check.u)) return dash();
      //: The expanded uncertainty.
      return tr("± %1").arg(written(2 * check.u, check.dimension == quantity::Dimension::temperature
                                                     ? quantity::Dimension::temperatureDifference
                                                     : check.dimension, m_system));
    }
    case conformity:
      return std::isfinite(check.conformity) ? tr("%1 %").arg(scoreText(100 * check.conformity)) : dash();
    case reason: return text(verdict::because(check));
    default: return {};
  }
}

QVariant ChecksModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid() || index.row() >= rowCount()) return {};
  const verdict::Check& check = row(index.row()).check;
  switch (role) {
    case Qt::DisplayRole: return display(check, index.column());
    case Qt::ToolTipRole: return text(verdict::sentence(check, m_system));
    case Qt::TextAlignmentRole:
      return QVariant::fromValue((isNumeric(index.column()) ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
    case Qt::AccessibleTextRole:
      return tr("%1: %2").arg(headerData(index.column(), Qt::Horizontal, Qt::DisplayRole).toString(),
                              display(check, index.column()));
    case outcomeRole: return index.column() == result ? QVariant(static_cast<int>(check.outcome)) : QVariant();
    default: return {};
  }
}

QVariant ChecksModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal) return {};
  if (role == Qt::TextAlignmentRole)
    return QVariant::fromValue((isNumeric(section) ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
  if (role != Qt::DisplayRole) return {};
  switch (section) {
    case result: return tr("Result");
    case step: return tr("Step");
    case kind: return tr("Check");
    case expected: return tr("Expected");
    case measured: return tr("Found");
    case low: return tr("From");
    case high: return tr("To");
    case doubt: return tr("Uncertainty");
    case conformity: return tr("Conformity");
    case reason: return tr("Because");
    default: return {};
  }
}

}  // namespace ductwright::ui
