// Hints for slips of the pen: a decimal comma, a bare margin. And amounts of nothing, which are
// allowed and give nothing.
#include <fmt/core.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/remarks.h"
#include "plan_text.h"
#include "support/trip.h"

namespace drystage::plan {
namespace {

using engine::ReserveDay;
using support::PlanText;
using support::travel;
using support::Trip;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::SizeIs;

std::vector<std::string> hints(const char* piece, const char* replacement) {
  std::vector<std::string> out;
  const ReadPlan reading = read_text(whole_plan_with(piece, replacement));
  EXPECT_FALSE(reading.plan.has_value());
  for (const Diagnostic& d : reading.diagnostics) out.push_back(d.hint);
  return out;
}

TEST(Hint, OfADecimalCommaInBracesIsToWriteAPoint) {
  const std::string hint = "is this a decimal comma? Write a point: ";
  EXPECT_THAT(hints("mass: 62 kg", "mass: 66,5 kg"), Contains(hint + "66.5 kg"));
  EXPECT_THAT(hints("meals: 24, from", "meals: 24,5, from"), Contains(hint + "24.5"));
  EXPECT_THAT(hints("mass: 62 kg", "mass: 62 kg, wieght: 5 kg"),
              Not(Contains(HasSubstr("decimal comma"))));
}

TEST(Hint, OfABareMarginOffersDays) {
  EXPECT_THAT(hints("drinking_water: 3 days", "drinking_water: 3"),
              ElementsAre("write 3 days, 3 L or 3 %"));
  EXPECT_THAT(hints("food: 6 meals", "food: 1.5"),
              ElementsAre("write 1.5 days, 1.5 meals or 1.5 %"));
  EXPECT_THAT(hints("battery: 50 %", "battery: 2"), ElementsAre("write 2 days, 2 Ah or 2 %"));
}

TEST(Hint, OfABareMarginOfFuelOrColdOffersNoDays) {
  for (const auto& found :
       {hints("  fuel: 150 km", "  fuel: 150"), hints("\n  cold: 5 °C", "\n  cold: 5")}) {
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_THAT(found[0], Not(HasSubstr("days")));
  }
}

TEST(Hint, OfAMarginOfNoTextOffersNoDaysOfNothing) {
  for (const std::string& hint : hints("drinking_water: 3 days", "drinking_water: \"\"")) {
    EXPECT_THAT(hint, Not(HasSubstr("write  days")));
  }
}

TEST(Hint, OfABareTimeIsInTheUnitThatIsMeant) {
  EXPECT_THAT(hints("every: 4 days", "every: 4"), ElementsAre("write 4 days"));
  EXPECT_THAT(hints("keeps: {for: 10 days", "keeps: {for: 12"), ElementsAre("write 12 days"));
  EXPECT_THAT(hints("stuck: {for: 3 days}", "stuck: {for: 2}"), ElementsAre("write 2 days"));
  EXPECT_THAT(hints("stuck: 36 h", "stuck: 2"), ElementsAre("write 2 days"));
  EXPECT_THAT(hints("moderate: 5 h", "moderate: 5"), ElementsAre("write 5 h"));
  EXPECT_THAT(hints("length: 80 cm", "length: 80"), ElementsAre("write 80 cm"));
}

TEST(Hint, OfABareLatitudeNamesBothDirections) {
  EXPECT_THAT(hints("latitude: 27.1°", "latitude: 27.1"), Contains("write 27.1° N or 27.1° S"));
}

TEST(Hint, IsTheRightWordOfAnother) {
  for (const char* word : {"LiFePO4", "lithium", "LFP", "lifepo4"}) {
    EXPECT_THAT(hints("kind: agm, capacity", fmt::format("kind: {}, capacity", word).c_str()),
                ElementsAre("did you mean \"lfp\"?"))
        << word;
  }
  EXPECT_THAT(hints("open: [mon, tue, wed, thu, sat]", "open: mon-fri"),
              ElementsAre("write [mon, tue, wed, thu, fri]"));
  EXPECT_THAT(hints("open: [mon, tue, wed, thu, sat]", "open: [Fri-Mon]"),
              ElementsAre("write [fri, sat, sun, mon]"));
  EXPECT_THAT(hints("open: [mon, tue, wed, thu, sat]", "open: Tuesday"),
              ElementsAre("write [tue]"));
}

TEST(Hint, NeverTurnsAWordIntoItsOpposite) {
  EXPECT_THAT(hints("acclimatised: no", "acclimatised: \"on\""),
              ElementsAre("did you mean \"yes\"?"));
  EXPECT_THAT(hints("acclimatised: no", "acclimatised: \"off\""),
              ElementsAre("did you mean \"no\"?"));
  EXPECT_THAT(hints("distance: 445 km, surfaces: gravel", "distance: 445 km, surfaces: unsealed"),
              ElementsAre(""));
  EXPECT_THAT(hints("utility, quality: brackish", "utility, quality: unpotable"), ElementsAre(""));
  EXPECT_THAT(hints("acclimatised: no", "unacclimatised: yes"), ElementsAre(""));
  EXPECT_THAT(hints("facing: south", "facing: north-wast"),
              ElementsAre("did you mean \"north-east\" or \"north-west\"?"));
}

std::vector<Diagnostic> problems(const PlanText& plan) {
  return engine::lay_timeline(plan.plan()).problems;
}

std::string march(const std::string& climate) {
  return climate + ": {mar: {max: 20 °C, min: 10 °C, humidity: 30 %, sun: 5 kWh/m2/day}}";
}

TEST(Months, ThatAClimateLacksAreOneErrorThatNamesThemAll) {
  PlanText plan;
  plan.climate = {march("air")};
  plan.start = "2027-03-30";
  plan.itinerary = {"{at: Base}", "stay: {nights: 40}"};
  const auto found = problems(plan);
  ASSERT_THAT(found, SizeIs(1));
  EXPECT_EQ(found[0].what,
            "climate \"air\" has no april, may, but the trip is there from 2027-04-01");
  EXPECT_THAT(found[0].hint, HasSubstr("add \"april:"));
}

TEST(Months, ThatTwoClimatesLackAreAnErrorEach) {
  PlanText plan;
  plan.climate = {march("air"), march("basin")};
  plan.start = "2027-03-30";
  plan.places = {PlanText::place("Base", "air"), PlanText::place("Pan", "basin")};
  plan.itinerary = {"{at: Base}", "stay: {nights: 5}",
                    "drive: {to: Pan, distance: 10 km, surfaces: sealed}", "stay: {nights: 60}"};
  const auto found = problems(plan);
  ASSERT_THAT(found, SizeIs(2));
  EXPECT_THAT(found[0].what, HasSubstr("\"air\" has no april, but"));
  EXPECT_THAT(found[1].what, HasSubstr("\"basin\" has no april, may, june, but"));
  EXPECT_THAT(found[1].hint, HasSubstr("is the trip meant to last so long?"));
}

TEST(NamedDays, OutsideTheTripAreOdd) {
  PlanText plan;  // 1 to 5 March
  plan.weather = {"{on: 2027-02-28, max: 30 °C}", "{from: 2027-02-20, to: 2027-03-01, max: 30 °C}",
                  "{from: 2027-03-05, to: 2027-03-09, max: 30 °C}", "{on: 2027-03-06, max: 30 °C}"};
  const auto found = engine::remarks(plan.plan(), engine::lay_timeline(plan.plan()));
  ASSERT_THAT(found, SizeIs(2));
  for (const Diagnostic& d : found) {
    EXPECT_EQ(d.severity, Severity::warning);
    EXPECT_EQ(d.what, "weather of days on which nobody is under way");
    EXPECT_EQ(d.expected, "days from 2027-03-01 to 2027-03-05");
  }
  EXPECT_EQ(found[1].mark.line, found[0].mark.line + 3);
}

/// A bank that is half full, with a charger, on a day with sun, mains and a drive.
double charged_ah(const std::string& charger) {
  PlanText plan;
  plan.climate = {PlanText::climate_of("air", 25, 25, "30 %", "6 kWh/m2/day")};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 80 L}]}"};
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah, filled: 50 %}"};
  plan.charging = {charger};
  plan.places = {PlanText::place("Base", "air", "mains: {}"), PlanText::place("There", "air")};
  plan.itinerary = {"{at: Base}", "stay: {nights: 1}",
                    "drive: {to: There, distance: 100 km, surfaces: sealed}"};
  return travel(plan).sum(&ReserveDay::gained, "battery:bank");
}

