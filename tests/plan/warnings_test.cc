#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ostream>
#include <string>
#include <vector>

#include "plan_text.h"
#include "support/plan_text.h"

namespace drystage::plan {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

std::string truck(const std::string& name) {
  return "{name: " + name +
         ", fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, filled: 80 "
         "L}]}";
}

struct Oddity {
  const char* piece;
  const char* replacement;
  const char* what;
};

void PrintTo(const Oddity& oddity, std::ostream* out) { *out << oddity.replacement; }

TEST(Distance, FarShorterThanTheStraightLineIsAnError) {
  const ReadPlan reading = read_text(
      whole_plan_with("distance: 445 km, surfaces: gravel", "distance: 45 km, surfaces: gravel"));
  EXPECT_FALSE(reading.plan.has_value());
  EXPECT_NE(all_of(reading).find("is north or south, east or west of one of them wrong?"),
            std::string::npos);
}

/// What is said of a trip from a spring to a place with these supplies.
std::vector<std::string> said_of_the_end(const std::string& supplies, const std::string& last) {
  support::PlanText text;
  text.margins = {"drinking_water: 1 day", "fuel: 10 L"};
  text.containers = {"{name: can, holds: 40 L, filled: 40 L, for: drinking}"};
  text.vehicles = {truck("truck")};
  text.places = {support::PlanText::place("Spring", "air"),
                 support::PlanText::place("Pan", "air", supplies)};
  text.itinerary = {"{at: Spring}", "drive: {to: Pan, distance: 90 km, surfaces: gravel}",
                    "stay: {nights: 2}"};
  if (!last.empty()) text.itinerary.push_back(last);
  std::vector<std::string> out;
  for (const Diagnostic& one : read_text(text.text()).diagnostics) {
    if (one.what.find("the trip ends at") != std::string::npos) out.push_back(one.what);
  }
  return out;
}

TEST(TripsEnd, IsQuestionedWhereThereIsNothingToDrinkAndNobodyIsHome) {
  const char* const words =
      "the trip ends at \"Pan\", which has no drinking water and is not where it began";
  EXPECT_THAT(said_of_the_end("", ""), ElementsAre(words));
  EXPECT_THAT(said_of_the_end("utility_water: {quality: brackish}", ""), ElementsAre(words));
  EXPECT_THAT(said_of_the_end("drinking_water: {}", ""), IsEmpty());
  EXPECT_THAT(said_of_the_end("", "drive: {to: Spring, distance: 90 km, surfaces: gravel}"),
              IsEmpty());
}

class OddValue : public ::testing::TestWithParam<Oddity> {};

TEST_P(OddValue, IsTheOneWarningAndThePlanStillReads) {
  const Oddity& oddity = GetParam();
  const ReadPlan reading = read_text(whole_plan_with(oddity.piece, oddity.replacement));
  ASSERT_TRUE(reading.plan.has_value()) << all_of(reading);
  ASSERT_EQ(reading.diagnostics.size(), 1U) << all_of(reading);
  EXPECT_EQ(reading.diagnostics[0].severity, Severity::warning);
  EXPECT_NE(reading.diagnostics[0].what.find(oddity.what), std::string::npos) << all_of(reading);
  EXPECT_GT(reading.diagnostics[0].mark.line, 0);
}

INSTANTIATE_TEST_SUITE_P(
    All, OddValue,
    ::testing::Values(
        Oddity{", kind: dairy, from: 12 °C", "",
               "how long \"butter\" keeps: it is taken for raw mince"},
        Oddity{", kind: dairy, from: 12 °C", ", potentially_hazardous: no",
               "how long \"butter\" keeps: it is taken for vegetables"},
        Oddity{", kind: fish", "", "1 day at 4 °C once it has thawed"},
        Oddity{", lid: {openings: 6 a day}", "",
               "\"ice box\" is taken as measured with the lid shut"},
        Oddity{"name: jerry 1, holds: 20 L", "name: jerry 1, holds: 400 L", "large for a can"},
        Oddity{"name: can 1, holds: 20 L", "name: can 1, holds: 61 L", "large for a can"},
        Oddity{"uses: 24 L/100km", "uses: 2 L/100km", "uses: 2 L/100km is unusually low"},
        Oddity{"uses: 24 L/100km", "uses: 61 L/100km", "unusually high"},
        Oddity{"max: 22 °C", "max: 60 °C", "max: 60 °C is unusually high"},
        Oddity{"min: 7 °C", "min: -46 °C", "min: -46 °C is unusually low"},
        Oddity{"climb: 300 m, descent: 670 m", "climb: 900 m, descent: 670 m", "230 m higher"},
        Oddity{"climb: 300 m, descent: 670 m", "descent: 200 m", "descent of 200 m is too little"},
        Oddity{"climb: 300 m, descent: 670 m", "climb: 20000 m, descent: 20370 m",
               "20000 m up and 20370 m down do not fit into 240 km unless the hills are 17 %"},
        Oddity{"climb: 300 m, descent: 670 m", "climb: 6000 m, descent: 6370 m, steepness: 3 %",
               "the hills are 5 % steep"},
        Oddity{"sun: 5.4 kWh/m2/day", "sun: 9.5 kWh/m2/day", "unusually high"},
        Oddity{"mass: 62 kg", "mass: 162 kg", "mass: 162 kg is unusually high"},
        Oddity{"mass: 62 kg", "mass: 4 kg", "mass: 4 kg is unusually low"},
        Oddity{"gravel: 60 km/h", "gravel: 160 km/h", "gravel: 160 km/h is unusually high"},
        Oddity{"speed: 30 km/h", "speed: 131 km/h", "unusually high"},
        Oddity{"holds: 20 L, filled: 19 L", "holds: 20 L, filled: 20 L",
               "no room for the fuel to swell in the heat: \"jerry 1\""},
        Oddity{"limit: 3500 kg", "limit: 2700 kg", "over its limit"},
        Oddity{"runs: 1.5 h/day", "runs: 3 h/day",
               "1.5 h of the 3 h that \"spare generator\" is to run each day are quiet"},
        Oddity{"from: 2 °C, to: 8 °C", "from: 3 °C, to: 8 °C",
               "cabinet \"chest\" is set to 2 °C: colder than \"insulin\" may be"},
        Oddity{"mass: 9 kg", "mass: 90 kg", "cabinet \"chest\" of 45 L"},
        Oddity{"distance: 445 km, surfaces: gravel", "distance: 200 km, surfaces: gravel",
               "shorter than the straight line"},
        Oddity{"diesel: {truck: 60 L}", "diesel: {truck: 120 L}", "supplies 100 at most"},
        Oddity{"drinking: 5.5 L/day", "drinking: 1.9 L/day", "\"Bela\" is said to drink 1.9 L"},
        Oddity{"meals: 3}}", "meals: 1.4}}", "\"Bela\" is said to eat 1.4 meals a day"},
        Oddity{"soft sand, uses: 24 L/100km", "soft sand, uses: 11.9 L/100km",
               "\"truck\" is said to use 11.9 L/100km in sand"},
        Oddity{"surface: soft sand, uses: 24 L/100km", "surface: sand, uses: 9 L/100km",
               "\"truck\" is said to use 9 L/100km in sand"},
        Oddity{"time_zone: \"+01:00\"", "time_zone: \"-04:00\"",
               "the time zone is 4.3 h off the sun at \"Oru\""},
        Oddity{"utility_water: fill, drinking_water: to next, diesel: {truck: 60 L}",
               "diesel: {truck: 60 L}", "\"cleaned\" without water"}));

/// What is odd about a plan, in order; fails when it is not right.
std::vector<std::string> oddities(const support::PlanText& plan) {
  std::vector<std::string> out;
  const ReadPlan reading = read_text(plan.text());
  EXPECT_TRUE(reading.plan.has_value()) << all_of(reading);
  for (const Diagnostic& d : reading.diagnostics) out.push_back(d.what);
  return out;
}

/// A plan of which nothing is odd.
support::PlanText plain() {
  support::PlanText plan;
  plan.margins = {"drinking_water: 5 L", "fuel: 10 L"};
  plan.containers = {"{name: can, holds: 40 L, filled: 40 L, for: drinking}"};
  plan.vehicles = {truck("truck")};
  plan.places.push_back(support::PlanText::place("There", "air", "drinking_water: {}"));
  plan.itinerary = {"{at: Base}", "drive: {to: There, distance: 10 km, surfaces: sealed}"};
  return plan;
}

TEST(ObservedDrinking, OfLittleIsOddForAnAdultOnly) {
  support::PlanText plan = plain();
  const auto child = [](const std::string& age, const std::string& litres) {
    return "{name: Pim, mass: 24 kg, height: 122 cm, age: " + age +
           ", sex: male, observed: {drinking: " + litres + ", meals: 3}}";
  };
  plan.people = {support::PlanText::person("Ada", "2 L/day"), child("7", "1.2 L/day")};
  EXPECT_THAT(oddities(plan), IsEmpty());
  plan.people[1] = child("14", "1.2 L/day");
  EXPECT_THAT(oddities(plan), ElementsAre("\"Pim\" is said to drink 1.2 L a day"));
  plan.people[0] = support::PlanText::person("Ada", "0 L/day");
  EXPECT_THAT(oddities(plan), ElementsAre("\"Ada\" is said to drink 0 L a day",
                                          "\"Pim\" is said to drink 1.2 L a day"));
}

TEST(Drives, WithoutAVehicleAreOdd) {
  support::PlanText plan = plain();
  plan.vehicles.clear();
  plan.margins = {"drinking_water: 5 L"};
  EXPECT_THAT(oddities(plan), ElementsAre("the plan drives, but has no vehicle: it uses no fuel"));
  plan.itinerary = {"{at: Base}", "stay: {nights: 2}"};
  EXPECT_THAT(oddities(plan), IsEmpty());
}

TEST(Vehicles, MoreThanThereArePeopleAreOdd) {
  support::PlanText plan = plain();
  plan.vehicles.push_back(truck("car"));
  EXPECT_THAT(oddities(plan), ElementsAre("2 vehicles, but one person to drive them"));
  plan.people.push_back(support::PlanText::person("Ben", "4 L/day"));
  EXPECT_THAT(oddities(plan), IsEmpty());
  plan.vehicles.push_back(truck("van"));
  EXPECT_THAT(oddities(plan), ElementsAre("3 vehicles, but fewer people to drive them"));
}

TEST(TimeZone, FarFromTheSunIsOddAcrossTheDateLineToo) {
  const auto at = [](const char* zone, const char* longitude) {
    support::PlanText plan = plain();
    plan.time_zone = zone;
    plan.places = {std::string("Base: {at: {latitude: 0°, longitude: ") + longitude +
                   ", elevation: 0 m}, climate: air}"};
    plan.itinerary = {"{at: Base}", "stay: {nights: 2}"};
    return oddities(plan);
  };
  EXPECT_THAT(at("+03:30", "0°"), IsEmpty());
  EXPECT_THAT(at("-03:30", "0°"), IsEmpty());
  EXPECT_THAT(at("+04:00", "0°"), ElementsAre("the time zone is 4.0 h off the sun at \"Base\""));
  // Either side of the line may keep the other's date.
  EXPECT_THAT(at("+13:00", "-175°"), IsEmpty());
  EXPECT_THAT(at("+14:00", "-157.5°"), IsEmpty());
  EXPECT_THAT(at("-12:00", "179°"), IsEmpty());
  // 179° E is 11.9 h ahead: behind by 4 h it is +07:56 hours, or ahead by 4 h -08:04.
  EXPECT_THAT(at("+07:00", "179°"), ElementsAre("the time zone is 4.9 h off the sun at \"Base\""));
  EXPECT_THAT(at("-08:00", "179°"), ElementsAre("the time zone is 4.1 h off the sun at \"Base\""));
}

TEST(OddValues, AreNotWhatIsMerelyUnconfirmedOrLarge) {
  EXPECT_TRUE(read_text(whole_plan()).diagnostics.empty());
  // A tank that is not called a can may be large.
  EXPECT_TRUE(
      read_text(whole_plan_with("name: body tank, holds: 90 L", "name: canister, holds: 90 L"))
          .diagnostics.empty());
}

}  // namespace
}  // namespace drystage::plan
