// The page that `drystage mishaps` prints, of sweeps made by hand.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cli/workspace.h"
#include "report/mishaps/report.h"
#include "support/answer.h"
#include "support/mishaps.h"

namespace drystage::text_test {
namespace {

using answers::Finding;
using answers::Outcome;
using plan::MishapKind;
using report::MishapsAnswer;
using support::calm_mishaps;
using support::dry;
using support::fatal_mishap;
using support::holding;
using support::mishaps_answer;
using support::nibbling;
using support::times;
using support::unwrapped;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

std::string text_of(const MishapsAnswer& answer) { return report::mishaps_text(answer, {}); }

std::string words_of(const MishapsAnswer& answer) { return unwrapped(text_of(answer)); }

std::string all_words_of(const MishapsAnswer& answer) {
  return unwrapped(report::mishaps_text(answer, {.all = true}));
}

void expect_fits_the_page(const std::string& text) {
  for (const std::string& line : testing::lines(text)) {
    EXPECT_LE(testing::terminal_columns(line), 80) << line;
  }
}

// --- the verdict ---

TEST(MishapsText, SaysFirstThatThePlanSurvives) {
  EXPECT_THAT(words_of(calm_mishaps()),
              StartsWith("SURVIVES any one mishap: none of 2 runs drinking water dry. A test."));
  EXPECT_TRUE(report::survives_any_one(calm_mishaps()));
}

TEST(MishapsText, SaysFirstThatItDoesNotAndThenTheWorst) {
  EXPECT_THAT(words_of(fatal_mishap()),
              StartsWith("DOES NOT SURVIVE every mishap: 1 of 2 mishaps runs "
                         "drinking water dry."));
  EXPECT_THAT(words_of(fatal_mishap()),
              HasSubstr("The worst, each at its worst moment 1 can 1 lost, on day 5, Fri 05 Mar, "
                        "06:00. Drinking water runs out on day 5,"));
  EXPECT_FALSE(report::survives_any_one(fatal_mishap()));
}

TEST(MishapsText, SurvivesWhatRunsOutOfNothingThatLifeHangsOn) {
  MishapsAnswer answer = calm_mishaps();
  answer.sweep.findings[3] = dry(answer, 0, 3, "food", Outcome::runs_out);
  answer.sweep.findings[20] = nibbling(answer, 1, 6, "drinking_water", 2.5);
  EXPECT_TRUE(report::survives_any_one(answer));
  const std::string words = words_of(answer);
  EXPECT_THAT(words, StartsWith("SURVIVES any one mishap"));
  EXPECT_THAT(words, HasSubstr("1 runs something else dry. 1 goes only below a margin. "
                               "Tried: 2 mishaps, each alone, at 28 moments."));
}

TEST(MishapsText, TellsALongTimeInDaysRoundedUp) {
  MishapsAnswer answer = fatal_mishap();
  for (Finding& finding : answer.sweep.findings) {
    if (finding.outcome == Outcome::runs_out_vital) finding.dry_for_h = 178;
  }
  EXPECT_THAT(words_of(answer), HasSubstr("for 7.5 days."));
}

TEST(MishapsText, SaysWhichSuppliesAreCountedOnThoughNobodyHasConfirmedThem) {
  EXPECT_THAT(words_of(calm_mishaps()), Not(HasSubstr("Counted on")));
  MishapsAnswer answer = calm_mishaps();
  answer.planned.course.orders.push_back(
      {.order = {.commodity = plan::Commodity::diesel}, .supply = {.confirmed = false}});
  EXPECT_THAT(words_of(answer), HasSubstr("Counted on, though not confirmed: diesel at Base."));
}

TEST(MishapsText, CountsWhatRunsSomethingElseDryBesideWhatEndsLife) {
  MishapsAnswer answer = fatal_mishap();
  answer.sweep.findings[20] = dry(answer, 1, 6, "food", Outcome::runs_out);
  EXPECT_THAT(words_of(answer), HasSubstr("1 more runs something else dry. Tried: 2 mishaps"));
}

TEST(MishapsText, SaysPlainlyThatThePlanFailsWithoutAnyMishap) {
  MishapsAnswer answer = calm_mishaps();
  answer.sweep.plan_itself = dry(answer, 0, 0, "drinking_water");
  answer.sweep.plan_itself.dry_day = 11;
  EXPECT_FALSE(report::survives_any_one(answer));
  EXPECT_THAT(words_of(answer), StartsWith("DOES NOT SURVIVE: even without a mishap drinking water "
                                           "runs out on day 12, Fri 12 Mar,"));
  EXPECT_THAT(words_of(answer),
              HasSubstr("what is no worse than the plan itself counts as holding."));
  EXPECT_THAT(words_of(answer), Not(HasSubstr("worse than that")));
  answer.sweep.findings[4] = dry(answer, 0, 4, "drinking_water");
  answer.sweep.findings[20] = dry(answer, 1, 6, "food", Outcome::runs_out);
  EXPECT_THAT(words_of(answer), HasSubstr("1 mishap makes drinking water worse than that. "
                                          "1 more runs something else dry."));
}

TEST(MishapsText, SaysWhatThePlanItselfLacks) {
  MishapsAnswer answer = fatal_mishap();
  answer.sweep.plan_itself = nibbling(answer, 0, 0, "drinking_water", 3);
  const std::string words = words_of(answer);
  EXPECT_THAT(words,
              HasSubstr("Even without a mishap drinking water falls 3.0 L below its margin."));
  EXPECT_THAT(words, HasSubstr(". no worse than without a mishap"));
  EXPECT_THAT(words_of(fatal_mishap()), Not(HasSubstr("no worse than")));
}

TEST(MishapsText, PromisesNoMoreThanWasTried) {
  MishapsAnswer answer = calm_mishaps();
  answer.narrowed.only = {MishapKind::supply, MishapKind::heat_wave};
  answer.narrowed.days = {2, 4};
  EXPECT_THAT(words_of(answer), StartsWith("SURVIVES any one mishap of those tried: "));
  EXPECT_THAT(words_of(answer), HasSubstr("only supply, heat_wave; only on days 3 to 5."));
  answer.narrowed = {};
  answer.planned.plan.mishaps.left_out = {MishapKind::stuck};
  EXPECT_THAT(words_of(answer), StartsWith("SURVIVES any one mishap of those tried: "));
  EXPECT_THAT(words_of(answer), HasSubstr("left out by the plan: stuck."));
}

TEST(MishapsText, TakesNothingTriedForNoProof) {
  const MishapsAnswer answer = mishaps_answer(14, {});
  EXPECT_FALSE(report::survives_any_one(answer));
  EXPECT_THAT(words_of(answer), StartsWith("NOTHING WAS TRIED"));
  EXPECT_THAT(words_of(answer), Not(HasSubstr("SURVIVES")));
}

TEST(MishapsText, PaintsTheVerdictGreenOnlyWhenThePlanSurvives) {
  const auto head = [](const MishapsAnswer& answer) {
    return report::mishaps_text(answer, {.color = true}).substr(0, 7);
  };
  EXPECT_EQ(head(calm_mishaps()), "\x1b[1;32m");
  EXPECT_EQ(head(fatal_mishap()), "\x1b[1;31m");
}

// --- stopped before its end ---

TEST(MishapsText, SaysLoudlyWhenItWasStopped) {
  MishapsAnswer answer = calm_mishaps();
  answer.sweep.findings.resize(5);
  EXPECT_FALSE(report::survives_any_one(answer));
  const std::string words = words_of(answer);
  EXPECT_THAT(words, StartsWith("PARTIAL: stopped after 5 of 28 runs. NOT KNOWN: so far "
                                "nothing runs drinking water dry."));
  EXPECT_THAT(words, HasSubstr("Held as far as they were tried: can 1 lost. NOT TRIED YET: well "
                               "dry."));
  EXPECT_THAT(words, Not(HasSubstr("SURVIVES")));
}

TEST(MishapsText, KnowsTheWorstEvenWhenItWasStopped) {
  MishapsAnswer answer = fatal_mishap();
  answer.sweep.findings.resize(5);
  EXPECT_THAT(words_of(answer), StartsWith("PARTIAL: stopped after 5 of 28 runs. DOES NOT SURVIVE "
                                           "every mishap: 1 of 1 mishap runs"));
  EXPECT_THAT(words_of(answer), HasSubstr("blank: cannot strike then, or NOT TRIED YET"));
  EXPECT_THAT(words_of(answer), HasSubstr("each at its worst moment 1 can 1 lost, on day 5,"));
}

TEST(MishapsText, SaysThatPairsWereAskedForAndNotTried) {
  MishapsAnswer answer = calm_mishaps();
  answer.two = true;
  EXPECT_TRUE(report::partial(answer));
  EXPECT_THAT(words_of(answer), StartsWith("PARTIAL: stopped before any pair was tried. SURVIVES"));
  answer.pairs = answers::PairSweep{.pairs = {}, .asked = 9, .done = 4, .runs = 40};
  EXPECT_TRUE(report::partial(answer));
  EXPECT_THAT(words_of(answer), StartsWith("PARTIAL: every single mishap was tried, but only 4 "
                                           "of 9 with every second one. SURVIVES any one mishap: "
                                           "none of 2 runs drinking water dry."));
}

// --- the worst ---

TEST(MishapsText, TellsWhatRunsOutWhenWhereAndHowShort) {
  MishapsAnswer answer = fatal_mishap();
  Finding& finding = answer.sweep.findings[4];
  finding.dry_day = 6;
  finding.dry_hour = 15.999;
  finding.where = "bush before Shell Pan";
  finding.in_bush = true;
  finding.short_of = 11.2;
  finding.dry_for_h = 30.4;
  finding.retreat_saves = true;
  EXPECT_THAT(
      words_of(answer),
      HasSubstr("1 can 1 lost, on day 5, Fri 05 Mar, 06:00. Drinking water runs out on day "
                "7, Sun 07 Mar, 15:59, in the bush before Shell Pan. Short by 12 L, for 31 h. "
                "Turning back at once saves it."));
  finding.retreat_saves = false;
  EXPECT_THAT(words_of(answer), HasSubstr("Turning back at once does not save it."));
  finding.retreat_saves.reset();
  EXPECT_THAT(words_of(answer), Not(HasSubstr("Turning back")));
  EXPECT_THAT(unwrapped(report::mishaps_text(answer, {.system = units::System::us})),
              HasSubstr("Short by 3.0 US gal, for"));
}

TEST(MishapsText, DatesWhatComesAfterTheLastDayOfThePlan) {
  MishapsAnswer answer = fatal_mishap();
  answer.sweep.findings[4].dry_day = 15;
  EXPECT_THAT(words_of(answer), HasSubstr("runs out on day 16, Tue 16 Mar,"));
}

TEST(MishapsText, TellsHowFarBelowAMarginItGoes) {
  MishapsAnswer answer = calm_mishaps();
  answer.sweep.findings[4] = nibbling(answer, 0, 4, "drinking_water", 2.41);
  answer.sweep.findings[20] = nibbling(answer, 1, 6, "cold:chest", 1.2);
  const std::string words = words_of(answer);
  EXPECT_THAT(words, HasSubstr("can 1 lost, on day 5, Fri 05 Mar, 06:00. Drinking water falls 2.5 "
                               "L below its margin."));
  EXPECT_THAT(words, HasSubstr("Cold in chest rises 1.2 °C above its margin."));
  // A difference of 1.2 °C is one of 2.16 °F, and not 34 °F.
  EXPECT_THAT(unwrapped(report::mishaps_text(answer, {.system = units::System::us})),
              HasSubstr("Cold in chest rises 2.2 °F above its margin."));
}

TEST(MishapsText, ListsEachMishapOnceWhereItIsWorst) {
  MishapsAnswer answer = fatal_mishap();
  answer.sweep.findings[4].dry_for_h = 10;
  answer.sweep.findings[7] = dry(answer, 0, 7, "drinking_water");
  answer.sweep.findings[7].dry_for_h = 40;
  answer.sweep.findings[9] = nibbling(answer, 0, 9, "drinking_water", 1);
  const std::string words = words_of(answer);
  EXPECT_EQ(times(words, "can 1 lost, on day"), 1);
  EXPECT_THAT(words, HasSubstr("1 can 1 lost, on day 8,"));
}

TEST(MishapsText, ListsWhatEndsLifeFirstAndOfWhatIsAlikeWhatIsDryLongerOrCannotBeMended) {
  MishapsAnswer answer =
      mishaps_answer(3, {"margin", "food", "mendable", "long", "hopeless", "deeper"});
  auto& findings = answer.sweep.findings;
  findings = {
      nibbling(answer, 0, 0, "drinking_water", 5), dry(answer, 1, 0, "food", Outcome::runs_out),
      dry(answer, 2, 0, "drinking_water"),         dry(answer, 3, 0, "drinking_water"),
      dry(answer, 4, 0, "drinking_water"),         nibbling(answer, 5, 0, "drinking_water", 6)};
  findings[1].dry_for_h = 99;
  findings[2].retreat_saves = true;
  findings[3].retreat_saves = true;
  findings[3].dry_for_h = 20;
  findings[4].retreat_saves = false;
  answer.sweep.asked = findings.size();
  std::vector<std::string> order;
  for (const std::string& line : testing::lines(report::mishaps_text(answer, {.all = true}))) {
    const std::size_t end = line.find(", on day 1,");
    if (end != std::string::npos && line.starts_with(" ")) order.push_back(line.substr(3, end - 3));
  }
  EXPECT_THAT(order,
              ::testing::ElementsAre("long", "hopeless", "mendable", "food", "deeper", "margin"));
}

TEST(MishapsText, ListsThreeUnlessAllAreAskedFor) {
  std::vector<std::string> names;
  for (int n = 1; n <= 12; ++n) names.push_back("can " + std::to_string(n) + " lost");
  MishapsAnswer answer = mishaps_answer(3, names);
  for (int f = 0; f < 12; ++f) {
    answer.sweep.findings.push_back(nibbling(answer, f, 1, "drinking_water", 1));
  }
  answer.sweep.asked = 12;
  EXPECT_THAT(text_of(answer), HasSubstr("\nThe worst 3 of 12, each at its worst moment\n"));
  EXPECT_EQ(times(words_of(answer), "lost, on day 2,"), 3);
  EXPECT_THAT(all_words_of(answer), HasSubstr("The worst, each at its worst moment"));
  EXPECT_EQ(times(all_words_of(answer), "lost, on day 2,"), 12);
}

// --- pairs ---

/// `count` pairs that run out of a reserve together.
MishapsAnswer with_pairs(int count, const std::string& reserve = "drinking_water",
                         Outcome outcome = Outcome::runs_out_vital) {
  MishapsAnswer answer = calm_mishaps();
  answer.two = true;
  answers::PairSweep sweep{.pairs = {}, .asked = 90, .done = 90, .runs = 1234};
  for (int n = 0; n < count; ++n) {
    answers::PairFinding pair{.first = 0,
                              .second = 1,
                              .tried = 144,
                              .dry = 12,
                              .first_day = 3,
                              .first_hour = 6,
                              .worst = dry(answer, 1, 5, reserve, outcome)};
    sweep.pairs.push_back(pair);
  }
  answer.pairs = sweep;
  return answer;
}

TEST(MishapsText, TellsOfAPairWhenBothStrikeAndWhatComesOfIt) {
  const MishapsAnswer answer = with_pairs(1);
  const std::string words = words_of(answer);
  EXPECT_THAT(words, HasSubstr("Pairs that run out though neither does alone: 1, in 1234 runs. Of "
                               "each two kinds the worst; --all shows all."));
  EXPECT_THAT(words, HasSubstr("- can 1 lost, on day 4, Thu 04 Mar, 06:00, and well dry, on day 6, "
                               "Sat 06 Mar, 06:00. Drinking water runs out on day 6, Sat 06 Mar, "
                               "09:00, at Base. Short by 4.0 L, for 9.0 h. So in 12 of 144 "
                               "combinations."));
  EXPECT_THAT(words, StartsWith("SURVIVES any one mishap, but not every two: none of 2 runs "));
  EXPECT_TRUE(report::survives_any_one(answer));
  expect_fits_the_page(text_of(answer));
}

TEST(MishapsText, SaysThatTwoAtOnceAreSurvivedToo) {
  EXPECT_THAT(words_of(with_pairs(0)),
              HasSubstr("Pairs: in 1234 runs, none runs out where neither does alone."));
  const std::string survives = "SURVIVES any one mishap, and any two: none of 2 runs ";
  EXPECT_THAT(words_of(with_pairs(0)), StartsWith(survives));
  EXPECT_THAT(words_of(with_pairs(1, "food", Outcome::runs_out)), StartsWith(survives));
}

TEST(MishapsText, ListsTheWorstPairOfEachTwoKindsUnlessAllAreAskedFor) {
  EXPECT_EQ(times(words_of(with_pairs(23)), "144 combinations"), 1);
  EXPECT_THAT(words_of(with_pairs(23)),
              HasSubstr("- 23 pairs of container and container, the worst: can 1 lost, on day 4"));
  EXPECT_THAT(words_of(with_pairs(1)), Not(HasSubstr("1 pair")));
  EXPECT_EQ(times(all_words_of(with_pairs(23)), "144"), 23);
}

// --- the rest of the page ---

TEST(MishapsText, HasRemarksWarningsAndCautions) {
  MishapsAnswer answer = fatal_mishap();
  answer.sweep.remarks = {"a leg that is shut is found so where it begins"};
  answer.warnings = {"something odd"};
  const std::string words = words_of(answer);
  EXPECT_THAT(words, HasSubstr("How it was calculated - a leg that is shut is found so where it "
                               "begins."));
  EXPECT_THAT(words, HasSubstr("Warning: something odd."));
  EXPECT_THAT(words, HasSubstr("A planning aid. Local rules"));
  EXPECT_THAT(all_words_of(answer), HasSubstr("A planning aid, no more."));
  expect_fits_the_page(text_of(answer));
}

}  // namespace
}  // namespace drystage::text_test
