#include "answers/onward/turn_by_step.h"

#include <algorithm>
#include <map>
#include <span>
#include <utility>

#include "answers/base/in_parallel.h"
#include "answers/base/supplies.h"
#include "answers/onward/least_level.h"
#include "answers/onward/retreat.h"
#include "answers/onward/turn_within.h"

namespace drystage::answers {
namespace {

/// Whether the way back from a step's end may not be the one from the beginning of the next: it is
/// the stretch's last; or it arrives where something is to be had, or another road leads home.
bool ends_apart(const WayOn& way, const Span& span, std::size_t step) {
  if (step + 1 == span.ends) return true;
  const engine::TimeStep& now = way.timeline.steps[step];
  const engine::TimeStep& next = way.timeline.steps[step + 1];
  return now.drive >= 0 && (next.drive < 0 || next.leg != now.leg);
}

/// A way back that is the same from each of some steps on.
struct SharedWay {
  LaidTrip laid;
  std::size_t last = 0;  ///< of these steps
};
/// By leg to go back to; and by the reserve that it must serve, -1: whichever it does.
using Ways = std::map<std::pair<int, int>, SharedWay>;

/// The ways back from the steps of one day.
class DayBack {
 public:
  DayBack(const WayOn& way, std::vector<Span>& spans)
      : way_(way), steps_(way.timeline.steps), spans_(spans) {}

  void try_day(int day) {
    const engine::IndexRange steps = engine::steps_of_days(way_.timeline, day, day + 1);
    for (std::size_t step = steps.from; step < steps.until; ++step) {
      for (Span& span : spans_) {
        if (!span.covers(step)) continue;
        if (!span.of(step).tried) try_back(span, step);
        if (!ends_apart(way_, span, step)) continue;
        const double late_h = std::max(steps_[step].from_h, way_.end_h(step) - to_the_minute_h);
        span.of(step).back_end = turned_within(way_, span, step, late_h, scratch_).slack;
      }
    }
  }

 private:
  /// The way back for a span from a step: one made for a step before it, if that is the same.
  const SharedWay& way_for(const Span& span, std::size_t step, int serves) {
    const std::pair<int, int> key{span.to_leg, serves};
    const auto known = ways_.find(key);
    if (known != ways_.end() && known->second.last >= step) return known->second;
    const Turn turn{.step = step, .hour = steps_[step].from_h, .to_leg = span.to_leg};
    SharedWay way{.laid = retreat(way_.laid, turn, {span.stretch.reserve}), .last = step};
    while (rests(way.laid, way.last)) ++way.last;
    return ways_.insert_or_assign(key, std::move(way)).first->second;
  }

  /// Whether nobody moves in a step, neither on the way back nor else, and the day goes on after
  /// it: who turns back after the step then does as who has before it.
  [[nodiscard]] bool rests(const LaidTrip& back, std::size_t step) const {
    const std::vector<engine::TimeStep>& there = back.timeline->steps;
    if (step + 1 >= steps_.size() || step + 1 >= there.size()) return false;
    const auto stands = [](const engine::TimeStep& s) { return s.drive < 0 && s.stop < 0; };
    const auto begin_together = [&](std::size_t s) {
      return steps_[s].day == there[s].day && steps_[s].from_h == there[s].from_h;
    };
    const engine::TimeStep& next = steps_[step + 1];
    return stands(steps_[step]) && stands(there[step]) && begin_together(step) &&
           begin_together(step + 1) && next.stop < 0 && next.day == steps_[step].day;
  }

  [[nodiscard]] bool same_company(const LaidTrip& back, std::size_t step) const {
    return way_.timeline.companies[at(steps_[step].company)] ==
           back.timeline->companies[at(back.timeline->steps[step].company)];
  }

  /// Whether people need the same in a step on the way back as else: a day of driving may ask for
  /// more from its first hour on.
  [[nodiscard]] bool needs_the_same(const LaidTrip& back, std::size_t step) const {
    const engine::TimeStep& one = steps_[step];
    const engine::TimeStep& other = back.timeline->steps[step];
    const engine::StepConditions& here = way_.timeline.conditions.steps[step];
    const engine::StepConditions& there = back.timeline->conditions.steps[step];
    // Who keeps water of their own may need the same all together, and another part of it each.
    return same_company(back, step) && one.meals == other.meals &&
           one.utility_l == other.utility_l && one.potable_utility_l == other.potable_utility_l &&
           here.drink_l == there.drink_l && here.air_c == there.air_c;
  }

