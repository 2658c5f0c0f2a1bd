// The sentences of `run`, each in one piece.
#include "report/run/words.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "report/text/breach_words.h"
#include "report/text/margin_words.h"
#include "support/answer.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage::words_test {
namespace {

using support::PlanText;
using support::unwrapped;
using ::testing::EndsWith;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

constexpr units::System metric = units::System::metric;

PlanText with_well(const std::string& water, bool confirmed) {
  PlanText plan;
  plan.margins = {"drinking_water: 10 L", "food: 3 meals"};
  plan.containers = {"{name: can, holds: 60 L, filled: " + water + ", for: drinking}"};
  plan.places = {PlanText::place(
      "Base", "air", std::string("drinking_water: {confirmed: ") + (confirmed ? "yes}" : "no}"))};
  plan.itinerary = {"{at: Base}", "stay: {nights: 1}", "resupply: {drinking_water: fill}",
                    "stay: {nights: 4}"};
  return plan;
}

TEST(RunWords, HoldForSureOnlyWithoutTheUnconfirmed) {
  const auto surely = [](const PlanText& plan) {
    const report::RunAnswer answer = support::answer(plan);
    return report::surely_holds(answer.planned, answer.without_unconfirmed);
  };
  EXPECT_TRUE(surely(with_well("20 L", true)));
  EXPECT_TRUE(surely(with_well("50 L", false)));
  EXPECT_FALSE(surely(with_well("20 L", false)));
  EXPECT_FALSE(surely(with_well("5 L", true)));
}

TEST(RunWords, GiveTheVerdictInOneSentence) {
  const auto verdict = [](const PlanText& plan) {
    const report::RunAnswer answer = support::answer(plan);
    return report::verdict_words(answer.planned, answer.without_unconfirmed, metric);
  };
  EXPECT_EQ(verdict(with_well("20 L", true)),
            "HOLDS: every reserve keeps its margin on all 5 days.");
  EXPECT_EQ(verdict(with_well("20 L", false)),
            "HOLDS ONLY IF what nobody has confirmed is there: then every reserve keeps its margin "
            "on all 5 days.");
  EXPECT_THAT(verdict(with_well("5 L", true)),
              StartsWith("DOES NOT HOLD: drinking water runs out on day 2,"));
}

TEST(RunWords, SayThatMedicineFailsSinceItWasTooWarm) {
  const auto verdict = [](const std::string& filled, const std::string& keeps) {
    PlanText plan;
    plan.climate = {PlanText::steady_climate("air", 20)};
    plan.containers = {"{name: can, holds: 900 L, filled: 900 L, for: drinking}"};
    plan.itinerary = {"{at: Base}", "stay: {nights: 4}"};
    plan.consumables = {"{name: insulin, unit: doses, matters: life, " + keeps +
                        "stores: [{name: pens, holds: 40, filled: " + filled +
                        "}], use: {doses: {amount: 1, at: [\"08:00\", \"20:00\"]}}}"};
    const report::RunAnswer answer = support::answer(plan);
    return report::verdict_words(answer.planned, answer.without_unconfirmed, metric);
  };
  const std::string warm = "keeps: {from: 2 °C, to: 8 °C, out_of_it: 30 h}, ";
  EXPECT_THAT(verdict("40", warm), EndsWith(", since some of it was too warm or too cold."));
  // It is used up before it would be spoiled.
  EXPECT_THAT(verdict("1", warm), StartsWith("DOES NOT HOLD: insulin runs out on day 1, "));
  EXPECT_THAT(verdict("1", warm), Not(HasSubstr("too warm")));
  EXPECT_THAT(verdict("3", ""), Not(HasSubstr("too warm")));
}

TEST(RunWordsMargin, SaysADayOfOneAndDaysOfMore) {
  engine::ReserveInfo water{.title = "Drinking", .kind = units::Kind::volume, .unit = "L"};
  water.margin.days = 1;
  EXPECT_EQ(report::margin_then_words(water, 12, metric), "12 L (1 day)");
  water.margin.days = 1.5;
  EXPECT_EQ(report::margin_then_words(water, 18, metric), "18 L (1.5 days)");
}

/// The page begins with them, in this order, broken and with what else there is between.
RC_GTEST_PROP(RunWords, AreWhatTheRunPrints, ()) {
  const support::PlanText text = support::random_plan(support::rapidcheck_pick());
  report::RunAnswer answer;
  answer.planned = support::travel(text);
  answer.without_unconfirmed = answers::without_unconfirmed(answer.planned);
  const answers::PlanRun& planned = answer.planned;
  std::vector<std::string> sentences{
      report::verdict_words(planned, answer.without_unconfirmed, metric),
      report::others_words(planned, metric),
      report::without_unconfirmed_words(planned, answer.without_unconfirmed, metric)};
  for (std::size_t v = 0; v < planned.plan.vehicles.size(); ++v) {
    sentences.push_back(report::heaviest_words(planned, v, metric));
    sentences.push_back(report::by_the_model_words(planned.plan.vehicles[v]));
  }
  const std::string page = unwrapped(report::run_text(answer, {}));
  std::size_t at = 0;
  for (const std::string& sentence : sentences) {
    RC_ASSERT(sentence.find('\n') == std::string::npos);
    if (sentence.empty()) continue;
    const std::size_t found = page.find(unwrapped(sentence), at);
    RC_ASSERT(found != std::string::npos);
    RC_ASSERT(at > 0 || found == 0U);
    at = found + 1;
  }
  RC_ASSERT(report::others_words(planned, metric).empty() || !planned.verdict.holds);
  RC_ASSERT(
      report::without_unconfirmed_words(planned, answer.without_unconfirmed, metric).empty() ==
      !answer.without_unconfirmed.has_value());
}

}  // namespace
}  // namespace drystage::words_test
