#include "ui/fleet/fleet_model.h"

#include <algorithm>
#include <array>
#include <set>
#include <unordered_map>

#include "ui/words/words.h"

namespace ductwright::ui {
namespace {

using verdict::Criterion;
using verdict::Outcome;

QString searchedText(const fleet::Unit& unit) {
  return QStringList{text(unit.tag), text(unit.floor), text(unit.airHandler), text(unit.zone), word(unit.kind)}
      .join(QLatin1Char('\n'))
      .toLower();
}

// `shown` lends what need not be made again.
std::vector<FleetRow> rowsOf(const project::State& state, const std::vector<FleetRow>& shown) {
  std::vector<FleetRow> rows;
  if (!state.snapshot) return rows;
  std::unordered_map<fleet::UnitId, int, fleet::IdHash> open;
  for (const fleet::Deficiency& deficiency : state.snapshot->deficiencies)
    if (isOpen(deficiency)) ++open[deficiency.unit];
  rows.reserve(state.snapshot->units.size());
  for (std::size_t i = 0; i < state.snapshot->units.size(); ++i) {
    const auto& record = state.snapshot->units[i];
    const bool judged = state.verdicts && i < state.verdicts->units.size();
    const auto found = open.find(record->unit.id);
    const bool known = i < shown.size() && shown[i].record == record;
    rows.push_back({record, judged ? state.verdicts->units[i] : nullptr, found == open.end() ? 0 : found->second,
                    known ? shown[i].searched : searchedText(record->unit)});
  }
  return rows;
}

std::optional<Criterion> criterionOf(int column) {
  switch (column) {
    case FleetModel::airflow: return Criterion::airflow;
    case FleetModel::lockout: return Criterion::reheatLockout;
    case FleetModel::rise: return Criterion::dischargeRise;
    default: return std::nullopt;
  }
}

bool isNumeric(int column) {
  return column == FleetModel::score || column == FleetModel::inlet || column == FleetModel::deficiencies;
}

// Worst first, so that sorting by result shows what needs work.
int urgency(Outcome outcome) {
  static constexpr std::array kOrder = {3, 0, 1, 2, 4};  // pass, fail, cannot tell, untested, not applicable
  return kOrder[static_cast<std::size_t>(outcome)];
}

QString signature(const fleet::UnitRecord& record) {
  if (record.signOffs.empty()) return {};
  const fleet::SignOff& last = record.signOffs.back();
  return last.brokenBecause.empty() ? text(last.person) : FleetModel::tr("reopened");
}

}  // namespace

bool isOpen(const fleet::Deficiency& deficiency) {
  const auto state = deficiency.state();
  return state != fleet::DeficiencyState::proven && state != fleet::DeficiencyState::withdrawn;
}

bool naturallyLess(const QString& a, const QString& b) {
  qsizetype i = 0, j = 0;
  const auto number = [](const QString& text, qsizetype& at) {
    while (at + 1 < text.size() && text[at] == u'0' && text[at + 1].isDigit()) ++at;  // leading zeros count for nothing
    const qsizetype from = at;
    while (at < text.size() && text[at].isDigit()) ++at;
    return QStringView(text).mid(from, at - from);
  };
  while (i < a.size() && j < b.size()) {
    if (a[i].isDigit() && b[j].isDigit()) {
      const QStringView m = number(a, i), n = number(b, j);
      if (m.size() != n.size()) return m.size() < n.size();
      if (const int order = m.compare(n); order != 0) return order < 0;
      continue;
    }
    const QChar x = a[i++].toCaseFolded(), y = b[j++].toCaseFolded();
    if (x != y) return x < y;
  }
  return a.size() - i < b.size() - j;
}

void FleetModel::setState(const project::State& state) {
  const auto system = state.snapshot ? state.snapshot->system : quantity::System::ip;
  const bool otherUnits = system != m_system;
  m_system = system;
  showRows(rowsOf(state, rows()));
  if (otherUnits) redrawAll();
}

std::optional<int> FleetModel::rowOf(fleet::UnitId unit) const {
  for (std::size_t i = 0; i < rows().size(); ++i)
    if (rows()[i].record->unit.id == unit) return static_cast<int>(i);
  return std::nullopt;
}

QStringList FleetModel::valuesOf(Column column) const {
  std::set<std::string_view> words;
  for (const FleetRow& row : rows()) {
    const fleet::Unit& unit = row.record->unit;
    words.insert(column == floor ? std::string_view(unit.floor)
                                 : column == airHandler ? std::string_view(unit.airHandler) : name(unit.kind));
  }
  QStringList values;
  for (const std::string_view value : words)
    if (!value.empty()) values << (column == kind ? translatedWord(value) : text(value));
  std::sort(values.begin(), values.end(), naturallyLess);
  return values;
}

int FleetModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : columns; }

