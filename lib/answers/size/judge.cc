#include "answers/size/judge.h"

#include <algorithm>
#include <iterator>
#include <utility>

#include "answers/base/distance.h"
#include "answers/base/in_parallel.h"
#include "answers/size/placing.h"
#include "plan/limits.h"
#include "plan/packing.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

// Rounding alone overloads nothing.
constexpr double tiny = 1e-6;

/// Whether an axle, wheel, roof or bay is over its limit, which another place for things may mend.
bool passes_a_part(const PlanRun& planned) {
  return std::ranges::any_of(planned.verdict.breaches, [&](const Breach& breach) {
    return breach.scale >= static_cast<int>(planned.plan.vehicles.size());
  });
}

}  // namespace

bool Judgement::keeps_margins() const {
  return planned.verdict.reserves_hold() && (!confirmed || confirmed->reserves_hold());
}

bool Judgement::within_limits() const {
  return over_space_l <= 0 && over_budget <= 0 && things_too_many == 0 && packed_too_full < 0 &&
         std::ranges::none_of(over_kg, [](double kg) { return kg > 0; });
}

bool Judgement::holds() const {
  return keeps_margins() && within_limits() && fatal.empty() && (!trial || trial->is_enough());
}

double Judgement::shortfall() const {
  // Margins count first, then what is passed, then mishaps, then drawn trips.
  constexpr double by_the_ton = 1e-6;
  constexpr double less_bad = 1e-12;
  constexpr double least_bad = 1e-18;
  double miss = distance(planned);
  if (planned.verdict.reserves_hold() && !keeps_margins()) miss += by_the_ton;
  for (const double kg : over_kg) miss += by_the_ton * kg;
  miss += by_the_ton * (over_space_l + over_budget + static_cast<double>(things_too_many));
  for (const Finding& finding : fatal) miss = std::max(miss, less_bad * finding.short_of);
  if (packed_too_full >= 0) miss += 1;
  if (trial && !trial->is_enough()) miss = std::max(miss, least_bad * (1 - trial->kept().chance));
  return miss;
}

int Judgement::reserve(engine::ReserveId id) const {
  return engine::find_reserve(planned.course, id);
}

bool Judgement::breaks(int reserve) const {
  if (reserve < 0) return false;
  return planned.verdict.breaks(reserve) || (confirmed && confirmed->breaks(reserve));
}

double Judgement::at_least_lacking(int reserve) const {
  const auto r = static_cast<std::size_t>(reserve);
  double slack = planned.verdict.reserves[r].slack;
  if (confirmed) slack = std::min(slack, confirmed->reserves[r].slack);
  return std::max(0.0, -slack);
}

bool Judgement::ran_dry(engine::ReserveId id) const {
  const int index = reserve(id);
  if (index < 0) return false;
  const auto r = static_cast<std::size_t>(index);
  const auto dry = [&](const Verdict& verdict) {
    return verdict.reserves[r].short_of > 0 ||
           verdict.reserves[r].lowest <= planned.course.reserves[r].empty_at + tiny;
  };
  return dry(planned.verdict) || (confirmed && dry(*confirmed));
}

bool Judgement::something_spoiled() const {
  const auto& reserves = planned.course.reserves;
  const auto may_spoil = [](const engine::ReserveInfo& info) {
    return info.id.family == engine::Family::food || info.id.family == engine::Family::consumable;
  };
  for (std::size_t r = 0; r < reserves.size(); ++r) {
    if (!may_spoil(reserves[r])) continue;
    const bool is_food = reserves[r].id.family == engine::Family::food;
    if (is_food && confirmed && !confirmed->reserves_hold()) return true;
    for (std::size_t d = 0; d < planned.record.days(); ++d) {
      if (planned.record.reserve(d, r).lost > 0) return true;
    }
  }
  return false;
}

SizeJudge::SizeJudge(const PlanRun& planned, const SizeOptions& options, const Watch& watch,
                     bool limited, LaidTrip like)
    : planned_(planned),
      options_(options),
      watch_(watch),
      limited_(limited),
      blank_(planned.plan),
      last_course_(planned.course),
      last_laid_(std::move(like)) {
  blank_.size = {};
}

plan::Plan SizeJudge::plan_with(const ChoiceSet& set) const {
  plan::Plan plan = blank_;
  for (const Choice* choice : set) choice->apply(plan);
  return plan;
}

