// The table of mornings: nothing looks better than it is, and nothing is left out.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <limits>

#include "cli/workspace.h"
#include "report/needs/words.h"
#include "support/answer.h"
#include "support/needs_answer.h"

namespace drystage {
namespace {

using report::needs_table;
using report::NeedsAnswer;
using support::need_of;
using support::plain_needs;
using support::PlanText;
using support::three_places;
using support::times;
using support::unwrapped;
using ::testing::HasSubstr;
using ::testing::Not;

/// "must has spare" of so much that must be on board and so much that is.
std::string figures(double must_have, double has, units::System system = units::System::metric) {
  engine::ReserveInfo water;
  water.kind = units::Kind::volume;
  water.unit = "L";
  water.capacity = 200;
  const report::NeedFigures out = report::need_figures(
      water, {.must_have = must_have, .has = has, .fits = must_have <= 200}, system);
  return out.must + " " + out.has + " " + out.spare;
}

TEST(NeedFigures, RoundWhatMustBeUpAndTheRestDown) {
  EXPECT_EQ(figures(50.2, 80.9), "51 80 30");
  EXPECT_EQ(figures(80.2, 50.9), "81 50 !-30");
  EXPECT_EQ(figures(80.1, 50.0), "81 50 !-31");
}

TEST(NeedFigures, AreExactWhereNothingIsToBeRounded) {
  EXPECT_EQ(figures(50, 80), "50 80 30");
  EXPECT_EQ(figures(50.0000001, 79.9999999), "50 80 30");
  EXPECT_EQ(figures(0, 80), "0 80 80");
}

TEST(NeedFigures, AreGivenToATenthWhereOneOfThemIsSmall) {
  EXPECT_EQ(figures(50.24, 47.97), "50.3 47.9 !-2.3");
  EXPECT_EQ(figures(50.24, 53.19), "50.3 53.1 2.9");
  EXPECT_EQ(figures(4.01, 60.5), "4.1 60.5 56.4");
}

TEST(NeedFigures, NeverShowTooLittleWhereItIsEnough) {
  EXPECT_EQ(figures(50.2, 50.7), "50.2 50.7 0.5");
  EXPECT_EQ(figures(50.5, 50.5), "50.5 50.5 0");
}

TEST(NeedFigures, OfWhatDiffersByLessThanATenthNeverShowMoreThanThereIs) {
  // To a tenth and no further. What there is stays rounded down, so that nobody counts on water
  // that is not there; nothing to spare and no "!" say that it is enough.
  EXPECT_EQ(figures(50.02, 50.07), "50.1 50.0 0");
  EXPECT_EQ(figures(50.123, 50.123), "50.2 50.1 0");
}

TEST(NeedFigures, NeverShowEnoughWhereItIsTooLittle) {
  EXPECT_EQ(figures(50.04, 50.0), "50.1 50.0 !-0.1");
  EXPECT_EQ(figures(50.0001, 50.0), "50.1 50.0 !-0.1");
}

TEST(NeedFigures, TakeTheRoundingOfADoubleForNothing) {
  EXPECT_EQ(figures(50.0000001, 50.0), "50 50 0");
  EXPECT_EQ(figures(0.0000001, 0.0), "0 0 0");
}

TEST(NeedFigures, ShowThatNoAmountIsEnough) {
  EXPECT_EQ(figures(std::numeric_limits<double>::infinity(), 47.9), "- 47 !");
}

TEST(NeedFigures, ShowThatItCannotBeHeld) { EXPECT_EQ(figures(250, 200), "+250 200 !-50"); }

TEST(NeedFigures, AreRoundedInTheUnitsThatAreShown) {
  // 100 L are 26.4172 US gallons, 150 L are 39.6258 (NIST SP 811).
  EXPECT_EQ(figures(100, 150, units::System::us), "27 39 13");
}

TEST(NeedsTable, HasARowForEachMorningWithItsPlace) {
  const NeedsAnswer answer = plain_needs(three_places());
  const std::vector<std::string> lines =
      drystage::testing::lines(needs_table(answer, {.all = true}));
  ASSERT_GE(lines.size(), 8U);
  EXPECT_EQ(unwrapped(lines[0]), "Drinking, L Fuel, L Food, meals");
  EXPECT_EQ(unwrapped(lines[1]), "d date at must has spare must has spare must has spare");
  EXPECT_EQ(unwrapped(lines[2]), "1 Mon 01 Mar Base 10 20 10 10 20 10 10 20 10");
  EXPECT_EQ(unwrapped(lines[3]), "2 Tue 02 Mar Red Tables 10 20 10 10 20 10 10 20 10");
  EXPECT_EQ(unwrapped(lines[7]), "6 Sat 06 Mar Far Well 10 20 10 10 20 10 10 20 10");
}

TEST(NeedsTable, SetsTheSignBesideWhatIsTooLittle) {
  NeedsAnswer answer = plain_needs(three_places());
  need_of(answer, 1, "fuel:truck").must_have = 70.5;
  const std::string text = needs_table(answer, {.all = true});
  EXPECT_THAT(unwrapped(text), HasSubstr("Red Tables 10 20 10 71 20 !-51 10 20 10 3 Wed"));
  EXPECT_EQ(times(text, "!"), 2) << "one in the table and one in the legend\n" << text;
  const std::string painted = needs_table(answer, {.color = true});
  EXPECT_EQ(times(painted, "\x1b[1;31m"), 1);
  EXPECT_THAT(painted, HasSubstr("!-51\x1b[0m"));
}

/// Eight vehicles, and no margin.
PlanText convoy() {
  PlanText plan = three_places();
  plan.people.clear();
  plan.vehicles.clear();
  for (int v = 1; v <= 8; ++v) {
    const std::string n = std::to_string(v);
    plan.people.push_back(PlanText::person("Driver " + n, "4 L/day"));
    plan.vehicles.push_back("{name: long lorry " + n +
                            ", fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: "
                            "80 L, filled: 80 L}]}");
  }
  return plan;
}

TEST(NeedsTable, ShowsEveryReserveInFurtherTablesWithinEightyColumns) {
  const NeedsAnswer answer = plain_needs(convoy());
  for (const units::System system : {units::System::metric, units::System::us}) {
    const std::string text = needs_table(answer, {.all = true, .system = system});
    for (const std::string& line : drystage::testing::lines(text)) {
      EXPECT_LE(drystage::testing::terminal_columns(line), 80) << line;
    }
    EXPECT_EQ(times(text, "Drinking, "), 1);
    EXPECT_EQ(times(text, "Food, meals"), 1);
    for (int v = 1; v <= 8; ++v) {
      EXPECT_EQ(times(text, "Fuel long lorry " + std::to_string(v) + ","), 1) << text;
    }
    EXPECT_GE(times(text, "Mon 01 Mar"), 3);
    EXPECT_EQ(times(text, "Must: the least each morning"), 1);
  }
}

TEST(NeedsTable, ShowsWhatLifeDependsOnFirst) {
  const std::string text = needs_table(plain_needs(convoy()), {.all = true});
  EXPECT_LT(text.find("Drinking"), text.find("lorry 1"));
  EXPECT_LT(text.find("lorry 8"), text.find("Food"));
}

TEST(NeedsTable, IsOneTableWhenWide) {
  const std::string text = needs_table(plain_needs(convoy()), {.all = true, .wide = true});
  EXPECT_EQ(times(text, "Mon 01 Mar"), 1);
  EXPECT_EQ(times(text, "Fuel long lorry "), 8);
}

TEST(NeedsTable, CutsANameThatIsLongerThanThePage) {
  PlanText plan = three_places();
  plan.batteries = {"{name: " + std::string(100, 'b') + ", kind: agm, capacity: 100 Ah}",
                    "{name: spare, kind: agm, capacity: 100 Ah}"};
  const std::string text = needs_table(plain_needs(plan), {.all = true});
  for (const std::string& line : drystage::testing::lines(text)) {
    EXPECT_LE(drystage::testing::terminal_columns(line), 80) << line;
  }
  EXPECT_THAT(text, HasSubstr("bbb"));
  EXPECT_THAT(text, HasSubstr("spare, Ah"));
}

TEST(NeedsTable, CutsNoPlaceForWhichThereIsRoom) {
  PlanText plan = three_places();
  plan.places[1] = PlanText::place("Red Tables by the long road", "air");
  plan.itinerary[1] =
      "drive: {to: Red Tables by the long road, distance: 200 km, surfaces: gravel}";
  EXPECT_THAT(needs_table(plain_needs(plan), {.wide = true}),
              HasSubstr("Red Tables by the long road"));
  EXPECT_THAT(needs_table(plain_needs(plan), {}), HasSubstr("Red Tables by the long road"));
  const std::string all = needs_table(plain_needs(plan), {.all = true});
  EXPECT_THAT(all, Not(HasSubstr("Red Tables by the long road")));
  EXPECT_THAT(all, HasSubstr("Red Tables by the ~"));
}

TEST(NeedsTable, OfOneScreenShowsWhatLifeDependsOnAndWhatIsTooLittle) {
  NeedsAnswer answer = plain_needs(three_places());
  std::string text = needs_table(answer, {});
  EXPECT_THAT(text, Not(HasSubstr("Food, meals")));
  EXPECT_THAT(text, HasSubstr("\nNot shown, enough: food. --all shows them.\n"));
  need_of(answer, 2, "food").has = 1;
  text = needs_table(answer, {});
  EXPECT_THAT(text, HasSubstr("Food, meals"));
  EXPECT_THAT(text, Not(HasSubstr("Not shown")));
}

TEST(NeedsTable, OfOneScreenNamesWhatIsTooLittleAndHasNoRoom) {
  NeedsAnswer answer = plain_needs(convoy());
  need_of(answer, 3, "fuel:long lorry 8").has = 1;
  const std::string text = needs_table(answer, {});
  EXPECT_EQ(times(text, "Mon 01 Mar"), 1);
  EXPECT_THAT(text, HasSubstr("\nNot shown, too little: fuel of long lorry 8 (day 4). --all shows "
                              "them.\n"));
  EXPECT_THAT(unwrapped(text), HasSubstr("Not shown, enough: fuel of long lorry 2,"));
}

}  // namespace
}  // namespace drystage
