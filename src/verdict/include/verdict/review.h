#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "verdict/review_limits.h"
#include "verdict/verdict.h"

namespace ductwright::verdict {

// One rule of the desk review, for the page that explains them. A finding may carry a milder or graver
// severity.
struct ReviewRule {
  std::string_view key;    // stable, "flow-order"
  std::string_view about;  // what it looks for
  fleet::Severity severity;
  fleet::Party party;
  std::string_view basis;  // where its limit comes from
};
std::span<const ReviewRule> reviewRules();

// One finding of the desk review: what is wrong with the schedule before anyone goes on site.
struct Finding {
  std::string rule;  // stable key, "flow-order"
  std::string unit;  // tag, or the air handler, profile or segment it is about
  UnitId unitId;     // null when it is not about one unit
  fleet::Severity severity = fleet::Severity::moderate;
  std::string finding;   // one sentence
  std::string evidence;  // the numbers, in the project's units
  fleet::Party party = fleet::Party::designEngineer;
};

// Every rule over the whole project, in schedule order, then the rules that are about the fleet.
std::vector<Finding> deskReview(const Snapshot& project, const ReviewLimits& limits = {});

// Which of the project's controller profiles would serve, least capable first.
struct ProfileNeed {
  UnitId unit;
  std::string tag, scheduled;
  bool scheduledServes = false;
  std::vector<std::string> lacking;  // what the scheduled profile lacks, in words
  std::vector<std::string> serve;    // names of profiles that serve
};
std::vector<ProfileNeed> profileNeeds(const Snapshot& project, const ReviewLimits& limits = {});

struct ProfileQuantity {
  std::string profile;
  int scheduled = 0;     // units that name it
  int leastCapable = 0;  // units for which it is the least capable profile that serves
};
std::vector<ProfileQuantity> profileQuantities(const Snapshot& project, const ReviewLimits& limits = {});

// What an air handler's units ask of it at once. Exhaust units do not count.
struct AirHandlerLoad {
  std::string airHandler;
  std::size_t units = 0;
  quantity::Airflow maxima, minima;  // sums over its units
  std::optional<quantity::Airflow> designFlow;
  [[nodiscard]] std::optional<double> diversity() const {  // design flow ÷ maxima; below 1: test in groups
    return designFlow && maxima.si() > 0 ? std::optional(*designFlow / maxima) : std::nullopt;
  }
};
std::vector<AirHandlerLoad> airHandlerLoads(const Snapshot& project);  // by first mention

// A setting read from a controller that is not what the schedule asks for.
struct SettingDifference {
  UnitId unit;
  std::string tag, setting;      // the schedule's column
  std::string scheduled, found;  // in the project's units, or as words
  double change = 0;  // found ÷ scheduled − 1; a temperature's difference ÷ 10 K; words, and from or to 0, ±1
  std::optional<fleet::Timestamp> readAt;
};
// The whole fleet's, biggest first. Where a setting was read more than once, the latest counts.
std::vector<SettingDifference> settingDifferences(const Snapshot& project, const ReviewLimits& limits = {});

}  // namespace ductwright::verdict
