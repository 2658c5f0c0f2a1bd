// One puncture and two in a day: what is survived, and what becomes of those who have no spare.
#include <fmt/core.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "answers/mishaps/mishaps.h"
#include "support/other_plan.h"
#include "support/plan_text.h"
#include "support/suffered.h"
#include "support/trip.h"

namespace drystage::answers::punctures_test {
namespace {

using plan::MishapKind;

/// One person who drinks 4 L a day; two days, a drive of ten hours on the second.
support::PlanText a_drive(const std::string& tyres, double water_l = 90) {
  support::PlanText text;
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 200 L, "
      "filled: 200 L}], tyres: {" +
      tyres + "}}"};
  text.containers = {fmt::format("{{name: tub, holds: {} L, filled: {} L}}", water_l, water_l)};
  text.places = {support::PlanText::place("Base", "air"), support::PlanText::place("Red", "air")};
  text.itinerary = {"{at: Base}", "stay: {nights: 1}",
                    "drive: {to: Red, distance: 500 km, surfaces: gravel, speed: 50 km/h}"};
  text.margins = {"tyres: 50 %"};
  return text;
}

Sweep punctures(const support::PlanText& text) {
  return sweep_mishaps(support::run_plan(text.plan()), {.only = {MishapKind::puncture}});
}

std::string told(const Sweep& sweep) {
  std::string out;
  for (const Finding& finding : sweep.findings) {
    out += fmt::format("{}: {}\n", sweep.failures[static_cast<std::size_t>(finding.failure)].name,
                       static_cast<int>(finding.outcome));
  }
  return out;
}

constexpr const char* survived = "one puncture: 0\ntwo punctures in one day: 0\n";

// Common practice, without a source: two are survived with two spare wheels, or with one and the
// means to mend a hole.
TEST(PunctureMishap, TwoInADayAreSurvivedWithTwoSparesOrWithOneAndARepair) {
  EXPECT_EQ(told(punctures(a_drive("spare_wheels: 2"))), survived);
  EXPECT_EQ(told(punctures(a_drive("spare_wheels: 1, repairs: 1"))), survived);
  EXPECT_EQ(told(punctures(a_drive("spare_wheels: 1"))),
            "one puncture: 0\ntwo punctures in one day, no spare: stuck 2 days: 2\n");
  EXPECT_EQ(told(punctures(a_drive("spare_wheels: 0"))),
            "one puncture, no spare: stuck 2 days: 2\n"
            "two punctures in one day, no spare: stuck 2 days: 2\n");
}

// 9 L last two days and a quarter; the plan takes two, and two more until help comes.
TEST(PunctureMishap, WhoHasNoSpareWaitsForHelpAndDrinks) {
  const Sweep sweep = punctures(a_drive("spare_wheels: 1", 9));
  ASSERT_EQ(sweep.findings.size(), 2U);
  EXPECT_EQ(sweep.findings[0].outcome, Outcome::holds);
  const Finding& waits = sweep.findings[1];
  EXPECT_EQ(waits.outcome, Outcome::runs_out_vital);
  EXPECT_EQ(waits.dry_day, 2);
  EXPECT_NEAR(waits.dry_hour, 6, 1e-6);
  EXPECT_NEAR(waits.short_of, 4 * 4 - 9, 1e-6);
}

TEST(PunctureMishap, HelpComesAfterAsLongAsForWhoIsStuck) {
  support::PlanText text = a_drive("spare_wheels: 0", 21);
  EXPECT_LT(punctures(text).worst(), Outcome::runs_out_vital);
  text.mishaps = {"stuck: {for: 5 days}"};
  EXPECT_EQ(punctures(text).worst(), Outcome::runs_out_vital);
  EXPECT_EQ(punctures(text).failures[0].name, "one puncture, no spare: stuck 5 days");
}

TEST(PunctureMishap, IsNotTriedWhereNothingIsSaidOfTyresOrItIsLeftOut) {
  support::PlanText text = a_drive("spare_wheels: 2");
  text.mishaps = {"leave_out: puncture"};
  EXPECT_TRUE(punctures(text).failures.empty());
  text = a_drive("spare_wheels: 2");
  text.vehicles[0].replace(text.vehicles[0].find(", tyres"), std::string::npos, "}");
  text.margins.clear();
  EXPECT_TRUE(punctures(text).failures.empty());
}

// What was found on the way counts: one wheel was used before.
TEST(PunctureMishap, IsTriedWithWhatWasFoundOnTheWay) {
  const plan::Plan plan =
      support::read_plan(a_drive("spare_wheels: 2").text() +
                         "readings: [{day: 2, hour: \"06:00\", spare_wheels: 1}]\n");
  EXPECT_EQ(told(sweep_mishaps(support::run_plan(plan), {.only = {MishapKind::puncture}})),
            "one puncture: 0\ntwo punctures in one day, no spare: stuck 2 days: 2\n");
}

TEST(PunctureMishap, NamesTheVehicleWhereThereAreTwoAndStrikesNoneThatStayedBehind) {
  support::PlanText text = a_drive("spare_wheels: 2");
  text.vehicles.push_back(text.vehicles[0]);
  text.vehicles[1].replace(text.vehicles[1].find("truck"), 5, "van");
  const PlanRun planned = support::run_plan(text.plan());
  const SweepPlan sweep(planned, {.only = {MishapKind::puncture, MishapKind::vehicle}, .days = {}});
  std::size_t of_van = 0;
  for (const Strike& left : sweep.strikes()) {
    const Mishap& mishap = sweep.mishaps()[left.mishap];
    if (mishap.failure.name != "van left behind") continue;
    const LaidTrip laid = sweep.struck(left);
    for (const Mishap& second : sweep.mishaps()) {
      if (!second.failure.name.starts_with("van: ")) continue;
      ++of_van;
      EXPECT_TRUE(second.strikes(laid).empty()) << second.failure.name;
    }
  }
  EXPECT_GT(of_van, 0U);
}

TEST(PunctureMishap, NoWorkshopIsAMishapOfItsOwn) {
  support::PlanText text = a_drive("spare_wheels: 2, punctures: {gravel: 4}");
  text.margins = {"tyres: 80 %"};
  text.places[1] = support::PlanText::place("Red", "air", "tyres: {}");
  text.itinerary.emplace_back("stay: {nights: 1}");
  text.itinerary.emplace_back(
      "drive: {to: Base, distance: 500 km, surfaces: sealed, speed: 60 km/h}");
  const Sweep sweep = sweep_mishaps(support::run_plan(text.plan()), {.only = {MishapKind::supply}});
  ASSERT_EQ(sweep.failures.size(), 1U);
  EXPECT_EQ(sweep.failures[0].name, "no tyres at Red");
}

}  // namespace
}  // namespace drystage::answers::punctures_test
