#include "report/text/json.h"

#include <algorithm>

#include "engine/route_point.h"
#include "report/needs/report.h"
#include "report/needs/words.h"
#include "report/text/words.h"

namespace drystage::report {
namespace {

Json moment(const answers::Trial& trial, const answers::Moment& at) {
  return {{"day", at.day + 1},
          {"date", iso_date(date_of(trial, at.day))},
          {"hour", at.hour},
          {"place", json_place(trial.plan, engine::place_at(at.at))},
          {"from", json_place(trial.plan, at.at.from)},
          {"to", json_place(trial.plan, at.at.to)},
          {"done_km", at.done_km},
          {"to_go_km", at.to_go_km}};
}

Json moment(const answers::Trial& trial, const std::optional<answers::Moment>& at) {
  return at ? moment(trial, *at) : Json(nullptr);
}

Json need_json(const answers::Trial& trial, const answers::Need& need) {
  return {{"must_have", json_number(need.must_have)},
          {"has", need.has},
          {"to_spare", json_number(need.slack())},
          {"met", !need.lacks()},
          {"fits", need.fits},
          {"until",
           {{"day", need.until_day + 1},
            {"hour", need.until_h},
            {"place", json_place(trial.plan, need.until_place)},
            {"end_of_trip", until_end(trial, need)}}}};
}

Json reserves(const NeedsAnswer& answer) {
  Json out = Json::array();
  for (const int reserve : answer.needs.reserves) {
    const engine::ReserveInfo& info = reserve_of(answer.trial, reserve);
    out.push_back({{"name", info.name},
                   {"unit", info.unit},
                   {"capacity", info.capacity},
                   {"life_supporting", info.life_supporting}});
  }
  return out;
}

Json days(const NeedsAnswer& answer) {
  const answers::Trial& trial = answer.trial;
  Json out = Json::array();
  for (std::size_t d = 0; d < trial.record.days(); ++d) {
    Json by_reserve = Json::object();
    for (std::size_t i = 0; i < answer.needs.reserves.size(); ++i) {
      by_reserve[reserve_of(trial, answer.needs.reserves[i]).name] =
          need_json(trial, answer.needs.need(d, i));
    }
    const auto& schedule = trial.course.timeline->days[d].schedule;
    out.push_back({{"day", d + 1},
                   {"date", iso_date(schedule.date)},
                   {"at", engine::route_point_name(trial.plan, schedule.from)},
                   {"reserves", std::move(by_reserve)}});
  }
  return out;
}

std::string possible(const answers::SupplyStretch& stretch) {
  if (stretch.always) return "always";
  if (stretch.last) return "until";
  return stretch.again ? "not_at_first" : "never";
}

Json windows(const answers::Trial& trial, const std::vector<answers::Window>& all) {
  Json out = Json::array();
  for (const answers::Window& window : all) {
    out.push_back({{"from", moment(trial, window.from)},
                   {"last", moment(trial, window.last)},
                   {"decides", window.decides < 0 ? Json(nullptr)
                                                  : Json(reserve_of(trial, window.decides).name)}});
  }
  return out;
}

Json turn_back(const NeedsAnswer& answer) {
  const answers::Trial& trial = answer.trial;
  Json stretches = Json::array();
  for (const answers::SupplyStretch& stretch : answer.turn_back.stretches) {
    const engine::ReserveInfo& info = reserve_of(trial, stretch.reserve);
    Json even = moment(trial, stretch.even);
    if (stretch.even) even["need"] = json_number(stretch.even_need);
    stretches.push_back({{"reserve", info.name},
                         {"unit", info.unit},
                         {"from", json_place(trial.plan, stretch.from_place)},
                         {"to", json_place(trial.plan, stretch.to_place)},
                         {"leaves", moment(trial, stretch.leaves)},
                         {"arrives", moment(trial, stretch.arrives)},
                         {"possible", possible(stretch)},
                         {"last", moment(trial, stretch.last)},
                         {"again", moment(trial, stretch.again)},
                         {"windows", windows(trial, stretch.windows)},
                         {"even", std::move(even)}});
  }
  return {{"stretches", std::move(stretches)},
          {"drinking_water_and_fuel", windows(trial, answer.turn_back.vital)},
          {"all", windows(trial, answer.turn_back.windows)}};
}

}  // namespace

std::string needs_json(const NeedsAnswer& answer) {
  const Json out{{"format", "drystage.needs/1"},  {"trip", json_trip(answer.trial)},
                 {"met", answer.needs.met()},     {"warnings", answer.warnings},
                 {"reserves", reserves(answer)},  {"days", days(answer)},
                 {"turn_back", turn_back(answer)}};
  return out.dump(json_indent) + "\n";
}

}  // namespace drystage::report
