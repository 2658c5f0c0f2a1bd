// What is refused under `size:`, and what is asked about.
#include <fmt/core.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <ostream>
#include <tuple>

#include "plan_text.h"

namespace drystage::plan::read_size_errors_test {
namespace {

using ::testing::HasSubstr;
using ::testing::SizeIs;

struct Slip {
  const char* section;
  const char* what;
  const char* more;  // a part of what was expected or of the hint
};

void PrintTo(const Slip& slip, std::ostream* out) { *out << slip.section; }

class SizeError : public testing::TestWithParam<Slip> {};

TEST_P(SizeError, IsTheOneErrorAndHasItsLine) {
  const Slip& slip = GetParam();
  const ReadPlan reading = with_size(std::string("size:\n  ") + slip.section + "\n");
  const Diagnostic error = only_error(reading);
  EXPECT_THAT(reading.diagnostics, SizeIs(1)) << all_of(reading);
  EXPECT_EQ(error.what, slip.what);
  EXPECT_THAT(error.expected + error.hint, HasSubstr(slip.more));
  const std::string source = reading.source;
  const auto from = source.begin() + static_cast<std::ptrdiff_t>(source.find("\nsize:"));
  EXPECT_EQ(error.mark.line, std::count(source.begin(), from, '\n') + 3) << all_of(reading);
}

INSTANTIATE_TEST_SUITE_P(
    Offers, SizeError,
    testing::Values(
        Slip{"containers: {drinking: [20]}", "drinking: 20 has no unit", "write 20 L"},
        Slip{"containers: {drinking: [20 Ah]}", "drinking: 20 Ah is a charge", "20 L"},
        Slip{"containers: {drinking: [0 L]}", "drinking: 0 L is too low", "from 0.05"},
        Slip{"containers: {drinking: []}", "drinking: the list is empty", "20 L"},
        Slip{"containers: {drinking: 20 L}", "drinking: a plain value does not belong here",
             "a list of sizes"},
        Slip{"containers: {drinking: [20 L, 20 L]}", "drinking: 20 L is on offer twice", "once"},
        Slip{"containers: {drinking: [{holds: 20 L, in: truck}, 20 L]}",
             "drinking: 20 L is on offer twice", "the first one is on line"},
        Slip{"containers: {drinking: [{holds: 20 L, in: truk}]}", "there is no vehicle \"truk\"",
             "did you mean \"truck\"?"},
        Slip{"containers: {drinking: [{cost: 3}]}", "an offer under \"drinking\" lacks \"holds\"",
             "20 L"},
        Slip{"containers: {drinking: [{holds: 20 L, most: 0}]}", "most: 0 is too low",
             "from 1 to 1000"},
        Slip{"containers: {utility: [{holds: 20 L, most: 1.5}]}", "most: 1.5 is not a whole number",
             "from 1 to 1000"},
        Slip{"containers: {drinking: [{holds: 20 L, cost: -1}]}", "cost: -1 is negative", "from 0"},
        Slip{"containers: {drinking: [{holds: 20 L, cost: 5 L}]}",
             "cost: \"5 L\" is more than a number", "take away \"L\""},
        Slip{"containers: {drinking: [{holds: 20 L, space: 19 L}]}",
             "an offer under \"drinking\" takes up 19 L, less than it holds", "outside"},
        Slip{"containers: {drinking: [{holds: 20 L, empty_mass: -1 kg}]}",
             "empty_mass: -1 kg is negative", "from 0"},
        Slip{"containers: {drnking: [20 L]}", "containers has no key \"drnking\"",
             "did you mean \"drinking\"?"},
        Slip{"containers: {}", "containers: nothing is listed", "leave the key out"},
        Slip{"tanks:", "tanks: nothing is listed", "leave the key out"},
        Slip{"panels: [0 W]", "panels: a list does not belong here", "{NAME: [0 W, 100 W]}"},
        Slip{"fuel_cans: {truk: [20 L]}", "there is no vehicle \"truk\"", "did you mean"},
        Slip{"fuel_cans: {truck: [{holds: 20 L, in: truck}]}",
             "an offer under \"truck\" has no key \"in\"", "most"},
        Slip{"fuel_cans: {trailer rig: [20 L], trailer  rig: [10 L]}",
             "fuel_cans: \"trailer  rig\" is named twice", "once"},
        Slip{"tanks: {body tnk: [60 L]}",
             "tanks: there is no water container or fuel tank \"body tnk\"",
             "did you mean \"body tank\"?"},
        Slip{"tanks: {camp battery: [60 L]}",
             "tanks: there is no water container or fuel tank \"camp battery\"", "jerry 1"},
        Slip{"tanks: {body tank: [60 L], water/body tank: [80 L]}",
             "tanks: \"water/body tank\" is named twice", "once"},
        Slip{"tanks: {main tank: [4 L]}", "main tank: 4 L is too little",
             "more than the 4 L of it that cannot be used"},
        Slip{"tanks: {main tank: [{holds: 90 L, most: 2}]}",
             "an offer under \"main tank\" has no key \"most\"", "holds, empty_mass"}));

INSTANTIATE_TEST_SUITE_P(
    Equipment, SizeError,
    testing::Values(
        Slip{"batteries: {cmp battery: [75 Ah]}", "there is no battery \"cmp battery\"",
             "did you mean \"camp battery\"?"},
        Slip{"batteries: {camp battery: [75 A]}", "camp battery: 75 A is a current", "100 Ah"},
        Slip{"batteries: {camp battery: [75 Ah, {capacity: 75 Ah, kind: agm}]}",
             "camp battery: 75 Ah is on offer twice", "each size of a kind once"},
        Slip{"batteries: {camp battery: [{capacity: 75 Ah, kind: gel}]}",
             "kind: unknown word \"gel\"", "flooded, agm or lfp"},
        Slip{"batteries: {camp battery: [{capacity: 75 Ah, most: 2}]}",
             "an offer under \"camp battery\" has no key \"most\"", "capacity"},
        Slip{"panels: {shore lead: [100 W]}", "panels: charger \"shore lead\" is no solar panel",
             "roof panel"},
        Slip{"panels: {rof panel: [100 W]}", "there is no solar panel \"rof panel\"",
             "did you mean \"roof panel\"?"},
        Slip{"panels: {roof panel: [-1 W]}", "roof panel: -1 W is negative", "from 0"},
        Slip{"panels: {roof panel: [0 W, {solar: 0 W, cost: 0}]}",
             "roof panel: 0 W is on offer twice", "once"},
        Slip{"panels: {roof panel: [{solar: 90 W, space: 3 L}]}",
             "an offer under \"roof panel\" has no key \"space\"", "solar, mass or cost"},
        Slip{"cabinets: {chst: [40 L]}", "there is no cabinet \"chst\"", "did you mean \"chest\"?"},
        Slip{"cabinets: {chest: [40 L, 40 L]}", "chest: 40 L is on offer twice", "once"},
        Slip{"cabinets: {chest: [{volume: 40 L, rated: 0 W}]}", "rated: 0 W is too low",
             "from 0.1"},
        Slip{"cabinets: {chest: [{volume: 40 L, rated: 9 Ah}]}", "rated: 9 Ah is a charge", "W"},
        Slip{"cabinets: {chest: [{volume: 40 L, space: 30 L}]}",
             "an offer under \"chest\" takes up 30 L, less than it holds", "outside"},
        Slip{"cabinets: {ice box: [{volume: 40 L, rated: 9 W}]}",
             "an offer under \"ice box\": \"rated\" does not belong here", "draws nothing"}));

INSTANTIATE_TEST_SUITE_P(
    FoodLimitsKeep, SizeError,
    testing::Values(
        Slip{"food: {lamb: {per_day: 3 meals}}", "food: \"lamb\" is kept frozen",
             "a dry item given in meals (dry stores)"},
        Slip{"food: {vegetables: 3 meals}", "food: \"vegetables\" is kept chilled", "a new one"},
        Slip{"food: {biscuits: {mass: 1 kg}}", "food \"biscuits\" lacks \"per_day\"", "6 meals"},
        Slip{"food: {dry stores: {most: 3 days}}", "food \"dry stores\" lacks \"per_day\"",
             "6 meals"},
        Slip{"food: {biscuits: 0 meals}", "biscuits: 0 meals is too low", "from 0.001"},
        Slip{"food: {biscuits: {per_day: 3, most: 12 h}}",
             "most: 12 h is 0.5 days, which is too low", "from 1 to 3660 days"},
        Slip{"food: {biscuits: {per_day: 3, most: 36 h}}",
             "most: 36 h is not a whole number of days", "whole days"},
        Slip{"food: {biscuits: {per_day: 3, kept: dry}}", "food \"biscuits\" has no key \"kept\"",
             "per_day"},
        Slip{"food: {biscuits: [3 meals]}", "biscuits: a list does not belong here", "per_day"},
        Slip{"limits: {mass: 3400 kg}", "mass: 3400 kg for 2 vehicles: of which?",
             "name the vehicles"},
        Slip{"limits: {mass: {truk: 3400 kg}}", "there is no vehicle \"truk\"", "did you mean"},
        Slip{"limits: {mass: {truck: 3400 L}}", "truck: 3400 L is a volume", "kg"},
        Slip{"limits: {mass: {truck: 2400 kg}}", "the limit of 2400 kg is less than the empty mass",
             "with everything loaded"},
        Slip{"limits: {mass: [3400 kg]}", "mass: a list does not belong here", "a map"},
        Slip{"limits: {space: 300}", "space: 300 has no unit", "write 300 L"},
        Slip{"limits: {budget: -3}", "budget: -3 is negative", "from 0"},
        Slip{"limits: {budgt: 3}", "limits has no key \"budgt\"", "did you mean \"budget\"?"},
        Slip{"keep: [cn 1]",
             "keep: there is no container, tank, battery, solar panel, cabinet, food or store \"cn "
             "1\"",
             "did you mean \"can 1\"?"},
        Slip{"keep: [shore lead]",
             "keep: there is no container, tank, battery, solar panel, cabinet, food or store "
             "\"shore "
             "lead\"",
             "body tank"},
        Slip{"keep: [can 1, water/can 1]", "keep: \"water/can 1\" is named twice", "once"},
        Slip{"keep: {can 1: yes}", "keep: a map of keys does not belong here", "[NAME, NAME]"},
        Slip{"kep: [can 1]", "size has no key \"kep\"", "did you mean \"keep\"?"}));

TEST(SizeErrors, AskWhichOfTwoThingsOfOneNameIsMeant) {
  std::string text = whole_plan_with("name: jerry 1", "name: can 1");
  text.erase(text.find("\nsize:") + 1);
  text += "size: {tanks: {can 1: [10 L]}, keep: can 1}\n";
  const ReadPlan reading = read_text(text);
  ASSERT_THAT(reading.diagnostics, SizeIs(2)) << all_of(reading);
  EXPECT_EQ(reading.diagnostics[0].what, "tanks: \"can 1\" may be 2 things");
  EXPECT_EQ(reading.diagnostics[1].what, "keep: \"can 1\" may be 2 things");
  for (const Diagnostic& d : reading.diagnostics) {
    EXPECT_EQ(d.expected, "water/can 1 or truck/can 1");
    EXPECT_EQ(d.hint, "write which of them is meant");
  }
}

TEST(SizeErrors, AreWhatIsKeptAndOnOfferAtOnce) {
  for (const auto& [name, under, offers] : {std::tuple{"body tank", "tanks", "[60 L]"},
                                            {"truck/jerry 1", "tanks", "[10 L]"},
                                            {"camp battery", "batteries", "[75 Ah]"},
                                            {"roof panel", "panels", "[0 W]"},
                                            {"chest", "cabinets", "[35 L]"},
                                            {"dry stores", "food", "6 meals"}}) {
    const ReadPlan reading =
        with_size(fmt::format("size: {{{}: {{{}: {}}}, keep: [{}]}}\n", under, name, offers, name));
    ASSERT_THAT(reading.diagnostics, SizeIs(1)) << name << all_of(reading);
    EXPECT_EQ(reading.diagnostics[0].what,
              fmt::format("\"{}\" is to be kept, but other sizes of it are on offer under \"{}\"",
                          name, under));
    EXPECT_EQ(reading.diagnostics[0].hint, "which is it?");
  }
}

TEST(SizeErrors, AreAllToldAtOnce) {
  const ReadPlan reading = with_size(
      "size: {containers: {drinking: [20, {holds: 20 L, most: 0}]}, panels: {shore lead: [1 W]}, "
      "limits: {budget: -1}, keep: nothing}\n");
  EXPECT_THAT(of_severity(reading, Severity::error), SizeIs(5)) << all_of(reading);
}

TEST(SizeWarning, AsksWhetherAFoodThatIsNearlyOfThePlanIsMeant) {
  const ReadPlan reading = with_size("size: {food: {dry store: {per_day: 6 meals}}}\n");
  ASSERT_TRUE(reading.plan.has_value()) << all_of(reading);
  ASSERT_THAT(reading.diagnostics, SizeIs(1)) << all_of(reading);
  EXPECT_EQ(reading.diagnostics[0].severity, Severity::warning);
  EXPECT_EQ(reading.diagnostics[0].what,
            "the plan has no food \"dry store\": it is on offer as a new one");
  EXPECT_EQ(reading.diagnostics[0].hint, "did you mean \"dry stores\"?");
  EXPECT_EQ(reading.plan->size.food.at(0).item, "dry store");
}

TEST(SizeError, OfFoodGivenByItsEnergyAsksForMeals) {
  const ReadPlan reading = read_text(whole_plan_with("kept: dry, meals: 60, mass: 14 kg",
                                                     "kept: dry, energy: 15 MJ/kg, mass: 14 kg"));
  ASSERT_THAT(reading.diagnostics, SizeIs(1)) << all_of(reading);
  EXPECT_EQ(reading.diagnostics[0].what,
            "food: \"dry stores\" is given by its energy, not in meals");
}

}  // namespace
}  // namespace drystage::plan::read_size_errors_test