std::optional<Outcome> FleetModel::outcome(const FleetRow& row, int column) {
  if (!row.verdict) return std::nullopt;
  if (column == result || column == tag) return row.verdict->outcome;
  if (const auto criterion = criterionOf(column)) return row.verdict->of(*criterion).outcome;
  return std::nullopt;
}

QString FleetModel::display(const FleetRow& row, int column) const {
  const fleet::Unit& unit = row.record->unit;
  switch (column) {
    case tag: return text(unit.tag);
    case floor: return text(unit.floor);
    case airHandler: return text(unit.airHandler);
    case zone: return text(unit.zone);
    case kind: return word(unit.kind);
    case heat: return unit.heat == fleet::HeatKind::none ? QString() : word(unit.heat);
    case inlet:
      return unit.inletDiameter ? written(unit.inletDiameter->si(), quantity::Dimension::length, m_system) : QString();
    case deficiencies: return row.openDeficiencies > 0 ? QString::number(row.openDeficiencies) : QString();
    case signedBy: return signature(*row.record);
    default: break;
  }
  if (!row.verdict) return {};
  if (column == result) return word(row.verdict->outcome);
  if (column == score) return scoreText(row.verdict->score);
  const auto criterion = criterionOf(column);
  if (!criterion) return {};
  const verdict::CriterionVerdict& of = row.verdict->of(*criterion);
  if (of.outcome == Outcome::notApplicable) return dash();
  if (of.outcome == Outcome::untested || !of.score) return word(of.outcome);
  //: A criterion's result and its score, "fail 3".
  return tr("%1 %2").arg(word(of.outcome), scoreText(of.score));
}

QVariant FleetModel::sortValue(const FleetRow& row, int column) const {
  if (column == inlet) return row.record->unit.inletDiameter ? row.record->unit.inletDiameter->si() : -1.0;
  if (column == deficiencies) return row.openDeficiencies;
  if (column == score) return row.verdict && row.verdict->score ? *row.verdict->score : -1.0;
  if (column == tag) return display(row, column);
  if (const auto of = outcome(row, column)) {
    const auto criterion = criterionOf(column);
    const auto points = criterion ? row.verdict->of(*criterion).score : row.verdict->score;
    return urgency(*of) * 1000.0 + points.value_or(0);
  }
  return display(row, column);
}

QVariant FleetModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid() || index.row() >= rowCount()) return {};
  const FleetRow& of = row(index.row());
  switch (role) {
    case Qt::DisplayRole: return display(of, index.column());
    case Qt::TextAlignmentRole:
      return QVariant::fromValue(isNumeric(index.column()) ? Qt::AlignRight | Qt::AlignVCenter
                                                           : Qt::AlignLeft | Qt::AlignVCenter);
    case Qt::ToolTipRole: {
      const auto criterion = criterionOf(index.column());
      if (!criterion || !of.verdict) return {};
      const auto because = verdict::because(of.verdict->of(*criterion), *criterion);
      return because.empty() ? word(of.verdict->of(*criterion).outcome) : text(because);
    }
    case Qt::AccessibleTextRole:
      //: A cell as it is read aloud: column, then content.
      return tr("%1: %2").arg(headerData(index.column(), Qt::Horizontal, Qt::DisplayRole).toString(),
                              display(of, index.column()));
    case sortRole: return sortValue(of, index.column());
    case outcomeRole: {
      const auto shown = outcome(of, index.column());
      return shown && *shown != Outcome::notApplicable ? QVariant(static_cast<int>(*shown)) : QVariant();
    }
    default: return {};
  }
}

QVariant FleetModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal) return {};
  if (role == Qt::TextAlignmentRole)
    return QVariant::fromValue((isNumeric(section) ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
  if (role != Qt::DisplayRole) return {};
  switch (section) {
    case tag: return tr("Unit");
    case result: return tr("Result");
    case score: return tr("Score");
    case airflow: return tr("Airflow");
    case lockout: return tr("Reheat lockout");
    case rise: return tr("Discharge rise");
    case floor: return tr("Floor");
    case airHandler: return tr("Air handler");
    case zone: return tr("Zone");
    case kind: return tr("Kind");
    case heat: return tr("Heat");
    case inlet: return tr("Inlet");
    case deficiencies: return tr("Open");
    case signedBy: return tr("Signed");
    default: return {};
  }
}

}  // namespace ductwright::ui
