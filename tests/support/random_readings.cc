#include "support/random_readings.h"

#include <fmt/core.h>

#include <algorithm>
#include <optional>
#include <stdexcept>
#include <string>
#include <utility>
#include <variant>

#include "engine/timeline.h"
#include "plan/items.h"
#include "plan/read.h"
#include "plan/write_reading.h"
#include "units/parse.h"

namespace drystage::support {
namespace {

using plan::Found;
using plan::Plan;
using plan::Reading;
using plan::WaterUse;

// The number that a plan's text would give.
double as_read(double number, const char* unit, units::Kind kind) {
  return *units::parse(fmt::format("{} {}", number, unit), kind);
}

class ReadingMaker {
 public:
  ReadingMaker(const Pick& pick, const Plan& plan) : pick_(pick), plan_(plan) {}

  Reading make(int day, std::optional<int> minute) {
    Reading made;
    made.day = day;
    made.in_the_evening = !minute;
    if (minute) made.hour = *minute / 60 + (*minute % 60) / 60.0;
    add_water(made, WaterUse::drinking, made.drinking_l);
    add_water(made, WaterUse::utility, made.utility_l);
    add_fuel(made);
    add_power_and_cold(made);
    if (plan_.plans_food && one_in(3)) made.meals = pick_(0, 200) / 4.0;
    add_tyres(made);
    add_consumables(made);
    const Reading nothing{
        .day = made.day, .in_the_evening = made.in_the_evening, .hour = made.hour};
    if (made == nothing || one_in(2)) add_place(made);
    return made;
  }

 private:
  [[nodiscard]] bool one_in(int n) const { return pick_(1, n) == 1; }
  [[nodiscard]] double part_of(double whole) const { return whole * pick_(0, 8) / 8; }

  [[nodiscard]] Found in_vessel(double holds_l, const plan::Gauge& gauge) const {
    if (!gauge.is_given() || one_in(2)) return {.amount = part_of(holds_l)};
    const double top_m =
        gauge.marks.empty() ? plan::height_m(gauge.shape) : gauge.marks.back().depth_m;
    const int top_mm = static_cast<int>(top_m * 1000);
    return {.depth_m = as_read(pick_(0, top_mm) / 10.0, "cm", units::Kind::length)};
  }

  void add_water(Reading& made, WaterUse use, std::optional<double>& together_l) const {
    const int how = pick_(0, 2);
    double room_l = 0;
    for (std::size_t c = 0; c < plan_.water.containers.size(); ++c) {
      const plan::Container& one = plan_.water.containers[c];
      if (one.use != use) continue;
      room_l += one.holds_l;
      if (how == 1 && !one_in(3)) {
        made.containers.push_back(
            {.container = static_cast<int>(c), .found = in_vessel(one.holds_l, one.gauge)});
      }
    }
    if (how == 2 && room_l > 0) together_l = part_of(room_l);
  }

  void add_fuel(Reading& made) const {
    for (std::size_t v = 0; v < plan_.vehicles.size(); ++v) {
      const int how = pick_(0, 2);
      const int vehicle = static_cast<int>(v);
      double room_l = 0;
      for (std::size_t t = 0; t < plan_.vehicles[v].tanks.size(); ++t) {
        const plan::Tank& tank = plan_.vehicles[v].tanks[t];
        room_l += tank.holds_l - tank.unusable_l;
        if (how == 1 && !one_in(3)) {
          made.tanks.push_back({.tank = {.vehicle = vehicle, .tank = static_cast<int>(t)},
                                .found = in_vessel(tank.holds_l, tank.gauge)});
        }
      }
      if (how == 2) made.fuel.push_back({.vehicle = vehicle, .usable_l = part_of(room_l)});
    }
  }

  void add_power_and_cold(Reading& made) const {
    for (std::size_t b = 0; b < plan_.power.banks.size(); ++b) {
      const plan::Bank& bank = plan_.power.banks[b];
      plan::BankFound found{.bank = static_cast<int>(b)};
      const int how = pick_(0, bank.kind == plan::BatteryKind::lfp ? 2 : 3);
      if (how == 1) found.share = as_read(pick_(0, 1000) / 10.0, "%", units::Kind::fraction);
      if (how == 2) found.charge_ah = part_of(bank.capacity_ah);
      if (how == 3) found.resting_v = bank.voltage_v * pick_(96, 108) / 100;
      if (how > 0) made.banks.push_back(found);
    }
    for (std::size_t c = 0; c < plan_.cold.size(); ++c) {
      if (!one_in(3)) continue;
      made.cabinets.push_back(
          {.cabinet = static_cast<int>(c), .chilled_c = static_cast<double>(pick_(-20, 30))});
    }
  }

  void add_tyres(Reading& made) const {
    for (std::size_t v = 0; v < plan_.vehicles.size(); ++v) {
      const auto& tyres = plan_.vehicles[v].tyres;
      if (!tyres) continue;
      const int how = pick_(0, 3);
      if (how == 0) continue;
      plan::TyresFound& found = made.tyres.emplace_back();
      found.vehicle = static_cast<int>(v);
      if (how != 2) found.spare_wheels = pick_(0, tyres->spare_wheels);
      if (how != 1) found.repairs = pick_(0, tyres->repairs);
    }
  }

