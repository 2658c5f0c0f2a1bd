// Where there is something to be had, and where it is sure.
#include "report/card/supply_places.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "answers/base/laid_trip.h"
#include "answers/base/supplies.h"
#include "support/card_pages.h"
#include "support/laid_out.h"
#include "support/needs_answer.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage::supply_places_test {
namespace {

using plan::Commodity;
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
            "diesel (at most 40 L), food (at most 9 meals), utility water (brackish, not to be "
            "drunk)");
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

/// Where food is sure that the second place supplies so, with plain blanks.
std::string sure(const std::string& supply, Commodity commodity = Commodity::food) {
  return support::with_plain_blanks(
      report::sure_places(support::travel(with_supplies(supply)), commodity, metric));
}

TEST(SupplyPlaces, AreSureWhereConfirmedAndOpen) {
  EXPECT_EQ(sure("food: {}"), "Red Tables (days 1 to 4)");
  EXPECT_EQ(sure("food: {confirmed: no}"), "");
  EXPECT_EQ(sure("food: {open: [sun]}"), "");
}

TEST(SupplyPlaces, AreSureOnTheDaysOnWhichTheyAreOpen) {
  // The first day of the trip is a Monday.
  EXPECT_EQ(sure("food: {open: [tue]}"), "Red Tables (day 2; SHUT on days 1, 3, 4)");
  EXPECT_EQ(sure("food: {open: [mon, wed, thu]}"),
            "Red Tables (day 1, days 3 to 4; SHUT on day 2)");
}

TEST(SupplyPlaces, ThatAreSureTellTheirLimitsAndBadWater) {
  EXPECT_EQ(sure("food: {most: 40 meals}"), "Red Tables (days 1 to 4, at most 40 meals)");
  EXPECT_THAT(sure("diesel: {most: 60.9 L}", Commodity::diesel),
              HasSubstr("Red Tables (days 1 to 4, at most 60 L)"));
  EXPECT_THAT(sure("utility_water: {quality: brackish}", Commodity::utility_water),
              HasSubstr("Red Tables (days 1 to 4, BRACKISH)"));
}

RC_GTEST_PROP(SupplyPlaces, AreSureWhereNeedsCountsOnThem, ()) {
  const support::Trip trip = support::travel(support::random_plan(support::rapidcheck_pick()));
  const answers::LaidTrip laid = answers::laid_trip_of(trip);
  for (std::size_t r = 0; r < trip.course.reserves.size(); ++r) {
    const auto& commodity = trip.course.reserves[r].commodity;
    if (!commodity) continue;
    const std::string sure = report::sure_places(trip, *commodity, metric);
    for (const answers::Passed& passed : answers::passed_refuges(laid, static_cast<int>(r))) {
      // Where the trip begins counts for turning back whatever the day.
      if (passed.refuge.step == 0) continue;
      const std::string& name =
          trip.plan.places[static_cast<std::size_t>(passed.refuge.place)].name;
      RC_ASSERT(sure.find(name + " (day") != std::string::npos);
    }
  }
}

TEST(SupplyPlaces, SayDaysFromOne) {
  EXPECT_EQ(report::days_words(3, 3), "day 4");
  EXPECT_EQ(report::days_words(3, 5), "days 4 to 6");
  EXPECT_EQ(report::unbroken("days 4 to 6"), "days\u00a04\u00a0to\u00a06");
}

}  // namespace
}  // namespace drystage::supply_places_test
