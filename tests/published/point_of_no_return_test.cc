// The last place to turn back, against the textbook's point of no return.
//
// Aviation textbook example, T = E H / (O + H): an endurance E of 6 h 30, 240 out and 210 home,
// puts the point of no return 182 minutes and 728 out. And the specific-fuel form of the same, for
// a round trip over unlike legs: distance = fuel / (use out + use home) per distance.
//
// Here a tenth of the speeds is driven, out on one road and home on another, over legs so short
// that the one in which the party turns (and goes back the way it came) hardly counts.
#include <fmt/core.h>
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "answers/onward/turn_back.h"
#include "engine/roads.h"
#include "models/atmosphere.h"
#include "support/trip.h"

namespace drystage {
namespace {

using answers::SupplyStretch;
using answers::TurnBack;
using support::PlanText;
using support::travel;
using support::Trip;

constexpr double minute_h = 1.0 / 60;
constexpr double day_h = 24;

/// A road of many short legs, each driven by a text with {} for the name of the next place.
PlanText road(int legs, const std::string& drive, const std::string& supply) {
  PlanText plan;
  plan.driving = "{most_per_day: 24 h, daylight_only: no, depart: \"00:00\"}";
  plan.places = {PlanText::place("P0", "air", supply)};
  plan.itinerary = {"{at: P0}"};
  for (int i = 1; i <= legs; ++i) {
    plan.places.push_back(PlanText::place(fmt::format("P{}", i), "air"));
    plan.itinerary.push_back(fmt::format("drive: {{to: P{}, {}}}", i, drive));
  }
  return plan;
}

double trip_h(const answers::Moment& moment) { return day_h * moment.day + moment.hour; }

/// Km from the beginning, of a road of legs between places in their order.
double way_km(const answers::Moment& moment, double leg_km) {
  return moment.at.from * leg_km + moment.done_km;
}

SupplyStretch only_stretch(const Trip& trip, const std::string& reserve) {
  const TurnBack answer = answers::turn_back_points(trip);
  EXPECT_EQ(answer.stretches.size(), 1U);
  EXPECT_EQ(answer.stretches.at(0).reserve, support::reserve_index(trip.course, reserve));
  EXPECT_FALSE(answer.stretches.at(0).always);
  EXPECT_TRUE(answer.stretches.at(0).last);
  // All together it is the same.
  EXPECT_EQ(answer.windows.size(), 1U);
  EXPECT_NEAR(trip_h(answer.windows.at(0).last), trip_h(*answer.stretches.at(0).last), minute_h);
  EXPECT_EQ(answer.windows.at(0).decides, answer.stretches.at(0).reserve);
  return answer.stretches.at(0);
}

/// Water for 6 h 30 at 1 L an hour, no margin; 24.0 km/h out and 21.0 km/h home.
PlanText textbook(int legs, double leg_km) {
  PlanText plan = road(legs,
                       fmt::format("distance: {0} km, surfaces: gravel, speed: 24 km/h, back: "
                                   "{{distance: {0} km, surfaces: sealed, speed: 21 km/h}}",
                                   leg_km),
                       "drinking_water: {}");
  plan.people = {PlanText::person("Ada", "24 L/day")};
  plan.containers = {"{name: can, holds: 20 L, filled: 6.5 L, for: drinking}"};
  return plan;
}

TEST(PointOfNoReturn, OfTheTextbookExampleIsMetToTheMinuteAndTheLeg) {
  for (const double leg_km : {0.5, 1.0, 2.0}) {
    const Trip trip = travel(textbook(static_cast<int>(150 / leg_km), leg_km));
    const SupplyStretch stretch = only_stretch(trip, "drinking_water");
    const double published_min = 182;  // 6.5 h x 210 / 450 = 3 h 02
    EXPECT_NEAR(trip_h(*stretch.last) * 60, published_min, 1) << leg_km;
    EXPECT_NEAR(way_km(*stretch.last, leg_km), 72.8, leg_km) << leg_km;
  }
}

TEST(PointOfNoReturn, IsNearerByTheRoadThatIsSlowerHome) {
  PlanText plan = textbook(150, 1);
  for (std::string& item : plan.itinerary) {
    const auto at = item.find("speed: 21");
    if (at != std::string::npos) item.replace(at, 9, "speed: 12");
  }
  const SupplyStretch stretch = only_stretch(travel(plan), "drinking_water");
  EXPECT_NEAR(trip_h(*stretch.last), 6.5 * 12 / (24 + 12), minute_h);
}

/// A truck that burns what was observed on each surface, whatever it weighs.
PlanText truck(PlanText plan, double litres, const std::string& observed) {
  plan.vehicles = {
      fmt::format("{{name: truck, fuel: diesel, mass: {{empty: 2500 kg}}, tanks: [{{name: tank, "
                  "holds: 120 L, filled: {} L}}], observed: [{}]}}",
                  litres, observed)};
  return plan;
}

TEST(PointOfNoReturn, ByFuelIsFuelOverTheUseOutAndHome) {
  const PlanText plan = truck(
      road(240, "distance: 0.5 km, surfaces: sand, back: {distance: 0.5 km, surfaces: sealed}",
           "diesel: {}"),
      30, "{surface: sand, uses: 24 L/100km}, {surface: sealed, uses: 11 L/100km}");
  const SupplyStretch stretch = only_stretch(travel(plan), "fuel:truck");
  EXPECT_NEAR(way_km(*stretch.last, 0.5), 30 / (0.24 + 0.11), 0.5);
}

TEST(PointOfNoReturn, ByFuelOverALongerWayHome) {
  // The way home is half as long again.
  const PlanText plan = truck(
      road(240, "distance: 0.5 km, surfaces: sand, back: {distance: 0.75 km, surfaces: sealed}",
           "diesel: {}"),
      30, "{surface: sand, uses: 24 L/100km}, {surface: sealed, uses: 11 L/100km}");
  const SupplyStretch stretch = only_stretch(travel(plan), "fuel:truck");
  EXPECT_NEAR(way_km(*stretch.last, 0.5), 30 / (0.24 + 1.5 * 0.11), 0.5);
}

TEST(PointOfNoReturn, ByFuelOverUnlikeLegs) {
  // Forty km of sand, then sealed road, and home the way that was come: the fuel that is left at
  // any place must take the party over both.
  PlanText plan = truck(road(90, "distance: 1 km, surfaces: sand", "diesel: {}"), 30,
                        "{surface: sand, uses: 30 L/100km}, {surface: sealed, uses: 10 L/100km}");
  for (std::size_t i = 41; i < plan.itinerary.size(); ++i) {
    plan.itinerary[i].replace(plan.itinerary[i].find("sand"), 4, "sealed");
  }
  EXPECT_NEAR(way_km(*only_stretch(travel(plan), "fuel:truck").last, 1),
              40 + (30 - 40 * (0.30 + 0.30)) / (0.10 + 0.10), 1);
}

/// Uphill out and downhill home, on the same road, by the road-load model's own figures per km.
struct Hill {
  double out_l_km = 0;
  double home_l_km = 0;
};

Hill per_km(const plan::Plan& plan, double mass_kg, double leg_km) {
  const plan::Vehicle& vehicle = plan.vehicles.front();
  const auto& drive = std::get<plan::Drive>(plan.itinerary.back());
  const double density = models::air_density_kg_m3(plan.places.front().elevation_m, 20);
  const auto litres = [&](double climb_m, double descent_m) {
    const engine::RoadPiece piece{.surface = drive.surfaces.front().surface,
                                  .speed_km_h = *drive.surfaces.front().speed_km_h,
                                  .distance_km = leg_km,
                                  .climb_m = climb_m,
                                  .descent_m = descent_m};
    return models::litres(engine::fuel_demand(vehicle, engine::road_model(vehicle), piece, density),
                          mass_kg);
  };
  return {.out_l_km = litres(*drive.climb_m, 0) / leg_km,
          .home_l_km = litres(0, *drive.climb_m) / leg_km};
}

TEST(PointOfNoReturn, ByFuelUphillOutAndDownhillHome) {
  constexpr double leg_km = 0.5;
  constexpr double fuel_l = 30;
  // 3 m up in every 100 m.
  PlanText text = road(500,
                       "distance: 0.5 km, surfaces: gravel, speed: 50 km/h, climb: 15 m, "
                       "descent: 0 m",
                       "diesel: {}");
  text = truck(text, fuel_l, "");
  const plan::Plan plan = text.plan();
  const Trip trip = travel(plan);
  const SupplyStretch stretch = only_stretch(trip, "fuel:truck");
  // It weighs no more than with all that it sets out with, and no less than without the fuel.
  engine::Record record = engine::blank_record(trip.course);
  const double full_kg = engine::Engine::begin(trip.course, record).run.vehicle_kg(0);
  const Hill heavy = per_km(plan, full_kg, leg_km);
  const Hill light =
      per_km(plan, full_kg - fuel_l * plan::fuel_kg_l(plan::FuelKind::diesel), leg_km);
  const double least_km = fuel_l / (heavy.out_l_km + heavy.home_l_km);
  const double most_km = fuel_l / (light.out_l_km + light.home_l_km);
  EXPECT_LT(most_km - least_km, 0.02 * least_km);
  EXPECT_GE(way_km(*stretch.last, leg_km), least_km - leg_km);
  EXPECT_LE(way_km(*stretch.last, leg_km), most_km + leg_km);
  // It is the hills that make the ways unlike, and not by little.
  EXPECT_GT(heavy.out_l_km, 2 * heavy.home_l_km);
}

TEST(PointOfNoReturn, ByFuelAgainstTheWindOutAndWithoutItHome) {
  constexpr double leg_km = 1;
  constexpr double fuel_l = 30;
  const PlanText text = truck(
      road(250, "distance: 1 km, surfaces: sealed, speed: 80 km/h, headwind: 10 m/s", "diesel: {}"),
      fuel_l, "");
  const plan::Plan plan = text.plan();
  const Trip trip = travel(plan);
  engine::Record record = engine::blank_record(trip.course);
  const double full_kg = engine::Engine::begin(trip.course, record).run.vehicle_kg(0);
  const plan::Vehicle& vehicle = plan.vehicles.front();
  const auto l_km = [&](double headwind_m_s) {
    const engine::RoadPiece piece{.surface = plan::Surface::sealed,
                                  .speed_km_h = 80,
                                  .distance_km = 1,
                                  .headwind_m_s = headwind_m_s};
    const double density = models::air_density_kg_m3(plan.places.front().elevation_m, 20);
    return models::litres(engine::fuel_demand(vehicle, engine::road_model(vehicle), piece, density),
                          full_kg - fuel_l / 2 * plan::fuel_kg_l(plan::FuelKind::diesel));
  };
  // The wind that was against them helps on the way home; nothing is counted on it.
  EXPECT_NEAR(way_km(*only_stretch(trip, "fuel:truck").last, leg_km), fuel_l / (l_km(10) + l_km(0)),
              1.5 * leg_km);
  EXPECT_GT(l_km(10), 1.3 * l_km(0));
}

}  // namespace
}  // namespace drystage
