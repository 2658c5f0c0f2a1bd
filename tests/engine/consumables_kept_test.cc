// What must be kept cold, and is lost when it was too warm or too cold for too long.
#include <gtest/gtest.h>

#include <memory>
#include <string>

#include "engine/engine.h"
#include "support/trip.h"

namespace drystage::consumables_kept_test {
namespace {

using engine::EventKind;
using support::PlanText;
using support::travel;
using support::Trip;

constexpr double exact = 1e-9;
constexpr const char* insulin = "consumable:insulin";

/// Forty doses, two a day, in the air of a climate or in a chest at 4 °C.
PlanText with_insulin(const std::string& keeps, bool in_chest, double air_c = 20) {
  PlanText text;
  text.climate = {PlanText::steady_climate("air", air_c)};
  text.batteries = {"{name: bank, kind: lfp, capacity: 900 Ah}"};
  text.cold = {
      "{name: chest, volume: 40 L, set_point: 4 °C, rated: {draw: 11 W, ambient: 32 °C, inside: 4 "
      "°C}, lid: {openings: 0, warm: 0 L/day}}"};
  const std::string where = in_chest ? ", cabinet: chest" : "";
  text.consumables = {"{name: insulin, unit: doses, matters: life, keeps: {" + keeps +
                      "}, stores: [{name: pens, holds: 40, filled: 40" + where +
                      "}], use: {doses: {amount: 1, at: [\"08:00\", \"20:00\"]}}}"};
  return text;
}

TEST(KeptCold, LastsInACabinetThatIsColdEnough) {
  const Trip trip = travel(with_insulin("from: 2 °C, to: 8 °C, out_of_it: 0 h", true));
  EXPECT_TRUE(trip.told(EventKind::perished).empty());
  EXPECT_NEAR(trip.reserve(4, insulin).end, 40 - 2 * 5, exact);
}

TEST(KeptCold, IsLostInTheAirOnceTheTimeIsUp) {
  // 20 °C from the first hour on: the 31st hour is beyond thirty, on day 2 from 06:00. Two doses
  // have been taken by then.
  const Trip trip = travel(with_insulin("from: 2 °C, to: 8 °C, out_of_it: 30 h", false));
  const auto told = trip.told(EventKind::perished);
  ASSERT_EQ(told.size(), 1U);
  EXPECT_EQ(told[0].day, 1);
  EXPECT_NEAR(told[0].hour, 6, exact);
  EXPECT_NEAR(told[0].amount, 38, exact);
  EXPECT_NEAR(trip.reserve(1, insulin).lost, 38, exact);
  // The next dose is missed at 08:00.
  EXPECT_NEAR(trip.reserve(1, insulin).short_h, 8, exact);
  EXPECT_FALSE(trip.verdict.holds);
}

TEST(KeptCold, IsAsWarmAsTheAirMayBe) {
  EXPECT_TRUE(
      travel(with_insulin("to: 25 °C, out_of_it: 0 h", false)).told(EventKind::perished).empty());
}

TEST(KeptCold, IsLostAtOnceWhenFarTooWarmOrFrozen) {
  for (const auto& [keeps, air_c] :
       {std::pair{"to: 8 °C, out_of_it: 500 h, never_above: 30 °C", 31.0},
        {"from: 2 °C, to: 8 °C, out_of_it: 500 h", -1.0}}) {
    const auto told = travel(with_insulin(keeps, false, air_c)).told(EventKind::perished);
    ASSERT_EQ(told.size(), 1U) << keeps;
    EXPECT_NEAR(support::trip_hour(told[0]), 0, exact) << keeps;
  }
}

TEST(KeptCold, MayBeColdAsLongAsItIsNotFrozenForItsTime) {
  const auto told = travel(with_insulin("from: 2 °C, to: 8 °C, out_of_it: 10 h", false, 1))
                        .told(EventKind::perished);
  ASSERT_EQ(told.size(), 1U);
  EXPECT_NEAR(support::trip_hour(told[0]), 10, exact);
}

TEST(KeptCold, IsLostWhenTheCompressorStops) {
  const plan::Plan plan = with_insulin("from: 2 °C, to: 8 °C, out_of_it: 5 h", true, 30).plan();
  const auto timeline = std::make_shared<const engine::Timeline>(engine::lay_timeline(plan));
  engine::Course course = engine::compile(plan, timeline);
  engine::Engine::damage(course, plan, {.cabinets = {0}});
  const engine::Record record = engine::Engine::run(course);
  const auto reserve = static_cast<std::size_t>(support::reserve_index(course, insulin));
  double lost = 0;
  for (std::size_t d = 0; d < record.days(); ++d) lost += record.reserve(d, reserve).lost;
  EXPECT_GT(lost, 30);
  EXPECT_GT(record.reserve(record.days() - 1, reserve).short_of, 1);
}

TEST(KeptCold, FoundGoodByAReadingIsGoodAnew) {
  const Trip trip = travel(
      support::read_plan(with_insulin("from: 2 °C, to: 8 °C, out_of_it: 30 h", false).text() +
                         "readings: [{evening: 4, consumables: {insulin: 20}}]\n"));
  // Lost on day 2 by the reckoning; read as 20 in the evening of day 4 (20:00, before the dose),
  // and good for thirty hours more.
  EXPECT_NEAR(trip.reserve(4, insulin).end, 20 - 3, exact);
}

}  // namespace
}  // namespace drystage::consumables_kept_test
