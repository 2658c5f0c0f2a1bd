#include "report/text/data.h"

#include <string_view>

#include "answers/size/placing.h"
#include "report/mishaps/words.h"
#include "report/size/report.h"
#include "report/size/words.h"
#include "report/text/breach_words.h"
#include "report/text/words.h"
#include "units/index.h"

namespace drystage::report {
namespace {

using answers::Failing;
using answers::SizedLine;
using answers::Sizing;
using answers::Totals;

constexpr std::string_view size_header =
    "set,name,counted,of,each,unit,plan_amount,plan_detail,plan_kg,amount,detail,kg,cost,space_l,"
    "kept,one_fewer,fails,fails_day,fails_date,fails_text\r\n";

/// The day, from 0, on which one fewer fails; -1 for what no day makes better or worse.
int failing_day(const Failing& failing) {
  if (failing.reason == Failing::Reason::margin && failing.breach) return failing.breach->day;
  if (failing.reason == Failing::Reason::mishap) {
    const answers::Finding& finding = failing.finding;
    return finding.dry_day >= 0 ? finding.dry_day : finding.day;
  }
  return -1;
}

std::string row(const SizeAnswer& answer, std::string_view set, const SizedLine& line) {
  const bool counted = !line.many.empty();
  const std::optional<Failing>& fails = line.one_fewer;
  const int day = fails ? failing_day(*fails) : -1;
  return csv_row(
      {cell(set),
       cell(line.one),
       yes_no(counted),
       cell(line.of),
       counted ? number(line.each) : "",
       cell(line.unit),
       number(line.plan_amount),
       cell(line.plan_detail),
       number(line.plan_kg),
       number(line.amount),
       cell(line.detail),
       number(line.kg),
       answer.sizing.costs_given ? number(line.cost) : "",
       number(line.space_l),
       yes_no(line.kept),
       cell(line.fewer.value_or("")),
       fails ? cell(reason_name(fails->reason)) : "",
       day >= 0 ? std::to_string(day + 1) : "",
       day >= 0 ? iso_date(date_of(answer.planned, day)) : "",
       fails ? cell(failing_words(answer.planned, *fails, units::System::metric, Manner::note))
             : ""});
}

Json mishap(const answers::PlanRun& planned, const Failing& failing) {
  const answers::Finding& finding = failing.finding;
  Json out{{"failure", failing.mishap}};
  out.update(json_moment(planned, finding.day, finding.hour));
  out["outcome"] = outcome_name(finding.outcome);
  const bool named = finding.reserve >= 0;
  const auto* info = named ? &reserve_of(planned, finding.reserve) : nullptr;
  out["reserve"] = named ? Json(info->name) : Json(nullptr);
  out["unit"] = named ? Json(info->unit) : Json(nullptr);
  out["dry"] = json_dry(planned, finding);
  return out;
}

/// What is passed: a vehicle's or a cabinet's name, null where it is the set as a whole.
Json subject(const answers::PlanRun& planned, const Failing& failing) {
  if (failing.subject < 0) return nullptr;
  const auto index = at(failing.subject);
  if (failing.reason == Failing::Reason::overload) {
    return scale_words(planned.plan, planned.course.scales[index]);
  }
  if (failing.reason == Failing::Reason::packing) return planned.plan.cold[index].name;
  return nullptr;
}

Json failing_json(const answers::PlanRun& planned, const Failing& failing) {
  Json out{{"reason", reason_name(failing.reason)},
           {"text", failing_words(planned, failing, units::System::metric, Manner::note)}};
  switch (failing.reason) {
    case Failing::Reason::margin:
      out["breach"] = json_breach(planned, failing.breach ? &*failing.breach : nullptr);
      out["without_unconfirmed"] = failing.unconfirmed;
      break;
    case Failing::Reason::mishap:
      out["mishap"] = mishap(planned, failing);
      break;
    case Failing::Reason::chance:
      out["kept"] = json_chance(failing.kept);
      out["reserve"] =
          failing.reserve < 0 ? Json(nullptr) : Json(reserve_of(planned, failing.reserve).name);
      out["breach"] = failing.reserve < 0 ? Json(nullptr) : json_chance(failing.broken);
      break;
    case Failing::Reason::overload:
    case Failing::Reason::packing:
    case Failing::Reason::space:
    case Failing::Reason::budget:
    case Failing::Reason::things:
      out["subject"] = subject(planned, failing);
      out["over"] = failing.over;
      break;
  }
  return out;
}

Json totals(const Totals& of, const Sizing& sizing) {
  return {{"kg", of.kg},
          {"cost", sizing.costs_given ? Json(of.cost) : Json(nullptr)},
          {"space_l", of.space_l}};
}

/// What a line is of: a thing in a size of so many `unit`, or so many things of so much each.
Json thing(const SizedLine& line) {
  const bool counted = !line.many.empty();
  return {{"name", line.one},
          {"counted", counted},
          {"of", counted ? Json(line.of) : Json(nullptr)},
          {"each", counted ? Json(line.each) : Json(nullptr)},
          {"unit", line.unit}};
}

Json line_json(const SizeAnswer& answer, const SizedLine& line) {
  Json out = thing(line);
  out["plan"] = {{"amount", line.plan_amount}, {"detail", line.plan_detail}};
  out["load"] = {{"amount", line.amount}, {"detail", line.detail}};
  out["plan"]["kg"] = line.plan_kg;
  out["load"]["kg"] = line.kg;
  out["load"]["cost"] = answer.sizing.costs_given ? Json(line.cost) : Json(nullptr);
  out["load"]["space_l"] = line.space_l;
  out["kept"] = line.kept;
  out["one_fewer"] = nullptr;
  if (line.fewer) {
    out["one_fewer"] = {
        {"is", *line.fewer},
        {"fails", line.one_fewer ? failing_json(answer.planned, *line.one_fewer) : Json(nullptr)}};
  }
  return out;
}

Json vehicles(const SizeAnswer& answer, const answers::PlanRun& sized) {
  Json out = Json::array();
  for (std::size_t v = 0; v < sized.plan.vehicles.size(); ++v) {
    const engine::Heaviest& most = sized.record.heaviest[v];
    out.push_back({{"name", sized.plan.vehicles[v].name},
                   {"heaviest_kg", most.kg},
                   {"day", most.day + 1},
                   {"limit_kg", json_number(mass_limit(answer.planned.plan, v))},
                   {"plan_heaviest_kg", answer.planned.record.heaviest[v].kg}});
  }
  return out;
}

/// How near each reserve comes to its margin with the set.
Json sized_reserves(const answers::PlanRun& sized) {
  Json out = Json::array();
  for (std::size_t r = 0; r < sized.course.reserves.size(); ++r) {
    const engine::ReserveInfo& info = sized.course.reserves[r];
    const answers::ReserveOutlook& outlook = sized.verdict.reserves[r];
    out.push_back(
        {{"name", info.name},
         {"unit", info.unit},
         {"lowest", {{"day", outlook.lowest_day + 1}, {"left", outlook.lowest}}},
         {"slack", {{"day", outlook.tightest_day + 1}, {"amount", json_number(outlook.slack)}}},
         {"short", outlook.short_of}});
  }
  return out;
}

/// How likely it is that margins are kept; null where no confidence is asked for.
Json odds(const answers::PlanRun& planned, const std::optional<answers::KeptOdds>& of) {
  if (!of) return nullptr;
  Json reserves = Json::array();
  for (const auto& [reserve, broken] : of->reserves) {
    reserves.push_back(
        {{"name", reserve_of(planned, reserve).name}, {"breach", json_chance(broken)}});
  }
  return {{"trips", of->trips}, {"kept", json_chance(of->kept)}, {"reserves", std::move(reserves)}};
}

/// Which bay each thing goes into that the plan had not.
Json places(const plan::Plan& before, const answers::PlanRun& sized) {
  Json out = Json::array();
  for (const answers::Placed& one : answers::placed(before, sized)) {
    const plan::Vehicle& vehicle = sized.plan.vehicles[at(one.vehicle)];
    out.push_back(
        {{"name", one.name}, {"vehicle", vehicle.name}, {"bay", vehicle.bays[at(one.bay)].name}});
  }
  return out;
}

Json set_json(const SizeAnswer& answer, const answers::SizedPlan& set) {
  Json lines = Json::array();
  for (const SizedLine& line : set.lines) lines.push_back(line_json(answer, line));
  return {{"totals", totals(set.totals, answer.sizing)},
          {"lines", std::move(lines)},
          {"places", places(answer.planned.plan, set.planned)},
          {"vehicles", vehicles(answer, set.planned)},
          {"reserves", sized_reserves(set.planned)},
          {"odds", odds(set.planned, set.odds)}};
}

Json nearest(const SizeAnswer& answer) {
  const Sizing& sizing = answer.sizing;
  if (sizing.found || !sizing.miss) return nullptr;
  Json failing = Json::array();
  for (const Failing& one : sizing.miss->failing) {
    failing.push_back(failing_json(sizing.miss->set.planned, one));
  }
  Json out{{"failing", std::move(failing)},
           {"lacks", json_number(sizing.miss->lacks)},
           {"most_of_all", sizing.miss->most_of_all},
           {"beyond_load", sizing.miss->beyond_load}};
  const auto& in_the_way = sizing.miss->in_the_way;
  out["in_the_way"] = nullptr;
  if (in_the_way) {
    const answers::PlanRun& planned = sizing.miss->set.planned;
    const int reserve = in_the_way->reserve;
    out["in_the_way"] = {
        {"reserve", reserve < 0 ? Json(nullptr) : Json(reserve_of(planned, reserve).name)},
        {"limit", failing_json(planned, in_the_way->limit)}};
  }
  out.update(set_json(answer, sizing.miss->set));
  return out;
}

Json trade_off(const SizeAnswer& answer) {
  Json out = Json::array();
  for (const answers::TradeOff& row : answer.trade_off) {
    const Sizing& sizing = row.sizing;
    Json lines = Json::array();
    if (sizing.found) {
      for (const SizedLine& line : sizing.found->lines) {
        Json of = thing(line);
        of.update({{"amount", line.amount}, {"detail", line.detail}, {"kg", line.kg}});
        lines.push_back(std::move(of));
      }
    }
    out.push_back({{"more_days", row.more_days},
                   {"found", sizing.found.has_value()},
                   {"stopped", sizing.stopped},
                   {"given_up", sizing.given_up},
                   {"totals", sizing.found ? totals(sizing.found->totals, sizing) : Json(nullptr)},
                   {"lines", std::move(lines)}});
  }
  return out;
}

Json verdict(const SizeAnswer& answer) {
  const Sizing& sizing = answer.sizing;
  Json out{{"found", sizing.found.has_value()},
           {"partial", partial(answer)},
           {"given_up", sizing.given_up},
           {"plan_itself", json_verdict(answer.planned, answer.planned.verdict)}};
  if (sizing.found && answer.without_unconfirmed) {
    out["without_unconfirmed"] = json_verdict(sizing.found->planned, *answer.without_unconfirmed);
  }
  return out;
}

Json asked(const SizeAnswer& answer) {
  const bool cost = answer.options.least == answers::Least::cost;
  const auto& survive = answer.options.survive;
  const auto& confidence = answer.options.confidence;
  return {
      {"least", cost ? "cost" : "mass"},
      {"survive", survive ? json_kinds(*survive) : Json(nullptr)},
      {"tried", survive && answer.sizing.found ? json_kinds(answer.sizing.tried) : Json(nullptr)},
      {"confirmed_only", answer.options.confirmed_only},
      {"confidence", confidence ? Json{{"chance", confidence->chance},
                                       {"of", confidence->vital ? "life" : "any"},
                                       {"trips", confidence->trips},
                                       {"seed", confidence->seed}}
                                : Json(nullptr)}};
}

}  // namespace

std::string size_csv(const SizeAnswer& answer) {
  const answers::Sizing& sizing = answer.sizing;
  std::string out(size_header);
  if (sizing.found) {
    for (const SizedLine& line : sizing.found->lines) out += row(answer, "load", line);
  } else if (sizing.miss) {
    // So that nobody takes for enough what is not.
    for (const SizedLine& line : sizing.miss->set.lines) out += row(answer, "not enough", line);
  }
  return out;
}

std::string size_json(const SizeAnswer& answer) {
  Json out{{"format", "drystage.size/1"},
           {"trip", json_trip(answer.planned)},
           {"asked", asked(answer)},
           {"verdict", verdict(answer)},
           {"load", answer.sizing.found ? set_json(answer, *answer.sizing.found) : Json(nullptr)},
           {"nearest", nearest(answer)},
           {"plan_totals", totals(answer.sizing.plan_totals, answer.sizing)},
           {"plan_odds", odds(answer.planned, answer.sizing.plan_odds)},
           {"trade_off", trade_off(answer)},
           {"runs", answer.sizing.runs},
           {"written", answer.written.empty() ? Json(nullptr) : Json(answer.written)},
           {"warnings", answer.warnings},
           {"remarks", answer.sizing.remarks}};
  if (!answer.not_written.empty()) out["not_written"] = answer.not_written;
  return out.dump(json_indent) + "\n";
}

}  // namespace drystage::report
