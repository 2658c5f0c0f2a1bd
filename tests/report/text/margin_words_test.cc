// The margins of a plan in words.
#include "report/text/margin_words.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "report/text/words.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage {
namespace {

using report::margin_lines;
using support::PlanText;
using support::travel;
using support::Trip;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::Not;
using ::testing::StartsWith;

constexpr units::System metric = units::System::metric;

/// A plan with a reserve of every family, in air of so many degrees.
PlanText with_everything(std::vector<std::string> margins, double air_c = 25) {
  PlanText plan;
  plan.margins = std::move(margins);
  plan.climate = {PlanText::steady_climate("air", air_c)};
  plan.containers = {"{name: can, holds: 80 L, filled: 80 L, for: drinking}",
                     "{name: tub, holds: 40 L, filled: 40 L, for: utility}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 80 L}]}"};
  plan.cold = {"{name: chest, volume: 40 L, heat_leak: 0.5 W/K, ice: 10 kg}"};
  plan.batteries = {"{name: house battery, kind: agm, capacity: 100 Ah, mass: 28 kg}"};
  plan.food = {"{item: rice, kept: dry, mass: 10 kg, meals: 60}"};
  return plan;
}

std::vector<std::string> lines_of(const PlanText& plan, units::System system = metric) {
  return margin_lines(travel(plan), system);
}

TEST(MarginWords, SayTimesDistancesAmountsAndTemperaturesAsThePlanAsksForThem) {
  EXPECT_THAT(
      lines_of(with_everything({"drinking_water: 3 days", "utility_water: 10 L", "fuel: 150 km",
                                "food: 1 day", "battery: 60 Ah", "cold: 6.5 °C"})),
      ElementsAre("drinking water: what 3 days of staying put would use", "utility water: 10 L",
                  "fuel of truck: 150 km", "cold in chest: nothing warmer than 6.5 °C",
                  "house battery: 60 Ah", "food: what 1 day of staying put would use"));
}

TEST(MarginWords, SayOfAShareWhatItComesTo) {
  // 25 % of 80 L, 20 % of 40 L, 12.5 % of 80 L, 40 % of 100 Ah, 10 % of 60 meals.
  EXPECT_THAT(lines_of(with_everything({"drinking_water: 25 %", "utility_water: 20 %",
                                        "fuel: 12.5 %", "food: 10 %", "battery: 40 %"})),
              ElementsAre("drinking water: 20 L (25 %)", "utility water: 8.0 L (20 %)",
                          "fuel of truck: 10 L (12.5 %)", "cold in chest: nothing warmer than 5 °C",
                          "house battery: 40 Ah (40 %)", "food: 6.0 meals (10 %)"));
}

TEST(MarginWords, OfAReservesOwnNameWinOverThoseOfItsFamily) {
  PlanText plan = with_everything({"fuel: 20 %", "\"fuel:car\": 90 km", "drinking_water: 5 L"});
  plan.vehicles.emplace_back(
      "{name: car, fuel: petrol, mass: {empty: 1500 kg}, tanks: [{name: tank, holds: 50 L, filled: "
      "50 L}]}");
  EXPECT_THAT(lines_of(plan), Contains("fuel of truck: 16 L (20 %)"));
  EXPECT_THAT(lines_of(plan), Contains("fuel of car: 90 km"));
}

TEST(MarginWords, NameWhatHoldsUnasked) {
  // A bank's floor, half of what it holds, and what food is safe at.
  const std::vector<std::string> lines = lines_of(with_everything({}));
  EXPECT_THAT(lines, Contains("house battery: 50 Ah (50 %)"));
  EXPECT_THAT(lines, Contains("cold in chest: nothing warmer than 5 °C"));
}

TEST(MarginWords, SayWhatABatterysMarginComesToInTheCold) {
  const Trip trip = travel(with_everything({"battery: 60 Ah"}, -5));
  const int bank = support::reserve_index(trip.course, "battery:house battery");
  double most_ah = 0;
  for (std::size_t day = 0; day < trip.days(); ++day) {
    most_ah = std::max(most_ah, trip.record.reserve(day, static_cast<std::size_t>(bank)).margin);
  }
  ASSERT_GT(most_ah, 61);
  const int up = static_cast<int>(std::ceil(most_ah));
  EXPECT_THAT(margin_lines(trip, metric),
              Contains("house battery: 60 Ah, up to " + std::to_string(up) + " Ah in the cold"));
}

TEST(MarginWords, OfDaysOfABatteryCountFromWhereItIsCutOff) {
  PlanText plan = with_everything({"battery: 2 days"});
  plan.loads = {"{name: lamp, draw: 5 W}"};
  EXPECT_THAT(lines_of(plan), Contains("house battery: what 2 days of staying put would use, above "
                                       "where it is cut off"));
}

TEST(MarginWords, TellOfDrinkingWaterAndFuelWithoutAMarginAndOfNothingElse) {
  for (const std::vector<std::string>& none :
       {std::vector<std::string>{}, {"drinking_water: 0 L", "fuel: 0 km"}}) {
    const std::vector<std::string> lines = lines_of(with_everything(none));
    EXPECT_THAT(lines, Contains("drinking water: no margin, the plan may use it to the last drop"));
    EXPECT_THAT(lines, Contains("fuel of truck: no margin, the plan may use it to the last drop"));
    EXPECT_THAT(lines, Not(Contains(StartsWith("utility water"))));
    EXPECT_THAT(lines, Not(Contains(StartsWith("food"))));
  }
}

TEST(MarginWords, AreInTheUnitsToShowWithAmountsRoundedUpAndWarmthDown) {
  const PlanText plan = with_everything({"drinking_water: 50 L", "fuel: 100 km", "cold: 4.1 °C"});
  // 50 L are 13.21 US gal and 11.00 imperial ones (NIST Handbook 44), 4.1 °C are 39.38 °F.
  const std::vector<std::string> us = lines_of(plan, units::System::us);
  EXPECT_THAT(us, Contains("drinking water: 14 US gal"));
  EXPECT_THAT(us, Contains("fuel of truck: 62.1 mi"));
  EXPECT_THAT(us, Contains("cold in chest: nothing warmer than 39.3 °F"));
  EXPECT_THAT(lines_of(with_everything({"drinking_water: 4 L"}), units::System::imperial),
              Contains("drinking water: 0.9 imp gal"));
}

RC_GTEST_PROP(MarginWords, HaveALineForWhateverIsTestedAgainstMoreThanNothing, ()) {
  const support::PlanText text = support::random_plan(support::rapidcheck_pick());
  RC_LOG() << text.text();
  const Trip trip = travel(text);
  const std::vector<std::string> lines = margin_lines(trip, metric);
  for (const engine::ReserveInfo& info : trip.course.reserves) {
    const std::string label = report::reserve_words(info) + ": ";
    const auto line =
        std::ranges::find_if(lines, [&](const std::string& one) { return one.starts_with(label); });
    const bool asks = info.sense == engine::Sense::keep_below || info.margin.fixed > 0 ||
                      info.margin.days > 0 || info.margin.km > 0;
    RC_ASSERT((line != lines.end()) == (asks || info.life_supporting));
    if (line == lines.end()) continue;
    RC_ASSERT(line->size() > label.size());
    RC_ASSERT((line->find("no margin") != std::string::npos) == !asks);
  }
}

}  // namespace
}  // namespace drystage
