// What must not be taken for better than it is: small plans, each with one thing that is easily
// forgotten, and what comes of it reckoned by hand.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "answers/mishaps/mishaps.h"
#include "answers/mishaps/sweep_plan.h"
#include "answers/onward/needs.h"
#include "cli/workspace.h"
#include "support/other_plan.h"
#include "support/trip.h"

namespace drystage::answers::safe_side_test {
namespace {

using plan::MishapKind;
using support::PlanText;
using support::travel;
using support::Trip;

/// One person who drinks 4 L a day drives from P to Q, and what follows.
PlanText four_litres(const std::string& filled, std::vector<std::string> itinerary) {
  PlanText plan;
  plan.start = "2027-03-08";  // a Monday
  plan.margins = {"drinking_water: 1 L", "fuel: 5 L"};
  plan.containers = {"{name: can, holds: 60 L, filled: " + filled + "}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 100 L, "
      "filled: 100 L}]}"};
  plan.places = {PlanText::place("P", "air"), PlanText::place("Q", "air"),
                 PlanText::place("R", "air")};
  plan.itinerary = std::move(itinerary);
  plan.itinerary.insert(plan.itinerary.begin(), "{at: P}");
  return plan;
}

std::string leg(const std::string& to, int km) {
  return "drive: {to: " + to + ", distance: " + std::to_string(km) + " km, surfaces: gravel}";
}

Sweep only(const plan::Plan& plan, MishapKind kind) {
  return sweep_mishaps(travel(plan), {.only = {kind}, .days = {}});
}

TEST(SafeSide, ARoadFoundShutOnTheWayIsNotDrivenOn) {
  for (const std::string& name : testing::scenarios()) {
    plan::Plan plan = support::scenario_plan(name);
    plan.mishaps.shut_found_after = 0.6;
    const PlanRun planned = support::run_plan(plan);
    const SweepPlan sweep(planned, {.only = {MishapKind::shut}, .days = {}});
    for (const Strike& strike : sweep.strikes()) {
      const engine::Timeline& before = *sweep.laid().timeline;
      const LaidTrip laid = sweep.struck(strike);
      const int shut_item =
          before.legs[static_cast<std::size_t>(before.steps[strike.step].leg)].item;
      const auto& shut =
          std::get<plan::Drive>(laid.plan->itinerary[static_cast<std::size_t>(shut_item)]);
      const int from = before.legs[static_cast<std::size_t>(before.steps[strike.step].leg)].from;
      for (std::size_t s = strike.step; s < laid.timeline->steps.size(); ++s) {
        const engine::TimeStep& step = laid.timeline->steps[s];
        if (step.drive < 0) continue;
        const engine::Leg& driven = laid.timeline->legs[static_cast<std::size_t>(step.leg)];
        const auto& drive =
            std::get<plan::Drive>(laid.plan->itinerary[static_cast<std::size_t>(driven.item)]);
        EXPECT_FALSE(driven.from == from && drive.to == shut.to) << name << ", step " << s;
      }
    }
  }
}

TEST(SafeSide, WhoComesBackToASupplyThatIsShutWaitsForItWithWhatIsThere) {
  // Water at Q on Mondays alone, diesel always; from R's road they are back on Tuesday. The next
  // Monday is six days off, and 14 L less what Monday night and Tuesday take last three and a bit.
  PlanText plan = four_litres("14 L", {leg("Q", 100), "resupply: {drinking_water: fill}",
                                       "stay: {nights: 1}", leg("R", 200)});
  plan.containers = {"{name: can, holds: 14 L, filled: 14 L}"};
  plan.places[1] = PlanText::place("Q", "air", "diesel: {}, drinking_water: {open: [mon]}");
  plan::Plan read = plan.plan();
  read.mishaps.shut_found_after = 0.5;
  const Sweep sweep = only(read, MishapKind::shut);
  ASSERT_FALSE(sweep.findings.empty());
  const Finding& last = sweep.findings.back();
  EXPECT_EQ(last.outcome, Outcome::runs_out_vital);
  // Full on Monday at about 10:00; 84 h later it is Thursday evening.
  EXPECT_EQ(last.dry_day, 3);
}

TEST(SafeSide, ADelayPastTheLongestTripIsRefused) {
  PlanText plan = four_litres("60 L", {leg("Q", 100), "stay: {nights: 3640}", leg("P", 100)});
  plan.places[1] = PlanText::place("Q", "air", "drinking_water: {}");
  plan::Plan read = plan.plan();
  read.mishaps.stuck_h = 30 * 24;
  const PlanRun planned = travel(read);
  EXPECT_THROW(sweep_mishaps(planned, {.only = {MishapKind::stuck}, .days = std::pair(3639, 3640)}),
               CannotBeLaidOut);
}

TEST(SafeSide, MainsThatNobodyHasConfirmedChargesNothingInNeeds) {
  PlanText plan = four_litres("60 L", {leg("Q", 200), "stay: {nights: 3}", leg("P", 200)});
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah}"};
  plan.charging = {"{name: shore, mains: 240 W}"};
  plan.loads = {"{name: lamp, draw: 12 W}"};
  const auto needs_of_bank = [&](const std::string& supplies) {
    PlanText other = plan;
    other.places[1] = PlanText::place("Q", "air", supplies);
    const Trip trip = travel(other);
    const Needs needs = morning_needs(trip);
    const int bank = support::reserve_index(trip.course, "battery:bank");
    const auto i =
        static_cast<std::size_t>(std::ranges::find(needs.reserves, bank) - needs.reserves.begin());
    std::vector<double> out;
    for (std::size_t day = 0; day < trip.days(); ++day) {
      out.push_back(needs.need(day, i).must_have);
    }
    return out;
  };
  const std::vector<double> hoped = needs_of_bank("mains: {confirmed: no}");
  const std::vector<double> none = needs_of_bank("");
  ASSERT_EQ(hoped.size(), none.size());
  for (std::size_t day = 0; day < none.size(); ++day) {
    EXPECT_TRUE(hoped[day] == none[day] || std::abs(hoped[day] - none[day]) < 1e-3) << day;
  }
  EXPECT_LT(needs_of_bank("mains: {}")[0], 100);
}

TEST(SafeSide, PairsStrikeOnTheDaysThatADelayHasAddedToo) {
  // 18 L last four days and a half: one delay of two days is survived, a second one is not.
  const PlanRun planned = travel(four_litres("18 L", {leg("Q", 240), leg("R", 240)}).plan());
  const SweepOptions stuck{.only = {MishapKind::stuck}, .days = {}};
  const Sweep single = sweep_mishaps(planned, stuck);
  EXPECT_LT(single.worst(), Outcome::runs_out);
  const PairSweep pairs = sweep_pairs(planned, stuck, single);
  ASSERT_FALSE(pairs.pairs.empty());
  EXPECT_EQ(pairs.pairs.front().worst.outcome, Outcome::runs_out_vital);
}

TEST(SafeSide, ALowBeforeARefillDoesNotExcuseALowerOneAfterIt) {
  // In the morning before the refill at Q 4 L are left, below the margin of 10 L by 6 L. After it
  // they are stuck for six days, with 32 L: 8 L are left, not so far below, and yet the mishap's
  // doing.
  PlanText plan = four_litres("9 L", {leg("Q", 60), "stay: {nights: 1}",
                                      "resupply: {drinking_water: fill}", leg("R", 200)});
  plan.margins = {"drinking_water: 10 L", "fuel: 5 L"};
  plan.containers = {"{name: can, holds: 16 L, filled: 9 L}",
                     "{name: can 2, holds: 16 L, filled: 0 L}"};
  plan.places[1] = PlanText::place("Q", "air", "drinking_water: {}");
  plan::Plan read = plan.plan();
  read.mishaps.stuck_h = 144;
  const Sweep sweep = only(read, MishapKind::stuck);
  const auto on_second_day = std::ranges::find(sweep.findings, 1, &Finding::day);
  ASSERT_NE(on_second_day, sweep.findings.end());
  EXPECT_EQ(on_second_day->outcome, Outcome::eats_margin);
}

TEST(SafeSide, AShortDriveCanBeStuckOnToo) {
  // 6 L last a day and a half; nothing can be had at the end of 40 km.
  const Sweep sweep = only(four_litres("6 L", {leg("Q", 40)}).plan(), MishapKind::stuck);
  ASSERT_EQ(sweep.findings.size(), 1U);
  EXPECT_EQ(sweep.findings[0].outcome, Outcome::runs_out_vital);
}

TEST(SafeSide, AShutRoadIsFoundOnEveryLegUpToItsVeryEnd) {
  plan::Plan plan = support::scenario_plan("last-camp");
  const auto moments = [&](double share) {
    plan.mishaps.shut_found_after = share;
    return only(plan, MishapKind::shut).findings.size();
  };
  EXPECT_EQ(moments(1), moments(0.99));
}

TEST(SafeSide, TheLastVehicleIsNotLeftBehind) {
  const PlanRun planned = support::run_plan(support::scenario_plan("family-two-vehicles"));
  const SweepOptions vehicles{.only = {MishapKind::vehicle}, .days = {}};
  const PairSweep pairs = sweep_pairs(planned, vehicles, sweep_mishaps(planned, vehicles));
  EXPECT_EQ(pairs.runs, 0U);
}

}  // namespace
}  // namespace drystage::answers::safe_side_test
