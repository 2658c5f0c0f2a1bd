// What rests where: axles, wheels, roof, bays and ball, by hand and against what the engine weighs.
#include "engine/scales.h"

#include <fmt/core.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <map>
#include <string>

#include "engine/empty_axles.h"
#include "plan/read.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage::engine::scales_test {
namespace {

using support::PlanText;
using support::Trip;
using ::testing::HasSubstr;

constexpr double gram = 1e-3;
constexpr double diesel_kg_l = 0.835;  // common practice

/// A truck of 2000 kg, 1100 in front, with a wheelbase of 3 m: `more` of its keys.
std::string truck(const std::string& more, const std::string& mass = "") {
  return "{name: truck, fuel: diesel, mass: {empty: 2000 kg" + mass +
         "}, wheelbase: 3 m, overhang: {front: 1 m, rear: 1.5 m}, weighed: {front: 1100 kg, rear: "
         "900 kg}, tanks: [{name: tank, holds: 100 L, filled: 100 L, at: 2.4 m}], observed: "
         "[{surface: sealed, uses: 10 L/100km}]" +
         more + "}";
}

/// One person of 80 kg, who drives 200 km on the second day and uses nothing but 4 L of water.
PlanText plan_of(const std::string& vehicle) {
  PlanText plan;
  plan.people = {
      "{name: Ada, mass: 80 kg, height: 175 cm, age: 40, sex: female, observed: {drinking: 4 "
      "L/day, meals: 3}}"};
  plan.vehicles = {vehicle};
  plan.places = {PlanText::place("Base", "air"), PlanText::place("End", "air")};
  plan.itinerary = {"{at: Base}", "stay: {nights: 1}",
                    "drive: {to: End, distance: 200 km, surfaces: sealed, speed: 50 km/h}"};
  return plan;
}

/// What every scale shows when setting out.
std::map<std::string, double> at_the_outset(const PlanText& text) {
  const Trip trip = support::travel(text);
  Record record = blank_record(trip.course);
  const Engine::Standing standing = Engine::begin(trip.course, record);
  std::map<std::string, double> out;
  for (const Scale& scale : scales_of(trip.plan, trip.course, true)) {
    out[scale.kind == ScaleKind::total ? "total" : scale_name(trip.plan, scale)] =
        standing.run.scale_kg(scale);
  }
  return out;
}

TEST(Scales, OfAxlesAreByHand) {
  PlanText plan =
      plan_of(truck(", bays: {seat: {at: 1.5 m}, tray: {at: 3.6 m}}, gear: [{name: "
                    "winch, mass: 50 kg, at: -0.6 m}]",
                    ", gear: 90 kg"));
  plan.people.front().insert(plan.people.front().size() - 1, ", seat: seat");
  plan.containers = {"{name: can, holds: 20 L, filled: 20 L, empty_mass: 1 kg, bay: tray}"};
  const auto kg = at_the_outset(plan);
  // Ada and the lump of gear halfway; 83.5 kg of diesel at 2.4 m; a can at 3.6 m; a winch ahead.
  const double rear = 900 + 80 * 0.5 + 90 * 0.5 + 83.5 * 0.8 + 21 * 1.2 - 50 * 0.2;
  EXPECT_NEAR(kg.at("rear axle"), rear, 1e-9);
  EXPECT_NEAR(kg.at("total"), 2000 + 80 + 90 + 83.5 + 21 + 50, 1e-9);
  EXPECT_NEAR(kg.at("front axle"), kg.at("total") - rear, 1e-9);
  EXPECT_NEAR(kg.at("bay tray"), 21, 1e-9);
  EXPECT_NEAR(kg.at("bay seat"), 80, 1e-9);
}

TEST(Scales, FollowWhatAThingIsMovedByToTheGram) {
  for (const double by_m : {-0.9, 0.25, 1.3}) {
    const auto with = [](double at_m) {
      return at_the_outset(
          plan_of(truck(fmt::format(", gear: [{{name: box, mass: 47 kg, at: {:.3f} m}}]", at_m))));
    };
    EXPECT_NEAR(with(1.2 + by_m).at("rear axle") - with(1.2).at("rear axle"), 47 * by_m / 3, 1e-9);
    EXPECT_NEAR(with(1.2 + by_m).at("front axle") - with(1.2).at("front axle"), -47 * by_m / 3,
                1e-9);
  }
}

TEST(Scales, OfATrailerAreStaticsByHand) {
  const auto kg = at_the_outset(plan_of(truck(
      ", trailer: {mass: 500 kg, ball: 40 kg, coupling: 1.2 m, drawbar: 2.5 m, gear: [{name: wood, "
      "mass: 60 kg, ahead: 0.5 m}, {name: tins, mass: 30 kg, ahead: -1 m}]}")));
  // Moments about the trailer's axle: 60 x 0.5 - 30 x 1 = 0.
  EXPECT_NEAR(kg.at("tow ball"), 40, 1e-9);
  EXPECT_NEAR(kg.at("trailer"), 590, 1e-9);
  const double own = 2000 + 80 + 83.5;
  EXPECT_NEAR(kg.at("total"), own + 40, 1e-9);
  EXPECT_NEAR(kg.at("vehicle with trailer"), own + 590, 1e-9);
  // 40 kg at 4.2 m: 56 kg on the rear axle, 16 kg off the front one.
  EXPECT_NEAR(kg.at("rear axle"), 900 + 40 + 83.5 * 0.8 + 56, 1e-9);
  EXPECT_NEAR(kg.at("front axle"), 1100 + 40 + 83.5 * 0.2 - 16, 1e-9);
  // Common practice where nothing is said: a tenth of its mass.
  EXPECT_NEAR(at_the_outset(plan_of(truck(", trailer: {mass: 500 kg}"))).at("tow ball"), 50, 1e-9);
}

TEST(Scales, OfWheelsShareAnAxleBySideAndTwins) {
  const std::string side =
      ", track: 1.6 m, load_index: 121, gear: [{name: box, mass: 80 kg, at: 3 m, right: 0.4 m}]";
  const auto four = at_the_outset(plan_of(truck(side)));
  const double rest = four.at("rear axle") - 80;
  EXPECT_NEAR(four.at("right rear wheel"), rest / 2 + 60, 1e-9);
  EXPECT_NEAR(four.at("left rear wheel"), rest / 2 + 20, 1e-9);
  const auto twins = at_the_outset(plan_of(truck(side + ", wheels: 6")));
  EXPECT_NEAR(twins.at("right rear wheel"), (rest / 2 + 60) / 2, 1e-9);
  EXPECT_NEAR(twins.at("right front wheel"), four.at("right front wheel"), 1e-9);
  const auto two = at_the_outset(plan_of(truck(", load_index: 60, wheels: 2")));
  EXPECT_NEAR(two.at("rear wheel"), two.at("rear axle"), 1e-9);
}

TEST(Scales, OfWheelsAreHeldToTheLesserOfLimitAndLoadIndex) {
  const auto limit = [](const std::string& more, const std::string& mass) {
    const Trip trip = support::travel(plan_of(truck(more, mass)));
    const auto wheel = std::ranges::find(trip.course.scales, ScaleKind::rear_left, &Scale::kind);
    return wheel == trip.course.scales.end() ? 0.0 : wheel->limit_kg;
  };
  EXPECT_EQ(limit(", load_index: 100", ""), 800);
  EXPECT_EQ(limit(", load_index: 100", ", wheel_limit: 1100 kg"), 800);
  EXPECT_EQ(limit(", load_index: 121", ", wheel_limit: 1100 kg"), 1100);
  EXPECT_EQ(limit("", ""), 0);
}

TEST(Scales, OfTheRoofAreOfAllBaysOnIt) {
  const auto kg = at_the_outset(plan_of(truck(
      ", bays: {rack: {at: 1.8 m, roof: yes}, box: {at: 1 m, roof: yes}, tray: {at: 3 m}}, gear: "
      "[{name: a, mass: 20 kg, bay: rack}, {name: b, mass: 15 kg, bay: box}, {name: c, mass: 40 "
      "kg, bay: tray}]")));
  EXPECT_NEAR(kg.at("roof"), 35, 1e-9);
  EXPECT_NEAR(kg.at("bay rack"), 20, 1e-9);
}

TEST(Scales, OfWhatIsInACabinetAreThoseOfItsBay) {
  PlanText plan = plan_of(truck(", bays: {box: {at: 0.9 m}, tray: {at: 3 m}}"));
  plan.cold = {
      "{name: ice box, volume: 40 L, ice: 8 kg, mass: 6 kg, heat_leak: 0.6 W/K, bay: box}"};
  plan.food = {"{item: fish, kept: chilled, mass: 3 kg, meals: 6, in: ice box}",
               "{item: rice, kept: dry, mass: 9 kg, meals: 30, bay: tray}"};
  plan.consumables = {
      "{name: doses, unit: doses, unit_mass: 0.1 kg, stores: [{name: pack, holds: 20, filled: 20, "
      "cabinet: ice box}], use: {per_day: 1}}"};
  const auto kg = at_the_outset(plan);
  EXPECT_NEAR(kg.at("bay box"), 8 + 6 + 3 + 2, 1e-9);
  EXPECT_NEAR(kg.at("bay tray"), 9, 1e-9);
}

TEST(Scales, OfFoodThatIsBoughtAreThoseOfTheDryStores) {
  PlanText plan = plan_of(truck(", bays: {tray: {at: 3 m}}"));
  plan.food = {"{item: rice, kept: dry, mass: 9 kg, meals: 30, bay: tray}"};
  plan.places.front() = PlanText::place("Base", "air", "food: {}");
  plan.itinerary.insert(plan.itinerary.begin() + 1, "resupply: {food: 20 meals}");
  const Trip trip = support::travel(plan);
  const std::vector<Scale> scales = scales_of(trip.plan, trip.course, true);
  const auto tray = std::ranges::find(scales, ScaleKind::bay, &Scale::kind);
  Record record = blank_record(trip.course);
  Engine::Standing standing = Engine::begin(trip.course, record);
  Engine::begin_step(trip.course, standing);
  // A bought meal weighs 0.6 kg (docs/models.md).
  EXPECT_NEAR(standing.run.scale_kg(*tray), 9 + 20 * 0.6, 1e-9);
}

TEST(Scales, LoseWhatIsLeftOnTheWayThoughItFills) {
  // A cassette with 12 L of waste stays at Base for the drive to End and back.
  PlanText plan = plan_of(truck(""));
  plan.consumables = {
      "{name: waste, unit: L, unit_mass: 1 kg, fills: yes, stores: [{name: cassette, holds: 19 L, "
      "filled: 12 L, empty_mass: 4 kg}], use: {per_day: 0.001 L}}"};
  plan.itinerary = {"{at: Base}",
                    "drive: {to: End, distance: 50 km, surfaces: sealed, speed: 50 km/h, leaves: "
                    "[cassette]}",
                    "stay: {nights: 1}",
                    "drive: {to: Base, distance: 50 km, surfaces: sealed, speed: 50 km/h}"};
  const Trip trip = support::travel(plan);
  Record record = blank_record(trip.course);
  Engine::Standing standing = Engine::begin(trip.course, record);
  const double before_kg = standing.run.vehicle_kg(0);
  // Until the first evening.
  Engine::go_on(trip.course, standing, steps_of_days(*trip.course.timeline, 0, 1).until);
  const double fuel_kg = (100 - standing.run.level(0)) * diesel_kg_l;
  const bool first_is_tank = trip.course.stores[0].name == "tank";
  ASSERT_TRUE(first_is_tank);
  EXPECT_NEAR(before_kg - standing.run.vehicle_kg(0), 16 + fuel_kg, 0.01);
}

TEST(Scales, OfACanTakenOverFromAVehicleLeftBehindAreHalfway) {
  PlanText plan = plan_of(truck(", bays: {tray: {at: 3 m}}"));
  plan.vehicles.emplace_back(
      "{name: wagon, fuel: diesel, mass: {empty: 1500 kg}, bays: {rack: {at: 1 m}}, tanks: [{name: "
      "wagon tank, holds: 60 L, filled: 60 L}, {name: jerry, holds: 20 L, filled: 20 L, "
      "empty_mass: 4 kg, bay: rack}]}");
  plan.containers = {"{name: can, holds: 10 L, filled: 10 L, in: wagon, bay: rack}"};
  const plan::Plan read = plan.plan();
  const Trip whole = support::travel(read);
  const Course left =
      compile(read, whole.course.timeline, nullptr, CourseOptions{.damage = {.vehicles = {1}}});
  for (const Carried& thing : carried_in(read, left, 0)) {
    if (thing.name == "jerry" || thing.name == "can") EXPECT_FALSE(thing.is_placed());
  }
  const auto names = [&](const Course& course, int vehicle) {
    std::vector<std::string> out;
    for (const Carried& thing : carried_in(read, course, vehicle)) out.push_back(thing.name);
    return out;
  };
  EXPECT_THAT(names(left, 0), ::testing::IsSupersetOf({"jerry", "can"}));
  EXPECT_THAT(names(whole.course, 1), ::testing::IsSupersetOf({"jerry", "can"}));
}

// --- weighbridge tickets ---

TEST(EmptyAxles, AreATicketLessWhatWasInTheVehicle) {
  PlanText plan = plan_of(
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg}, wheelbase: 3 m, bays: {seat: {at: 1.5 "
      "m}}, weighed: [{front: 1156.7 kg, rear: 1006.8 kg, with: [Ada, tank]}, {front: 1108.35 kg, "
      "rear: 933.4 kg, levels: {tank: 50 L}}], tanks: [{name: tank, holds: 100 L, filled: 100 L, "
      "at: 2.4 m}]}");
  plan.people.front().insert(plan.people.front().size() - 1, ", seat: seat");
  // Both leave 1100 and 900: 40 and 40 of Ada; 16.7 and 66.8 of 100 L, half of that of 50 L.
  const auto axles = empty_axles(plan.plan().vehicles[0]);
  ASSERT_TRUE(axles);
  EXPECT_NEAR(axles->front_kg, 1100, 1e-9);
  EXPECT_NEAR(axles->rear_kg, 900, 1e-9);
  EXPECT_TRUE(mass_problems(plan.plan()).empty());
}

TEST(EmptyAxles, AreTheMeanOfTicketsWhateverTheirOrder) {
  const auto front = [](const std::string& tickets) {
    const std::string text =
        "{name: truck, fuel: diesel, mass: {empty: 2000 kg}, wheelbase: 3 m, weighed: [" + tickets +
        "], tanks: [{name: tank, holds: 100 L, filled: 100 L}]}";
    return empty_axles(plan_of(text).plan().vehicles[0])->front_kg;
  };
  const std::string a = "{front: 1100 kg, rear: 900 kg}";
  const std::string b = "{front: 1120 kg, rear: 900 kg}";
  EXPECT_DOUBLE_EQ(front(a + ", " + b), front(b + ", " + a));
  EXPECT_NEAR(front(a + ", " + b), 2000 * 2220.0 / 4020, 1e-9);
}

TEST(EmptyAxles, OfATicketWithTheTrailerOnTheBallAreByHand) {
  const std::string text =
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg}, wheelbase: 3 m, weighed: {front: 1084 "
      "kg, rear: 956 kg, with: trailer}, trailer: {mass: 500 kg, ball: 40 kg, coupling: 1.2 m}, "
      "tanks: [{name: tank, holds: 100 L, filled: 100 L}]}";
  const auto axles = empty_axles(plan_of(text).plan().vehicles[0]);
  EXPECT_NEAR(axles->front_kg, 1100, 1e-9);
  EXPECT_NEAR(axles->rear_kg, 900, 1e-9);
}

/// What is wrong with a truck that was weighed so.
std::string problems(const std::string& weighed, const std::string& mass = "",
                     const std::string& wheelbase = ", wheelbase: 3 m") {
  const std::string text = "{name: truck, fuel: diesel, mass: {empty: 2000 kg" + mass + "}" +
                           wheelbase + ", " + weighed +
                           "tanks: [{name: tank, holds: 100 L, filled: 100 L}]}";
  std::string out;
  for (const plan::Diagnostic& one : mass_problems(plan_of(text).plan())) {
    EXPECT_EQ(one.severity, plan::Severity::error);
    EXPECT_GT(one.mark.line, 0);
    EXPECT_NE(one.expected, "");
    out += one.what + "\n";
  }
  return out;
}

TEST(EmptyAxles, SayWhatCannotBe) {
  EXPECT_EQ(problems("weighed: {front: 1100 kg, rear: 900 kg}, "), "");
  EXPECT_THAT(problems("weighed: {front: 1100 kg, rear: 30 kg, with: [Ada, tank]}, "),
              HasSubstr("is left for the rear axle"));
  EXPECT_THAT(problems("weighed: {front: 1100 kg, rear: 1000 kg}, "),
              HasSubstr("weighs 2100 kg empty by this ticket, and 2000 kg by \"mass\""));
  EXPECT_THAT(problems("weighed: [{front: 1100 kg, rear: 900 kg}, {front: 1000 kg, rear: 1000 "
                       "kg}], "),
              HasSubstr("two tickets of \"truck\" differ"));
  // Within 3 % of the ticket all is well.
  EXPECT_EQ(problems("weighed: [{front: 1100 kg, rear: 900 kg}, {front: 1150 kg, rear: 860 kg}], "),
            "");
}

TEST(EmptyAxles, DifferOrAgreeWhateverTheOrderOfTickets) {
  const std::string load = "gear: [{name: load, mass: 1500 kg, at: 1.5 m}], ";
  const std::string a = "{front: 1100 kg, rear: 900 kg}";
  const std::string b = "{front: 1770 kg, rear: 1730 kg, with: [load]}";
  EXPECT_THAT(problems(load + "weighed: [" + a + ", " + b + "], "), HasSubstr("differ"));
  EXPECT_THAT(problems(load + "weighed: [" + b + ", " + a + "], "), HasSubstr("differ"));
}

TEST(EmptyAxles, AreNotLiftedByABall) {
  const std::string weighed =
      "weighed: {front: 1100 kg, rear: 900 kg}, trailer: {mass: 1500 kg, coupling: 1.2 m, ball: ";
  EXPECT_EQ(problems(weighed + "600 kg}, "), "");
  // 1100 x 3 / 1.2 = 2750 kg would lift it; of a wheelbase of 0.5 m 458 kg.
  EXPECT_THAT(problems(weighed + "600 kg}, ", "", ", wheelbase: 0.5 m"),
              HasSubstr("lift the front axle"));
}

TEST(EmptyAxles, OfATicketWithoutAWheelbaseMustSumUp) {
  EXPECT_THAT(problems("weighed: {front: 100 kg, rear: 100 kg}, ", "", ""),
              HasSubstr("weighs 200 kg empty by this ticket"));
}

TEST(EmptyAxles, RefuseLimitsThatNothingCanBeHeldAgainst) {
  EXPECT_THAT(problems("weighed: {front: 1100 kg, rear: 900 kg}, ", ", front_limit: 1000 kg"),
              HasSubstr("the limit of its front axle is 1000 kg, and empty it has 1100 kg"));
  EXPECT_THAT(problems("", ", rear_limit: 1000 kg"), HasSubstr("nobody has weighed it"));
  EXPECT_THAT(problems("weighed: {front: 1100 kg, rear: 900 kg}, ", ", rear_limit: 1000 kg", ""),
              HasSubstr("no wheelbase"));
}

// --- hour by hour ---

/// At every hour of a trip: the axles come to the whole, and the whole to what the engine weighs.
std::string sums_differ(const answers::PlanRun& trip) {
  const std::vector<Scale> scales = scales_of(trip.plan, trip.course, true);
  Record record = blank_record(trip.course);
  Engine::Standing standing = Engine::begin(trip.course, record);
  for (const TimeStep& step : trip.course.timeline->steps) {
    Engine::begin_step(trip.course, standing);
    for (int half = 0; half < 2; ++half) {
      const Company& company =
          trip.course.timeline->companies[static_cast<std::size_t>(standing.run.company())];
      for (std::size_t v = 0; v < trip.plan.vehicles.size(); ++v) {
        double axles = 0;
        double whole = 0;
        double ball = 0;
        bool known = false;
        for (const Scale& scale : scales) {
          if (scale.vehicle != static_cast<int>(v)) continue;
          const double kg = standing.run.scale_kg(scale);
          if (scale.kind == ScaleKind::front || scale.kind == ScaleKind::rear) axles += kg;
          if (scale.kind == ScaleKind::total) whole = kg;
          if (scale.kind == ScaleKind::ball) ball = kg;
          known = known || scale.kind == ScaleKind::front;
        }
        if (company.vehicles[v] == 0) continue;
        const std::string where = fmt::format(" of {} on day {} at {}", trip.plan.vehicles[v].name,
                                              step.day, step.from_h);
        if (known && std::abs(axles - whole) > gram) return "axles" + where;
        const double weighed = standing.run.vehicle_kg(static_cast<int>(v)) + ball;
        if (std::abs(whole - weighed) > gram) return "the whole" + where;
      }
      if (half == 0) Engine::end_step(trip.course, standing);
    }
  }
  return {};
}

RC_GTEST_PROP(Scales, OfAxlesComeToTheWholeAtEveryHour, ()) {
  const Trip trip = support::travel(support::random_plan(support::rapidcheck_pick()));
  RC_ASSERT(sums_differ(trip) == "");
}

TEST(Scales, OfAVehicleThatIsMetAndLeavesCansComeToTheWhole) {
  const auto read = plan::read_file(DRYSTAGE_SCENARIOS "/side-trips.yaml");
  ASSERT_TRUE(read.plan);
  EXPECT_EQ(sums_differ(support::travel(*read.plan)), "");
}

TEST(Scales, LetARunFailWhereAnAxleIsOver) {
  PlanText plan = plan_of(truck("", ", front_limit: 1200 kg, rear_limit: 1000 kg"));
  plan.containers = {"{name: tank behind, holds: 40 L, filled: 40 L, at: 4.2 m}"};
  // The rear axle: 900 + 40 + 66.8 + 40 x 1.4 = 1062.8; the front one gains as the water goes.
  const Trip trip = support::travel(plan);
  ASSERT_EQ(trip.verdict.breaches.size(), 1U);
  const answers::Breach& over = trip.verdict.breaches.front();
  EXPECT_EQ(over.harm, answers::Harm::overload);
  EXPECT_EQ(over.vehicle, 0);
  EXPECT_EQ(scale_name(trip.plan, trip.course.scales[static_cast<std::size_t>(over.scale)]),
            "rear axle");
  EXPECT_NEAR(over.left, 1062.8, 1e-6);
  EXPECT_EQ(over.margin, 1000);
  EXPECT_EQ(over.day, 0);
}

TEST(Scales, FindAnAxleThatIsOverOnlyOnceATankBehindItIsEmpty) {
  // Diesel 1.4 m behind the rear axle lifts the front: 83.5 x 1.4/3 = 39 kg less on it when full.
  PlanText plan = plan_of(
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg, front_limit: 1125 kg}, wheelbase: 3 m, "
      "overhang: {rear: 2 m}, weighed: {front: 1100 kg, rear: 900 kg}, tanks: [{name: tank, holds: "
      "100 L, filled: 100 L, at: 4.4 m}], observed: [{surface: sealed, uses: 30 L/100km}]}");
  const Trip trip = support::travel(plan);
  // 1100 + 40 - 38.97 = 1101.03 full; of 60 L used 23.38 come back: 1124.4, and never 1125.
  EXPECT_EQ(trip.record.heaviest[1].over_day, -1);
  EXPECT_NEAR(trip.record.heaviest[1].kg, 1140 - (100 - 60) * diesel_kg_l * 1.4 / 3, 1e-6);
  plan.vehicles.front().replace(plan.vehicles.front().find("1125"), 4, "1120");
  const Trip over = support::travel(plan);
  EXPECT_EQ(over.record.heaviest[1].over_day, 1);  // on the road, and not when setting out
  EXPECT_GT(over.record.heaviest[1].over_h, 6);
}

}  // namespace
}  // namespace drystage::engine::scales_test
