// What is true of mishaps in any plan.
#include <fmt/core.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <tuple>

#include "answers/mishaps/mishaps.h"
#include "answers/mishaps/sweep_plan.h"
#include "answers/mishaps/vital_check.h"
#include "support/other_plan.h"
#include "support/plan_text.h"
#include "support/random_plan.h"
#include "support/suffered.h"
#include "support/trip.h"

namespace drystage::answers::property_test {
namespace {

using engine::Engine;
using plan::MishapKind;
using support::Pick;
using support::Suffered;
using support::told;

constexpr double rounding = 1e-9;
constexpr int tried_of_each_plan = 8;

/// A random plan that has been run, with what may befall it.
struct Case {
  Case() {
    const support::PlanText text = support::random_plan(pick);
    RC_LOG() << text.text();
    planned = support::travel(text);
    brackish = text.text().find("brackish") != std::string::npos;
  }

  Pick pick = support::rapidcheck_pick();
  PlanRun planned;
  bool brackish = false;
};

/// Some of the strikes of a sweep.
std::vector<Strike> some(const SweepPlan& sweep, const Pick& pick) {
  std::vector<Strike> out;
  const int all = static_cast<int>(sweep.strikes().size());
  for (int n = 0; n < tried_of_each_plan && all > 0; ++n) {
    out.push_back(sweep.strikes()[static_cast<std::size_t>(pick(0, all - 1))]);
  }
  return out;
}

void check_dry(const Finding& found, const LaidTrip& laid) {
  const auto days = static_cast<int>(laid.timeline->days.size());
  RC_ASSERT(found.short_of > 0);
  RC_ASSERT(found.dry_day >= found.day);
  RC_ASSERT(found.dry_day < days);
  // The calendar is laid anew after it: its hours are the same but for rounding.
  RC_ASSERT(std::pair(found.dry_day, found.dry_hour + 1e-9) >= std::pair(found.day, found.hour));
  RC_ASSERT(found.dry_hour >= 0);
  RC_ASSERT(found.dry_hour < 24);
  RC_ASSERT(found.dry_for_h >= 0);
  RC_ASSERT(found.dry_for_h <= 24.0 * days);
  RC_ASSERT(!found.where.empty());
}

void check_finding(const Finding& found, const engine::Course& course, const LaidTrip& laid) {
  RC_ASSERT(std::isfinite(found.short_of));
  if (found.outcome == Outcome::holds) {
    RC_ASSERT(found.reserve == -1);
    RC_ASSERT(found.dry_day == -1);
    return;
  }
  RC_ASSERT(std::isfinite(found.slack));
  const engine::ReserveInfo& info = course.reserves.at(static_cast<std::size_t>(found.reserve));
  if (found.outcome >= Outcome::runs_out) {
    RC_ASSERT(info.life_supporting == (found.outcome == Outcome::runs_out_vital));
    check_dry(found, laid);
  } else {
    RC_ASSERT(found.slack < 0 || found.stood_in > 0);
    RC_ASSERT(found.dry_day == -1);
    RC_ASSERT(!found.retreat_saves);
  }
}

RC_GTEST_PROP(MishapsOfAnyPlan, AreJudgedAlikeFromTheSharedStateAndFromTheStart, ()) {
  const Case one;
  const SweepPlan sweep(one.planned, {});
  for (const Strike& strike : some(sweep, one.pick)) {
    const Mishap& mishap = sweep.mishaps()[strike.mishap];
    RC_LOG() << mishap.failure.name << " before step " << strike.step << "\n";
    const engine::Course& planned = *sweep.laid().course;
    engine::Record before = engine::blank_record(planned);
    Engine::Standing standing = Engine::begin(planned, before);
    Engine::go_on(planned, standing, strike.step);
    const LaidTrip laid = sweep.struck(sweep.laid(), mishap, strike.step);
    engine::Record record;
    Finding found =
        finding_after(laid, standing, strike.step, judged_until(laid, mishap, strike.step),
                      sweep.planned(sweep.laid().timeline->steps[strike.step]), record);
    found.failure = static_cast<int>(strike.mishap);
    found.hour = sweep.laid().timeline->steps[strike.step].from_h;
    if (found.outcome >= Outcome::runs_out) {
      found.retreat_saves = retreat_saves(laid, mishap, found.reserve, standing, strike.step);
    }
    RC_ASSERT(told(sweep.finding_with_retreat(strike)) == told(found));
    check_finding(found, *laid.course, laid);
    // Only what takes time makes the trip longer, or another one.
    const auto days = static_cast<int>(sweep.laid().timeline->days.size());
    if (!mishap.moves_time()) RC_ASSERT(found.dry_day < days);
  }
}

RC_GTEST_PROP(MishapsOfAnyPlan, AreCheckedQuicklyForWhatTheyDoToWaterAndFuel, ()) {
  const Case one;
  const SweepPlan sweep(one.planned, {});
  const VitalCheck check(sweep);
  std::size_t checked = 0;
  for (const Strike& strike : sweep.strikes()) {
    const std::optional<Finding> quick = check.finding(strike);
    if (!quick) continue;
    ++checked;
    const Mishap& mishap = sweep.mishaps()[strike.mishap];
    RC_LOG() << mishap.failure.name << " before step " << strike.step << "\n";
    const Finding whole = sweep.finding(strike);
    RC_ASSERT((quick->outcome == Outcome::runs_out_vital) ==
              (whole.outcome == Outcome::runs_out_vital));
    RC_ASSERT(std::tie(quick->failure, quick->day, quick->hour) ==
              std::tie(whole.failure, whole.day, whole.hour));
    if (quick->outcome != Outcome::runs_out_vital) continue;
    RC_ASSERT(quick->reserve == whole.reserve);
    RC_ASSERT(quick->short_of == whole.short_of);
  }
  RC_CLASSIFY(checked == sweep.strikes().size(), "all are checked");
  RC_CLASSIFY(checked > 0, "some are checked");
}

TEST(MishapsOfAHeavyBank, AreCheckedQuicklyWithAllThatItWeighs) {
  std::size_t lasting = 0;
  std::size_t dry = 0;
  for (int fuel_l = 20; fuel_l <= 60; ++fuel_l) {
    support::PlanText text;
    text.containers = {"{name: can, holds: 200 L, filled: 200 L, for: drinking}"};
    text.vehicles = {
        fmt::format("{{name: truck, fuel: diesel, mass: {{empty: 1500 kg}}, tanks: "
                    "[{{name: tank, holds: 90 L, filled: {} L}}]}}",
                    fuel_l)};
    text.batteries = {"{name: bank, kind: agm, capacity: 200 Ah, mass: 2500 kg}"};
    text.places = {support::PlanText::place("Base", "air"),
                   support::PlanText::place("Far Well", "air")};
    text.itinerary = {"{at: Base}", "drive: {to: Far Well, distance: 200 km, surfaces: gravel}",
                      "stay: {nights: 1}"};
    const PlanRun planned = support::run_plan(text.plan());
    const SweepPlan sweep(planned, {.only = {plan::MishapKind::soft_going}});
    const VitalCheck check(sweep);
    for (const Strike& strike : sweep.strikes()) {
      const bool runs_dry = sweep.finding(strike).outcome == Outcome::runs_out_vital;
      const std::optional<Finding> quick = check.finding(strike);
      ++(runs_dry ? dry : lasting);
      if (!quick) continue;
      EXPECT_EQ(quick->outcome == Outcome::runs_out_vital, runs_dry) << fuel_l;
    }
  }
  EXPECT_GT(lasting, 0U);
  EXPECT_GT(dry, 0U);
}

RC_GTEST_PROP(MishapsOfAnyPlan, LoseNothingThatIsNotWrittenDown, ()) {
  const Case one;
  const SweepPlan sweep(one.planned, {});
  for (const Strike& strike : some(sweep, one.pick)) {
    const Suffered suffered(sweep, strike);
    RC_LOG() << suffered.mishap.failure.name << " before step " << strike.step << "\n";
    for (std::size_t s = 0; s < suffered.record.stores; ++s) {
      double level = sweep.before(strike.step).run.level(static_cast<int>(s));
      const double size = std::max(1.0, suffered.laid.course->stores[s].capacity);
      for (std::size_t day = suffered.day; day < suffered.record.days(); ++day) {
        const engine::StoreDay& row = suffered.record.store(day, s);
        RC_LOG() << suffered.laid.course->stores[s].name << " on day " << day << "\n";
        RC_ASSERT(std::abs(row.start - level) <= rounding * size);
        RC_ASSERT(row.lost >= -rounding * size);
        RC_ASSERT(std::abs(row.start + row.gained - row.used - row.lost - row.end) <=
                  rounding * size);
        level = row.end;
      }
    }
  }
}

/// The levels of a reserve in the evenings are no higher than in the plan itself; but by what a
/// vehicle that is lighter by so much saves.
void check_no_higher(const Suffered& suffered, const PlanRun& planned, const std::string& name,
                     double lighter_share = 0) {
  const auto& reserves = planned.course.reserves;
  const auto at = std::ranges::find(reserves, name, &engine::ReserveInfo::name);
  if (at == reserves.end()) return;
  const auto r = static_cast<std::size_t>(at - reserves.begin());
  double used = 0;
  for (std::size_t day = suffered.day; day < planned.record.days(); ++day) {
    RC_LOG() << suffered.mishap.failure.name << " on day " << suffered.day << ": " << name
             << " on day " << day << "\n";
    const engine::ReserveDay& row = planned.record.reserve(day, r);
    used += row.used;
    RC_ASSERT(suffered.record.reserve(day, r).end <= row.end + lighter_share * used + 1e-7);
  }
}

RC_GTEST_PROP(MishapsOfAnyPlan, LeaveNoMoreWaterWhereThereIsLessOrMoreIsNeeded, ()) {
  const Case one;
  // A container less that has held brackish water may be a mercy: what was not to be drunk is.
  RC_PRE(!one.brackish);
  const SweepPlan sweep(
      one.planned, {.only = {MishapKind::container, MishapKind::supply, MishapKind::one_more}});
  for (const Strike& strike : some(sweep, one.pick)) {
    const Suffered suffered(sweep, strike);
    // Where vehicles have their own, what all use together is divided by heads, and one head more
    // in one vehicle leaves the others a smaller part to give.
    const bool own = std::ranges::any_of(
        one.planned.plan.vehicles, [](const plan::Vehicle& each) { return !each.own.empty(); });
    if (own && suffered.mishap.failure.kind == MishapKind::one_more) continue;
    check_no_higher(suffered, one.planned, "drinking_water");
    check_no_higher(suffered, one.planned, "utility_water");
  }
}

RC_GTEST_PROP(MishapsOfAnyPlan, LeaveNoMoreFuelInAVehicleWithALeak, ()) {
  const Case one;
  const plan::Plan& plan = one.planned.plan;
  // What a place gives in one visit may be shared out otherwise among several.
  RC_PRE(plan.vehicles.size() == 1);
  const SweepPlan sweep(one.planned, {.only = {MishapKind::container}});
  for (const Strike& strike : some(sweep, one.pick)) {
    const Suffered suffered(sweep, strike);
    // Without a tank that has yet to take on what stays in it for ever, more of it is of use.
    const auto gives_all = [&](const plan::TankReference& lost) {
      return plan.vehicles[0].tanks[static_cast<std::size_t>(lost.tank)].unusable_l <= 0;
    };
    if (std::ranges::none_of(suffered.mishap.damage.tanks, gives_all)) continue;
    const double load_kg = sweep.before(strike.step).run.vehicle_kg(0) - plan.vehicles[0].empty_kg;
    check_no_higher(suffered, one.planned, "fuel:" + plan.vehicles[0].name,
                    load_kg / plan.vehicles[0].empty_kg);
  }
}

RC_GTEST_PROP(MishapsOfAnyPlan, StandInOrderAndTwoTogetherAreWorseThanEither, ()) {
  const Case one;
  const int last = static_cast<int>(one.planned.record.days()) - 1;
  const int day = one.pick(0, last);
  const auto kind = [&] { return static_cast<MishapKind>(one.pick(0, 10)); };
  const SweepOptions options{.only = {kind(), kind()}, .days = {{day, std::min(day + 1, last)}}};
  const Sweep sweep = sweep_mishaps(one.planned, options);
  RC_ASSERT(sweep.findings.size() == sweep.asked);
  RC_ASSERT(!sweep.partial());
  const auto when = [](const Finding& finding) {
    return std::tuple(finding.failure, finding.day, finding.hour);
  };
  RC_ASSERT(std::ranges::is_sorted(sweep.findings, {}, when));
  for (const Finding& finding : sweep.findings) {
    RC_ASSERT(finding.day >= options.days->first);
    RC_ASSERT(finding.day <= options.days->second);
    RC_ASSERT(finding.outcome <= sweep.worst());
  }
  const PairSweep pairs = sweep_pairs(one.planned, options, sweep);
  RC_ASSERT(!pairs.partial());
  for (const PairFinding& pair : pairs.pairs) {
    RC_ASSERT(pair.dry > 0U);
    RC_ASSERT(pair.dry <= pair.tried);
    RC_ASSERT(pair.worst.outcome >= Outcome::runs_out);
    RC_ASSERT(pair.worst.failure == pair.second);
    RC_ASSERT(std::pair(pair.first_day, pair.first_hour) <=
              std::pair(pair.worst.day, pair.worst.hour));
    RC_ASSERT(pair.worst.dry_day >= pair.worst.day);
    for (const Finding& finding : sweep.findings) {
      const bool same = finding.failure == pair.first && finding.day == pair.first_day &&
                        finding.hour == pair.first_hour;
      if (same) RC_ASSERT(finding.outcome < pair.worst.outcome);
    }
  }
}

}  // namespace
}  // namespace drystage::answers::property_test
