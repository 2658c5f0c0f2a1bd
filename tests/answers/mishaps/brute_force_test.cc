// What happens in a mishap, written as a plan of its own and run from the start by the engine,
// comes to the same as the mishap: over the shipped scenarios, day by day and reserve by reserve.
#include <gtest/gtest.h>

#include <algorithm>
#include <boost/date_time/gregorian/gregorian.hpp>
#include <cmath>

#include "cli/workspace.h"
#include "engine/drinking.h"
#include "engine/surfaces.h"
#include "engine/weather_day.h"
#include "models/atmosphere.h"
#include "plan/commodity.h"
#include "support/other_plan.h"
#include "support/suffered.h"
#include "support/trip.h"
#include "support/ways_home.h"

namespace drystage::answers {
namespace {

using plan::MishapKind;
using support::compare;
using support::Planned;
using support::rounding;
using support::run_topped_up;
using support::Suffered;

/// The drive of a plan that begins with a leg, and its place in the itinerary.
std::size_t item_of_leg(const plan::Plan& plan, int leg) {
  int drives = -1;
  for (std::size_t i = 0; i < plan.itinerary.size(); ++i) {
    if (std::holds_alternative<plan::Drive>(plan.itinerary[i]) && ++drives == leg) return i;
  }
  throw std::out_of_range("no such leg");
}

template <class Plan>
auto& drive_of_leg(Plan& plan, int leg) {
  return std::get<plan::Drive>(plan.itinerary[item_of_leg(plan, leg)]);
}

class MishapsBruteForce : public ::testing::TestWithParam<std::string> {
 protected:
  [[nodiscard]] Planned planned() const { return Planned(support::scenario_plan(GetParam())); }
};

INSTANTIATE_TEST_SUITE_P(Shipped, MishapsBruteForce, ::testing::ValuesIn(testing::scenarios()),
                         testing::AsTestName{});

TEST_P(MishapsBruteForce, WhatASweepTakesForGrantedIsThePlan) {
  const plan::Plan given = support::scenario_plan(GetParam());
  const PlanRun as_given = support::run_plan(given);
  const PlanRun written_out = support::run_plan(support::with_every_stop(as_given));
  for (std::size_t r = 0; r < as_given.record.reserves; ++r) {
    for (std::size_t day = 0; day < as_given.record.days(); ++day) {
      EXPECT_NEAR(written_out.record.reserve(day, r).end, as_given.record.reserve(day, r).end,
                  rounding)
          << as_given.course.reserves[r].name << " on day " << day + 1;
    }
  }
}

/// What gives nothing any more is still carried. It is not gear: of a vehicle whose own figures say
/// no mass, that is part of what it is taken to have weighed then.
void still_carry(plan::Vehicle& vehicle, double kg) {
  plan::Tank& of_nothing = vehicle.tanks.emplace_back();
  of_nothing.name = "dead weight";
  of_nothing.empty_kg = kg;
}

/// Whether something is left standing on the way. What it weighs is not in the vehicle then.
template <class Thing>
bool is_left(const plan::Plan& plan, std::vector<Thing> plan::Things::*list, const Thing& thing) {
  return std::ranges::any_of(plan.itinerary, [&](const plan::ItineraryItem& item) {
    const auto* drive = std::get_if<plan::Drive>(&item);
    return drive != nullptr && std::ranges::count(drive->leaves.*list, thing) > 0;
  });
}

/// What follows something that is gone moves up.
void move_up(plan::Plan& plan, int container, plan::TankReference tank) {
  for (plan::ItineraryItem& item : plan.itinerary) {
    auto* drive = std::get_if<plan::Drive>(&item);
    if (drive == nullptr) continue;
    for (int& other : drive->leaves.containers) other -= other > container ? 1 : 0;
    for (plan::TankReference& other : drive->leaves.tanks) {
      if (other.vehicle == tank.vehicle && other.tank > tank.tank) --other.tank;
    }
  }
}

constexpr int no_container = 1000;

/// Takes the container or tank away that a failure on the first day names.
bool leave_at_home(plan::Plan& plan, const std::string& failure) {
  auto& cans = plan.water.containers;
  for (std::size_t c = 0; c < cans.size(); ++c) {
    if (failure != cans[c].name + " lost") continue;
    if (is_left(plan, &plan::Things::containers, static_cast<int>(c))) return false;
    move_up(plan, static_cast<int>(c), {.vehicle = -1});
    still_carry(plan.vehicles[static_cast<std::size_t>(cans[c].vehicle)], cans[c].empty_kg);
    cans.erase(cans.begin() + static_cast<std::ptrdiff_t>(c));
    return true;
  }
  for (std::size_t v = 0; v < plan.vehicles.size(); ++v) {
    plan::Vehicle& vehicle = plan.vehicles[v];
    const std::string owner = plan.vehicles.size() > 1 ? vehicle.name + ": " : "";
    for (std::size_t t = 0; t < vehicle.tanks.size(); ++t) {
      if (failure != owner + vehicle.tanks[t].name + " lost") continue;
      const plan::TankReference tank{.vehicle = static_cast<int>(v), .tank = static_cast<int>(t)};
      if (is_left(plan, &plan::Things::tanks, tank)) return false;
      move_up(plan, no_container, tank);
      still_carry(vehicle, vehicle.tanks[t].empty_kg);
      vehicle.tanks.erase(vehicle.tanks.begin() + static_cast<std::ptrdiff_t>(t));
      return true;
    }
  }
  return false;
}

TEST_P(MishapsBruteForce, ContainerLostOnTheFirstDayIsATripWithoutIt) {
  const Planned plan = planned();
  std::size_t containers = plan.run.plan.water.containers.size();
  for (const plan::Vehicle& vehicle : plan.run.plan.vehicles) containers += vehicle.tanks.size();
  const int compared =
      compare(plan, MishapKind::container, [](plan::Plan& other, const Suffered& suffered) {
        return suffered.day == 0 && leave_at_home(other, suffered.mishap.failure.name);
      });
  for (const plan::ItineraryItem& item : plan.run.plan.itinerary) {
    const auto* drive = std::get_if<plan::Drive>(&item);
    if (drive != nullptr)
      containers -= drive->leaves.containers.size() + drive->leaves.tanks.size();
  }
  EXPECT_EQ(static_cast<std::size_t>(compared), containers);
}

TEST_P(MishapsBruteForce, SupplyMissingIsAPlaceThatDoesNotSellIt) {
  compare(planned(), MishapKind::supply, [](plan::Plan& other, const Suffered& suffered) {
    const engine::Timeline& timeline = *suffered.laid.timeline;
    const auto here = static_cast<std::size_t>(suffered.first.place_day);
    const int place = timeline.place_days[here].place;
    const std::string& name = suffered.mishap.failure.name;
    const bool all = name.starts_with("nothing to be had");
    const auto missing = [&](plan::Commodity what) {
      return all || name.starts_with("no " + plan::words(other, what) + " at ");
    };
    // Mains before it strikes, where the trip begins, cannot be written down so.
    const bool begins_here = engine::place_at(timeline.days.front().schedule.from) == place;
    if (begins_here && (all || missing(plan::Commodity::mains))) return false;
    // What is taken on there from then on: the stops after so many drives.
    const int drives = suffered.first.leg;
    int drive = 0;
    for (plan::ItineraryItem& item : other.itinerary) {
      if (std::holds_alternative<plan::Drive>(item)) ++drive;
      auto* stop = std::get_if<plan::Resupply>(&item);
      if (stop == nullptr || drive < drives) continue;
      const int at = std::get<plan::Drive>(other.itinerary[item_of_leg(other, drive - 1)]).to;
      if (at != place) continue;
      std::erase_if(stop->orders, [&](const plan::Order& one) { return missing(one.commodity); });
    }
    auto& supplies = other.places[static_cast<std::size_t>(place)].supplies;
    const bool earlier = std::ranges::any_of(timeline.steps, [&](const engine::TimeStep& step) {
      return step.index < suffered.first.index && step.drive < 0 && step.dt_h > 0 &&
             timeline.place_days[static_cast<std::size_t>(step.place_day)].place == place;
    });
    if (earlier && (all || missing(plan::Commodity::mains))) return false;
    if (!earlier && !begins_here) {
      std::erase_if(supplies, [&](const plan::Supply& one) { return missing(one.commodity); });
    }
    return true;
  });
}

TEST_P(MishapsBruteForce, StuckBeforeSettingOutIsSoManyNightsMore) {
  const Planned plan = planned();
  double drink_l = 0;
  double meals = 0;
  bool drinks_utility = false;
  const engine::Timeline& timeline = *plan.run.course.timeline;
  // They stay what they were doing on the day on which they are stuck, and then are at camp. The
  // hours of that day before they would have set out were those of a day on the road: what people
  // need in them is all that differs.
  const auto before_h = [&](const engine::Timeline& of, std::size_t day, double hour) {
    std::pair<double, double> sum{0, 0};
    for (const engine::TimeStep& step : of.steps) {
      if (static_cast<std::size_t>(step.day) != day || step.from_h >= hour) continue;
      sum.first += of.conditions.steps[step.index].drink_l;
      sum.second += step.meals;
    }
    return sum;
  };
  const auto write = [&](plan::Plan& other, const Suffered& suffered) {
    const bool before = suffered.mishap.failure.name.ends_with("before setting out");
    if (!before || suffered.first.from_h != other.trip.driving.depart_h) return false;
    const std::size_t drive = item_of_leg(other, suffered.first.leg);
    plan::Stay same;
    for (std::size_t i = 0; i < drive; ++i) {
      const auto* stay = std::get_if<plan::Stay>(&other.itinerary[i]);
      if (stay != nullptr) same.activity = stay->activity;
    }
    const plan::Stay camp;
    const auto at = other.itinerary.begin() + static_cast<std::ptrdiff_t>(drive);
    other.itinerary.insert(at, {plan::ItineraryItem(same), plan::ItineraryItem(camp)});
    const auto [stuck_l, stuck_meals] =
        before_h(*suffered.laid.timeline, suffered.day, suffered.first.from_h);
    const auto [road_l, road_meals] = before_h(timeline, suffered.day, suffered.first.from_h);
    drink_l = std::abs(stuck_l - road_l);
    meals = std::abs(stuck_meals - road_meals);
    const auto drinking =
        static_cast<std::size_t>(support::reserve_index(*suffered.laid.course, "drinking_water"));
    drinks_utility = false;
    for (std::size_t day = suffered.day; day < suffered.record.days(); ++day) {
      drinks_utility |= suffered.record.reserve(day, drinking).lowest <= rounding;
    }
    return true;
  };
  const auto allowance = [&](const engine::ReserveInfo& info) {
    if (info.name == "drinking_water") return drink_l + rounding;
    if (info.id.family == engine::Family::consumable) {
      const plan::ConsumableUse& use =
          plan.run.plan.consumables[static_cast<std::size_t>(info.id.of)].use;
      return use.per_meal * meals + rounding;
    }
    // When no drinking water is left, it is lacking there.
    if (info.name == "utility_water" && drinks_utility) return drink_l + rounding;
    if (info.name == "food") return meals + rounding;
    // A little more or less of them weighs, and lies in the cold, for so much longer.
    if (info.name.starts_with("fuel:")) return 0.02 * (drink_l + meals) + rounding;
    if (info.name.starts_with("battery:")) return 0.5 * meals + rounding;
    return info.name.starts_with("cold:") ? 2 * meals + rounding : rounding;
  };
  EXPECT_GT(compare(plan, MishapKind::stuck, write, allowance), 0);
}

double dew_point_c(double vapour_kpa) {
  double low_c = -60;
  double high_c = 60;
  for (int n = 0; n < 100; ++n) {
    const double c = (low_c + high_c) / 2;
    (models::saturation_vapour_pressure_kpa(c) < vapour_kpa ? low_c : high_c) = c;
  }
  return low_c;
}

/// People need as many times the model as in the plan, though the weather in which that was
/// observed, the first day's, has been written anew.
void keep_drinking_factors(plan::Plan& other, const plan::Plan& planned,
                           const engine::ScheduledDay& first_day) {
  const std::vector<double> was = engine::drinking_factors(planned, first_day);
  const std::vector<double> is = engine::drinking_factors(other, first_day);
  for (std::size_t p = 0; p < was.size(); ++p) {
    auto& observed_l = other.people[p].drinking_l_day;
    if (observed_l && is[p] > 0) *observed_l *= was[p] / is[p];
  }
}

TEST_P(MishapsBruteForce, HeatWaveIsNamedDaysOfThatWeather) {
  const auto write = [&](plan::Plan& other, const Suffered& suffered) {
    const engine::Timeline& timeline = *suffered.laid.timeline;
    const plan::Plan planned = other;
    const plan::Mishaps& asked = other.mishaps;
    for (int d = suffered.first.day; d < suffered.first.day + asked.hot_days; ++d) {
      const plan::Date date = other.trip.start + boost::gregorian::days(d);
      int climate = -1;
      for (const engine::PlaceDay& here : timeline.place_days) {
        if (here.day != d) continue;
        // A day in two climates cannot be named so.
        if (climate >= 0 && climate != here.climate) return false;
        climate = here.climate;
      }
      if (climate < 0) break;
      const plan::Weather normal = engine::figures_on(other, climate, date)->weather;
      const double kpa = normal.dew_point_c
                             ? models::saturation_vapour_pressure_kpa(*normal.dew_point_c)
                             : models::daily_vapour_pressure_kpa(normal.max_c, normal.min_c,
                                                                 normal.humidity.value_or(0.5));
      plan::NamedDays hot;
      hot.from = hot.to = date;
      hot.max_c = normal.max_c + asked.hotter_k.value();
      hot.min_c = normal.min_c + asked.hotter_k.value();
      hot.dew_point_c = dew_point_c(kpa);
      other.weather.push_back(hot);
    }
    keep_drinking_factors(other, planned, timeline.days.front().schedule);
    return true;
  };
  EXPECT_GT(compare(planned(), MishapKind::heat_wave, write), 0);
}

TEST_P(MishapsBruteForce, SoftGoingIsALegOfThatUseAndSpeed) {
  const auto write = [](plan::Plan& other, const Suffered& suffered) {
    for (plan::SurfacePart& part : drive_of_leg(other, suffered.first.leg).surfaces) {
      if (part.surface == plan::Surface::sealed || part.surface == plan::Surface::worn_sealed) {
        continue;
      }
      part.fuel_factor = 1.5;
      part.speed_km_h = 0.7 * engine::speed_km_h(part, other.trip.driving);
    }
    return true;
  };
  EXPECT_GT(compare(planned(), MishapKind::soft_going, write), 0);
}

TEST_P(MishapsBruteForce, WhatFailsOnTheFirstDayIsATripWithoutIt) {
  const Planned plan = planned();
  const auto named = [](const Suffered& suffered, const auto& thing) {
    return suffered.day == 0 && suffered.mishap.failure.name.starts_with(thing.name);
  };
  compare(plan, MishapKind::charger, [&](plan::Plan& other, const Suffered& suffered) {
    return std::erase_if(other.power.chargers, [&](const plan::Charger& charger) {
             if (!named(suffered, charger)) return false;
             const plan::Bank& bank = other.power.banks[static_cast<std::size_t>(charger.bank)];
             still_carry(other.vehicles[static_cast<std::size_t>(bank.vehicle)], charger.mass_kg);
             return true;
           }) == 1;
  });
  compare(plan, MishapKind::battery, [&](plan::Plan& other, const Suffered& suffered) {
    for (plan::Bank& bank : other.power.banks) {
      if (!named(suffered, bank)) continue;
      bank.filled = std::min(1.0, 2 * bank.filled);
      bank.capacity_ah /= 2;
      return true;
    }
    return false;
  });
  compare(plan, MishapKind::compressor,
          [](plan::Plan& /*other*/, const Suffered& suffered) { return suffered.day == 0; });
}

TEST_P(MishapsBruteForce, OnePersonMoreFromTheFirstDayIsATripWithThem) {
  const auto write = [](plan::Plan& other, const Suffered& suffered) {
    other.people.emplace_back();
    return suffered.day == 0;
  };
  EXPECT_EQ(compare(planned(), MishapKind::one_more, write), 1);
}

/// Whether fuel or drinking water that can be counted on is to be had where a trip begins alone.
std::vector<int> last_supplies(const plan::Plan& plan, int leg) {
  std::vector<int> out;
  std::vector<plan::Commodity> vital{plan::Commodity::drinking_water};
  for (const plan::Vehicle& vehicle : plan.vehicles) {
    vital.push_back(vehicle.fuel == plan::FuelKind::diesel ? plan::Commodity::diesel
                                                           : plan::Commodity::petrol);
  }
  for (const plan::Commodity what : vital) {
    int last = 0;
    for (int l = 1; l <= leg; ++l) {
      const auto& drive = std::get<plan::Drive>(plan.itinerary[item_of_leg(plan, l - 1)]);
      for (const plan::Supply& supply : plan.places[static_cast<std::size_t>(drive.to)].supplies) {
        if (supply.commodity == what && supply.confirmed && !supply.most) last = l;
      }
    }
    out.push_back(last);
  }
  return out;
}

TEST_P(MishapsBruteForce, LegShutIsATripThatGoesBack) {
  const Planned plan = planned();
  const SweepPlan sweep = plan.sweep(MishapKind::shut);
  const std::vector<engine::Leg>& legs = plan.run.course.timeline->legs;
  const auto from = [&](int l) { return legs[static_cast<std::size_t>(l)].from; };
  const auto way_back = [&](int shut, int to_leg) {
    const int shut_to = drive_of_leg(plan.run.plan, shut).to;
    return support::KnownRoads(plan.run.plan, to_leg, shut, from(shut), shut_to)
        .shortest(from(shut), from(to_leg));
  };
  // Where the road that is shut is the only one, there is no way back.
  std::vector<int> expected_legs;
  for (int l = 1; l < static_cast<int>(legs.size()); ++l) {
    const int to_leg = std::ranges::min(last_supplies(plan.run.plan, l));
    if (way_back(l, to_leg)) expected_legs.push_back(l);
  }
  std::vector<int> struck_legs;
  for (const Strike& strike : sweep.strikes()) {
    struck_legs.push_back(sweep.laid().timeline->steps[strike.step].leg);
  }
  EXPECT_EQ(struck_legs, expected_legs);
  for (const Strike& strike : sweep.strikes()) {
    const Suffered suffered(sweep, strike);
    const int leg = suffered.first.leg;
    SCOPED_TRACE("shut on day " + std::to_string(suffered.day + 1));
    plan::Plan other = plan.run.plan;
    const int to_leg = std::ranges::min(last_supplies(other, leg));
    // Already where everything is to be had, nobody goes anywhere.
    if (to_leg == leg) continue;
    const auto back = way_back(leg, to_leg);
    ASSERT_TRUE(back);
    other.itinerary.resize(item_of_leg(other, leg));
    const auto stops = std::ranges::count_if(other.itinerary, [](const auto& item) {
      return std::holds_alternative<plan::Resupply>(item);
    });
    for (const plan::ItineraryItem& item : support::with_limited_stops(other, from(leg), *back)) {
      other.itinerary.push_back(item);
    }
    const PlanRun planned = run_topped_up(other, plan.run, {}, static_cast<std::size_t>(stops));
    // The mean of a day decides what a bank takes, and changes with where the day leads.
    expect_same(suffered, planned, [](const engine::ReserveInfo& info) {
      return info.name.starts_with("battery:") ? HUGE_VAL : rounding;
    });
    // Each reserve is judged to the arrival at its supply; what follows that day comes on top here.
    const Finding expected = judged(suffered, planned, sweep.planned(suffered.first));
    const Finding& found = suffered.found;
    EXPECT_LE(found.outcome, expected.outcome);
    if (found.reserve < 0) continue;
    EXPECT_LE(found.short_of, expected.short_of + rounding);
    const auto r = static_cast<std::size_t>(found.reserve);
    if (!suffered.laid.course->reserves[r].name.starts_with("fuel:")) continue;
    EXPECT_NEAR(found.slack, expected.slack, rounding);
    EXPECT_NEAR(found.short_of, expected.short_of, rounding);
  }
}

}  // namespace
}  // namespace drystage::answers
