#include "plan/override.h"

#include <gtest/gtest.h>

#include "plan_text.h"

namespace drystage::plan {
namespace {

ReadPlan with(const std::vector<Override>& overrides) { return read_text(whole_plan(), overrides); }

TEST(Override, ChangesAnItemOfAListByItsPlaceOrItsName) {
  const ReadPlan reading = with({{"people[0].mass", "70 kg"},
                                 {"water.containers.can 1.filled", "12 L"},
                                 {"food.fish.meals", "9"},
                                 {"vehicles.\"trailer rig\".tanks[0].filled", "7 L"}});
  ASSERT_TRUE(reading.plan.has_value()) << all_of(reading);
  EXPECT_DOUBLE_EQ(reading.plan->people[0].mass_kg, 70);
  EXPECT_DOUBLE_EQ(reading.plan->water.containers[1].filled_l, 12);
  EXPECT_DOUBLE_EQ(reading.plan->food[1].meals, 9);
  EXPECT_DOUBLE_EQ(reading.plan->vehicles[1].tanks[0].filled_l, 7);
  EXPECT_EQ(reading.plan->people[0].mark.line, read_text(whole_plan()).plan->people[0].mark.line);
}

TEST(Override, AddsAKeyThatIsAbsent) {
  const ReadPlan reading = with({{"vehicles.trailer rig.idle", "0.8 L/h"},
                                 {"people.Ines.observed.drinking", "4 L/day"},
                                 {"activities.dig", "{high: 4 h}"},
                                 {"margins.cold:chest", "4 °C"}});
  ASSERT_TRUE(reading.plan.has_value()) << all_of(reading);
  EXPECT_DOUBLE_EQ(reading.plan->vehicles[1].idle_l_h, 0.8);
  EXPECT_DOUBLE_EQ(reading.plan->people[0].drinking_l_day.value(), 4);
  EXPECT_EQ(reading.plan->activities.size(), 4U);
  EXPECT_DOUBLE_EQ(reading.plan->margins.at("cold:chest").value, 4);
}

TEST(Override, TakesAListOrAMap) {
  const ReadPlan reading = with({{"people[0].observed", "{drinking: 6 L/day}"},
                                 {"places.Kemet Wells.supplies.diesel.open", "[mon]"}});
  ASSERT_TRUE(reading.plan.has_value()) << all_of(reading);
  EXPECT_DOUBLE_EQ(reading.plan->people[0].drinking_l_day.value(), 6);
  EXPECT_EQ(reading.plan->places[2].supplies[3].open_weekdays.count(), 1U);
}

TEST(Override, LaterOnesWin) {
  const ReadPlan reading = with({{"people[0].mass", "70 kg"}, {"people[0].mass", "71 kg"}});
  ASSERT_TRUE(reading.plan.has_value());
  EXPECT_DOUBLE_EQ(reading.plan->people[0].mass_kg, 71);
}

// What is said about one override that is wrong.
Diagnostic wrong(const Override& set) {
  const ReadPlan reading = with({set});
  EXPECT_FALSE(reading.plan.has_value());
  EXPECT_EQ(reading.diagnostics.size(), 1U) << all_of(reading);
  return reading.diagnostics.empty() ? Diagnostic{} : reading.diagnostics[0];
}

TEST(Override, IsNamedInWhatIsWrongWithIt) {
  const Diagnostic found = wrong({"people[0].mass", "-3 kg"});
  EXPECT_EQ(found.where_text, "--set people[0].mass=-3 kg");
  EXPECT_EQ(found.mark.line, 0);
  EXPECT_EQ(found.what, "mass: -3 kg is negative");
  EXPECT_EQ(render(found, "plan.yaml", whole_plan(), false),
            "--set people[0].mass=-3 kg: error: mass: -3 kg is negative\n"
            "  expected: from 1 to 400 kg\n");
}

TEST(Override, ThatLeadsNowhereNamesTheNearest) {
  EXPECT_EQ(wrong({"people[2].mass", "3 kg"}).expected, "[0] to [1]");
  EXPECT_EQ(wrong({"people.Inez.mass", "60 kg"}).hint, "did you mean \"Ines\"?");
  EXPECT_EQ(wrong({"places.Orru.climate", "basin"}).hint, "did you mean \"Oru\"?");
  EXPECT_EQ(wrong({"vehicles.truck.idel", "1 L/h"}).hint, "did you mean \"idle\"?");
  EXPECT_EQ(wrong({"vehicels.truck.idle", "1 L/h"}).hint, "did you mean \"vehicles\"?");
  EXPECT_EQ(wrong({"people[0].mass.kg", "1"}).what,
            "there is nothing inside the plain value \"62 kg\"");
  EXPECT_EQ(wrong({"trip[0]", "1"}).what, "there is no list where [0] is asked for");
}

TEST(Override, ThatIsNoPathSaysSo) {
  for (const char* path : {"", ".", "people[", "people[x]", "people[]", "\"people", "people[0]mass",
                           "people..mass", "people[99999999999999999999]"}) {
    const Diagnostic found = wrong({path, "3 kg"});
    EXPECT_NE(found.what.find("is not a path"), std::string::npos) << path << ": " << found.what;
  }
}

TEST(Override, WithAValueThatIsNotYamlSaysSo) {
  const Diagnostic found = wrong({"people[0].mass", "\"3 kg"});
  EXPECT_NE(found.what.find("not well-formed YAML"), std::string::npos) << found.what;
  EXPECT_EQ(found.where_text, "--set people[0].mass=\"3 kg");
  EXPECT_NE(wrong({"people[0]", "{mass: 3"}).hint.find("not closed"), std::string::npos);
}

}  // namespace
}  // namespace drystage::plan
