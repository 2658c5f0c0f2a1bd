#include "report/run/data.h"

#include <cmath>
#include <string_view>

#include "engine/route_point.h"
#include "report/mishaps/words.h"
#include "report/run/report.h"
#include "report/run/words.h"
#include "report/text/breach_words.h"
#include "report/text/events.h"
#include "report/text/page.h"
#include "report/text/words.h"
#include "units/index.h"

namespace drystage::report {
namespace {

constexpr std::string_view run_header =
    "day,date,reserve,unit,start,gained,used,lost,end,lowest,left,margin,short,endurance,"
    "endurance_unit,breached,drawn\r\n";

std::string row(const answers::PlanRun& planned, std::size_t d, std::size_t r) {
  const engine::ReserveInfo& info = planned.course.reserves[r];
  const engine::ReserveDay& day = planned.record.reserve(d, r);
  if (!day.judged) return {};
  const bool flows = info.sense == engine::Sense::keep_above;
  const auto flow = [flows](double value) { return flows ? number(value) : ""; };
  return csv_row({std::to_string(d + 1), iso_date(planned.course.timeline->days[d].schedule.date),
                  cell(info.name), cell(info.unit), number(day.start), flow(day.gained),
                  flow(day.used), flow(day.lost), number(day.end), number(day.lowest),
                  number(day.left), number(day.margin), number(day.short_of), number(day.endurance),
                  endurance_unit(info, units::System::metric), yes_no(day.breach_h >= 0),
                  engine::is_bank(info) ? number(day.drawn) : ""});
}

Json vehicles(const answers::PlanRun& planned) {
  Json out = Json::array();
  for (std::size_t v = 0; v < planned.plan.vehicles.size(); ++v) {
    const plan::Vehicle& vehicle = planned.plan.vehicles[v];
    const engine::Heaviest& most = planned.record.heaviest[v];
    out.push_back({{"name", vehicle.name},
                   {"heaviest_kg", most.kg},
                   {"day", most.day + 1},
                   {"limit_kg", vehicle.limit_kg ? Json(*vehicle.limit_kg) : Json(nullptr)}});
  }
  return out;
}

Json reserves(const answers::PlanRun& planned) {
  Json out = Json::array();
  for (std::size_t r = 0; r < planned.course.reserves.size(); ++r) {
    const engine::ReserveInfo& info = planned.course.reserves[r];
    const answers::ReserveOutlook& outlook = planned.verdict.reserves[r];
    const Json first =
        outlook.first_breach_day ? Json(*outlook.first_breach_day + 1) : Json(nullptr);
    out.push_back({{"name", info.name},
                   {"unit", info.unit},
                   {"capacity",
                    info.sense == engine::Sense::keep_above ? Json(info.capacity) : Json(nullptr)},
                   {"first_breach_day", first},
                   {"lowest", {{"day", outlook.lowest_day + 1}, {"left", outlook.lowest}}},
                   {"slack", {{"day", outlook.tightest_day + 1}, {"amount", outlook.slack}}},
                   {"short", outlook.short_of}});
  }
  return out;
}

/// What lies frozen in a cabinet, at its warmest; null where nothing does.
Json frozen_c(const engine::ReserveDay& day) {
  return std::isnan(day.frozen_c) ? Json(nullptr) : Json(day.frozen_c);
}

/// Null where it is of something that is not with the party that day.
Json reserve_day(const engine::ReserveDay& day, const engine::ReserveInfo& info) {
  if (!day.judged) return nullptr;
  Json out{{"start", day.start}};
  if (info.sense == engine::Sense::keep_above) {
    out["gained"] = day.gained;
    out["used"] = day.used;
    out["lost"] = day.lost;
  }
  if (engine::is_bank(info)) out["drawn"] = day.drawn;
  out["end"] = day.end;
  out["lowest"] = day.lowest;
  if (info.sense == engine::Sense::keep_below) out["frozen"] = frozen_c(day);
  out["left"] = day.left;
  out["margin"] = day.margin;
  out["endurance"] = json_number(day.endurance);
  out["short"] = day.short_of;
  out["breached"] = day.breach_h >= 0;
  return out;
}

Json days(const answers::PlanRun& planned) {
  const std::vector<engine::Event> events = all_events(planned);
  Json out = Json::array();
  for (std::size_t d = 0; d < planned.record.days(); ++d) {
    const engine::DayInfo& info = planned.course.timeline->days[d];
    const engine::DayConditions& weather = planned.course.timeline->conditions.days[d];
    Json by_reserve = Json::object();
    for (std::size_t r = 0; r < planned.course.reserves.size(); ++r) {
      by_reserve[planned.course.reserves[r].name] =
          reserve_day(planned.record.reserve(d, r), planned.course.reserves[r]);
    }
    Json today = Json::array();
    for (const engine::Event& event : events) {
      if (at(event.day) != d) continue;
      today.push_back(
          {{"hour", event.hour},
           {"kind", traits_of(event.kind).name},
           {"text", event_words(planned.plan, planned.course, event, units::System::metric)}});
    }
    out.push_back({{"day", d + 1},
                   {"date", iso_date(info.schedule.date)},
                   {"from", engine::route_point_name(planned.plan, info.schedule.from)},
                   {"to", engine::route_point_name(planned.plan, info.schedule.to)},
                   {"distance_km", info.schedule.distance_km},
                   {"drive_h", info.schedule.drive_h},
                   {"t_max_c", weather.max_c},
                   {"t_min_c", weather.min_c},
                   {"reserves", std::move(by_reserve)},
                   {"events", std::move(today)}});
    if (static_cast<int>(d) < planned.course.first_judged_day()) out.back()["found"] = true;
  }
  return out;
}

Json mend(const RunAnswer& answer) {
  if (!answer.mend) return nullptr;
  Json changes = Json::array();
  for (const answers::Change& change : answer.mend->changes)
    changes.push_back(engine::words(change.name));
  return {{"changes", std::move(changes)}, {"holds", answer.mend->verdict.holds}};
}

/// What a spell does where it hurts most.
Json spell(const answers::PlanRun& planned, const answers::SpellFinding& finding) {
  Json out{{"first_day", finding.first_day + 1},
           {"last_day", finding.last_day + 1},
           {"hotter_c", {finding.least_hotter_k, finding.most_hotter_k}},
           {"spread_given", !finding.usual_spread},
           {"sun", {finding.least_sun, finding.most_sun}},
           {"outcome", outcome_name(finding.outcome)},
           {"breaks", finding.breaks()},
           {"reserve", nullptr},
           {"load", nullptr},
           {"day", nullptr}};
  if (finding.load >= 0) {
    out["load"] = planned.plan.power.loads[at(finding.load)].name;
    out["day"] = finding.day + 1;
  }
  if (finding.reserve < 0) return out;
  const engine::ReserveInfo& info = reserve_of(planned, finding.reserve);
  out["reserve"] = info.name;
  out["day"] = finding.day + 1;
  out["lowest"] = finding.lowest;
  out["short"] = finding.short_of;
  out["utility_drunk"] = finding.stood_in;
  out["unit"] = info.unit;
  return out;
}

/// Both spells, and what was tried; of a run in one of them, that alone.
Json spells(const RunAnswer& answer) {
  Json out{{"shown", answer.shown ? spell_name(answer.shown->spell) : "usual"}};
  if (answer.shown) {
    out[spell_name(answer.shown->spell)] = spell(answer.planned, *answer.shown);
  }
  if (!answer.spells) return out;
  out["breaks"] = answer.spells->break_something();
  out["tried_every_days"] = answer.spells->every_days;
  for (const answers::SpellFinding& finding : answer.spells->found) {
    out[spell_name(finding.spell)] = spell(answer.planned, finding);
  }
  return out;
}

Json drawn(const DrawnTrip& drawn) {
  Json happened = Json::array();
  for (const Befell& one : drawn.befell) {
    happened.push_back({{"day", one.day + 1}, {"what", one.what}});
  }
  return {{"trip", drawn.trip},
          {"seed", drawn.seed},
          {"story", drawn.story},
          {"happened", std::move(happened)}};
}

Json json_not_judged(const answers::PlanRun& planned) {
  Json out = Json::array();
  for (const engine::Family family : not_judged(planned))
    out.push_back(engine::family_name(family));
  return out;
}

}  // namespace

std::string run_csv(const RunAnswer& answer) {
  std::string out(run_header);
  for (std::size_t d = 0; d < answer.planned.record.days(); ++d) {
    for (std::size_t r = 0; r < answer.planned.course.reserves.size(); ++r) {
      out += row(answer.planned, d, r);
    }
  }
  return out;
}

Json run_data(const RunAnswer& answer) {
  const answers::PlanRun& planned = answer.planned;
  Json verdict = json_verdict(planned, planned.verdict);
  if (answer.without_unconfirmed) {
    verdict["without_unconfirmed"] = json_verdict(planned, *answer.without_unconfirmed);
  }
  Json out{{"format", "drystage.run/1"},    {"trip", json_trip(planned)},
           {"verdict", std::move(verdict)}, {"spell", spells(answer)},
           {"mend", mend(answer)},          {"not_judged", json_not_judged(planned)},
           {"warnings", answer.warnings},   {"vehicles", vehicles(planned)},
           {"reserves", reserves(planned)}, {"days", days(planned)}};
  if (answer.drawn) out["drawn"] = drawn(*answer.drawn);
  return out;
}

std::string run_json(const RunAnswer& answer) { return run_data(answer).dump(json_indent) + "\n"; }

}  // namespace drystage::report