bool SizeJudge::stopped() const { return watch_.stop != nullptr && watch_.stop->load(); }

bool SizeJudge::affordable(const Totals& totals) const {
  if (!limited_) return true;
  const plan::SizeLimits& limits = planned_.plan.size.limits;
  return totals.space_l <= limits.space_l.value_or(totals.space_l) + tiny &&
         totals.cost <= limits.budget.value_or(totals.cost) + tiny;
}

void SizeJudge::weigh(Judgement& out) const {
  const plan::SizeLimits& limits = planned_.plan.size.limits;
  if (limited_ && passes_a_part(out.planned)) place_added(planned_.plan, out.planned);
  const auto& scales = out.planned.course.scales;
  for (std::size_t s = 0; s < scales.size(); ++s) {
    double limit_kg = scales[s].limit_kg;
    // The vehicles come first.
    if (s < limits.mass_kg.size()) {
      limit_kg = std::min(limit_kg, limits.mass_kg[s].value_or(limit_kg));
    }
    const double over_kg = out.planned.record.heaviest[s].kg - limit_kg;
    out.over_kg.push_back(limited_ && over_kg > tiny ? over_kg : 0);
  }
}

void SizeJudge::try_mishaps(Judgement& out, const SweepPlan& plan, const VitalCheck& check,
                            std::optional<Suspect> only) const {
  last_laid_ = plan.laid();
  const auto kind_of = [&](std::size_t mishap) { return plan.mishaps()[mishap].failure.kind; };
  std::vector<Strike> strikes;
  for (const Strike& strike : plan.strikes()) {
    const int day = plan.laid().timeline->steps[strike.step].day;
    if (!only || *only == Suspect{.kind = kind_of(strike.mishap), .day = day}) {
      strikes.push_back(strike);
    }
  }
  std::vector<Finding> findings(strikes.size());
  in_parallel(strikes.size(), [&](std::size_t s) {
    if (stopped()) return;
    const std::optional<Finding> quick = check.finding(strikes[s]);
    findings[s] = quick ? *quick : plan.finding(strikes[s]);
  });
  const auto badness = [](const Finding& finding) {
    return std::pair(finding.outcome == Outcome::runs_out_vital, finding.short_of);
  };
  const auto worst = std::ranges::max_element(findings, {}, badness);
  if (worst == findings.end() || worst->outcome != Outcome::runs_out_vital) return;
  // Of this one it is told when and where.
  *worst = plan.finding(strikes[static_cast<std::size_t>(worst - findings.begin())]);
  const Suspect suspect{.kind = kind_of(static_cast<std::size_t>(worst->failure)),
                        .day = worst->day};
  if (std::ranges::find(suspects_, suspect) == suspects_.end()) suspects_.push_back(suspect);
  std::ranges::copy_if(findings, std::back_inserter(out.fatal), [](const Finding& finding) {
    return finding.outcome == Outcome::runs_out_vital;
  });
  for (const Mishap& mishap : plan.mishaps()) out.failures.push_back(mishap.failure);
}

PlanRun SizeJudge::run_of(const ChoiceSet& set) const {
  ++runs_;
  PlanRun out = run_plan(plan_with(set), planned_.course.timeline, &last_course_,
                         planned_.course.more_margin_days);
  last_course_ = out.course;
  return out;
}

Judgement SizeJudge::after_mishaps(const ChoiceSet& set) const {
  Judgement out;
  out.planned = run_of(set);
  if (options_.survive) {
    const SweepPlan plan = mishaps_of(out.planned);
    try_mishaps(out, plan, VitalCheck(plan), std::nullopt);
  }
  return out;
}

SweepPlan SizeJudge::mishaps_of(const PlanRun& planned) const {
  return {planned, {.only = *options_.survive}, &last_laid_};
}

Judgement SizeJudge::judge(const ChoiceSet& set, Mishaps mishaps) const {
  Judgement out;
  out.planned = run_of(set);
  if (options_.confirmed_only) out.confirmed = without_unconfirmed(out.planned);
  weigh(out);
  const std::size_t things = plan::things_to_carry(out.planned.plan);
  out.things_too_many = things - std::min(things, plan::most_to_carry);
  for (const Choice* choice : set) {
    if (!choice->fits) out.packed_too_full = choice->cabinet;
  }
  if (limited_) {
    const plan::SizeLimits& limits = planned_.plan.size.limits;
    const Totals totals = totals_of(set);
    if (limits.space_l) out.over_space_l = std::max(0.0, totals.space_l - *limits.space_l - tiny);
    if (limits.budget) out.over_budget = std::max(0.0, totals.cost - *limits.budget - tiny);
  }
  if (mishaps == Mishaps::none || !out.keeps_margins() || !out.within_limits()) return out;
  if (options_.survive) try_all_mishaps(out, mishaps);
  if (options_.confidence && out.fatal.empty()) {
    out.trial = trial_of(out.planned, mishaps == Mishaps::all);
  }
  return out;
}

