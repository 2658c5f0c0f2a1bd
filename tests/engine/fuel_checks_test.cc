#include "engine/fuel_checks.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "engine/timeline.h"
#include "support/plan_text.h"

namespace drystage::engine {
namespace {

using support::PlanText;
using ::testing::AllOf;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

plan::Plan truck(const std::string& observed, const std::string& more = "") {
  PlanText text;
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2700 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 80 L}]" +
      more + ", observed: [" + observed + "]}"};
  return text.plan();
}

std::vector<std::string> remarks(const plan::Plan& plan) {
  std::vector<std::string> out;
  for (const plan::Diagnostic& found : fuel_remarks(plan)) {
    EXPECT_EQ(found.severity, plan::Severity::warning);
    EXPECT_GT(found.mark.line, 0);
    EXPECT_FALSE(found.expected.empty());
    EXPECT_FALSE(found.hint.empty());
    out.push_back(found.what);
  }
  EXPECT_THAT(fuel_problems(plan), IsEmpty());
  return out;
}

TEST(FuelChecks, SayNothingOfFiguresThatGoTogether) {
  EXPECT_THAT(remarks(truck("")), IsEmpty());
  EXPECT_THAT(
      remarks(truck("{surface: sealed, speed: 90 km/h, mass: 3000 kg, uses: 12 L/100km}, "
                    "{surface: track, uses: 17 L/100km}, "
                    "{surface: soft sand, speed: 20 km/h, mass: 3000 kg, uses: 22 L/100km}")),
      IsEmpty());
}

TEST(FuelChecks, NameAnEfficiencyThatIsTooHighOrTooLow) {
  // 441 + 567 N over 100 km are 100.8 MJ; of the heat of 8 L, 286 MJ, that is 35 %; of 20 L, 14 %.
  EXPECT_THAT(
      remarks(truck("{surface: sealed, speed: 90 km/h, mass: 3000 kg, uses: 8 L/100km}")),
      ElementsAre(AllOf(HasSubstr("\"truck\""), HasSubstr("8 L/100km on sealed"),
                        HasSubstr("90 km/h and 3000 kg"), HasSubstr("35 % of the fuel's heat"))));
  EXPECT_THAT(remarks(truck("{surface: sealed, speed: 90 km/h, mass: 3000 kg, uses: 20 L/100km}")),
              ElementsAre(HasSubstr("14 % of the fuel's heat")));
  // Of 8.3 L it is 34 %; of 8.7 L 32 %, which a good engine does.
  EXPECT_THAT(remarks(truck("{surface: sealed, speed: 90 km/h, mass: 3000 kg, uses: 8.3 L/100km}")),
              ElementsAre(HasSubstr("34 % of the fuel's heat")));
  EXPECT_THAT(remarks(truck("{surface: sealed, speed: 90 km/h, mass: 3000 kg, uses: 8.7 L/100km}")),
              IsEmpty());
  const auto high =
      fuel_remarks(truck("{surface: sealed, speed: 90 km/h, mass: 3000 kg, uses: 8 L/100km}"));
  for (const char* cause : {"unit", "speed", "mass", "wind", "drag_area"}) {
    EXPECT_THAT(high.front().hint, HasSubstr(cause));
  }
  // Idling is in it, however much it is.
  EXPECT_THAT(remarks(truck("{surface: sealed, speed: 90 km/h, mass: 3000 kg, uses: 11 L/100km}",
                            ", idle: 3 L/h")),
              IsEmpty());
}

TEST(FuelChecks, RefuseWhatNoEngineDoes) {
  // 6 L hold 214.8 MJ: 47 %.
  const plan::Plan plan =
      truck("{surface: sealed, speed: 90 km/h, mass: 3000 kg, uses: 6 L/100km}");
  const auto problems = fuel_problems(plan);
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_EQ(problems.front().severity, plan::Severity::error);
  EXPECT_THAT(problems.front().what, HasSubstr("47 % of the fuel's heat"));
  EXPECT_EQ(lay_timeline(plan).problems.size(), 1U);
}

TEST(FuelChecks, JudgeByTheLeastMassAndTheUsualSpeedWhereTheyAreNotSaid) {
  // At 2700 kg and 90 km/h 397 + 567 N, 96.4 MJ over 100 km: 45 % of the 214.8 MJ of 6 L, 47 % of
  // the 204.1 MJ of 5.7 L. More mass would need more.
  EXPECT_THAT(remarks(truck("{surface: sealed, speed: 90 km/h, uses: 6 L/100km}")),
              ElementsAre(AllOf(HasSubstr("45 % of the fuel's heat"),
                                HasSubstr("90 km/h and 2700 kg (without people and what they"))));
  const auto problems =
      fuel_problems(truck("{surface: sealed, speed: 90 km/h, uses: 5.7 L/100km}"));
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_THAT(problems.front().what, HasSubstr("47 % of the fuel's heat"));
  // Driven slowly it might be true.
  EXPECT_THAT(remarks(truck("{surface: sealed, uses: 4 L/100km}")),
              ElementsAre(HasSubstr("(usual there)")));
  // What takes more may have been loaded.
  EXPECT_THAT(remarks(truck("{surface: sealed, speed: 90 km/h, uses: 20 L/100km}")), IsEmpty());
}

TEST(FuelChecks, NameBothFiguresWhereSofterGroundTakesLess) {
  EXPECT_THAT(
      remarks(truck("{surface: sand, uses: 17 L/100km}, {surface: track, uses: 18 L/100km},"
                    "{surface: sealed, speed: 90 km/h, mass: 3000 kg, uses: 12 L/100km}")),
      ElementsAre(AllOf(HasSubstr("17 L/100km on sand"), HasSubstr("18 L/100km on track"))));
  // On hard ground it may be true where it was driven more slowly.
  EXPECT_THAT(remarks(truck("{surface: sealed, speed: 110 km/h, mass: 3000 kg, uses: 15 L/100km}, "
                            "{surface: gravel, speed: 60 km/h, mass: 3000 kg, uses: 14 L/100km}")),
              IsEmpty());
  EXPECT_THAT(remarks(truck("{surface: sealed, speed: 90 km/h, mass: 3000 kg, uses: 13 L/100km}, "
                            "{surface: gravel, speed: 80 km/h, mass: 3000 kg, uses: 11 L/100km}")),
              ElementsAre(HasSubstr("11 L/100km on gravel is less than 13 L/100km on sealed")));
}

TEST(FuelChecks, NameSoftGroundThatTakesLessThanSealedRoad) {
  // 441 + 28 N on sealed road at 20 km/h: 5.5 L, and 4 L to idle.
  EXPECT_THAT(remarks(truck("{surface: track, speed: 20 km/h, mass: 3000 kg, uses: 9 L/100km}")),
              ElementsAre(HasSubstr("less than it would use on sealed road as slowly")));
}

}  // namespace
}  // namespace drystage::engine
