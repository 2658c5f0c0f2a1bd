#include "answers/mishaps/sweep_plan.h"

#include <fmt/core.h>

#include <algorithm>
#include <iterator>
#include <utility>

#include "answers/mishaps/all_mishaps.h"
#include "units/text.h"

namespace drystage::answers {

SweepPlan::SweepPlan(const PlanRun& planned, SweepOptions options, const LaidTrip* like)
    : given_(planned.plan),
      laid_(laid_trip_past_every_supply(planned, like)),
      options_(std::move(options)),
      planned_course_(*laid_.course) {
  list_strikes();
  stands_at_.push_back(first_step());
  for (const Strike& strike : strikes_) stands_at_.push_back(strike.step);
  std::ranges::sort(stands_at_);
  stands_at_.erase(std::unique(stands_at_.begin(), stands_at_.end()), stands_at_.end());
  standings_.reserve(stands_at_.size());
  planned_ = fate_from_each_step(
      *laid_.course, record_, [this](std::size_t step, const engine::Engine::Standing& standing) {
        const std::size_t next = standings_.size();
        if (next < stands_at_.size() && stands_at_[next] == step) standings_.push_back(standing);
      });
  engine::make_up(planned_course_, record_);
}

std::size_t SweepPlan::first_step() const {
  return std::max(morning_step(*laid_.timeline, 0), laid_.course->judged_from());
}

void SweepPlan::list_strikes() {
  for (Mishap& mishap : mishaps_of(laid_)) {
    const bool asked = options_.only.empty() ||
                       std::ranges::find(options_.only, mishap.failure.kind) != options_.only.end();
    if (!asked) continue;
    const std::vector<std::size_t> steps = mishap.strikes(laid_);
    if (steps.empty() && mishap.failure.kind == plan::MishapKind::own) {
      remarks_.push_back(fmt::format("mishap {} strikes on a day that the trip does not have",
                                     units::in_quotes(mishap.failure.name)));
    }
    const std::size_t number = mishaps_.size();
    const std::size_t strikes = strikes_.size();
    for (std::size_t n = 0; n < steps.size(); ++n) {
      if (steps[n] >= laid_.course->judged_from() && on_the_days(laid_, steps[n])) {
        strikes_.push_back({.mishap = number, .ordinal = n, .step = steps[n]});
      }
    }
    if (strikes_.size() == strikes) continue;
    timeless_.emplace_back();
    mishaps_.push_back(std::move(mishap));
  }
}

const engine::Engine::Standing& SweepPlan::before(std::size_t step) const {
  const auto at = std::ranges::lower_bound(stands_at_, step);
  return standings_[static_cast<std::size_t>(at - stands_at_.begin())];
}

void SweepPlan::note_days(std::size_t days) const {
  std::size_t longest = longest_days_;
  while (longest < days && !longest_days_.compare_exchange_weak(longest, days)) {
  }
}

bool SweepPlan::on_the_days(const LaidTrip& laid, std::size_t step) const {
  if (!options_.days) return true;
  const int day = laid.timeline->steps[step].day;
  return day >= options_.days->first && day <= options_.days->second;
}

std::vector<std::string> SweepPlan::remarks() const {
  std::vector<std::string> out = remarks_;
  const auto is_puncture = [](const Mishap& mishap) {
    return mishap.failure.kind == plan::MishapKind::puncture;
  };
  if (std::ranges::any_of(mishaps_, is_puncture)) {
    out.emplace_back(
        "a puncture takes a spare wheel, or where none is left a repair; no repair of a side wall "
        "holds");
  }
  std::ranges::move(borrowed_months(given_, longest_days_), std::back_inserter(out));
  return out;
}

std::span<const Fate> SweepPlan::planned(const engine::TimeStep& from) const {
  const std::vector<engine::TimeStep>& steps = laid_.timeline->steps;
  const auto still_then = [&](std::size_t step) {
    return steps[step].day == from.day && steps[step].from_h <= from.from_h + engine::tiny_h;
  };
  std::size_t s =
      std::min(steps.size() - 1, engine::step_at(*laid_.timeline, from.day, from.from_h));
  while (s + 1 < steps.size() && still_then(s + 1)) ++s;
  const std::size_t reserves = laid_.course->reserves.size();
  return std::span(planned_).subspan(s * reserves, reserves);
}

Finding SweepPlan::plan_itself() const {
  engine::Record record;
  const std::vector<std::size_t> until(laid_.course->reserves.size(), laid_.timeline->steps.size());
  // Judged by its margins alone, and not by itself.
  const std::vector<Fate> nothing_planned(laid_.course->reserves.size());
  const std::size_t first = first_step();
  return finding_after(laid_, before(first), first, until, nothing_planned, record);
}

LaidTrip SweepPlan::struck(const Strike& strike) const {
  const Mishap& mishap = mishaps_[strike.mishap];
  if (mishap.moves_time()) return struck(laid_, mishap, strike.step);
  Timeless& timeless = timeless_[strike.mishap];
  std::call_once(timeless.made, [&] { timeless.laid = struck(laid_, mishap, 0); });
  return timeless.laid;
}

LaidTrip SweepPlan::struck(const LaidTrip& laid, const Mishap& mishap, std::size_t step) const {
  const bool own = laid.course == laid_.course;
  return after(laid, mishap, step, own ? planned_course_ : *laid.course);
}

Finding SweepPlan::finding(const Strike& strike) const { return finding(strike, struck(strike)); }

Finding SweepPlan::finding(const Strike& strike, const LaidTrip& laid) const {
  note_days(laid.timeline->days.size());
  engine::Record record;
  const std::vector<std::size_t> until = judged_until(laid, mishaps_[strike.mishap], strike.step);
  Finding out =
      finding_after(laid, before(strike.step), strike.step, until,
                    planned(laid_.timeline->steps[strike.step]), record, record_.heaviest);
  out.failure = static_cast<int>(strike.mishap);
  // As the plan's own calendar has it, to the last digit: by this it is known again.
  const engine::TimeStep& moment = laid_.timeline->steps[strike.step];
  out.day = moment.day;
  out.hour = moment.from_h;
  return out;
}

Finding SweepPlan::finding_with_retreat(const Strike& strike) const {
  const LaidTrip laid = struck(strike);
  Finding out = finding(strike, laid);
  if (out.outcome >= Outcome::runs_out) {
    out.retreat_saves =
        retreat_saves(laid, mishaps_[strike.mishap], out.reserve, before(strike.step), strike.step);
  }
  return out;
}

}  // namespace drystage::answers