  void add_consumables(Reading& made) const {
    for (std::size_t c = 0; c < plan_.consumables.size(); ++c) {
      double room = 0;
      for (const plan::ConsumableStore& store : plan_.consumables[c].stores) room += store.holds;
      if (!one_in(2)) continue;
      made.consumables.push_back({.consumable = static_cast<int>(c), .amount = part_of(room)});
    }
  }

  void add_place(Reading& made) const {
    const auto last = static_cast<int>(plan_.itinerary.size()) - 1;
    const auto& item = plan_.itinerary[static_cast<std::size_t>(pick_(0, last))];
    const auto* drive = std::get_if<plan::Drive>(&item);
    if (drive == nullptr) {
      made.at = {.place = std::get<plan::At>(plan_.itinerary.front()).place};
    } else if (one_in(2)) {
      made.at = {.place = drive->to};
    } else {
      made.at = {.place = drive->to, .after_km = part_of(drive->distance_km)};
    }
  }

  const Pick& pick_;
  const Plan& plan_;
};

}  // namespace

std::vector<Reading> random_readings(const Pick& pick, const Plan& plan) {
  int nights = 0;
  for (const plan::ItineraryItem& item : plan.itinerary) {
    if (const auto* stay = std::get_if<plan::Stay>(&item)) nights += stay->nights;
  }
  constexpr std::size_t most = 6;
  constexpr int before_the_evening = static_cast<int>(plan::evening_h) * 60 - 1;
  ReadingMaker maker(pick, plan);
  std::vector<Reading> made;
  for (int day = 0; day <= nights && made.size() < most; ++day) {
    if (pick(1, 4) == 1) made.push_back(maker.make(day, pick(0, before_the_evening)));
    if (pick(1, 3) == 1) made.push_back(maker.make(day, std::nullopt));
  }
  return made;
}

std::string with_random_readings(const Pick& pick, const std::string& text) {
  const Plan plan = plan::read_text(text).plan.value();
  std::string out = text;
  // Nobody can have been everywhere on any day.
  Plan read = plan;
  for (const Reading& reading : random_readings(pick, plan)) {
    read.readings.push_back(reading);
    if (engine::lay_timeline(read).problems.empty()) {
      out = plan::with_reading(out, reading);
    } else {
      read.readings.pop_back();
    }
  }
  const auto day = [&] { return std::to_string(pick(1, 9)); };
  const auto change = [&](const std::vector<plan::NewMember>& members) {
    if (pick(1, 3) != 1) return;
    try {
      out = plan::with_change(out, members);
    } catch (const std::invalid_argument&) {
      // What is gone, or shut, was found or changed later.
    }
  };
  change({{"day", day()}, {"wait", "2 days"}});
  std::vector<int> stays;
  int here = 0;
  for (const plan::ItineraryItem& item : plan.itinerary) {
    if (const auto* begin = std::get_if<plan::At>(&item)) here = begin->place;
    if (const auto* drive = std::get_if<plan::Drive>(&item)) here = drive->to;
    if (std::holds_alternative<plan::Stay>(item)) stays.push_back(here);
  }
  for (const int place : stays) {
    if (std::ranges::count(stays, place) > 1) continue;
    const std::string name = plan::yaml_text(plan.places[static_cast<std::size_t>(place)].name);
    change({{"day", day()}, {"stay", name}, {"nights", std::to_string(pick(0, 5))}});
  }
  for (const plan::Place& place : plan.places) {
    const std::string name = plan::yaml_text(place.name);
    change({{"day", day()}, {"no_supply", name}});
    const bool sells_food = std::ranges::find(place.supplies, plan::Commodity::food,
                                              &plan::Supply::commodity) != place.supplies.end();
    if (sells_food) change({{"day", day()}, {"no_supply", name}, {"of", "[food]"}});
  }
  for (std::size_t i = plan.itinerary.size(); i-- > 0;) {
    const auto* drive = std::get_if<plan::Drive>(&plan.itinerary[i]);
    if (drive == nullptr) continue;
    const auto leads_there = [&](const plan::ItineraryItem& item) {
      const auto* other = std::get_if<plan::Drive>(&item);
      return other != nullptr && other->to == drive->to;
    };
    if (std::ranges::count_if(plan.itinerary, leads_there) > 1) continue;
    const std::string name = plan::yaml_text(plan.places[static_cast<std::size_t>(drive->to)].name);
    change({{"day", day()}, {"shut", name}});
    break;
  }
  for (const plan::Person& person : plan.people) {
    change({{"day", day()}, {pick(0, 1) == 0 ? "joins" : "leaves", plan::yaml_text(person.name)}});
  }
  if (!plan.water.containers.empty()) {
    const std::vector<plan::Item> items = plan::items_of(plan);
    change({{"day", day()}, {"lost", plan::yaml_text(plan::shortest_names(items).front())}});
  }
  const bool can_be = engine::lay_timeline(plan::read_text(out).plan.value()).problems.empty();
  return can_be ? out : text;
}

}  // namespace drystage::support
