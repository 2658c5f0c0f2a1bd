// What somebody was once observed to drink says how they compare with the model, in the weather it
// was observed in. It does not silence the heat.
#include <gtest/gtest.h>

#include "engine/remarks.h"
#include "support/trip.h"

namespace drystage {
namespace {

using engine::Event;
using engine::EventKind;
using engine::ReserveDay;
using support::PlanText;
using support::travel;
using support::Trip;

/// Three days of eight hours of work in the sun, at 44 °C by day and 30 °C by night.
PlanText in_great_heat(const std::string& observed) {
  PlanText plan;
  plan.people = {PlanText::person("Ada", ""), PlanText::person("Ben", "")};
  for (std::string& person : plan.people) person.replace(person.rfind('}'), 1, observed + "}");
  plan.activities = {"survey: {low: 2 h, moderate: 6 h, in_sun: 100 %}"};
  plan.climate = {PlanText::climate_of("air", 44, 30, "20 %", "7 kWh/m2/day")};
  plan.containers = {"{name: tank, holds: 900 L, filled: 900 L, for: drinking}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 3, activity: survey}"};
  return plan;
}

constexpr const char* four = ", observed: {drinking: 4 L/day}";

TEST(ObservedDrinking, DoesNotSilenceTheCeilingOfTheHeat) {
  const Trip trip = travel(in_great_heat(four));
  // 12 US quarts a day: TB MED 507.
  const auto told = trip.told(EventKind::heat_ceiling);
  ASSERT_EQ(told.size(), 6U);  // two people, three days
  for (const Event& event : told) EXPECT_GT(event.amount, 12 * 0.946352946);
  const Trip hotter = travel(in_great_heat(", observed: {drinking: 30 L/day}"));
  EXPECT_EQ(hotter.told(EventKind::heat_ceiling).size(), 6U);
}

TEST(ObservedDrinking, DoesNotSilenceHeatBeyondTheProven) {
  PlanText plan = in_great_heat(four);
  plan.climate = {PlanText::climate_of("air", 51, 35, "20 %", "7 kWh/m2/day")};
  EXPECT_EQ(travel(plan).told(EventKind::heat_unproven).size(), 3U);
}

TEST(ObservedDrinking, FarUnderTheModelIsWarnedOfWithBothFigures) {
  const Trip trip = travel(in_great_heat(four));
  const auto told = trip.told(EventKind::observed_low);
  ASSERT_EQ(told.size(), 6U);
  EXPECT_NEAR(told[0].amount, 4, 1e-9);
  EXPECT_GT(told[0].other, 11);
  const auto remarks = engine::remarks(trip.plan, *trip.course.timeline);
  ASSERT_EQ(remarks.size(), 2U);
  const std::string& words = remarks[0].what;
  EXPECT_NE(words.find("4.0 L"), std::string::npos) << words;
  EXPECT_NE(words.find("12."), std::string::npos) << words;
}

TEST(ObservedDrinking, NearTheModelIsNot) {
  const Trip plain = travel(in_great_heat(""));
  const double each_l = plain.reserve(0, "drinking_water").used / 2;
  const auto told_at = [&](double share) {
    return travel(in_great_heat(", observed: {drinking: " + std::to_string(share * each_l) +
                                " L/day}"))
        .told(EventKind::observed_low)
        .size();
  };
  EXPECT_EQ(told_at(0.72), 0U);
  EXPECT_EQ(told_at(0.68), 6U);
}

double used(const PlanText& plan, std::size_t day) {
  return travel(plan).reserve(day, "drinking_water").used;
}

/// The same with a second day that is hotter.
PlanText with_a_hot_day(PlanText plan) {
  plan.climate = {PlanText::climate_of("air", 33, 18, "20 %", "7 kWh/m2/day")};
  plan.weather = {"{on: 2027-03-02, max: 41 °C, min: 26 °C}"};
  return plan;
}

TEST(ObservedDrinking, HoldsForTheFirstDayAndScalesTheOthers) {
  const PlanText model = with_a_hot_day(in_great_heat(""));
  const PlanText own = with_a_hot_day(in_great_heat(", observed: {drinking: 7 L/day}"));
  EXPECT_NEAR(used(own, 0), 14, 1e-9);
  EXPECT_GT(used(own, 1), 1.2 * used(own, 0));
  EXPECT_NEAR(used(own, 1) / used(own, 0), used(model, 1) / used(model, 0), 1e-9);
}

TEST(ObservedDrinking, HoldsForTheWeatherAndTheActivityThatItSays) {
  const PlanText own = with_a_hot_day(in_great_heat(
      ", observed: {drinking: 9 L/day, at: {max: 41 °C, min: 26 °C, activity: survey}}"));
  EXPECT_NEAR(used(own, 1), 18, 0.01);  // the sun is that of the first day
  EXPECT_LT(used(own, 0), 0.8 * used(own, 1));
  // Nothing said of the activity: a day in camp, less work, so that the same litres say more.
  const PlanText in_camp = with_a_hot_day(
      in_great_heat(", observed: {drinking: 9 L/day, at: {max: 41 °C, min: 26 °C}}"));
  EXPECT_GT(used(in_camp, 1), 18);
}

TEST(ObservedDrinking, HoldsForTheElevationThatItSays) {
  const auto at = [](const std::string& elevation) {
    return used(with_a_hot_day(in_great_heat(", observed: {drinking: 9 L/day, at: {max: 41 °C, "
                                             "min: 26 °C, activity: survey" +
                                             elevation + "}}")),
                1);
  };
  EXPECT_NEAR(at(", elevation: 0 m"), 18, 0.01);
  EXPECT_LT(at(", elevation: 4500 m"), 17);
}

// Sphere Handbook: 2.5 L a day at the least, drink and food, of which 2 L are drunk.
TEST(ObservedDrinking, NeverAsksForLessThanSurvivalTakes) {
  PlanText plan = in_great_heat(four);
  plan.weather = {"{from: 2027-03-02, to: 2027-03-09, max: 15 °C, min: 5 °C}"};
  EXPECT_NEAR(used(plan, 0), 8, 1e-9);
  EXPECT_NEAR(used(plan, 1), 4, 1e-9);
}

// An answer's heat wave is the plan's weather, but for some days 5 K hotter.
TEST(ObservedDrinking, FollowsAHeatWaveThatAnAnswerLaysOverTheFirstDay) {
  plan::Plan own = in_great_heat(", observed: {drinking: 12 L/day}").plan();
  const double usual = travel(own).reserve(0, "drinking_water").used;
  plan::NamedDays heat;
  heat.from = own.trip.start;
  heat.to = own.trip.start + boost::gregorian::days(9);
  heat.warmer_k = 5;
  own.weather.push_back(heat);
  EXPECT_NEAR(usual, 24, 1e-9);
  EXPECT_GT(travel(own).reserve(0, "drinking_water").used, 1.1 * usual);
}

TEST(ObservedDrinking, OfNothingStaysNothing) {
  EXPECT_EQ(used(in_great_heat(", observed: {drinking: 0 L/day}"), 0), 0);
}

}  // namespace
}  // namespace drystage
