// Where there is something to be had, and where it is sure.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

#include "answers/base/laid_trip.h"
#include "answers/base/supplies.h"
#include "plan/commodity.h"
#include "report/card/supply_words.h"
#include "support/laid_out.h"
#include "support/needs_answer.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage::supply_places_test {
namespace {

using report::SupplyRow;
using report::SupplyVisit;
using support::PlanText;
using ::testing::HasSubstr;

constexpr units::System metric = units::System::metric;

/// Three places with these supplies at the second, which is stayed at for four days from the first.
PlanText with_supplies(const std::string& supplies) {
  PlanText plan = support::three_places();
  plan.places[1] = PlanText::place("Red Tables", "air", supplies);
  return plan;
}

std::vector<SupplyRow> rows_at_second(const PlanText& text) {
  const support::Trip trip = support::travel(text);
  for (const SupplyVisit& visit : report::supply_visits(trip)) {
    if (visit.place == 1) return report::supply_rows(trip, visit, metric);
  }
  return {};
}

TEST(SupplyPlaces, AreInTheOrderOfTheTripWithTheirDays) {
  const support::Trip trip = support::travel(with_supplies("food: {}"));
  const std::vector<SupplyVisit> visits = report::supply_visits(trip);
  ASSERT_EQ(visits.size(), 3U);
  EXPECT_EQ(visits[0].place, 0);
  EXPECT_EQ(visits[0].first_day, 0);
  EXPECT_EQ(visits[0].last_day, 0);
  EXPECT_EQ(visits[1].place, 1);
  EXPECT_EQ(visits[1].first_day, 0);
  EXPECT_EQ(visits[1].last_day, 3);
  EXPECT_EQ(visits[2].place, 2);
  EXPECT_EQ(visits[2].first_day, 3);
  EXPECT_EQ(visits[2].last_day, static_cast<int>(trip.days()) - 1);
}

TEST(SupplyPlaces, OfWhichThereIsNothingAreLeftOut) {
  for (const SupplyVisit& visit : report::supply_visits(support::travel(with_supplies("")))) {
    EXPECT_NE(visit.place, 1);
  }
}

TEST(SupplyPlaces, ThatAreDrivenThroughAreTold) {
  PlanText plan = with_supplies("diesel: {}");
  plan.itinerary[2] = "drive: {to: Far Well, distance: 50 km, surfaces: gravel}";
  plan.itinerary.erase(plan.itinerary.begin() + 3);
  const support::Trip trip = support::travel(plan);
  const std::vector<SupplyVisit> visits = report::supply_visits(trip);
  ASSERT_EQ(visits.size(), 3U);
  EXPECT_EQ(visits[1].place, 1);
  EXPECT_EQ(visits[1].first_day, 0);
  EXPECT_EQ(visits[1].last_day, 0);
}

TEST(SupplyPlaces, PutTogetherWhatTheSameIsToldOf) {
  const auto rows = rows_at_second(with_supplies("diesel: {}, food: {}, ice: {confirmed: no}"));
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_EQ(rows[0].what, "diesel, food");
  EXPECT_TRUE(rows[0].confirmed);
  EXPECT_EQ(rows[1].what, "ice");
  EXPECT_FALSE(rows[1].confirmed);
}

TEST(SupplyPlaces, TellLimitsRoundedDownAndBadWater) {
  const auto rows = rows_at_second(
      with_supplies("diesel: {most: 40.9 L}, food: {most: 9 meals}, utility_water: {quality: "
                    "brackish}"));
  ASSERT_EQ(rows.size(), 1U);
  EXPECT_EQ(rows[0].what,
            "diesel (at most 40 L), food (at most 9 meals), utility water (BRACKISH, do not "
            "drink)");
}

TEST(SupplyPlaces, TellOnWhichDaysTheyAreShut) {
  // The first day of the trip is a Monday.
  const auto some = rows_at_second(with_supplies("food: {open: [mon, wed, thu]}"));
  EXPECT_THAT(some.front().open, HasSubstr("SHUT on day 2"));
  const auto all = rows_at_second(with_supplies("food: {open: [sun]}"));
  EXPECT_THAT(all.front().open, HasSubstr("SHUT when you are there"));
  const auto none = rows_at_second(with_supplies("food: {}"));
  EXPECT_EQ(none.front().open, "open every day");
}

/// What is said of the second place.
report::PlaceLine second(const std::string& supplies) {
  for (const report::PlaceLine& line :
       report::place_lines(support::travel(with_supplies(supplies)), metric)) {
    if (line.name.starts_with("Red Tables")) return line;
  }
  return {};
}

TEST(PlaceLines, TellNameAndPositionDaysAndWhatIsSure) {
  const report::PlaceLine line = second("food: {}, ice: {confirmed: no}");
  EXPECT_EQ(line.name, "Red Tables, 0° N, 0° E");
  EXPECT_EQ(line.days, "days 1 to 4");
  EXPECT_EQ(line.sure, "food");
  EXPECT_EQ(line.unsure, "ice");
}

TEST(PlaceLines, TellLimitsDaysAndBadWater) {
  EXPECT_EQ(second("food: {most: 40 meals}").sure, "food (at most 40 meals)");
  EXPECT_EQ(second("food: {open: [tue]}").sure, "food: open Tue; SHUT on days 1, 3, 4");
  EXPECT_EQ(second("food: {open: [sun]}").sure, "food: open Sun; SHUT when you are there");
  EXPECT_EQ(second("utility_water: {quality: brackish}").sure,
            "utility water (BRACKISH, do not drink)");
}

TEST(PlaceLines, TellAPlaceOnceThatIsVisitedTwice) {
  PlanText plan = with_supplies("");
  plan.itinerary.emplace_back("drive: {to: Base, distance: 300 km, surfaces: gravel}");
  const auto lines = report::place_lines(support::travel(plan), metric);
  ASSERT_EQ(lines.size(), 2U);
  EXPECT_EQ(lines[0].name, "Base, 0° N, 0° E");
  EXPECT_THAT(lines[0].days, ::testing::MatchesRegex("day 1, day [0-9]"));
}

TEST(PlaceLines, LeaveThePlacesOfNothingToAnotherLine) {
  EXPECT_EQ(report::other_places(support::travel(with_supplies(""))), "Red Tables, 0° N, 0° E");
  EXPECT_EQ(report::other_places(support::travel(with_supplies("food: {}"))), "");
}

RC_GTEST_PROP(SupplyPlaces, AreSureWhereNeedsCountsOnThem, ()) {
  const support::Trip trip = support::travel(support::random_plan(support::rapidcheck_pick()));
  const answers::LaidTrip laid = answers::laid_trip_of(trip);
  const std::vector<report::PlaceLine> lines = report::place_lines(trip, metric);
  for (std::size_t r = 0; r < trip.course.reserves.size(); ++r) {
    const auto& commodity = trip.course.reserves[r].commodity;
    if (!commodity) continue;
    const std::string what = plan::words(trip.plan, *commodity);
    for (const answers::Passed& passed : answers::passed_refuges(laid, static_cast<int>(r))) {
      // Where the trip begins counts for turning back whatever the day.
      if (passed.refuge.step == 0) continue;
      const std::string& name =
          trip.plan.places[static_cast<std::size_t>(passed.refuge.place)].name;
      RC_ASSERT(std::ranges::any_of(lines, [&](const report::PlaceLine& line) {
        return line.name.starts_with(name + ", ") && line.sure.find(what) != std::string::npos;
      }));
    }
  }
}

TEST(SupplyPlaces, KeepWordsOnOneLine) {
  EXPECT_EQ(report::unbroken("days 4 to 6"), "days\u00a04\u00a0to\u00a06");
}

}  // namespace
}  // namespace drystage::supply_places_test
