// Mends of several changes: which vehicle fills up, no part more than it takes, and on which day.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <random>
#include <string>
#include <vector>

#include "answers/base/distance.h"
#include "answers/offers/changes.h"
#include "answers/offers/mend.h"
#include "support/answer.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage::answers::mend_together_test {
namespace {

using support::PlanText;
using support::travel;
using support::Trip;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;

std::string lorry(const std::string& name, double filled_l) {
  return "{name: " + name +
         ", fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 100 L, filled: " +
         std::to_string(filled_l) + " L}], observed: [{surface: sealed, uses: 10 L/100km}]}";
}

std::string leg(const std::string& to, int km) {
  return "drive: {to: " + to + ", distance: " + std::to_string(km) +
         " km, surfaces: sealed, speed: 50 km/h}";
}

std::vector<std::string> changes(const plan::Plan& plan) {
  std::vector<std::string> out;
  const auto mend = smallest_mend(travel(plan));
  if (!mend) return out;
  EXPECT_TRUE(mend->verdict.holds);
  for (const Change& change : mend->changes) out.push_back(engine::words(change.name));
  return out;
}

/// By a pump at Mid, of which nothing is taken, to Far: 10 L, and 70 L from there.
PlanText past_a_pump(double a_l, double b_l) {
  PlanText plan;
  plan.margins = {"fuel: 5 L"};
  plan.containers = {"{name: can, holds: 60 L, filled: 60 L, for: drinking}"};
  plan.vehicles = {lorry("a", a_l), lorry("b", b_l)};
  plan.places = {PlanText::place("Base", "air"), PlanText::place("Mid", "air", "diesel: {}"),
                 PlanText::place("Far", "air")};
  plan.itinerary = {"{at: Base}", leg("Mid", 100), "stay: {nights: 1}", leg("Far", 700)};
  return plan;
}

TEST(MendOfTwoVehicles, SaysWhichFillsUp) {
  EXPECT_THAT(changes(past_a_pump(40, 95).plan()),
              ElementsAre("filling a up with diesel at Mid on day 1"));
  EXPECT_THAT(changes(past_a_pump(95, 40).plan()),
              ElementsAre("filling b up with diesel at Mid on day 1"));
}

TEST(MendOfTwoVehicles, FillsBothWhereBothLackAndAddsNoCan) {
  EXPECT_THAT(changes(past_a_pump(40, 30).plan()),
              ElementsAre("filling every vehicle up with diesel at Mid on day 1"));
}

TEST(MendOfTwoVehicles, FillsTheOtherAtAStopThatTheFirstMakes) {
  PlanText plan = past_a_pump(40, 30);
  plan.itinerary.insert(plan.itinerary.begin() + 2, "resupply: {diesel: {a: fill}}");
  EXPECT_THAT(changes(plan.plan()), ElementsAre("filling b up with diesel at Mid on day 1"));
  plan.itinerary[2] = "resupply: {diesel: {a: fill, b: 5 L}}";
  EXPECT_THAT(changes(plan.plan()),
              ElementsAre("filling b up with diesel at Mid on day 1, not 5 L"));
}

TEST(MendOfOneVehicle, NeedNotSayWhich) {
  PlanText plan = past_a_pump(40, 95);
  plan.vehicles.pop_back();
  EXPECT_THAT(changes(plan.plan()), ElementsAre("filling up with diesel at Mid on day 1"));
}

TEST(MendWithFewerNights, CountsDaysAsTheyAreThen) {
  // Water lacks in the first camp, of two nights too many, and food in the second.
  PlanText plan;
  plan.margins = {"drinking_water: 4 L", "food: 3 meals"};
  plan.containers = {"{name: can, holds: 20 L, filled: 20 L, for: drinking}"};
  plan.food = {"{item: rice, kept: dry, meals: 12}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg, limit: 2665 kg}, tanks: [{name: tank, "
      "holds: 80 L, filled: 80 L}], observed: [{surface: sealed, uses: 10 L/100km}]}"};
  plan.places = {PlanText::place("Base", "air"), PlanText::place("Camp", "air"),
                 PlanText::place("Shop", "air", "food: {}, drinking_water: {}")};
  plan.itinerary = {"{at: Base}",
                    leg("Camp", 50),
                    "stay: {nights: 5}",
                    leg("Shop", 50),
                    "resupply: {drinking_water: fill}",
                    "stay: {nights: 3}"};
  const Trip trip = travel(plan);
  ASSERT_FALSE(trip.verdict.holds);
  const auto mend = smallest_mend(trip);
  ASSERT_TRUE(mend);
  ASSERT_TRUE(mend->moves_days);
  const std::string text = support::unwrapped(support::run_text(plan.plan()));
  EXPECT_THAT(text, HasSubstr("Days below are counted with the nights so changed."));
  for (const Change& change : mend->changes) {
    const std::string words = engine::words(change.name);
    const std::size_t day = words.find(" on day ");
    if (day == std::string::npos) continue;
    // The day on which the plan with fewer nights gets to the shop.
    int arrives = 0;
    for (const engine::TimeStep& step : mend->course.timeline->steps) {
      if (step.drive >= 0) arrives = step.day + 1;
    }
    EXPECT_THAT(words, HasSubstr("on day " + std::to_string(arrives)));
  }
}

/// The options of a mend's changes, found by their names among all that is on offer for the plan
/// and for what comes of it.
bool holds_with(const plan::Plan& plan, const std::vector<Option>& parts) {
  plan::Plan changed = plan;
  for (const Option& part : parts) part.apply(changed);
  auto timeline = std::make_shared<const engine::Timeline>(engine::lay_timeline(changed));
  if (!timeline->problems.empty()) return false;
  return run_plan(changed, timeline).verdict.holds;
}

/// What a plan of random make is mended by: a part left out, or one step less, is not enough.
TEST(MendOfSeveral, HasNoPartThatIsMoreThanItTakes) {
  std::mt19937 chance(11);  // NOLINT(cert-msc51-cpp): the same plans each time
  const support::Pick pick = [&chance](int low, int high) {
    return low + static_cast<int>(chance() % static_cast<unsigned>(high - low + 1));
  };
  int together = 0;
  for (int i = 0; i < 400 && together < 12; ++i) {
    const Trip trip = travel(support::random_plan(pick));
    if (trip.verdict.holds) continue;
    const auto mend = smallest_mend(trip);
    if (!mend || mend->changes.size() < 2) continue;
    ++together;
    ASSERT_EQ(mend->parts.size(), mend->changes.size());
    ASSERT_TRUE(holds_with(trip.plan, mend->parts));
    for (std::size_t p = 0; p < mend->parts.size(); ++p) {
      std::vector<Option> fewer = mend->parts;
      const std::string name = engine::words(mend->changes[p].name);
      if (fewer[p].steps > 1) {
        fewer[p] = fewer[p].of_steps(fewer[p].steps - 1);
        EXPECT_FALSE(holds_with(trip.plan, fewer)) << "one step less: " << name;
      }
      fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(p));
      EXPECT_FALSE(holds_with(trip.plan, fewer)) << "left out: " << name;
    }
  }
  EXPECT_GE(together, 8);
}

}  // namespace
}  // namespace drystage::answers::mend_together_test
