#include "support/needs_answer.h"

#include <algorithm>
#include <stdexcept>

#include "support/trip.h"

namespace drystage::support {
namespace {

constexpr double second_leg_km = 115;

}  // namespace

PlanText three_places() {
  PlanText plan;
  plan.margins = {"drinking_water: 1 L", "fuel: 1 L"};
  plan.containers = {"{name: can, holds: 120 L, filled: 60 L, for: drinking}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 80 L}]}"};
  const std::string supplies = "drinking_water: {}, diesel: {}";
  plan.places = {PlanText::place("Base", "air", supplies), PlanText::place("Red Tables", "air"),
                 PlanText::place("Far Well", "air", supplies)};
  plan.itinerary = {"{at: Base}", "drive: {to: Red Tables, distance: 200 km, surfaces: gravel}",
                    "stay: {nights: 3}",
                    "drive: {to: Far Well, distance: 115 km, surfaces: gravel}",
                    "stay: {nights: 3}"};
  return plan;
}

report::NeedsAnswer plain_needs(const PlanText& text) {
  report::NeedsAnswer answer;
  answer.planned = travel(text);
  const auto& reserves = answer.planned.course.reserves;
  for (std::size_t r = 0; r < reserves.size(); ++r) {
    if (reserves[r].sense == engine::Sense::keep_above) {
      answer.needs.reserves.push_back(static_cast<int>(r));
    }
  }
  const answers::Need need{
      .must_have = 10, .has = 20, .fits = true, .until_day = 3, .until_h = 12, .until_place = 2};
  answer.needs.table.assign(answer.planned.record.days() * answer.needs.reserves.size(), need);
  return answer;
}

answers::Need& need_of(report::NeedsAnswer& answer, std::size_t day, const std::string& reserve) {
  const int index = reserve_index(answer.planned.course, reserve);
  const auto& all = answer.needs.reserves;
  const auto at = std::ranges::find(all, index);
  if (at == all.end()) throw std::out_of_range("there are no needs of " + reserve);
  return answer.needs.table[day * all.size() + static_cast<std::size_t>(at - all.begin())];
}

answers::Moment after_red_tables(int day, double hour, double done_km) {
  return {.day = day,
          .hour = hour,
          .at = {.from = 1, .to = 2, .share = done_km / second_leg_km},
          .done_km = done_km,
          .to_go_km = second_leg_km - done_km};
}

answers::Moment at_place(int day, double hour, int place) {
  return {.day = day, .hour = hour, .at = {.from = place, .to = place, .share = 0}};
}

answers::SupplyStretch stretch_of(const report::NeedsAnswer& answer, const std::string& reserve) {
  answers::SupplyStretch stretch;
  stretch.reserve = reserve_index(answer.planned.course, reserve);
  stretch.from_place = 0;
  stretch.to_place = 2;
  stretch.leaves = at_place(0, 8, 0);
  stretch.arrives = at_place(3, 10, 2);
  return stretch;
}

}  // namespace drystage::support
