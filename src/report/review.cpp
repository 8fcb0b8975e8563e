#include "report/review.h"

#include "json.h"
#include "report/sheets.h"
#include "text_table.h"

namespace ductwright::report {
namespace {

std::string joined(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words) out += (out.empty() ? "" : ", ") + word;
  return out;
}

void writeWords(Json& json, std::string_view key, const std::vector<std::string>& words) {
  json.key(key).array();
  for (const std::string& word : words) json.value(std::string_view(word));
  json.end();
}

}  // namespace

std::string reviewJson(const fleet::Snapshot& project) {
  Json json;
  json.object().member("schema", 1).member("project", project.projectName).key("findings").array();
  for (const verdict::Finding& f : verdict::deskReview(project)) {
    json.object().member("rule", f.rule).member("unit", f.unit).member("severity", name(f.severity));
    json.member("party", name(f.party)).member("finding", f.finding).member("evidence", f.evidence).end();
  }
  json.end().key("profiles").array();
  for (const verdict::ProfileNeed& need : verdict::profileNeeds(project)) {
    json.object().member("unit", need.tag).member("scheduled", need.scheduled);
    json.member("scheduled_serves", need.scheduledServes);
    writeWords(json, "lacking", need.lacking);
    writeWords(json, "serve", need.serve);
    json.end();
  }
  json.end().key("profile_quantities").array();
  for (const verdict::ProfileQuantity& q : verdict::profileQuantities(project)) {
    json.object().member("profile", q.profile).member("scheduled", q.scheduled);
    json.member("least_capable", q.leastCapable).end();
  }
  json.end().end();
  return json.take() + "\n";
}

std::string reviewText(const fleet::Snapshot& project) {
  const auto findings = verdict::deskReview(project);
  std::string out = project.projectName + "\n" + std::to_string(findings.size()) +
                    (findings.size() == 1 ? " finding" : " findings") + "\n";
  if (!findings.empty()) {
    TextTable table({{"unit"}, {"severity"}, {"finding"}, {"evidence"}, {"who mends it"}});
    for (const auto& f : findings)
      table.add({f.unit, std::string(name(f.severity)), f.finding, f.evidence, std::string(name(f.party))});
    out += "\n" + table.text();
  }
  if (project.profiles.empty()) return out;
  using Side = TextTable::Side;
  TextTable quantities({{"controller profile"}, {"scheduled", Side::right}, {"least capable that serves", Side::right}});
  for (const auto& q : verdict::profileQuantities(project))
    quantities.add({q.profile, std::to_string(q.scheduled), std::to_string(q.leastCapable)});
  TextTable needs({{"unit"}, {"scheduled profile"}, {"serves"}, {"lacks"}, {"would serve"}});
  for (const auto& need : verdict::profileNeeds(project))
    needs.add({need.tag, need.scheduled, need.scheduledServes ? "yes" : "no", joined(need.lacking), joined(need.serve)});
  return out + "\n" + quantities.text() + "\n" + needs.text();
}

std::string reviewCsv(const fleet::Snapshot& project) {
  return exchange::toCsv(reviewSheet(verdict::deskReview(project)));
}

}  // namespace ductwright::report
