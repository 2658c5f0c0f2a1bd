#include "answers/mishaps/sweep_plan.h"

#include <fmt/core.h>

#include <algorithm>
#include <iterator>

#include "answers/mishaps/all_mishaps.h"
#include "units/text.h"

namespace drystage::answers {

SweepPlan::SweepPlan(const Trial& trial, const SweepOptions& options)
    : given_(trial.plan),
      voyage_(voyage_past_every_supply(trial)),
      options_(options),
      record_(engine::blank_record(*voyage_.course)),
      standings_(stand_before_each_step(*voyage_.course, record_)),
      planned_(fate_from_each_step(*voyage_.course)),
      planned_course_(*voyage_.course) {
  engine::make_up(planned_course_, record_);
  for (Mishap& mishap : mishaps_of(voyage_)) {
    const bool asked = options.only.empty() ||
                       std::ranges::find(options.only, mishap.failure.kind) != options.only.end();
    if (!asked) continue;
    const std::vector<std::size_t> steps = mishap.strikes(voyage_);
    if (steps.empty() && mishap.failure.kind == plan::MishapKind::own) {
      remarks_.push_back(fmt::format("mishap {} strikes on a day that the trip does not have",
                                     units::in_quotes(mishap.failure.name)));
    }
    const std::size_t number = mishaps_.size();
    const std::size_t strikes = strikes_.size();
    for (std::size_t n = 0; n < steps.size(); ++n) {
      if (on_the_days(voyage_, steps[n])) {
        strikes_.push_back({.mishap = number, .ordinal = n, .step = steps[n]});
      }
    }
    if (strikes_.size() == strikes) continue;
    Voyage timeless;
    if (!mishap.moves_time()) timeless = after(voyage_, mishap, 0, planned_course_);
    timeless_.push_back(std::move(timeless));
    mishaps_.push_back(std::move(mishap));
  }
}

void SweepPlan::note_days(std::size_t days) const {
  std::size_t longest = longest_days_;
  while (longest < days && !longest_days_.compare_exchange_weak(longest, days)) {
  }
}

bool SweepPlan::on_the_days(const Voyage& voyage, std::size_t step) const {
  if (!options_.days) return true;
  const int day = voyage.timeline->steps[step].day;
  return day >= options_.days->first && day <= options_.days->second;
}

std::vector<std::string> SweepPlan::remarks() const {
  std::vector<std::string> out = remarks_;
  std::ranges::move(borrowed_months(given_, longest_days_), std::back_inserter(out));
  return out;
}

std::span<const Fate> SweepPlan::planned(const engine::TimeStep& from) const {
  const std::vector<engine::TimeStep>& steps = voyage_.timeline->steps;
  const auto still_then = [&](std::size_t step) {
    return steps[step].day == from.day && steps[step].from_h <= from.from_h + engine::tiny_h;
  };
  std::size_t s =
      std::min(steps.size() - 1, engine::step_at(*voyage_.timeline, from.day, from.from_h));
  while (s + 1 < steps.size() && still_then(s + 1)) ++s;
  const std::size_t reserves = voyage_.course->reserves.size();
  return std::span(planned_).subspan(s * reserves, reserves);
}

Finding SweepPlan::plan_itself() const {
  engine::Record record;
  const std::vector<std::size_t> until(voyage_.course->reserves.size(),
                                       voyage_.timeline->steps.size());
  // Judged by its margins alone, and not by itself.
  const std::vector<Fate> nothing_planned(voyage_.course->reserves.size());
  const std::size_t first = morning_step(*voyage_.timeline, 0);
  return fare(voyage_, standings_[first], first, until, nothing_planned, record);
}

Voyage SweepPlan::struck(const Strike& strike) const {
  const Mishap& mishap = mishaps_[strike.mishap];
  return mishap.moves_time() ? struck(voyage_, mishap, strike.step) : timeless_[strike.mishap];
}

Voyage SweepPlan::struck(const Voyage& voyage, const Mishap& mishap, std::size_t step) const {
  return after(voyage, mishap, step, planned_course_);
}

Finding SweepPlan::suffer(const Strike& strike) const {
  const Mishap& mishap = mishaps_[strike.mishap];
  const Voyage voyage = struck(strike);
  const engine::Engine::Standing& standing = standings_[strike.step];
  note_days(voyage.timeline->days.size());
  engine::Record record;
  Finding out = fare(voyage, standing, strike.step, judged_until(voyage, mishap, strike.step),
                     planned(voyage_.timeline->steps[strike.step]), record);
  out.failure = static_cast<int>(strike.mishap);
  // As the plan's own calendar has it, to the last digit: by this it is known again.
  const engine::TimeStep& moment = voyage_.timeline->steps[strike.step];
  out.day = moment.day;
  out.hour = moment.from_h;
  if (out.outcome >= Outcome::runs_out) {
    out.retreat_saves = retreat_saves(voyage, mishap, out.reserve, standing, strike.step);
  }
  return out;
}

}  // namespace drystage::answers
