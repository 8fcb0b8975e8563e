#include "accuracy_words.h"

#include <unordered_map>

namespace ductwright::report {
namespace {

using quantity::Dimension;

// The dimension of an accuracy's absolute part: a limit of a temperature is a difference.
Dimension limitDimension(const std::string& quantity) {
  Dimension dimension = Dimension::number;
  if (const auto reading = fleet::read<fleet::ReadingQuantity>(quantity)) {
    dimension = fleet::dimensionOf(*reading);
  } else {
    for (const auto& [word, meant] :
         {std::pair{"flow", Dimension::airflow}, {"airflow", Dimension::airflow}, {"temperature", Dimension::temperature},
          {"power", Dimension::power}, {"pressure", Dimension::pressure}, {"waterflow", Dimension::waterFlow},
          {"velocity", Dimension::velocity}}) {
      if (fleet::foldedWord(quantity) == word) dimension = meant;
    }
  }
  return dimension == Dimension::temperature ? Dimension::temperatureDifference : dimension;
}

std::string oneAccuracy(const fleet::Accuracy& accuracy, quantity::System system) {
  const Dimension dimension = limitDimension(accuracy.quantity);
  const auto limit = [&](double si) { return quantity::write(si, dimension, system); };
  if (accuracy.expanded) {
    std::string words = accuracy.quantity + " U = " + limit(*accuracy.expanded);
    return words + " (k = " + quantity::writeNumber(accuracy.coverage.value_or(2), quantity::unitFor(Dimension::number, system)) + ")";
  }
  const std::string share = quantity::write(accuracy.share, Dimension::ratio, system);
  if (accuracy.share > 0 && accuracy.plus > 0) return accuracy.quantity + " ±(" + share + " + " + limit(accuracy.plus) + ")";
  return accuracy.quantity + " ±" + (accuracy.share > 0 ? share : limit(accuracy.plus));
}

}  // namespace

std::string accuracyWords(const fleet::Instrument& instrument, quantity::System system) {
  std::string out;
  for (const fleet::Accuracy& accuracy : instrument.accuracies) out += (out.empty() ? "" : ", ") + oneAccuracy(accuracy, system);
  return out;
}

bool overdue(const fleet::Instrument& instrument, fleet::Day today) {
  return instrument.calibrationDue && *instrument.calibrationDue < today;
}

std::string calibrationWords(const fleet::Instrument& instrument, fleet::Day today) {
  if (!instrument.calibrationDue) return "due date not given";
  return overdue(instrument, today) ? "overdue" : "in date";
}

std::vector<std::size_t> readingsByInstrument(const fleet::Snapshot& project) {
  std::unordered_map<std::string, std::size_t> index;
  for (std::size_t i = 0; i < project.instruments.size(); ++i) index.emplace(project.instruments[i].serial, i);
  std::vector<std::size_t> counts(project.instruments.size(), 0);
  for (const auto& record : project.units) {
    for (const fleet::Reading& reading : record->readings) {
      const auto found = index.find(reading.instrument.text());
      if (found != index.end() && !reading.withdrawn) ++counts[found->second];
    }
  }
  return counts;
}

}  // namespace ductwright::report