TEST(Nothing, OfAChargerIsAllowedAndChargesNothing) {
  for (const auto& [none, some] :
       {std::pair{"{name: lead, mains: 0 A}", "{name: lead, mains: 1 A}"},
        {"{name: lead, mains: 0 W}", "{name: lead, mains: 10 W}"},
        {"{name: roof, solar: 0 W}", "{name: roof, solar: 20 W}"},
        {"{name: dc, current: 0 A, while: driving}", "{name: dc, current: 5 A, while: driving}"}}) {
    EXPECT_EQ(charged_ah(none), 0) << none;
    EXPECT_GT(charged_ah(some), 0) << some;
  }
}

TEST(Nothing, OfASupplyIsAllowedAndGivesNothing) {
  PlanText plan;
  plan.containers = {"{name: can, holds: 40 L, filled: 30 L, for: drinking}"};
  plan.cold = {"{name: box, volume: 40 L, ice: 10 kg, heat_leak: 0.7 W/K}"};
  plan.places = {PlanText::place(
      "Base", "air", "drinking_water: {most: 0 L}, food: {most: 0 meals}, ice: {most: 0 kg}")};
  plan.itinerary = {"{at: Base}", "stay: {nights: 1}",
                    "resupply: {drinking_water: fill, food: fill, ice: fill}", "stay: {nights: 1}"};
  const Trip trip = travel(plan);
  EXPECT_EQ(trip.sum(&ReserveDay::gained, "drinking_water"), 0);
  EXPECT_EQ(trip.sum(&ReserveDay::gained, "food"), 0);
  EXPECT_TRUE(trip.told(engine::EventKind::refill).empty());
}

}  // namespace
}  // namespace drystage::plan
