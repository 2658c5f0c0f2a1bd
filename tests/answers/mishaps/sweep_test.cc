// A sweep of mishaps as a whole: it comes to the same however it is run, stops when asked to, and
// can be narrowed.
#include <gtest/gtest.h>
#include <oneapi/tbb/global_control.h>

#include <algorithm>
#include <atomic>
#include <utility>

#include "answers/mishaps/mishaps.h"
#include "answers/mishaps/sweep_plan.h"
#include "cli/workspace.h"
#include "support/other_plan.h"
#include "support/plan_text.h"
#include "support/suffered.h"

namespace drystage::answers::sweep_test {
namespace {

using engine::Engine;
using plan::MishapKind;
using support::told;

PlanRun scenario(const std::string& name) {
  return support::run_plan(support::scenario_plan(name));
}

class EverySweep : public ::testing::TestWithParam<std::string> {};

INSTANTIATE_TEST_SUITE_P(Shipped, EverySweep, ::testing::ValuesIn(testing::scenarios()),
                         testing::AsTestName{});

TEST_P(EverySweep, RestartFromTheSharedStateComesToTheSameAsARunFromTheStart) {
  const PlanRun planned = scenario(GetParam());
  const SweepPlan sweep(planned, {});
  engine::Record before;
  for (const Strike& strike : sweep.strikes()) {
    const Mishap& mishap = sweep.mishaps()[strike.mishap];
    const LaidTrip laid = sweep.struck(strike);
    engine::make_blank(before, *sweep.laid().course);
    Engine::Standing standing = Engine::begin(*sweep.laid().course, before);
    Engine::go_on(*sweep.laid().course, standing, strike.step);
    engine::Record record;
    Finding found =
        finding_after(laid, standing, strike.step, judged_until(laid, mishap, strike.step),
                      sweep.planned(sweep.laid().timeline->steps[strike.step]), record);
    found.failure = static_cast<int>(strike.mishap);
    found.hour = sweep.laid().timeline->steps[strike.step].from_h;
    if (found.outcome >= Outcome::runs_out) {
      found.retreat_saves = retreat_saves(laid, mishap, found.reserve, standing, strike.step);
    }
    EXPECT_EQ(told(sweep.finding_with_retreat(strike)), told(found)) << mishap.failure.name;
  }
}

TEST(Sweep, AreTheSameOnOneThreadAndOnTwoAndTwiceInARow) {
  using tbb::global_control;
  const PlanRun planned = scenario("family-two-vehicles");
  const auto with_threads = [&](std::size_t threads) {
    const global_control control(global_control::max_allowed_parallelism, threads);
    return told(sweep_mishaps(planned, {}).findings);
  };
  const std::vector<std::string> one = with_threads(1);
  EXPECT_GT(one.size(), 100U);
  EXPECT_EQ(with_threads(2), one);
  EXPECT_EQ(with_threads(2), one);
}

TEST(Sweep, BrackishWaterThatThePlanLeavesSpoilsNothing) {
  const auto findings = [](const std::string& supplies) {
    support::PlanText text;
    text.people = {support::PlanText::person("Ada", "4 L/day")};
    text.containers = {"{name: can, holds: 90 L, filled: 90 L, for: drinking}",
                       "{name: tub, holds: 20 L, filled: 20 L, for: utility}",
                       "{name: tank, holds: 20 L, filled: 20 L, for: utility}"};
    text.utility_use = {"cooking: 5 L/day", "washing: 2 L/day"};
    text.vehicles = {
        "{name: truck, fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: tank, holds: 90 L, "
        "filled: 90 L}], observed: [{surface: sealed, uses: 10 L/100km}]}"};
    text.places = {support::PlanText::place("Base", "air"),
                   support::PlanText::place("Well", "air", supplies)};
    text.itinerary = {"{at: Base}", "stay: {nights: 1}",
                      "drive: {to: Well, distance: 100 km, surfaces: sealed}", "stay: {nights: 3}"};
    return told(sweep_mishaps(support::run_plan(text.plan()), {}).findings);
  };
  const std::vector<std::string> without = findings("");
  EXPECT_GT(without.size(), 10U);
  EXPECT_EQ(findings("utility_water: {quality: brackish}"), without);
  EXPECT_NE(findings("utility_water: {}"), without);
}

TEST(Sweep, StoppedBeforeTheyBeginAreNoneAndPartial) {
  const std::atomic<bool> stop = true;
  const Sweep sweep = sweep_mishaps(scenario("last-camp"), {}, {.progress = {}, .stop = &stop});
  EXPECT_TRUE(sweep.findings.empty());
  EXPECT_GT(sweep.asked, 100U);
  EXPECT_TRUE(sweep.partial());
  EXPECT_EQ(sweep.worst(), Outcome::holds);
}

TEST(Sweep, StoppedOnTheWayAreSomeOfAllThereAre) {
  const PlanRun planned = scenario("last-camp");
  const std::vector<std::string> all = told(sweep_mishaps(planned, {}).findings);
  for (const std::size_t after : {1U, 7U, 60U}) {
    std::atomic<bool> stop = false;
    const Watch watch{.progress = [&](std::size_t done, std::size_t) { stop = done >= after; },
                      .stop = &stop};
    const Sweep sweep = sweep_mishaps(planned, {}, watch);
    const std::vector<std::string> some = told(sweep.findings);
    EXPECT_TRUE(sweep.partial());
    EXPECT_GE(some.size(), after);
    EXPECT_LT(some.size(), all.size());
    auto at = all.begin();
    for (const std::string& one : some) {
      at = std::find(at, all.end(), one);
      ASSERT_NE(at, all.end()) << one;
    }
  }
}

TEST(Sweep, ProgressCountsUpToTheTotal) {
  std::vector<std::size_t> counted;
  std::vector<std::size_t> totals;
  const Watch watch{.progress =
                        [&](std::size_t done, std::size_t total) {
                          counted.push_back(done);
                          totals.push_back(total);
                        },
                    .stop = nullptr};
  const Sweep sweep = sweep_mishaps(scenario("last-camp"), {}, watch);
  ASSERT_EQ(counted.size(), sweep.asked);
  for (std::size_t n = 0; n < counted.size(); ++n) EXPECT_EQ(counted[n], n + 1);
  EXPECT_EQ(totals, std::vector(sweep.asked, sweep.asked));
}

TEST_P(EverySweep, NarrowedAreThoseOfAllThatWereAskedFor) {
  const PlanRun planned = scenario(GetParam());
  const Sweep all = sweep_mishaps(planned, {});
  const SweepOptions narrow{.only = {MishapKind::container, MishapKind::shut}, .days = {{3, 5}}};
  const Sweep some = sweep_mishaps(planned, narrow);
  const auto with_name = [](const Sweep& sweep, Finding finding) {
    const auto failure = static_cast<std::size_t>(std::exchange(finding.failure, 0));
    return sweep.failures[failure].name + ": " + told(finding);
  };
  std::vector<std::string> expected;
  for (const Finding& finding : all.findings) {
    const MishapKind kind = all.failures[static_cast<std::size_t>(finding.failure)].kind;
    const bool asked = kind == MishapKind::container || kind == MishapKind::shut;
    if (asked && finding.day >= 3 && finding.day <= 5) expected.push_back(with_name(all, finding));
  }
  std::vector<std::string> got;
  for (const Finding& finding : some.findings) got.push_back(with_name(some, finding));
  EXPECT_EQ(got, expected);
  EXPECT_FALSE(got.empty());
  for (std::size_t f = 0; f < some.failures.size(); ++f) {
    const auto strikes = [f](const Finding& one) { return one.failure == static_cast<int>(f); };
    EXPECT_TRUE(std::ranges::any_of(some.findings, strikes)) << some.failures[f].name;
  }
}

}  // namespace
}  // namespace drystage::answers::sweep_test
