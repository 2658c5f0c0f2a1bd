// How many spare wheels `size` loads, and why.
#include <fmt/core.h>
#include <gtest/gtest.h>

#include <boost/math/special_functions/gamma.hpp>
#include <string>

#include "plan/read.h"
#include "plan/rewrite.h"
#include "support/size_of.h"

namespace drystage::answers::spare_wheels_test {
namespace {

using support::PlanText;
using support::size_of;
using support::taken;

PlanText a_drive(const std::string& tyres, double distance_km = 500) {
  PlanText text;
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg, limit: 3500 kg}, tanks: [{name: tank, "
      "holds: 200 L, filled: 200 L}], tyres: {" +
      tyres + "}}"};
  text.containers = {"{name: can, holds: 20 L, filled: 20 L, empty_mass: 1 kg}"};
  text.places = {PlanText::place("Base", "air"), PlanText::place("Red", "air")};
  text.itinerary = {"{at: Base}",
                    fmt::format("drive: {{to: Red, distance: {} km, surfaces: gravel, speed: 90 "
                                "km/h}}",
                                distance_km)};
  return text;
}

// The least n with Q(n + 1, mean) >= chance, Q the regularized gamma function.
int by_gamma(double mean, double chance) {
  int n = 0;
  while (boost::math::gamma_q(n + 1.0, mean) < chance) ++n;
  return n;
}

TEST(SpareWheels, AreTheFewestWithWhichTheChanceIsReached) {
  for (const double rate : {0.1, 0.7, 1.9, 3.6}) {
    for (const double chance : {0.80, 0.95, 0.99}) {
      PlanText text = a_drive(
          fmt::format("spare_wheels: 0, beyond_repair: 100 %, punctures: {{gravel: {}}}", rate));
      text.margins = {fmt::format("tyres: {:.0f} %", 100 * chance)};
      EXPECT_EQ(taken(size_of(text, "size: {spare_wheels: {truck: 9}}"), "spare wheel"),
                by_gamma(rate / 2, chance))
          << rate << ", " << chance;
    }
  }
}

TEST(SpareWheels, AreFewerWhereHolesCanBeMended) {
  const std::string rate = ", punctures: {gravel: 3}";
  EXPECT_EQ(taken(size_of(a_drive("spare_wheels: 0" + rate)), "spare wheel"), 4);
  // Of 1.5, a quarter are cuts: at most one of 0.375 with 0.945, at most two with 0.993.
  EXPECT_EQ(taken(size_of(a_drive("spare_wheels: 0, repairs: 20" + rate)), "spare wheel"), 2);
}

TEST(SpareWheels, TooManyAreLeftAtHome) {
  const Sizing sizing = size_of(a_drive("spare_wheels: 5, punctures: {gravel: 0.2}"));
  EXPECT_EQ(taken(sizing, "spare wheel"), 1);
  const SizedLine& line = support::line_of(support::found(sizing), "spare wheel");
  EXPECT_NEAR(line.plan_kg, 5 * 35, 1e-9);
  EXPECT_NEAR(line.kg, 35, 1e-9);
  ASSERT_TRUE(line.one_fewer);
  EXPECT_EQ(line.one_fewer->reason, Failing::Reason::margin);
}

TEST(SpareWheels, StayAsTheyAreWhereOtherThingsAreOnOffer) {
  const Sizing sizing = size_of(a_drive("spare_wheels: 5, punctures: {gravel: 0.2}"),
                                "size: {containers: {drinking: [10 L]}}");
  EXPECT_EQ(support::found(sizing).plan.vehicles[0].tyres->spare_wheels, 5);
}

TEST(SpareWheels, AreNotEnoughWhereTooFewAreOnOffer) {
  const Sizing sizing = size_of(a_drive("spare_wheels: 0, punctures: {gravel: 3}"),
                                "size: {spare_wheels: {truck: 2}}");
  EXPECT_FALSE(sizing.found);
  ASSERT_TRUE(sizing.miss);
  EXPECT_EQ(sizing.miss->failing.front().reason, Failing::Reason::margin);
}

// Stuck with a flat tyre they would need more water; a second wheel weighs less than that. Of mean
// 0.02 none must be there by the margin alone.
TEST(SpareWheels, StandForTheWaterOfAWaitWhereMishapsAreToBeSurvived) {
  PlanText text = a_drive("spare_wheels: 0, wheel_mass: 5 kg, punctures: {gravel: 0.04}");
  text.mishaps = {"stuck: {for: 10 days}"};
  const SizeOptions options{.survive = {{plan::MishapKind::puncture}}};
  const Sizing sizing = size_of(support::with_sections(text, ""), options);
  EXPECT_EQ(taken(sizing, "spare wheel"), 2);
  EXPECT_LE(taken(sizing, "20 L container of drinking water"), 1);
}

TEST(SpareWheels, AreWrittenIntoThePlanAndNothingElseIs) {
  const std::string text = "# keep\n" + a_drive("spare_wheels: 1, repairs: 2").text();
  const plan::Plan before = plan::read_text(text).plan.value();
  plan::Plan after = before;
  after.vehicles[0].tyres->spare_wheels = 3;
  std::string expected = text;
  expected.replace(expected.find("spare_wheels: 1"), 15, "spare_wheels: 3");
  EXPECT_EQ(plan::rewrite(text, before, after), expected);
}

}  // namespace
}  // namespace drystage::answers::spare_wheels_test
