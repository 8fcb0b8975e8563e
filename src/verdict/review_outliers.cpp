#include <cmath>
#include <map>
#include <utility>

#include "air/flow_basis.h"
#include "review_rules.h"
#include "robust.h"

// Units that stand out among those of their kind and size, by medians.
namespace ductwright::verdict {
namespace {

struct Column {
  std::string_view name;
  double (*value)(const Unit&);  // SI, 0 where there is none
  quantity::Dimension dimension;
};

template <auto member>
double positive(const Unit& u) {
  return (u.*member) && (u.*member)->si() > 0 ? (u.*member)->si() : 0.0;
}

constexpr Column kDesign[] = {
    {"cooling max", positive<&Unit::coolingMax>, quantity::Dimension::airflow},
    {"cooling min", positive<&Unit::coolingMin>, quantity::Dimension::airflow},
    {"reheat", positive<&Unit::reheat>, quantity::Dimension::airflow},
    {"fan", positive<&Unit::fan>, quantity::Dimension::airflow},
    {"heater power", positive<&Unit::heaterPower>, quantity::Dimension::power},
};

using Group = std::vector<const Unit*>;

// The units of a group whose value is out by a factor and by many robust deviations, as text, one a unit.
void addOutliers(const Review& review, const Group& group, const Column& column,
                 std::map<const Unit*, std::vector<std::string>>& out) {
  std::vector<double> logs;
  for (const Unit* u : group)
    if (const double v = column.value(*u); v > 0) logs.push_back(std::log(v));
  if (logs.size() < review.limits.outlierGroup) return;
  const double middle = median(logs);
  const double allowed = std::max(review.limits.outlierDeviations * robustDeviation(logs, middle),
                                  std::log(review.limits.outlierFactor));
  const auto text = [&](double si) { return quantity::write(si, column.dimension, review.project.system); };
  for (const Unit* u : group)
    if (const double v = column.value(*u); v > 0 && std::abs(std::log(v) - middle) > allowed)
      out[u].push_back(std::string(column.name) + " " + text(v) + ", median of " +
                       counted(logs.size(), "unit") + " " + text(std::exp(middle)));
}

void designOutliers(Review& review) {
  std::map<std::pair<fleet::UnitKind, double>, Group> groups;
  for (const auto& record : review.project.units)
    if (record->unit.inletDiameter)
      groups[{record->unit.kind, record->unit.inletDiameter->si()}].push_back(&record->unit);
  std::map<const Unit*, std::vector<std::string>> outliers;
  for (const auto& [key, group] : groups)
    for (const Column& column : kDesign) addOutliers(review, group, column, outliers);
  for (const auto& record : review.project.units)
    if (const auto it = outliers.find(&record->unit); it != outliers.end())
      review.find(Rule::sizeOutlier, record->unit,
                  "The unit stands out among the " + std::string(name(record->unit.kind)) + " units with a " +
                      review.text(*record->unit.inletDiameter) + " inlet.",
                  joined(it->second));
}

// Amplification that a coefficient implies: F = (A √(2/ρ) / K)².
double amplification(const Unit& u) {
  const double plain = circle(*u.inletDiameter).si() * std::sqrt(2 / air::kStandardDensity.si());
  return std::pow(plain / u.flowCoefficient->si(), 2);
}

void coefficientOutliers(Review& review) {
  std::map<double, std::vector<double>> bySize;
  for (const auto& record : review.project.units)
    if (const Unit& u = record->unit; u.inletDiameter && positive<&Unit::flowCoefficient>(u) > 0)
      bySize[u.inletDiameter->si()].push_back(std::log(u.flowCoefficient->si()));
  std::map<double, std::pair<double, double>>
      expected;  // by size: the median and what is allowed, as logarithms
  for (const auto& [size, logs] : bySize) {
    const double middle = median(logs);
    expected[size] = {middle, logs.size() < review.limits.outlierGroup
                                  ? INFINITY
                                  : std::max(review.limits.outlierDeviations * robustDeviation(logs, middle),
                                             std::log(review.limits.coefficientFactor))};
  }
  for (const auto& record : review.project.units) {
    const Unit& u = record->unit;
    if (!u.inletDiameter || positive<&Unit::flowCoefficient>(u) <= 0 || u.inletDiameter->si() <= 0) continue;
    const double f = amplification(u);
    const auto [middle, allowed] = expected.at(u.inletDiameter->si());
    const bool impossible = f < review.limits.leastAmplification || f > review.limits.greatestAmplification;
    if (!impossible && std::abs(std::log(u.flowCoefficient->si()) - middle) <= allowed) continue;
    review.find(Rule::coefficientOutlier, u, "The flow coefficient does not fit the inlet size.",
                review.text(*u.flowCoefficient) + " in a " + review.text(*u.inletDiameter) +
                    " inlet: amplification " + plain(f, 2) + ", commonly 1.5 to 3; median of its size " +
                    review.text(quantity::FlowCoefficient::fromSi(std::exp(middle))));
  }
}

}  // namespace

void reviewOutliers(Review& review) {
  designOutliers(review);
  coefficientOutliers(review);
}

}  // namespace ductwright::verdict
