// What a hot and a dull week do, in words.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "report/run/report.h"
#include "report/run/words.h"
#include "report/text/breach_words.h"
#include "support/answer.h"

namespace drystage {
namespace {

using answers::Outcome;
using answers::SpellFinding;
using plan::Spell;
using support::PlanText;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

constexpr units::System metric = units::System::metric;

/// A plan that holds, with the findings that a test sets.
report::RunAnswer calm() {
  PlanText text;
  text.containers = {"{name: can, holds: 60 L, filled: 60 L, for: drinking}"};
  report::RunAnswer out = support::answer(text);
  out.spells.emplace();
  out.spells->found = {{.spell = Spell::hot,
                        .first_day = 1,
                        .last_day = 4,
                        .least_hotter_k = 4.5,
                        .most_hotter_k = 4.5,
                        .reserve = 0,
                        .day = 3,
                        .lowest = 12.04,
                        .lowers = true},
                       {.spell = Spell::dull, .least_sun = 0.65, .most_sun = 0.7}};
  return out;
}

std::string words(const report::RunAnswer& answer, std::size_t spell) {
  return report::spell_words(answer.planned, answer.spells->found[spell], metric);
}

TEST(SpellWords, SayHowFarAWeekLowersWhatLasts) {
  report::RunAnswer answer = calm();
  EXPECT_EQ(words(answer, 0), "A hot week (+4.5 °C): drinking water lasts, down to 12 L on day 4.");
  answer.spells->found[0].most_hotter_k = 6;
  answer.spells->found[0].usual_spread = true;
  EXPECT_EQ(
      words(answer, 0),
      "A hot week (+4.5 to 6 °C, usual spread): drinking water lasts, down to 12 L on day 4.");
  // What changes nothing, or is about nothing, is not told.
  answer.spells->found[0].lowers = false;
  EXPECT_EQ(words(answer, 0), "");
  EXPECT_EQ(words(answer, 1), "");
}

TEST(SpellWords, SayWhatAWeekBreaks) {
  report::RunAnswer answer = calm();
  SpellFinding& hot = answer.spells->found[0];
  hot.outcome = Outcome::eats_margin;
  EXPECT_EQ(words(answer, 0),
            "A hot week (+4.5 °C): drinking water falls below its margin, to 12 L on day 4.");
  hot.outcome = Outcome::runs_out_vital;
  hot.short_of = 15;
  EXPECT_EQ(words(answer, 0),
            "A hot week (+4.5 °C): drinking water runs out on day 4, short by 15 L.");
  SpellFinding& dull = answer.spells->found[1];
  answer.planned.plan.power.loads.push_back({});
  answer.planned.plan.power.loads.back().name = "insulin box";
  dull.load = 0;
  dull.day = 2;
  EXPECT_EQ(words(answer, 1),
            "A dull week (65 % of the sun): no charge left for insulin box on day 3.");
  EXPECT_EQ(report::spell_breaks_words(answer.planned, *answer.spells),
            "a hot week breaks drinking water on day 4, a dull week breaks insulin box on day 3");
}

TEST(SpellWords, SayThatAWeekEmptiesTheDrinkingContainers) {
  report::RunAnswer answer = calm();
  SpellFinding& hot = answer.spells->found[0];
  hot.stood_in = 4.75;
  EXPECT_EQ(words(answer, 0),
            "A hot week (+4.5 °C): the drinking containers run empty on day 4. Then 4.8 L of "
            "utility water are drunk.");
  EXPECT_THAT(report::run_text(answer, {}),
              StartsWith("HOLDS IN USUAL WEATHER: a hot week empties the drinking containers on "
                         "day 4.\n"));
}

TEST(SpellWords, OfAPlanThatFailsAreTheVerdictOfARunInThatWeek) {
  PlanText text;
  text.people = {PlanText::person("Ada", "")};
  text.containers = {"{name: can, holds: 60 L, filled: 30 L, for: drinking}"};
  text.climate = {
      "air: {march: {max: 36 °C, min: 22 °C, humidity: 20 %, wind: 2 m/s, sun: 6 kWh/m2/day, "
      "spread: 3 °C}}"};
  text.itinerary = {"{at: Base}", "stay: {nights: 9}"};
  report::RunAnswer answer = support::answer(text);
  answer.spells = answers::try_spells(answer.planned);
  for (const std::size_t spell : {std::size_t{0}, std::size_t{1}}) {
    const answers::PlanRun there = answers::in_spell(answer.planned, answer.spells->found[spell]);
    const std::string told = words(answer, spell);
    const std::string same = report::breach_note(there, there.verdict.breaches.front(), metric);
    EXPECT_THAT(told, ::testing::AnyOf(HasSubstr(": " + same + "."), HasSubstr(": the same.")));
  }
  EXPECT_THAT(words(answer, 0), HasSubstr("drinking water runs out on day"));
  SpellFinding alike = answer.spells->found[1];
  alike.verdict = answer.planned.verdict;
  EXPECT_THAT(report::spell_words(answer.planned, alike, metric), HasSubstr(": the same."));
}

TEST(SpellWords, AreInTheVerdictWhereLifeDependsOnIt) {
  report::RunAnswer answer = calm();
  EXPECT_THAT(report::run_text(answer, {}), StartsWith("HOLDS: every reserve"));
  answer.spells->found[0].outcome = Outcome::runs_out;
  EXPECT_THAT(report::run_text(answer, {}), StartsWith("HOLDS: every reserve"));
  answer.spells->found[0].outcome = Outcome::runs_out_vital;
  answer.spells->found[0].short_of = 3;
  const std::string text = report::run_text(answer, {.color = true});
  EXPECT_THAT(text,
              HasSubstr("HOLDS IN USUAL WEATHER: a hot week breaks drinking water on day 4."));
  EXPECT_THAT(text, Not(HasSubstr("HOLDS:")));
  EXPECT_THAT(text, HasSubstr("runs out on day 4, short by 3.0 L.\n"));
  // In red, as what does not hold.
  EXPECT_THAT(text, StartsWith("\x1b[1;31m"));
}

TEST(SpellWords, ComeAfterWhatNobodyHasConfirmed) {
  report::RunAnswer answer = calm();
  answer.spells->found[0].outcome = Outcome::runs_out_vital;
  answers::Verdict without = answer.planned.verdict;
  without.holds = false;
  EXPECT_EQ(report::verdict_words(answer.planned, without, metric, answer.spells),
            "HOLDS IN USUAL WEATHER, AND ONLY IF what nobody has confirmed is there. A hot week "
            "breaks drinking water on day 4.");
}

TEST(SpellWords, AreNamedAsNotShownWhereThePlanFailsWithoutSuchAWeek) {
  report::RunAnswer answer = calm();
  EXPECT_THAT(report::run_text(answer, {}), HasSubstr("\nA hot week (+4.5 °C): drinking"));
  PlanText text;
  text.containers = {"{name: can, holds: 60 L, filled: 6 L, for: drinking}"};
  const std::optional<answers::Spells> spells = answer.spells;
  answer = support::answer(text);
  answer.spells = spells;
  ASSERT_FALSE(answer.planned.verdict.holds);
  EXPECT_THAT(report::run_text(answer, {}), Not(HasSubstr("A hot week")));
  EXPECT_THAT(report::run_text(answer, {}), HasSubstr("hot week. --all shows them.\n"));
  EXPECT_THAT(report::run_text(answer, {}), Not(HasSubstr("dull week")));
  EXPECT_THAT(report::run_text(answer, {.all = true}), HasSubstr("\nA hot week (+4.5 °C)"));
}

TEST(SpellWords, OfARunInAWeekNameItsDays) {
  report::RunAnswer answer = calm();
  answer.shown = answer.spells->found[0];
  answer.spells.reset();
  const std::string text = report::run_text(answer, {});
  EXPECT_THAT(text, StartsWith("HOLDS IN A HOT WEEK: every reserve keeps its margin"));
  EXPECT_THAT(text,
              HasSubstr("\nWeather shown: a hot week (+4.5 °C) on days 2 to 5, where it hurts "
                        "most.\n"));
  EXPECT_EQ(report::in_spell_words("DOES NOT HOLD: water", {.spell = Spell::dull}),
            "DOES NOT HOLD IN A DULL WEEK: water");
}

}  // namespace
}  // namespace drystage
