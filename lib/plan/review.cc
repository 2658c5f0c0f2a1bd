#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <variant>

#include "plan/cans.h"
#include "plan/food_kinds.h"
#include "plan/packing.h"
#include "plan/sections.h"
#include "plan/word_lists.h"
#include "units/day.h"
#include "units/format.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::plan {
namespace {

// For a first look, by the same figures as the engine weighs day by day.

double loaded_kg(const Plan& plan, std::size_t index) {
  const Vehicle& vehicle = plan.vehicles[index];
  const auto here = [index](int other) { return static_cast<std::size_t>(other) == index; };
  double sum_kg = vehicle.empty_kg + vehicle.gear_kg;
  for (const Tank& tank : vehicle.tanks)
    sum_kg += tank.empty_kg + tank.filled_l * fuel_kg_l(vehicle.fuel);
  for (const Container& container : plan.water.containers) {
    if (here(container.vehicle)) sum_kg += container.empty_kg + container.filled_l;
  }
  for (const Person& person : plan.people) {
    if (here(person.vehicle)) sum_kg += person.mass_kg;
  }
  for (const FoodItem& food : plan.food) {
    if (here(food.vehicle)) sum_kg += food.mass_kg;
  }
  for (const Cabinet& cabinet : plan.cold) {
    if (here(cabinet.vehicle)) sum_kg += cabinet.mass_kg + cabinet.ice_kg;
  }
  for (const Consumable& consumable : plan.consumables) {
    for (const ConsumableStore& store : consumable.stores) {
      if (here(store.vehicle)) sum_kg += store.empty_kg + store.filled * consumable.unit_kg;
    }
  }
  for (const Bank& bank : plan.power.banks) {
    if (here(bank.vehicle)) sum_kg += bank.mass_kg;
  }
  for (const Charger& charger : plan.power.chargers) {
    const Bank& bank = plan.power.banks[at(charger.bank)];
    if (here(bank.vehicle)) sum_kg += charger.mass_kg;
  }
  return sum_kg;
}

void review_vehicle(Log& log, const Plan& plan, std::size_t index) {
  const Vehicle& vehicle = plan.vehicles[index];
  if (!vehicle.limit_kg) return;
  const double loaded = loaded_kg(plan, index);
  if (loaded <= *vehicle.limit_kg) return;
  log.warning(
      {vehicle.mark, {}},
      fmt::format("vehicle {} starts with about {:.0f} kg, {:.0f} kg over its limit",
                  units::in_quotes(vehicle.name), loaded, loaded - *vehicle.limit_kg),
      fmt::format("at most {:.0f} kg with people, water, fuel and food", *vehicle.limit_kg));
}

void review_cabinet(Log& log, const Plan& plan, std::size_t index) {
  const Cabinet& cabinet = plan.cold[index];
  const double packed = packed_kg(plan, static_cast<int>(index));
  const double most_kg = most_packed_kg_l * cabinet.volume_l;
  if (packed <= most_kg) return;
  log.warning({cabinet.mark, {}},
              fmt::format("cabinet {} of {} has {} to hold", units::in_quotes(cabinet.name),
                          units::format(cabinet.volume_l, units::Kind::volume),
                          units::format(packed, units::Kind::mass)),
              fmt::format("at most about {}", units::format(most_kg, units::Kind::mass)),
              "will it all fit, with air between?");
}

/// How long food keeps is not guessed in silence.
void review_shelf_life(Log& log, const FoodItem& food) {
  if (!shelf_life_is_assumed(food)) return;
  const double days = shelf_life(food).life_days;
  log.warning({food.mark, {}},
              fmt::format("it is not said how long {} keeps: it is taken for {}, {} at 4 °C{}",
                          units::in_quotes(food.name),
                          food.potentially_hazardous ? "raw mince" : "vegetables",
                          days == 1 ? "1 day" : fmt::format("{:g} days", days),
                          food.kept == Kept::frozen ? " once it has thawed" : ""),
              "kind: raw meat, cooked, vegetables ... or keeps: {for: 10 days, at: 4 °C}",
              "docs/format.md lists the kinds");
}

/// A heat leak that was measured in use has the lid in it.
void review_lid(Log& log, const Cabinet& cabinet) {
  if (!cabinet.heat_leak_w_k || cabinet.lid) return;
  log.warning(
      {cabinet.mark, {}},
      fmt::format("\"heat_leak\" of {} is taken as measured with the lid shut: what opening "
                  "it and warm goods let in comes on top",
                  units::in_quotes(cabinet.name)),
      "if it was measured in use, lid: {openings: 0, warm: 0 L/day}",
      "else lid: {openings: 20, warm: 4 L/day}, as you use it");
}

/// What life depends on should have something to spare.
void review_margins(Log& log, const Plan& plan) {
  const auto has = [&](const std::string& name) { return plan.margins.contains(name); };
  std::string without;
  if (!has("drinking_water")) without = "drinking_water";
  for (const Vehicle& vehicle : plan.vehicles) {
    if (has("fuel") || has("fuel:" + vehicle.name)) continue;
    without += without.empty() ? "fuel" : " and fuel";
    break;
  }
  for (const Consumable& consumable : plan.consumables) {
    if (!consumable.life_supporting || consumable.margin.mark.line > 0) continue;
    log.warning({consumable.mark, {}},
                fmt::format("no margin for {}: the plan may use it to the last of it",
                            units::in_quotes(consumable.name)),
                "something to spare of whatever life depends on", "margin: 20 %");
  }
  if (without.empty()) return;
  log.warning({plan.trip.mark, {}},
              fmt::format("no margin for {}: the plan may use it to the last drop", without),
              "something to spare of whatever life depends on",
              "margins: {drinking_water: 3 days, fuel: 150 km}");
}

/// A figure of one's own wins over the model, or scales it: it should be possible.
void review_observed(Log& log, const Plan& plan) {
  constexpr double least_drinking_l = 2;  // below every published band for an adult
  constexpr double least_meals = 1.5;
  constexpr double adult_years = 14;
  for (const Person& person : plan.people) {
    if (person.age_years < adult_years) continue;
    if (person.drinking_l_day && *person.drinking_l_day < least_drinking_l) {
      log.warning({person.mark, {}},
                  fmt::format("{} is said to drink {} a day", units::in_quotes(person.name),
                              units::format(*person.drinking_l_day, units::Kind::volume)),
                  "2 to 12 L/day for an adult", "is that all drinking, in the heat to come?");
    }
    if (person.meals_day && *person.meals_day < least_meals) {
      log.warning({person.mark, {}},
                  fmt::format("{} is said to eat {} meals a day", units::in_quotes(person.name),
                              units::format_number(*person.meals_day, units::significant(2))),
                  "about 3");
    }
  }
  constexpr double least_in_sand_l_km = 0.12;  // common practice: half as much again as on the road
  constexpr double heaviest_motorcycle_kg = 500;
  for (const Vehicle& vehicle : plan.vehicles) {
    if (vehicle.empty_kg <= heaviest_motorcycle_kg) continue;
    for (const ObservedUse& use : vehicle.observed) {
      const bool sand = use.surface == Surface::sand || use.surface == Surface::soft_sand;
      // Less than any use of fuel has been remarked upon already.
      constexpr double least_l_km = 0.025;
      if (!sand || use.uses_l_km >= least_in_sand_l_km || use.uses_l_km < least_l_km) continue;
      log.warning({use.mark, {}},
                  fmt::format("{} is said to use {} in sand", units::in_quotes(vehicle.name),
                              units::format(use.uses_l_km, units::Kind::fuel_use)),
                  "for a loaded vehicle, 12 to 60 L/100km");
    }
  }
}

/// Fuel swells: by 4 % from a cool night to a hot day (petrol 0.00095, diesel 0.00083 of its volume
/// for each K, over 40 K; handbook tables, memory). A can filled to the brim leaks or bursts.
void review_fuel_cans(Log& log, const Vehicle& vehicle) {
  constexpr double most_filled = 0.96;
  const Tank* first = nullptr;
  std::string names;
  for (const Tank& tank : vehicle.tanks) {
    if (!is_can(tank) || tank.filled_l <= most_filled * tank.holds_l) continue;
    if (first == nullptr) first = &tank;
    units::add_to(names, units::in_quotes(tank.name));
  }
  if (first == nullptr) return;
  log.warning({first->mark, {}},
              fmt::format("no room for the fuel to swell in the heat: {}", names),
              "about 5 % of a can left free",
              fmt::format("filled: {}", units::format(0.95 * first->holds_l, units::Kind::volume)));
}

/// An activity that nothing uses is one that was misspelt, or forgotten.
void review_activities(Log& log, const Plan& plan) {
  std::vector<bool> used(plan.activities.size(), false);
  const auto use = [&](std::optional<int> activity) {
    if (activity) used.at(static_cast<std::size_t>(*activity)) = true;
  };
  use(plan.camp_activity);
  use(plan.road_activity);
  for (const ItineraryItem& item : plan.itinerary) {
    if (const auto* stay = std::get_if<Stay>(&item)) use(stay->activity);
    if (const auto* drive = std::get_if<Drive>(&item)) use(drive->activity);
  }
  for (const Person& person : plan.people) {
    if (person.drinking_at) use(person.drinking_at->activity);
  }
  static constexpr std::array<std::string_view, 2> built_in{"camp", "on_the_road"};
  for (std::size_t i = 0; i < used.size(); ++i) {
    const Activity& activity = plan.activities[i];
    if (used[i]) continue;
    log.warning({activity.mark, {}},
                fmt::format("nothing uses the activity {}", units::in_quotes(activity.name)),
                "activity: NAME beside a stay or a drive; camp and on_the_road are used by "
                "themselves",
                did_you_mean(activity.name, built_in));
  }
}

/// Who drives what.
void review_driving(Log& log, const Plan& plan) {
  const auto drives = [](const ItineraryItem& item) { return std::holds_alternative<Drive>(item); };
  if (plan.vehicles.empty() && std::any_of(plan.itinerary.begin(), plan.itinerary.end(), drives)) {
    log.warning({plan.trip.mark, {}}, "the plan drives, but has no vehicle: it uses no fuel",
                "vehicles: [{name: truck, fuel: diesel, ...}]");
  }
  if (plan.vehicles.size() > plan.people.size()) {
    log.warning({plan.trip.mark, {}},
                fmt::format("{} vehicles, but {} to drive them", plan.vehicles.size(),
                            plan.people.size() == 1 ? "one person" : "fewer people"),
                "somebody to drive each");
  }
}

/// The clock should about follow the sun, or daylight falls into the night.
void review_time_zone(Log& log, const Plan& plan) {
  constexpr double degrees_per_h = 15;
  constexpr double most_off_h = 3.5;  // no country's clock is further from the sun
  for (const Place& place : plan.places) {
    double off_h = plan.trip.utc_offset_h - place.longitude_deg / degrees_per_h;
    if (off_h > 12) off_h -= 24;
    if (off_h < -12) off_h += 24;
    if (std::abs(off_h) <= most_off_h) continue;
    log.warning(
        {plan.trip.mark, {}},
        fmt::format("the time zone is {:.1f} h off the sun at {}", std::abs(off_h),
                    units::in_quotes(place.name)),
        fmt::format("about {:+.0f} h for that longitude", place.longitude_deg / degrees_per_h),
        "east is positive, of time and of longitude");
    return;
  }
}

/// A trip that ends where there is nothing to drink, and not where it began, may lack its last
/// drive.
void review_end(Log& log, const Plan& plan) {
  int first = -1;
  int last = -1;
  for (const ItineraryItem& item : plan.itinerary) {
    if (const auto* at = std::get_if<At>(&item)) last = at->place;
    if (const auto* drive = std::get_if<Drive>(&item)) last = drive->to;
    if (first < 0) first = last;
  }
  if (last < 0 || last == first) return;
  const Place& place = plan.places[at(last)];
  const bool supplied = std::ranges::any_of(place.supplies, [](const Supply& supply) {
    return supply.commodity == Commodity::drinking_water &&
           supply.quality != WaterQuality::brackish;
  });
  if (supplied) return;
  log.warning(
      {plan.trip.mark, {}},
      fmt::format("the trip ends at {}, which has no drinking water and is not where it began",
                  units::in_quotes(place.name)),
      "a drive to where more is to be had, or supplies: {drinking_water: {}} of that place",
      "what comes after the last drive is in no answer");
}

/// What a vehicle keeps for those who ride in it serves nobody where nobody does.
void review_own(Log& log, const Plan& plan) {
  for (std::size_t v = 0; v < plan.vehicles.size(); ++v) {
    const Vehicle& its = plan.vehicles[v];
    const auto rides = [v](const Person& person) { return at(person.vehicle) == v; };
    if (its.own.empty() || std::ranges::any_of(plan.people, rides)) continue;
    log.warning({its.mark, {}},
                fmt::format("{} has its own {}, and nobody rides in it", units::in_quotes(its.name),
                            text_of(stock_words, its.own.front())),
                "people who ride in it, or no \"own\"");
  }
}

/// What must be kept cold should be in a cabinet that is set so.
void review_kept_cold(Log& log, const Plan& plan, const Consumable& consumable) {
  if (!consumable.keeps) return;
  const KeepingRange& keeps = *consumable.keeps;
  for (const ConsumableStore& store : consumable.stores) {
    if (store.cabinet < 0) continue;
    const Cabinet& its = plan.cold[at(store.cabinet)];
    const bool too_cold = keeps.from_c && its.set_point_c < *keeps.from_c;
    if (its.ice_box || (!too_cold && its.set_point_c <= keeps.to_c)) continue;
    log.warning(
        {store.mark, {}},
        fmt::format("cabinet {} is set to {}: {} than {} may be", units::in_quotes(its.name),
                    units::format(its.set_point_c, units::Kind::temperature),
                    too_cold ? "colder" : "warmer", units::in_quotes(consumable.name)),
        "a cabinet that is set within the range that it keeps in");
  }
}

/// Hours of a generator's run that fall into its hours of quiet, in which it does not run.
double quiet_h(const Charger& generator) {
  if (!generator.quiet) return 0;
  const ClockSpan& quiet = *generator.quiet;
  const double to_h = quiet.to_h > quiet.from_h ? quiet.to_h : quiet.to_h + day_h;
  double sum = 0;
  for (const double day : {-day_h, 0.0, day_h}) {
    const double from = std::max(generator.starts_h, quiet.from_h + day);
    const double to = std::min(generator.starts_h + generator.hours_day, to_h + day);
    sum += std::max(0.0, to - from);
  }
  return sum;
}

void review_quiet(Log& log, const Charger& charger) {
  const double hours = quiet_h(charger);
  if (hours <= 0) return;
  log.warning({charger.mark, {}},
              fmt::format("{} of the {} that {} is to run each day are quiet: it does not run then",
                          units::format(hours, units::Kind::time_h),
                          units::format(charger.hours_day, units::Kind::time_h),
                          units::in_quotes(charger.name)),
              "a run that ends before the quiet begins", "an earlier \"starts\"");
}

}  // namespace

void review(Log& log, const Plan& plan) {
  for (std::size_t i = 0; i < plan.vehicles.size(); ++i) review_vehicle(log, plan, i);
  for (std::size_t i = 0; i < plan.cold.size(); ++i) review_cabinet(log, plan, i);
  for (const Vehicle& vehicle : plan.vehicles) review_fuel_cans(log, vehicle);
  for (const Cabinet& cabinet : plan.cold) review_lid(log, cabinet);
  for (const FoodItem& food : plan.food) review_shelf_life(log, food);
  for (const Charger& charger : plan.power.chargers) review_quiet(log, charger);
  for (const Consumable& each : plan.consumables) review_kept_cold(log, plan, each);
  review_own(log, plan);
  review_margins(log, plan);
  review_observed(log, plan);
  review_activities(log, plan);
  review_driving(log, plan);
  review_time_zone(log, plan);
  review_end(log, plan);
}

}  // namespace drystage::plan