void SizeJudge::try_all_mishaps(Judgement& out, Mishaps mishaps) const {
  const SweepPlan plan = mishaps_of(out.planned);
  const VitalCheck check(plan);
  const std::size_t suspects = mishaps == Mishaps::all ? 0 : suspects_.size();
  for (std::size_t s = suspects; s > 0 && out.fatal.empty(); --s) {
    try_mishaps(out, plan, check, suspects_[s - 1]);
  }
  if (out.fatal.empty()) try_mishaps(out, plan, check, std::nullopt);
}

Trial SizeJudge::trial_of(const PlanRun& planned, bool all) const {
  ++trials_;
  if (watch_.progress) watch_.progress(runs_, 0);
  const Confidence& asked = *options_.confidence;
  // What is made for the weather is the same for most sets.
  const TripGround* like = last_drawn_ ? &last_drawn_->trips.ground() : nullptr;
  auto drawn = std::make_unique<Drawn>(planned, asked.seed, like);
  Trial out(asked, planned.course);
  out.run(drawn->trips, all, {.progress = {}, .stop = watch_.stop});
  last_drawn_ = std::move(drawn);
  return out;
}

Totals totals_of(const ChoiceSet& set) {
  Totals out;
  for (const Choice* choice : set) {
    out.kg += choice->totals.kg;
    out.cost += choice->totals.cost;
    out.space_l += choice->totals.space_l;
  }
  return out;
}

std::vector<Failing> failings_of(const Judgement& judgement) {
  std::vector<Failing> out;
  if (const Breach* worst = judgement.planned.verdict.worst_of_reserves()) {
    out.push_back({.breach = *worst});
  } else if (judgement.confirmed) {
    const Breach* then = judgement.confirmed->worst_of_reserves();
    if (then != nullptr) out.push_back({.breach = *then, .unconfirmed = true});
  }
  for (std::size_t v = 0; v < judgement.over_kg.size(); ++v) {
    if (judgement.over_kg[v] <= 0) continue;
    out.push_back({.reason = Failing::Reason::overload,
                   .subject = static_cast<int>(v),
                   .over = judgement.over_kg[v]});
  }
  if (judgement.packed_too_full >= 0) {
    const plan::Plan& plan = judgement.planned.plan;
    const auto cabinet = static_cast<std::size_t>(judgement.packed_too_full);
    const double needed_l =
        plan::packed_kg(plan, judgement.packed_too_full) / plan::most_packed_kg_l;
    out.push_back({.reason = Failing::Reason::packing,
                   .subject = judgement.packed_too_full,
                   .over = needed_l - plan.cold[cabinet].volume_l});
  }
  if (judgement.over_space_l > 0) {
    out.push_back({.reason = Failing::Reason::space, .over = judgement.over_space_l});
  }
  if (judgement.over_budget > 0) {
    out.push_back({.reason = Failing::Reason::budget, .over = judgement.over_budget});
  }
  if (judgement.things_too_many > 0) {
    out.push_back({.reason = Failing::Reason::things,
                   .over = static_cast<double>(judgement.things_too_many)});
  }
  if (!judgement.fatal.empty()) {
    const auto worst = std::ranges::max_element(judgement.fatal, {}, &Finding::short_of);
    const auto failure = static_cast<std::size_t>(worst->failure);
    out.push_back({.reason = Failing::Reason::mishap,
                   .mishap = judgement.failures[failure].name,
                   .finding = *worst});
  }
  if (judgement.trial && !judgement.trial->is_enough()) {
    const Trial& trial = *judgement.trial;
    Failing failing{
        .reason = Failing::Reason::chance, .kept = trial.kept(), .reserve = trial.most_often()};
    if (failing.reserve >= 0) {
      failing.broken = models::chance_of(trial.broken(at(failing.reserve)), trial.trips());
    }
    out.push_back(std::move(failing));
  }
  return out;
}

}  // namespace drystage::answers
