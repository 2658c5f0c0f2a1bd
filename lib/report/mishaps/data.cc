#include "report/text/data.h"

#include <algorithm>
#include <string_view>

#include "report/mishaps/report.h"
#include "report/mishaps/words.h"
#include "report/text/words.h"
#include "units/index.h"

namespace drystage::report {
namespace {

using answers::Finding;
using answers::Outcome;

constexpr std::string_view mishaps_header =
    "failure,kind,day,date,hour,outcome,reserve,unit,slack,dry_day,dry_date,dry_hour,where,short,"
    "dry_for_h,retreat_saves\r\n";

std::string row(const MishapsAnswer& answer, const Finding& finding) {
  const answers::PlanRun& planned = answer.planned;
  const answers::Failure& failure = answer.sweep.failures[at(finding.failure)];
  const bool named = finding.reserve >= 0;
  const engine::ReserveInfo info =
      named ? reserve_of(planned, finding.reserve) : engine::ReserveInfo{};
  const bool dry = finding.dry_day >= 0;
  const auto of_dry = [dry](double value) { return dry ? number(value) : ""; };
  return csv_row(
      {cell(failure.name), cell(kind_name(failure.kind)), std::to_string(finding.day + 1),
       iso_date(date_of(planned, finding.day)), number(finding.hour),
       cell(outcome_name(finding.outcome)), cell(info.name), cell(info.unit),
       named ? number(finding.slack) : "", dry ? std::to_string(finding.dry_day + 1) : "",
       dry ? iso_date(date_of(planned, finding.dry_day)) : "", of_dry(finding.dry_hour),
       dry ? cell(finding.where) : "", of_dry(finding.short_of), of_dry(finding.dry_for_h),
       finding.retreat_saves ? yes_no(*finding.retreat_saves) : ""});
}

/// What comes of a mishap, whenever it struck.
Json outcome(const answers::PlanRun& planned, const Finding& finding) {
  Json out{{"outcome", outcome_name(finding.outcome)}};
  const bool named = finding.reserve >= 0;
  const auto* info = named ? &reserve_of(planned, finding.reserve) : nullptr;
  out["reserve"] = named ? Json(info->name) : Json(nullptr);
  out["unit"] = named ? Json(info->unit) : Json(nullptr);
  out["slack"] = named ? json_number(finding.slack) : Json(nullptr);
  out["dry"] = json_dry(planned, finding);
  if (finding.over_scale >= 0) {
    const engine::Scale& scale = planned.course.scales[at(finding.over_scale)];
    out["overload"] = {
        {"vehicle", planned.plan.vehicles[at(scale.vehicle)].name},
        {"what", scale.kind == engine::ScaleKind::total ? "total"
                                                        : engine::scale_name(planned.plan, scale)},
        {"kg", finding.over_kg}};
  }
  out["retreat_saves"] = finding.retreat_saves ? Json(*finding.retreat_saves) : Json(nullptr);
  return out;
}

Json finding_json(const answers::PlanRun& planned, const Finding& finding) {
  Json out = json_moment(planned, finding.day, finding.hour);
  out.update(outcome(planned, finding));
  return out;
}

Json worst(const MishapsAnswer& answer) {
  const std::vector<const Finding*> moments = worst_moments(answer);
  if (moments.empty()) return nullptr;
  Json out{{"failure", failure_name(answer.sweep, moments.front()->failure)}};
  out.update(finding_json(answer.planned, *moments.front()));
  return out;
}

Json verdict(const MishapsAnswer& answer) {
  const Tally counts = tally(answer.sweep);
  return {{"survives_any_one", survives_any_one(answer)},
          {"partial", partial(answer)},
          {"failures",
           {{"tried", counts.tried},
            {"run_out_vital", counts.vital},
            {"run_out", counts.dry},
            {"eat_margin", counts.margin}}},
          {"worst", worst(answer)},
          {"without_mishap", outcome(answer.planned, answer.sweep.plan_itself)}};
}

Json tried(const MishapsAnswer& answer) {
  const auto& days = answer.narrowed.days;
  return {{"runs", answer.sweep.findings.size()},
          {"runs_asked", answer.sweep.asked},
          {"only", answer.narrowed.only.empty() ? Json(nullptr) : json_kinds(answer.narrowed.only)},
          {"days", days ? Json::array({days->first + 1, days->second + 1}) : Json(nullptr)},
          {"left_out", json_kinds(answer.planned.plan.mishaps.left_out)}};
}

Json failures(const MishapsAnswer& answer) {
  Json out = Json::array();
  for (const answers::Failure& failure : answer.sweep.failures) {
    out.push_back({{"name", failure.name},
                   {"kind", kind_name(failure.kind)},
                   {"worst", nullptr},
                   {"findings", Json::array()}});
  }
  std::vector<Outcome> of_failure(answer.sweep.failures.size(), Outcome::holds);
  for (const Finding& finding : answer.sweep.findings) {
    const auto f = at(finding.failure);
    of_failure[f] = std::max(of_failure[f], finding.outcome);
    out[f]["worst"] = outcome_name(of_failure[f]);
    out[f]["findings"].push_back(finding_json(answer.planned, finding));
  }
  return out;
}

Json pairs(const MishapsAnswer& answer) {
  if (!answer.two && !answer.pairs) return nullptr;
  const answers::PairSweep sweep = answer.pairs.value_or(answers::PairSweep{});
  Json found = Json::array();
  for (const answers::PairFinding& pair : sweep.pairs) {
    Json first{{"failure", failure_name(answer.sweep, pair.first)}};
    first.update(json_moment(answer.planned, pair.first_day, pair.first_hour));
    Json second{{"failure", failure_name(answer.sweep, pair.second)}};
    second.update(json_moment(answer.planned, pair.worst.day, pair.worst.hour));
    Json entry{{"first", std::move(first)}, {"second", std::move(second)}};
    entry.update(outcome(answer.planned, pair.worst));
    entry["combinations"] = {{"tried", pair.tried}, {"dry", pair.dry}};
    found.push_back(std::move(entry));
  }
  return {{"first_mishaps_tried", sweep.done},
          {"first_mishaps_asked", answer.pairs ? Json(sweep.asked) : Json(nullptr)},
          {"runs", sweep.runs},
          {"found", std::move(found)}};
}

}  // namespace

std::string mishaps_csv(const MishapsAnswer& answer) {
  std::string out(mishaps_header);
  for (const Finding& finding : answer.sweep.findings) out += row(answer, finding);
  return out;
}

Json json_dry(const answers::PlanRun& planned, const Finding& finding) {
  if (finding.dry_day < 0) return nullptr;
  Json out = json_moment(planned, finding.dry_day, finding.dry_hour);
  out["where"] = finding.where;
  out["short"] = json_number(finding.short_of);
  out["for_h"] = json_number(finding.dry_for_h);
  return out;
}

Json json_kinds(const std::vector<plan::MishapKind>& of) {
  Json out = Json::array();
  for (const plan::MishapKind kind : of) out.push_back(kind_name(kind));
  return out;
}

std::string mishaps_json(const MishapsAnswer& answer) {
  const Json out{{"format", "drystage.mishaps/1"}, {"trip", json_trip(answer.planned)},
                 {"verdict", verdict(answer)},     {"tried", tried(answer)},
                 {"warnings", answer.warnings},    {"remarks", answer.sweep.remarks},
                 {"failures", failures(answer)},   {"pairs", pairs(answer)}};
  return out.dump(json_indent) + "\n";
}

}  // namespace drystage::report
