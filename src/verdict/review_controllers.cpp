#include <algorithm>
#include <map>

#include "review_rules.h"

// Controllers: what a unit needs of its controller's profile, and what the front end needs of all of them.
namespace ductwright::verdict {
namespace {

using fleet::ControllerProfile;
using fleet::Custody;
using fleet::HeatKind;
using fleet::UnitKind;

bool serves(const ControllerProfile& p, UnitKind kind) {
  return std::find(p.kindsServed.begin(), p.kindsServed.end(), kind) != p.kindsServed.end();
}
bool serves(const ControllerProfile& p, HeatKind heat) {
  return heat == HeatKind::none ||
         std::find(p.heatServed.begin(), p.heatServed.end(), heat) != p.heatServed.end();
}

// What a profile lacks for a unit. A capability that its description does not state is taken from the kinds
// that it serves; a discharge sensor that is not stated is not there.
std::vector<std::string> lackingIn(const ControllerProfile& p, const Review& review, const Unit& u) {
  std::vector<std::string> out;
  const bool kind = serves(p, u.kind);
  if (!kind) out.push_back("the kind " + std::string(name(u.kind)));
  if (!serves(p, u.heat)) out.push_back(std::string(name(u.heat)) + " heat");
  if (hasFan(u) && !p.fan.value_or(kind)) out.emplace_back("a fan");
  if (u.kind == UnitKind::dualDuct && p.inlets.value_or(kind ? 2 : 1) < 2)
    out.emplace_back("a second actuator");
  if (u.kind == UnitKind::exhaust && !p.exhaust.value_or(kind)) out.emplace_back("exhaust");
  if (review.limits.frontEnd.damperFeedback && p.damperFeedback != true) out.emplace_back("damper feedback");
  if (needsDischargeSensor(review, u) && p.dischargeSensor != true) out.emplace_back(kDischargeSensor);
  return out;
}

std::size_t capability(const ControllerProfile& p) {
  const auto has = [](const std::optional<bool>& b) { return b.value_or(false) ? std::size_t{1} : 0; };
  return p.kindsServed.size() + p.heatServed.size() +
         static_cast<std::size_t>(std::max(0, p.inlets.value_or(0))) + has(p.fan) + has(p.exhaust) +
         has(p.damperFeedback) + has(p.dischargeSensor);
}

std::vector<const ControllerProfile*> leastCapableFirst(const Snapshot& project) {
  std::vector<const ControllerProfile*> out;
  for (const auto& profile : project.profiles) out.push_back(&profile);
  std::stable_sort(out.begin(), out.end(), [](const auto* a, const auto* b) {
    const std::size_t ca = capability(*a), cb = capability(*b);
    return ca != cb ? ca < cb : a->name < b->name;
  });
  return out;
}

std::string_view custodyWord(Custody c) {
  return c == Custody::unknown ? "nobody" : name(c);
}

// Profiles in use with the number of units that name them, by name.
std::map<std::string, std::size_t> profilesInUse(const Review& review) {
  std::map<std::string, std::size_t> used;
  for (const auto& record : review.project.units)
    if (review.profile(record->unit)) ++used[record->unit.profile];
  return used;
}

// The protocol that the front end requires, else the one that most units speak.
std::string requiredProtocol(const Review& review, const std::map<std::string, std::size_t>& used) {
  if (!review.limits.frontEnd.protocol.empty()) return review.limits.frontEnd.protocol;
  std::map<std::string, std::size_t> speakers;
  for (const auto& [name, units] : used) {
    const auto* p = review.project.profile(name);
    if (!p->protocol.empty()) speakers[p->protocol] += units;
  }
  const auto most = std::max_element(speakers.begin(), speakers.end(),
                                     [](const auto& a, const auto& b) { return a.second < b.second; });
  return most == speakers.end() ? "" : most->first;
}

void protocol(Review& review, const ControllerProfile& p, std::size_t units, const std::string& required) {
  if (required.empty() || fleet::foldedWord(p.protocol) == fleet::foldedWord(required)) return;
  review.find(Rule::protocol, p.name,
              p.protocol.empty() ? "The profile's protocol is not stated."
                                 : "The profile does not speak the front end's protocol.",
              counted(units, "unit") + ", protocol " + (p.protocol.empty() ? "not stated" : p.protocol) +
                  ", required " + required);
}

void frontEndPoints(Review& review, const ControllerProfile& p, std::size_t units) {
  const FrontEndNeeds& needs = review.limits.frontEnd;
  std::vector<std::string> wrong;
  const auto held = [&](std::string_view what, Custody is, Custody should) {
    if (is != Custody::unknown && (should == Custody::unknown || should == is)) return;
    wrong.push_back(std::string(what) + " held by " + std::string(custodyWord(is)) +
                    (should == Custody::unknown ? "" : ", required " + std::string(custodyWord(should))));
  };
  held("schedules", p.schedules, needs.schedules);
  held("trends", p.trends, needs.trends);
  held("alarms", p.alarms, needs.alarms);
  if (wrong.empty()) return;
  review.find(Rule::frontEndPoints, p.name, "It is not settled who holds what the front end needs.",
              counted(units, "unit") + ": " + joined(wrong));
}

void damperFeedback(Review& review, const ControllerProfile& p, std::size_t units) {
  if (p.damperFeedback != false || review.limits.frontEnd.damperFeedback) return;
  review.find(
      Rule::damperFeedback, p.name,
      "The controller gives no damper feedback: a starved unit has to be told by looking at its damper.",
      counted(units, "unit"));
}

// A room sensor through which the controller can be set up, or nothing is known of any sensor.
void setupMeans(Review& review, const Unit& u) {
  if (review.project.roomSensors.empty()) return;
  const auto* sensor = review.roomSensor(u);
  if (sensor && sensor->canSetUpController.value_or(false)) return;
  if (!sensor && !u.roomSensor.empty()) return;  // told as an unknown sensor
  review.find(Rule::setupMeans, u, "There is no means of setting up the controller on site.",
              sensor ? "room sensor " + sensor->name + " cannot set up a controller" : "no room sensor");
}

}  // namespace

std::vector<ProfileNeed> profileNeeds(const Snapshot& project, const ReviewLimits& limits) {
  const Review review(project, limits);
  const auto candidates = leastCapableFirst(project);
  std::vector<ProfileNeed> out;
  out.reserve(project.units.size());
  for (const auto& record : project.units) {
    const Unit& u = record->unit;
    ProfileNeed need{.unit = u.id,
                     .tag = u.tag,
                     .scheduled = u.profile,
                     .scheduledServes = false,
                     .lacking = {},
                     .serve = {}};
    for (const ControllerProfile* p : candidates) {
      auto lacking = lackingIn(*p, review, u);
      if (lacking.empty()) need.serve.push_back(p->name);
      if (p->name == u.profile) {
        need.scheduledServes = lacking.empty();
        need.lacking = std::move(lacking);
      }
    }
    out.push_back(std::move(need));
  }
  return out;
}

std::vector<ProfileQuantity> profileQuantities(const Snapshot& project, const ReviewLimits& limits) {
  std::vector<ProfileQuantity> out;
  std::unordered_map<std::string_view, std::size_t> at;
  for (const ControllerProfile* p : leastCapableFirst(project)) {
    at.emplace(p->name, out.size());
    out.push_back({.profile = p->name});
  }
  for (const ProfileNeed& need : profileNeeds(project, limits)) {
    if (const auto it = at.find(need.scheduled); it != at.end()) ++out[it->second].scheduled;
    if (!need.serve.empty()) ++out[at.at(need.serve.front())].leastCapable;
  }
  return out;
}

void reviewController(Review& review, const Unit& u, const ProfileNeed& need) {
  setupMeans(review, u);
  if (review.project.profiles.empty()) return;
  const auto* profile = review.profile(u);
  if (!profile) {
    if (u.profile.empty() && !review.given().profiles) return;
    const std::string serve = need.serve.empty() ? "no profile serves" : "would serve: " + joined(need.serve);
    review.find(Rule::profileUnknown, u,
                u.profile.empty() ? "The unit names no controller profile."
                                  : "The unit names a controller profile that the project does not know.",
                (u.profile.empty() ? "" : "profile " + u.profile + "; ") + serve);
    return;
  }
  auto lacking = need.lacking;
  std::erase(lacking, kDischargeSensor);  // told with what it is needed for
  if (!lacking.empty())
    review.find(Rule::profileLacks, u, "The controller profile lacks " + joined(lacking) + ".",
                "profile " + profile->name + "; " +
                    (need.serve.empty() ? "no profile of the project serves"
                                        : "would serve, least capable first: " + joined(need.serve)));
  if (u.strokeTime && profile->strokeTime && std::abs((*u.strokeTime - *profile->strokeTime).si()) > 0.5)
    review.find(Rule::strokeTime, u, "The schedule and the controller profile give different stroke times.",
                "schedule " + review.text(*u.strokeTime) + ", profile " + profile->name + " " +
                    review.text(*profile->strokeTime));
}

void reviewProfiles(Review& review) {
  const auto used = profilesInUse(review);
  const std::string required = requiredProtocol(review, used);
  for (const auto& [name, units] : used) {
    const ControllerProfile& profile = *review.project.profile(name);
    protocol(review, profile, units, required);
    frontEndPoints(review, profile, units);
    damperFeedback(review, profile, units);
  }
}

}  // namespace ductwright::verdict
