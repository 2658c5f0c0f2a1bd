#include "support/suffered.h"

#include <fmt/core.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "support/other_plan.h"

namespace drystage::support {

using answers::Fate;
using answers::Finding;
using answers::Outcome;
using answers::PlanRun;
using answers::Strike;
using answers::SweepPlan;
using engine::ReserveDay;

namespace {

std::size_t index_of(const engine::CourseBase& course, const std::string& name) {
  const auto at = std::ranges::find(course.reserves, name, &engine::ReserveInfo::name);
  EXPECT_NE(at, course.reserves.end()) << name;
  return static_cast<std::size_t>(at - course.reserves.begin());
}

void expect_day(const ReserveDay& got, const ReserveDay& wanted, bool whole, bool same_margin,
                double tolerance) {
  EXPECT_NEAR(got.end, wanted.end, tolerance);
  if (!whole) return;
  EXPECT_NEAR(got.short_of, wanted.short_of, tolerance);
  EXPECT_NEAR(got.lowest, wanted.lowest, tolerance);
  EXPECT_EQ(got.judged, wanted.judged);
  if (!same_margin || !wanted.judged) return;
  EXPECT_NEAR(got.slack, wanted.slack, tolerance);
}

bool same_rule(const engine::ReserveInfo& a, const engine::ReserveInfo& b) {
  return a.margin.fixed == b.margin.fixed && a.margin.days == b.margin.days &&
         a.margin.km == b.margin.km;
}

/// The first moment, from when it strikes, at which the run of the other plan tells of want.
void expect_dry(const Suffered& suffered, const PlanRun& other) {
  const Finding& found = suffered.found;
  const std::string& name =
      suffered.laid.course->reserves[static_cast<std::size_t>(found.reserve)].name;
  const int reserve = static_cast<int>(index_of(other.course, name));
  for (const engine::Event& event : other.record.events) {
    if (event.kind != engine::EventKind::short_of || event.subject != reserve) continue;
    if (std::pair<int, double>(event.day, event.hour) <
        std::pair(suffered.first.day, suffered.first.from_h)) {
      continue;
    }
    EXPECT_EQ(found.dry_day, event.day);
    EXPECT_NEAR(found.dry_hour, event.hour, 1);
    return;
  }
  // It was dry already.
  EXPECT_GT(other.record.reserve(suffered.day, static_cast<std::size_t>(reserve)).short_of, 0);
  EXPECT_EQ(found.dry_day, suffered.first.day);
  EXPECT_EQ(found.dry_hour, suffered.first.from_h);
}

void expect_same_judgement(const Suffered& suffered, const PlanRun& other,
                           std::span<const Fate> planned, const Allowance& allowance) {
  const Finding expected = judged(suffered, other, planned);
  const Finding& found = suffered.found;
  EXPECT_EQ(found.outcome, expected.outcome);
  if (found.outcome == Outcome::holds) return;
  const engine::ReserveInfo& info =
      suffered.laid.course->reserves[static_cast<std::size_t>(found.reserve)];
  // Hours of want add up what each of them is off by.
  const double tolerance = 10 * allowance(info);
  const std::size_t o = index_of(other.course, info.name);
  if (same_rule(info, other.course.reserves[o])) {
    EXPECT_NEAR(found.slack, expected.slack, tolerance);
  }
  EXPECT_NEAR(found.short_of, expected.short_of, tolerance);
  if (found.outcome >= Outcome::runs_out) expect_dry(suffered, other);
}

}  // namespace

std::string told(const Finding& finding) {
  return fmt::format("{} on {} at {}: {} of {} slack {} short {} dry {} {} {} for {}, saved {}",
                     finding.failure, finding.day, finding.hour, static_cast<int>(finding.outcome),
                     finding.reserve, finding.slack, finding.short_of, finding.dry_day,
                     finding.dry_hour, finding.where, finding.dry_for_h,
                     finding.retreat_saves ? static_cast<int>(*finding.retreat_saves) : -1);
}

std::vector<std::string> told(const std::vector<Finding>& findings) {
  std::vector<std::string> out;
  out.reserve(findings.size());
  for (const Finding& finding : findings) out.push_back(told(finding));
  return out;
}

double exactly(const engine::ReserveInfo& /*info*/) { return rounding; }

Planned::Planned(plan::Plan given) {
  given.mishaps = usual_mishaps();
  given.mishaps.hot_days = 3;
  given.mishaps.hotter_k = 5;
  run = run_plan(with_every_stop(run_plan(given)));
}

Suffered::Suffered(const SweepPlan& sweep, const Strike& strike)
    : mishap(sweep.mishaps()[strike.mishap]),
      laid(sweep.struck(strike)),
      first(sweep.laid().timeline->steps[strike.step]),
      day(static_cast<std::size_t>(first.day)),
      morning(first.from_h <= 0) {
  const auto fares = [&](const std::vector<std::size_t>& until) {
    return finding_after(laid, sweep.before(strike.step), strike.step, until, sweep.planned(first),
                         record);
  };
  found = fares(judged_until(laid, mishap, strike.step));
  // The days to the very end, wherever each reserve is judged.
  fares(std::vector(laid.course->reserves.size(), laid.timeline->steps.size()));
}

void expect_same(const Suffered& suffered, const PlanRun& other, const Allowance& allowance) {
  const engine::Course& course = *suffered.laid.course;
  ASSERT_LE(other.record.days(), suffered.record.days());
  for (std::size_t o = 0; o < other.course.reserves.size(); ++o) {
    const engine::ReserveInfo& info = other.course.reserves[o];
    const double tolerance = allowance(info);
    if (std::isinf(tolerance)) continue;
    const std::size_t r = index_of(course, info.name);
    for (std::size_t day = suffered.day; day < other.record.days(); ++day) {
      SCOPED_TRACE(info.name + " on day " + std::to_string(day + 1));
      const bool whole = day > suffered.day || suffered.morning;
      expect_day(suffered.record.reserve(day, r), other.record.reserve(day, o), whole,
                 same_rule(course.reserves[r], info), tolerance);
    }
  }
}

Finding judged(const Suffered& suffered, const PlanRun& other, std::span<const Fate> planned) {
  const engine::Course& course = *suffered.laid.course;
  Finding out;
  for (std::size_t o = 0; o < other.course.reserves.size(); ++o) {
    const engine::ReserveInfo& info = other.course.reserves[o];
    const std::size_t r = index_of(course, info.name);
    Fate fate;
    for (std::size_t day = suffered.day; day < other.record.days(); ++day) {
      const bool whole = day > suffered.day || suffered.morning;
      const ReserveDay& row =
          whole ? other.record.reserve(day, o) : suffered.record.reserve(day, r);
      fate.slack = std::min(fate.slack, row.slack);
      fate.short_of += row.short_of;
      fate.stood_in += row.stood_in;
    }
    const Fate& before = planned[r];
    Outcome outcome = Outcome::holds;
    if (fate.short_of > before.short_of + rounding) {
      outcome = info.life_supporting ? Outcome::runs_out_vital : Outcome::runs_out;
    } else if (fate.stood_in > before.stood_in + rounding ||
               (fate.slack < -rounding && fate.slack < before.slack - rounding)) {
      outcome = Outcome::eats_margin;
    }
    out.outcome = std::max(out.outcome, outcome);
    if (suffered.found.reserve != static_cast<int>(r)) continue;
    EXPECT_EQ(outcome, suffered.found.outcome) << info.name;
    out.slack = fate.slack;
    out.short_of = fate.short_of;
  }
  return out;
}

int compare(const Planned& planned, plan::MishapKind kind, const Write& write,
            const Allowance& allowance) {
  const SweepPlan sweep = planned.sweep(kind);
  int compared = 0;
  for (const Strike& strike : sweep.strikes()) {
    const Suffered suffered(sweep, strike);
    plan::Plan other = planned.run.plan;
    if (!write(other, suffered)) continue;
    SCOPED_TRACE(suffered.mishap.failure.name + ", on day " + std::to_string(suffered.day + 1) +
                 " at " + std::to_string(suffered.first.from_h));
    // No plan can say that a compressor has stopped.
    const PlanRun run =
        run_topped_up(other, planned.run, {.cabinets = suffered.mishap.damage.cabinets});
    expect_same(suffered, run, allowance);
    expect_same_judgement(suffered, run, sweep.planned(suffered.first), allowance);
    ++compared;
  }
  return compared;
}

}  // namespace drystage::support
