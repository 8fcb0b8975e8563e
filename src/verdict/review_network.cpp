#include <algorithm>
#include <array>
#include <map>

#include "review_rules.h"

// Tags and network addresses: unique and in range, and the load of each segment.
namespace ductwright::verdict {
namespace {

// Lower case, without blanks around: "VAV-1-1" and "VAV-11" stay two.
std::string plainTag(std::string_view tag) {
  const auto first = tag.find_first_not_of(" \t"), last = tag.find_last_not_of(" \t");
  std::string out(first == std::string_view::npos ? std::string_view{} : tag.substr(first, last - first + 1));
  std::transform(out.begin(), out.end(), out.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return out;
}

void addressRange(Review& review, const Unit& u) {
  const auto* segment = review.segment(u);
  if (!u.segment.empty() && !segment && !review.project.segments.empty())
    review.find(Rule::segmentUnknown, u, "The unit names a network segment that the project does not know.",
                "segment " + u.segment);
  if (u.macAddress) {
    int highest = review.limits.greatestMac;
    if (segment && segment->highestAddress) highest = std::min(highest, *segment->highestAddress);
    if (*u.macAddress < 0 || *u.macAddress > highest)
      review.find(Rule::macRange, u, "The network address is out of range.",
                  "MAC address " + std::to_string(*u.macAddress) +
                      (u.segment.empty() ? "" : " on segment " + u.segment) + ", 0 to " +
                      std::to_string(highest));
  } else if (review.given().macs) {
    review.find(Rule::macMissing, u, "The unit has no network address.",
                u.segment.empty() ? "" : "segment " + u.segment);
  }
  if (u.deviceInstance) {
    if (*u.deviceInstance < 0 || *u.deviceInstance > review.limits.greatestInstance)
      review.find(Rule::instanceRange, u, "The device instance is out of range.",
                  "device instance " + std::to_string(*u.deviceInstance) + ", 0 to " +
                      std::to_string(review.limits.greatestInstance));
  } else if (review.given().instances) {
    review.find(Rule::instanceMissing, u, "The unit has no device instance.", "");
  }
}

void addressesUnique(Review& review) {
  std::map<std::pair<std::string_view, int>, std::string_view> macs;
  std::unordered_map<std::int64_t, std::string_view> instances;
  for (const auto& record : review.project.units) {
    const Unit& u = record->unit;
    if (u.macAddress && !u.segment.empty()) {
      const auto [it, isNew] = macs.emplace(std::pair{std::string_view(u.segment), *u.macAddress}, u.tag);
      if (!isNew)
        review.find(Rule::macDuplicate, u, "Two units have the same network address on one segment.",
                    "MAC address " + std::to_string(*u.macAddress) + " on segment " + u.segment + ": " +
                        std::string(it->second) + " and " + u.tag);
    }
    if (u.deviceInstance) {
      const auto [it, isNew] = instances.emplace(*u.deviceInstance, u.tag);
      if (!isNew)
        review.find(Rule::instanceDuplicate, u, "Two units have the same device instance.",
                    "device instance " + std::to_string(*u.deviceInstance) + ": " + std::string(it->second) +
                        " and " + u.tag);
    }
  }
}

void segmentLimits(Review& review, const fleet::NetworkSegment& segment) {
  constexpr std::array kSpeeds{9600.0, 19200.0, 38400.0, 57600.0, 76800.0, 115200.0};
  std::vector<std::string> wrong;
  if (segment.speed && std::find(kSpeeds.begin(), kSpeeds.end(), *segment.speed) == kSpeeds.end())
    wrong.push_back("speed " + plain(*segment.speed, 0) +
                    " bit/s, one of 9600, 19200, 38400, 57600, 76800, 115200");
  if (segment.highestAddress &&
      (*segment.highestAddress < 0 || *segment.highestAddress > review.limits.greatestMac))
    wrong.push_back("highest address " + std::to_string(*segment.highestAddress) + ", at most " +
                    std::to_string(review.limits.greatestMac));
  if (!wrong.empty())
    review.find(Rule::segmentLimits, segment.name, "The segment cannot be set up like this.", joined(wrong));
}

struct SegmentLoad {
  double load = 0;
  std::size_t units = 0, unstated = 0;
};

void segmentLoads(Review& review) {
  std::map<std::string_view, SegmentLoad> loads;
  for (const auto& record : review.project.units) {
    const Unit& u = record->unit;
    if (u.segment.empty()) continue;
    SegmentLoad& load = loads[u.segment];
    const auto* profile = review.profile(u);
    const bool stated = profile && profile->unitLoad;
    load.load += stated ? *profile->unitLoad : 1;
    load.unstated += stated ? 0 : 1;
    ++load.units;
  }
  for (const auto& [name, load] : loads) {
    const auto* segment = review.project.segment(name);
    const double limit = segment && segment->loadLimit ? *segment->loadLimit : review.limits.segmentLoad;
    if (load.load <= limit) continue;
    review.find(
        Rule::segmentLoad, std::string(name), "The segment carries more loads than it may.",
        counted(load.units, "unit") + ", " + plain(load.load, 3) + " unit loads, at most " + plain(limit, 3) +
            (load.unstated > 0 ? "; " + counted(load.unstated, "unit") + " without a stated load, taken as 1"
                               : ""));
  }
}

}  // namespace

void reviewTags(Review& review) {
  std::unordered_map<std::string, const Unit*> tags;
  for (const auto& record : review.project.units) {
    const Unit& u = record->unit;
    const auto [it, isNew] = tags.emplace(plainTag(u.tag), &u);
    if (isNew) continue;
    const auto place = [](const Unit& x) {
      return x.tag + " (floor " + x.floor + (x.zone.empty() ? "" : ", " + x.zone) + ")";
    };
    review.find(Rule::duplicateTag, u, "Two rows of the schedule have the same tag.",
                place(*it->second) + " and " + place(u));
  }
}

void reviewNetwork(Review& review) {
  for (const auto& record : review.project.units) addressRange(review, record->unit);
  addressesUnique(review);
  for (const auto& segment : review.project.segments) segmentLimits(review, segment);
  segmentLoads(review);
}

}  // namespace ductwright::verdict
