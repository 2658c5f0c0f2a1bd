#include "report/text/data.h"

#include <string_view>

#include "engine/route_point.h"
#include "report/needs/report.h"
#include "report/needs/words.h"
#include "report/text/words.h"
#include "units/index.h"

namespace drystage::report {
namespace {

constexpr std::string_view needs_header =
    "day,date,reserve,unit,must_have,has,to_spare,met,fits,until_day,until_hour,until_place\r\n";

std::string row(const NeedsAnswer& answer, std::size_t day, std::size_t i) {
  const answers::PlanRun& planned = answer.planned;
  const engine::ReserveInfo& info = reserve_of(planned, answer.needs.reserves[i]);
  const answers::Need& need = answer.needs.need(day, i);
  if (!need.judged) return {};
  return csv_row(
      {std::to_string(day + 1), iso_date(planned.course.timeline->days[day].schedule.date),
       cell(info.name), cell(info.unit), number(need.must_have), number(need.has),
       number(need.slack()), yes_no(!need.lacks()), yes_no(need.fits),
       std::to_string(need.until_day + 1), number(need.until_h),
       need.until_place < 0 ? "" : cell(name_in(planned.plan.places, need.until_place))});
}

Json moment(const answers::PlanRun& planned, const answers::Moment& at) {
  return {{"day", at.day + 1},
          {"date", iso_date(date_of(planned, at.day))},
          {"hour", at.hour},
          {"place", json_place(planned.plan, engine::place_at(at.at))},
          {"from", json_place(planned.plan, at.at.from)},
          {"to", json_place(planned.plan, at.at.to)},
          {"done_km", at.done_km},
          {"to_go_km", at.to_go_km}};
}

Json moment(const answers::PlanRun& planned, const std::optional<answers::Moment>& at) {
  return at ? moment(planned, *at) : Json(nullptr);
}

/// Null where it is of something that is not with the party then.
Json need_json(const answers::PlanRun& planned, const answers::Need& need) {
  if (!need.judged) return nullptr;
  return {{"must_have", json_number(need.must_have)},
          {"has", need.has},
          {"to_spare", json_number(need.slack())},
          {"met", !need.lacks()},
          {"fits", need.fits},
          {"until",
           {{"day", need.until_day + 1},
            {"hour", need.until_h},
            {"place", json_place(planned.plan, need.until_place)},
            {"end_of_trip", until_end(planned, need)}}}};
}

Json reserves(const NeedsAnswer& answer) {
  Json out = Json::array();
  for (const int reserve : answer.needs.reserves) {
    const engine::ReserveInfo& info = reserve_of(answer.planned, reserve);
    out.push_back({{"name", info.name},
                   {"unit", info.unit},
                   {"capacity", info.capacity},
                   {"life_supporting", info.life_supporting}});
  }
  return out;
}

Json days(const NeedsAnswer& answer) {
  const answers::PlanRun& planned = answer.planned;
  Json out = Json::array();
  for (std::size_t d = at(answer.needs.first_day); d < planned.record.days(); ++d) {
    Json by_reserve = Json::object();
    for (std::size_t i = 0; i < answer.needs.reserves.size(); ++i) {
      by_reserve[reserve_of(planned, answer.needs.reserves[i]).name] =
          need_json(planned, answer.needs.need(d, i));
    }
    const auto& schedule = planned.course.timeline->days[d].schedule;
    out.push_back({{"day", d + 1},
                   {"date", iso_date(schedule.date)},
                   {"at", engine::route_point_name(planned.plan, schedule.from)},
                   {"reserves", std::move(by_reserve)}});
  }
  return out;
}

std::string possible(const answers::SupplyStretch& stretch) {
  if (stretch.always) return "always";
  if (stretch.last) return "until";
  return stretch.again ? "not_at_first" : "never";
}

Json windows(const answers::PlanRun& planned, const std::vector<answers::Window>& all) {
  Json out = Json::array();
  for (const answers::Window& window : all) {
    out.push_back(
        {{"from", moment(planned, window.from)},
         {"last", moment(planned, window.last)},
         {"decides",
          window.decides < 0 ? Json(nullptr) : Json(reserve_of(planned, window.decides).name)}});
  }
  return out;
}

Json turn_back(const NeedsAnswer& answer) {
  const answers::PlanRun& planned = answer.planned;
  Json stretches = Json::array();
  for (const answers::SupplyStretch& stretch : answer.turn_back.stretches) {
    const engine::ReserveInfo& info = reserve_of(planned, stretch.reserve);
    Json even = moment(planned, stretch.even);
    if (stretch.even) even["need"] = json_number(stretch.even_need);
    stretches.push_back({{"reserve", info.name},
                         {"unit", info.unit},
                         {"from", json_place(planned.plan, stretch.from_place)},
                         {"to", json_place(planned.plan, stretch.to_place)},
                         {"leaves", moment(planned, stretch.leaves)},
                         {"arrives", moment(planned, stretch.arrives)},
                         {"possible", possible(stretch)},
                         {"last", moment(planned, stretch.last)},
                         {"again", moment(planned, stretch.again)},
                         {"windows", windows(planned, stretch.windows)},
                         {"even", std::move(even)}});
  }
  return {{"stretches", std::move(stretches)},
          {"drinking_water_and_fuel", windows(planned, answer.turn_back.vital)},
          {"all", windows(planned, answer.turn_back.windows)}};
}

/// Null where it is not asked.
Json confidence(const NeedsAnswer& answer) {
  if (!answer.on_trips) return nullptr;
  const answers::NeedsOnTrips& its = *answer.on_trips;
  return {{"chance", its.asked.chance},
          {"trips", its.asked.trips},
          {"seed", its.asked.seed},
          {"on_time", its.on_time}};
}

}  // namespace

std::string needs_csv(const NeedsAnswer& answer) {
  std::string out(needs_header);
  for (std::size_t day = at(answer.needs.first_day); day < answer.planned.record.days(); ++day) {
    for (std::size_t i = 0; i < answer.needs.reserves.size(); ++i) out += row(answer, day, i);
  }
  return out;
}

std::string needs_json(const NeedsAnswer& answer) {
  const Json out{{"format", "drystage.needs/1"},
                 {"trip", json_trip(answer.planned)},
                 {"met", answer.needs.met()},
                 {"warnings", answer.warnings},
                 {"confidence", confidence(answer)},
                 {"reserves", reserves(answer)},
                 {"days", days(answer)},
                 {"turn_back", turn_back(answer)}};
  return out.dump(json_indent) + "\n";
}

}  // namespace drystage::report
