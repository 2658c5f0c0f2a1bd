// Supplies on their rows: what, how much, when it is open, and whether anybody has confirmed it.
#include "report/card/supply_words.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "support/card_answer.h"
#include "support/needs_answer.h"
#include "support/trip.h"

namespace drystage {
namespace {

using report::supply_lines;
using report::SupplyLine;
using support::PlanText;
using ::testing::HasSubstr;
using ::testing::SizeIs;
using ::testing::StartsWith;

/// Base, 200 km, Red Tables with these supplies and this order on the first day; then three nights.
PlanText supplied(const std::string& supplies, const std::string& order) {
  PlanText plan = support::three_places();
  plan.places[1] = PlanText::place("Red Tables", "air", supplies);
  plan.itinerary.insert(plan.itinerary.begin() + 2, "resupply: {" + order + "}");
  return plan;
}

std::string words(const PlanText& plan, units::System system = units::System::metric) {
  const std::vector<SupplyLine> lines = supply_lines(support::travel(plan), 0, false, system);
  EXPECT_THAT(lines, SizeIs(1));
  return lines.empty() ? "" : lines.front().words;
}

TEST(SupplyWords, SayHowMuchAFillingIsRoundedUp) {
  // A day's 4 L a day are drunk by the hour; at Red Tables after 200 km some of them are gone.
  const std::string text = words(supplied("drinking_water: {}", "drinking_water: fill"));
  EXPECT_THAT(text, HasSubstr("at Red Tables: drinking water fill up, about 62 L."));
}

TEST(SupplyWords, SayAnAmountAndHowMuchThereIs) {
  const std::string text = words(supplied("drinking_water: {most: 40 L}", "drinking_water: 30 L"));
  EXPECT_THAT(text, HasSubstr(": drinking water 30 L (40 L at most)."));
}

TEST(SupplyWords, SayWhereLessIsThereThanIsAskedFor) {
  const std::string text = words(supplied("drinking_water: {most: 20 L}", "drinking_water: 30 L"));
  EXPECT_THAT(text, HasSubstr(": drinking water 30 L; by the plan only 20 L go in or are there "
                              "(20 L at most)."));
}

TEST(SupplyWords, SayWhatIsNeededAndWhereItMustBringTo) {
  PlanText plan = supplied("drinking_water: {}", "drinking_water: to next");
  plan.containers = {"{name: can, holds: 120 L, filled: 10 L, for: drinking}"};
  const auto trip = support::travel(plan);
  const std::string text = words(plan);
  // To Far Well on day 4 at 4 L a day, and 1 L for the margin.
  EXPECT_GT(trip.record.order_taken.at(0), 0);
  EXPECT_THAT(text, HasSubstr("at Red Tables: drinking water "));
  EXPECT_THAT(text, HasSubstr(" L, or more until there are "));
}

TEST(SupplyWords, SayThatAPlaceIsShutAndWhenItOpens) {
  // 1 March 2027 is a Monday.
  PlanText plan = supplied("drinking_water: {open: [tue, wed, thu]}", "drinking_water: fill");
  const std::vector<SupplyLine> lines =
      supply_lines(support::travel(plan), 0, false, units::System::metric);
  ASSERT_THAT(lines, SizeIs(1));
  EXPECT_EQ(lines[0].words,
            "Day 1, about 11:40, on arrival at Red Tables: drinking water SHUT that day, nothing "
            "is taken, "
            "next open Tue 02 Mar.");
  EXPECT_TRUE(lines[0].shut);
  EXPECT_TRUE(lines[0].unsure);
}

TEST(SupplyWords, SayThatNobodyHasConfirmedIt) {
  PlanText plan = supplied("drinking_water: {confirmed: no}", "drinking_water: fill");
  const std::vector<SupplyLine> lines =
      supply_lines(support::travel(plan), 0, false, units::System::metric);
  ASSERT_THAT(lines, SizeIs(1));
  EXPECT_THAT(lines[0].words, HasSubstr(", NOT CONFIRMED."));
  EXPECT_TRUE(lines[0].unsure);
  EXPECT_FALSE(lines[0].shut);
}

TEST(SupplyWords, SayThatWaterIsNotForDrinking) {
  PlanText plan = supplied("utility_water: {quality: brackish}", "utility_water: fill");
  plan.containers.push_back("{name: tank, holds: 80 L, filled: 0 L, for: utility}");
  EXPECT_THAT(words(plan),
              HasSubstr("utility water (BRACKISH, do not drink) fill up, about 80 L."));
}

TEST(SupplyWords, AreRoundedUpInTheUnitsThatAreShown) {
  // 40 L are 10.57 US gallons (NIST SP 811).
  const std::string text =
      words(supplied("drinking_water: {}", "drinking_water: 40 L"), units::System::us);
  EXPECT_THAT(text, HasSubstr("drinking water 11 US gal."));
}

TEST(SupplyWords, NameTheVehicleWhereThereAreSeveral) {
  PlanText plan = supplied("diesel: {}", "diesel: fill");
  plan.vehicles.push_back(
      "{name: car, fuel: diesel, mass: {empty: 1500 kg}, tanks: [{name: tank, holds: 60 L, filled: "
      "60 L}]}");
  plan.people = {"{name: Ada, mass: 70 kg, height: 172 cm, age: 40, sex: male, rides_in: truck}",
                 "{name: Bea, mass: 70 kg, height: 172 cm, age: 40, sex: female, rides_in: car}"};
  const auto lines = supply_lines(support::travel(plan), 0, false, units::System::metric);
  ASSERT_THAT(lines, SizeIs(1));
  EXPECT_THAT(lines[0].words, HasSubstr("at Red Tables: diesel for truck fill up, about "));
  EXPECT_THAT(lines[0].words, HasSubstr("; diesel for car fill up"));
}

TEST(SupplyWords, TellWhatIsTakenOnAtTheOutsetApart) {
  PlanText plan = support::three_places();
  plan.itinerary.insert(plan.itinerary.begin() + 1, "resupply: {drinking_water: fill}");
  const auto trip = support::travel(plan);
  const auto outset = supply_lines(trip, 0, true, units::System::metric);
  ASSERT_THAT(outset, SizeIs(1));
  EXPECT_THAT(outset[0].words, StartsWith("At the outset, Base: drinking water "));
  EXPECT_THAT(supply_lines(trip, 0, false, units::System::metric), SizeIs(0));
}

/// The itinerary of three places with a stop after so many of its items, at Red Tables.
std::string stopping_after(std::size_t items, std::size_t day) {
  PlanText plan = support::three_places();
  plan.places[1] = PlanText::place("Red Tables", "air", "drinking_water: {}");
  plan.itinerary.insert(plan.itinerary.begin() + static_cast<std::ptrdiff_t>(items),
                        "resupply: {drinking_water: fill}");
  const auto lines = supply_lines(support::travel(plan), day, false, units::System::metric);
  return lines.empty() ? "" : lines.front().words;
}

TEST(SupplyWords, BeginWithTheTimeAndWhetherItIsOnArrivalOrBeforeLeaving) {
  // 200 km of gravel from eight on at the usual 55 km/h are 3 h 38 min.
  EXPECT_THAT(stopping_after(2, 0), StartsWith("Day 1, about 11:40, on arrival at Red Tables: "));
  EXPECT_THAT(stopping_after(3, 3), StartsWith("Day 4, 08:00, before leaving Red Tables: "));
}

TEST(SupplyWords, SayThatAPlaceIsOnTheWay) {
  PlanText plan = support::three_places();
  plan.places[1] = PlanText::place("Red Tables", "air", "drinking_water: {}");
  plan.itinerary[2] = "resupply: {drinking_water: fill}";
  const auto lines = supply_lines(support::travel(plan), 0, false, units::System::metric);
  ASSERT_THAT(lines, SizeIs(1));
  EXPECT_THAT(lines[0].words, HasSubstr(", on the way through Red Tables: drinking water "));
}

TEST(SupplyWords, TellEveryStopInALineAndEveryOrderOnce) {
  const auto trip = support::travel(support::shipped_plan("The long loop round the Ampara basin"));
  std::set<int> stops;
  for (const engine::OrderInfo& order : trip.course.orders) stops.insert(order.item);
  std::size_t lines = 0;
  std::size_t told = 0;
  for (std::size_t day = 0; day < trip.days(); ++day) {
    for (const bool outset : {true, false}) {
      for (const SupplyLine& line : supply_lines(trip, day, outset, units::System::metric)) {
        ++lines;
        told += 1 + static_cast<std::size_t>(std::ranges::count(line.words, ';'));
      }
    }
  }
  EXPECT_EQ(lines, stops.size());
  EXPECT_EQ(told, trip.course.orders.size());
  EXPECT_EQ(told, 15U) << "as the plan's itinerary has them";
}

TEST(SupplyWords, AreUnsureOfTheWholeStopButShutOnlyWhereAllIs) {
  const PlanText plan =
      supplied("drinking_water: {open: [sun]}, diesel: {}", "drinking_water: fill, diesel: fill");
  const auto lines = supply_lines(support::travel(plan), 0, false, units::System::metric);
  ASSERT_THAT(lines, SizeIs(1));
  EXPECT_TRUE(lines[0].unsure);
  EXPECT_FALSE(lines[0].shut);
}

/// When a supply is open, on a trip in March 2027.
std::string opening(const std::string& keys) {
  const auto plan = supplied("drinking_water: {" + keys + "}", "drinking_water: fill").plan();
  return report::opening_words(plan.places[1].supplies[0], plan::Date(2027, 3, 1),
                               plan::Date(2027, 3, 31));
}

TEST(OpeningWords, TellWeekdays) {
  EXPECT_EQ(opening(""), "open every day");
  EXPECT_EQ(opening("open: [mon, tue, wed, thu, fri]"), "open Mon to Fri");
  EXPECT_EQ(opening("open: [mon, wed, fri, sat]"), "open Mon, Wed, Fri, Sat");
  EXPECT_EQ(opening("open: [sun]"), "open Sun");
}

TEST(OpeningWords, TellDatesThatTheTripHas) {
  EXPECT_EQ(opening("shut: [2027-03-10, 2027-12-24]"), "open every day, shut Wed 10 Mar");
  EXPECT_EQ(opening("open_dates: [{from: 2027-03-05, to: 2027-09-30}]"),
            "open every day from Fri 05 Mar to Thu 30 Sep 2027");
  EXPECT_EQ(opening("open_dates: [{from: 2027-06-01, to: 2027-06-30}]"),
            "open every day of a season outside the trip");
}

}  // namespace
}  // namespace drystage