  /// The slack of a span on its way back from a step; and at little cost that of all spans which
  /// that way serves, and from the steps after it for which it is the same.
  void try_back(Span& asked, std::size_t step) {
    const SharedWay* way = &way_for(asked, step, -1);
    const bool shared = next_refuge(way->laid, step, asked.stretch.reserve).has_value();
    if (!shared) way = &way_for(asked, step, asked.stretch.reserve);
    std::size_t last = step;
    while (last < way->last && needs_the_same(way->laid, last)) ++last;
    std::vector<Span*> served;
    std::vector<Goal> goals;
    for (Span& span : spans_) {
      const bool serves = shared ? span.to_leg == asked.to_leg : &span == &asked;
      if (!serves || !span.covers(step) || span.of(step).tried) continue;
      const auto refuge = next_refuge(way->laid, step, span.stretch.reserve);
      if (!refuge) continue;
      if (refuge->step <= last) last = step;
      served.push_back(&span);
      goals.push_back({.reserve = span.stretch.reserve, .until = refuge->step});
    }
    if (!goals.empty()) {
      const std::span starts = std::span(way_.standings).subspan(step, last + 1 - step);
      const auto slacks = slacks_from_each(*way->laid.course, starts, step, goals, scratch_);
      for (std::size_t g = 0; g < goals.size(); ++g) {
        for (std::size_t s = step; s <= last && served[g]->covers(s); ++s) {
          served[g]->of(s).back = slacks[g][s - step];
          served[g]->of(s).tried = true;
        }
      }
    }
    asked.of(step).tried = true;
  }

  const WayOn& way_;
  const std::vector<engine::TimeStep>& steps_;
  std::vector<Span>& spans_;
  Ways ways_;
  engine::Record scratch_;
};

bool is_ordered(const WayOn& way, int reserve, std::size_t step) {
  const int stop = way.timeline.steps[step].stop;
  return stop >= 0 && std::ranges::any_of(way.laid.course->orders, [&](const auto& order) {
           return order.item == stop && order.reserve == reserve;
         });
}

/// The slack on the way to the next supply. Until the reserve is ordered, that is the trip itself.
/// The course takes all that there is of it.
void try_on(const WayOn& way, const engine::Course& course, Span& span) {
  engine::Record scratch;
  const int reserve = span.stretch.reserve;
  std::size_t next = span.leaves;
  while (next < span.ends) {
    const std::size_t from = next++;
    while (next < span.ends && !is_ordered(way, reserve, next - 1)) ++next;
    const std::span starts = std::span(way.standings).subspan(from, next - from);
    const std::vector<Goal> goals{{.reserve = reserve, .until = span.lasts_to}};
    const auto slacks = slacks_from_each(course, starts, from, goals, scratch);
    for (std::size_t s = from; s < next; ++s) span.of(s).on = slacks.front()[s - from];
  }
}

}  // namespace

void try_each_step(const WayOn& way, std::vector<Span>& spans) {
  const engine::Course& course = *way.laid.course;
  in_parallel(way.timeline.days.size(),
              [&](std::size_t day) { DayBack(way, spans).try_day(static_cast<int>(day)); });
  const auto parts = parts_of_what_there_is(course);
  std::map<int, engine::Course> on;
  for (Span& span : spans) {
    for (std::size_t s = span.leaves; s + 1 < span.ends; ++s) {
      if (!ends_apart(way, span, s)) span.of(s).back_end = span.of(s + 1).back;
    }
    const int reserve = span.stretch.reserve;
    if (!on.contains(reserve)) on.emplace(reserve, taking_all_there_is(course, reserve, parts));
  }
  in_parallel(spans.size(),
              [&](std::size_t s) { try_on(way, on.at(spans[s].stretch.reserve), spans[s]); });
}

}  // namespace drystage::answers
