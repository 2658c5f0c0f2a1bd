// The facts of a day: as the plan has them, by the local clock.
#include "report/card/day_facts.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "support/answer.h"
#include "support/laid_out.h"
#include "support/needs_answer.h"
#include "support/trip.h"

namespace drystage {
namespace {

using report::day_facts;
using report::DayFacts;
using support::PlanText;

TEST(DayFacts, AreThoseOfTheRun) {
  for (const plan::Plan& plan : support::all_scenarios()) {
    const report::RunAnswer run = support::answer(plan);
    const auto json = nlohmann::json::parse(report::run_json(run));
    for (std::size_t day = 0; day < json["days"].size(); ++day) {
      const DayFacts facts = day_facts(run.planned, day, units::System::metric);
      const auto& row = json["days"][day];
      EXPECT_EQ(facts.number, std::to_string(row["day"].get<int>()));
      EXPECT_EQ(facts.from, row["from"].get<std::string>());
      const double km = row["distance_km"];
      EXPECT_EQ(facts.to, km > 0 ? row["to"].get<std::string>() : "");
      EXPECT_EQ(facts.distance.empty(), km <= 0);
      if (km <= 0) continue;
      EXPECT_NEAR(std::stod(facts.distance), km, 0.5 + 1e-9);
      EXPECT_NEAR(std::stod(facts.hours), row["drive_h"].get<double>(), 0.05 + 1e-9);
    }
  }
}

TEST(DayFacts, AreInTheUnitsThatAreAskedFor) {
  const auto trip = support::travel(support::three_places());
  // 200 km are 124.27 miles (NIST SP 811).
  EXPECT_EQ(day_facts(trip, 0, units::System::us).distance, "124 mi");
}

/// A trip of a few days at one latitude.
support::Trip stay_at(const std::string& start, const std::string& latitude,
                      const std::string& time_zone = "+00:00") {
  PlanText plan;
  plan.start = start;
  plan.time_zone = time_zone;
  plan.places = {"Base: {at: {latitude: " + latitude +
                 ", longitude: 0°, elevation: 0 m}, climate: air, supplies: {}}"};
  return support::travel(plan);
}

TEST(DayFacts, TellSunriseAndSunsetByTheClock) {
  // At the equinox the sun is up for 12 h and the 7 minutes of its disc and of refraction (Meeus,
  // Astronomical Algorithms, chapter 15), about a noon that is 7.5 minutes late.
  const DayFacts facts = day_facts(stay_at("2027-03-20", "0°"), 0, units::System::metric);
  EXPECT_EQ(facts.sun, "06:04\u201318:11");
  EXPECT_EQ(facts.date, "Sat 20 Mar");
}

TEST(DayFacts, KeepTheClockWithinTheDay) {
  // Half a world away the sun of the same place rises in the evening.
  const DayFacts facts = day_facts(stay_at("2027-03-20", "0°", "+12:00"), 1, units::System::metric);
  EXPECT_EQ(facts.sun, "18:04\u201306:11");
}

TEST(DayFacts, SayThatTheSunDoesNotSetOrRise) {
  EXPECT_EQ(day_facts(stay_at("2027-06-21", "80°"), 0, units::System::metric).sun, "sun all day");
  EXPECT_EQ(day_facts(stay_at("2027-12-21", "80°"), 0, units::System::metric).sun, "no sun");
}

TEST(DayFacts, HaveNoWayWhereNothingIsDriven) {
  const DayFacts facts = day_facts(support::travel(PlanText{}), 0, units::System::metric);
  EXPECT_EQ(facts.from, "Base");
  EXPECT_EQ(facts.to, "");
  EXPECT_EQ(facts.distance, "");
  EXPECT_EQ(facts.hours, "");
}

TEST(DayFacts, TellTheSunsetOfWhereTheDayEnds) {
  // Half an hour of the sun is 7.5 degrees of longitude.
  PlanText plan;
  plan.start = "2027-03-20";
  plan.time_zone = "+00:00";
  const auto place = [](const std::string& name, const std::string& longitude) {
    return name + ": {at: {latitude: 0°, longitude: " + longitude +
           ", elevation: 0 m}, climate: air, supplies: {}}";
  };
  plan.places = {place("Base", "0°"), place("West", "-7.5°")};
  plan.itinerary = {"{at: Base}",
                    "drive: {to: West, distance: 440 km, surfaces: sealed, speed: 110 km/h}",
                    "stay: {nights: 1}"};
  EXPECT_EQ(day_facts(support::travel(plan), 0, units::System::metric).sun, "06:04\u201318:41");
}

TEST(DayFacts, NameTheTurningPointOfADriveThatEndsWhereItBegan) {
  PlanText plan = support::three_places();
  plan.itinerary = {"{at: Base}", "drive: {to: Red Tables, distance: 100 km, surfaces: gravel}",
                    "drive: {to: Base, distance: 100 km, surfaces: gravel}", "stay: {nights: 1}"};
  const DayFacts facts = day_facts(support::travel(plan), 0, units::System::metric);
  EXPECT_EQ(facts.from, "Base");
  EXPECT_EQ(facts.by, "Red Tables");
  EXPECT_EQ(facts.to, "Base");
  EXPECT_EQ(day_facts(support::travel(support::three_places()), 0, units::System::metric).by, "");
}

TEST(DayFacts, TellTheHottestRoundedUpAndTheColdestWhereItFreezes) {
  for (const plan::Plan& plan : support::all_scenarios()) {
    const auto trip = support::travel(plan);
    for (std::size_t day = 0; day < trip.record.days(); ++day) {
      const DayFacts facts = day_facts(trip, day, units::System::metric);
      const engine::DayConditions& weather = trip.course.timeline->conditions.days[day];
      EXPECT_GE(std::stod(facts.warmest), weather.max_c - 1e-5);
      EXPECT_LT(std::stod(facts.warmest), weather.max_c + 1);
      EXPECT_EQ(facts.coldest.empty(), weather.min_c >= 0);
      if (facts.coldest.empty()) continue;
      EXPECT_LE(std::stod(facts.coldest), weather.min_c + 1e-5);
      EXPECT_GT(std::stod(facts.coldest), weather.min_c - 1);
    }
  }
}

}  // namespace
}  // namespace drystage
