#include "answers/onward/turn_back.h"

#include <oneapi/tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <utility>

#include "answers/onward/least_level.h"
#include "answers/onward/retreat.h"
#include "units/day.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

using engine::Engine;

constexpr double to_the_minute_h = 1.0 / 120;
constexpr double nowhere = -std::numeric_limits<double>::infinity();

/// A stretch as it is worked out.
struct Span {
  SupplyStretch stretch;
  std::size_t leaves = 0;    ///< step at which the supply behind is left
  std::size_t lasts_to = 0;  ///< step before which the one ahead is reached, or the trip ends
  std::size_t ends = 0;      ///< the same, or the end of the last drive
  int to_leg = 0;            ///< the leg that led away from it
  // By step from `leaves` to `ends`: slack at its tightest ...
  std::vector<double> back;      ///< on the way back
  std::vector<double> back_end;  ///< the same from the step's last minute
  std::vector<double> on;        ///< on the way to the next supply
  std::vector<char> tried;       ///< whether the way back has been tried

  [[nodiscard]] bool covers(std::size_t step) const { return step >= leaves && step < ends; }
  [[nodiscard]] bool possible(std::size_t step) const {
    return back[step - leaves] >= -engine::rounding;
  }
  [[nodiscard]] bool possible_to_end(std::size_t step) const {
    return back_end[step - leaves] >= -engine::rounding;
  }
  [[nodiscard]] bool is_tried(std::size_t step) const { return tried[step - leaves] != 0; }

  /// The slacks on the ways back from a step and those after it.
  void take_back(std::size_t step, const std::vector<double>& slacks) {
    for (std::size_t i = 0; i < slacks.size() && covers(step + i); ++i) {
      back[step + i - leaves] = slacks[i];
      tried[step + i - leaves] = 1;
    }
  }
};

class TurnBackSearch {
 public:
  explicit TurnBackSearch(const PlanRun& planned)
      : laid_(laid_trip_on_what_is_certain(planned)),
        timeline_(*laid_.timeline),
        record_(engine::blank_record(*laid_.course)),
        standings_(stand_before_each_step(*laid_.course, record_)) {}

  TurnBack answer() {
    find_spans();
    const auto parts = parts_of_what_there_is(*laid_.course);
    for (const Span& span : spans_) {
      const int reserve = span.stretch.reserve;
      if (!on_.contains(reserve)) {
        on_.emplace(reserve, taking_all_there_is(*laid_.course, reserve, parts));
      }
    }
    tbb::parallel_for(std::size_t{0}, timeline_.days.size(), [&](std::size_t day) {
      engine::Record scratch;
      try_day(static_cast<int>(day), scratch);
    });
    tbb::parallel_for(std::size_t{0}, spans_.size(), [&](std::size_t s) { try_on(spans_[s]); });
    for (Span& span : spans_) {
      for (std::size_t i = 0; i + 1 < span.back.size(); ++i) {
        if (!ends_apart(span, span.leaves + i)) span.back_end[i] = span.back[i + 1];
      }
    }
    tbb::parallel_for(std::size_t{0}, spans_.size(), [&](std::size_t s) { judge(spans_[s]); });
    TurnBack out;
    for (const Span& span : spans_) out.stretches.push_back(span.stretch);
    out.windows = windows(spans_);
    std::vector<Span> vital;
    std::ranges::copy_if(spans_, std::back_inserter(vital), [this](const Span& span) {
      return laid_.course->reserves[at(span.stretch.reserve)].life_supporting;
    });
    out.vital = windows(vital);
    return out;
  }

 private:
  // --- the stretches ---

  void find_spans() {
    for (std::size_t r = 0; r < laid_.course->reserves.size(); ++r) {
      const engine::ReserveInfo& info = laid_.course->reserves[r];
      if (!info.commodity || info.sense != engine::Sense::keep_above) continue;
      find_spans_of(static_cast<int>(r));
    }
  }

  void find_spans_of(int reserve) {
    const std::vector<Passed> passed = passed_refuges(laid_, reserve);
    for (std::size_t p = 0; p < passed.size(); ++p) {
      const Passed& behind = passed[p];
      const bool last = p + 1 == passed.size();
      Span span;
      span.stretch.reserve = reserve;
      span.stretch.from_place = behind.refuge.place;
      span.stretch.to_place = last ? -1 : passed[p + 1].refuge.place;
      span.leaves = behind.leaves;
      span.lasts_to = last ? timeline_.steps.size() : passed[p + 1].refuge.step;
      // Nobody turns back from where the trip ends.
      span.ends = std::min(span.lasts_to, after_last_drive());
      span.to_leg = behind.to_leg;
      if (span.leaves >= span.ends) continue;
      span.stretch.leaves = moment_before(laid_, span.leaves);
      span.stretch.arrives = moment_before(laid_, span.ends);
      span.back.assign(span.ends - span.leaves, nowhere);
      span.back_end.assign(span.ends - span.leaves, nowhere);
      span.on.assign(span.ends - span.leaves, nowhere);
      span.tried.assign(span.ends - span.leaves, 0);
      spans_.push_back(std::move(span));
    }
  }

  [[nodiscard]] std::size_t after_last_drive() const {
    std::size_t end = timeline_.steps.size();
    while (end > 0 && timeline_.steps[end - 1].drive < 0) --end;
    return end;
  }

  // --- one moment ---

  /// Least slack of a reserve on a way back that begins before a step.
  static double slack_back(const LaidTrip& back, const Engine::Standing& start, std::size_t step,
                           int reserve, engine::Record& scratch) {
    const std::optional<Refuge> refuge = next_refuge(back, step, reserve);
    if (!refuge) return nowhere;
    return slack_over({.course = *back.course,
                       .start = start,
                       .from = step,
                       .until = refuge->step,
                       .reserve = reserve},
                      std::nullopt, scratch);
  }

  /// Whether the way back from a step's end may not be the one from the beginning of the next: it
  /// is the stretch's last; or it arrives where something is to be had, or another road leads home.
  [[nodiscard]] bool ends_apart(const Span& span, std::size_t step) const {
    if (step + 1 == span.ends) return true;
    const engine::TimeStep& next = timeline_.steps[step + 1];
    return timeline_.steps[step].drive >= 0 &&
           (next.drive < 0 || next.leg != timeline_.steps[step].leg);
  }

  /// A way back that is the same from each of some steps on.
  struct SharedWay {
    LaidTrip laid;
    std::size_t last = 0;  ///< of these steps
  };
  /// By leg to go back to; and by the reserve that it must serve, -1: whichever it does.
  using Ways = std::map<std::pair<int, int>, SharedWay>;

  [[nodiscard]] Turn turn_at(const Span& span, std::size_t step) const {
    return {.step = step, .hour = timeline_.steps[step].from_h, .to_leg = span.to_leg};
  }

  void try_day(int day, engine::Record& scratch) {
    Ways ways;
    const engine::IndexRange steps = engine::steps_of_days(timeline_, day, day + 1);
    for (std::size_t step = steps.from; step < steps.until; ++step) {
      for (Span& span : spans_) {
        if (!span.covers(step)) continue;
        if (!span.is_tried(step)) try_back(span, step, ways, scratch);
        if (!ends_apart(span, step)) continue;
        const double late_h = std::max(timeline_.steps[step].from_h, end_h(step) - to_the_minute_h);
        span.back_end[step - span.leaves] = turned_within(span, step, late_h, scratch).slack;
      }
    }
  }

  /// The way back for a span from a step: one made for a step before it, if that is the same.
  const SharedWay& way_for(const Span& span, std::size_t step, int serves, Ways& ways) const {
    const std::pair<int, int> key{span.to_leg, serves};
    const auto known = ways.find(key);
    if (known != ways.end() && known->second.last >= step) return known->second;
    SharedWay way{.laid = retreat(laid_, turn_at(span, step), {span.stretch.reserve})};
    way.last = step;
    while (rests(way.laid, way.last)) ++way.last;
    return ways.insert_or_assign(key, std::move(way)).first->second;
  }

  /// Whether nobody moves in a step, neither on the way back nor else, and the day goes on after
  /// it: who turns back after the step then does as who has before it.
  [[nodiscard]] bool rests(const LaidTrip& back, std::size_t step) const {
    const std::vector<engine::TimeStep>& there = back.timeline->steps;
    if (step + 1 >= timeline_.steps.size() || step + 1 >= there.size()) return false;
    const auto stands = [](const engine::TimeStep& s) { return s.drive < 0 && s.stop < 0; };
    const auto begin_together = [&](std::size_t s) {
      const engine::TimeStep& one = timeline_.steps[s];
      return one.day == there[s].day && one.from_h == there[s].from_h;
    };
    const engine::TimeStep& next = timeline_.steps[step + 1];
    return stands(timeline_.steps[step]) && stands(there[step]) && begin_together(step) &&
           begin_together(step + 1) && next.stop < 0 && next.day == timeline_.steps[step].day;
  }

  /// Whether people need the same in a step on the way back as else: a day of driving may ask for
  /// more from its first hour on.
  [[nodiscard]] bool needs_the_same(const LaidTrip& back, std::size_t step) const {
    const engine::TimeStep& one = timeline_.steps[step];
    const engine::TimeStep& other = back.timeline->steps[step];
    const engine::StepConditions& here = timeline_.conditions.steps[step];
    const engine::StepConditions& there = back.timeline->conditions.steps[step];
    return one.meals == other.meals && one.utility_l == other.utility_l &&
           one.potable_utility_l == other.potable_utility_l && here.drink_l == there.drink_l &&
           here.air_c == there.air_c;
  }

  /// The slack of a span on its way back from a step; and at little cost that of all spans which
  /// that way serves, and from the steps after it for which it is the same.
  void try_back(Span& asked, std::size_t step, Ways& ways, engine::Record& scratch) {
    const SharedWay* way = &way_for(asked, step, -1, ways);
    const bool shared = next_refuge(way->laid, step, asked.stretch.reserve).has_value();
    if (!shared) way = &way_for(asked, step, asked.stretch.reserve, ways);
    std::size_t last = step;
    while (last < way->last && needs_the_same(way->laid, last)) ++last;
    std::vector<Span*> served;
    std::vector<Goal> goals;
    for (Span& span : spans_) {
      const bool serves = shared ? span.to_leg == asked.to_leg : &span == &asked;
      if (!serves || !span.covers(step) || span.is_tried(step)) continue;
      const auto refuge = next_refuge(way->laid, step, span.stretch.reserve);
      if (!refuge) continue;
      if (refuge->step <= last) last = step;
      served.push_back(&span);
      goals.push_back({.reserve = span.stretch.reserve, .until = refuge->step});
    }
    if (!goals.empty()) {
      const std::span starts = std::span(standings_).subspan(step, last + 1 - step);
      const auto slacks = slacks_from_each(*way->laid.course, starts, step, goals, scratch);
      for (std::size_t g = 0; g < goals.size(); ++g) served[g]->take_back(step, slacks[g]);
    }
    asked.tried[step - asked.leaves] = 1;
  }

  /// The slack on the way to the next supply. Until the reserve is ordered, that is the trip
  /// itself.
  void try_on(Span& span) const {
    engine::Record scratch;
    const int reserve = span.stretch.reserve;
    const engine::Course& course = on_.at(reserve);
    std::size_t next = span.leaves;
    while (next < span.ends) {
      const std::size_t from = next++;
      while (next < span.ends && !is_ordered(course, reserve, next - 1)) ++next;
      const std::span starts = std::span(standings_).subspan(from, next - from);
      const std::vector<Goal> goals{{.reserve = reserve, .until = span.lasts_to}};
      std::ranges::copy(slacks_from_each(course, starts, from, goals, scratch).front(),
                        span.on.begin() + static_cast<std::ptrdiff_t>(from - span.leaves));
    }
  }

  [[nodiscard]] bool is_ordered(const engine::Course& course, int reserve, std::size_t step) const {
    const int stop = timeline_.steps[step].stop;
    return stop >= 0 && std::ranges::any_of(course.orders, [&](const engine::OrderInfo& order) {
             return order.item == stop && order.reserve == reserve;
           });
  }

  // --- to the minute ---

  /// The clock hour at which a step ends, in its day.
  [[nodiscard]] double end_h(std::size_t step) const {
    return timeline_.steps[step].from_h + timeline_.steps[step].dt_h;
  }

  /// The trip as it goes on up to a clock hour within a step, and a little beyond.
  struct GoneOn {
    LaidTrip laid{};
    engine::Record record{};
    std::optional<Engine::Standing> reached{};
    std::size_t then = 0;  ///< the step that comes next
  };

  std::unique_ptr<GoneOn> gone_on(std::size_t step, double hour) const {
    auto out = std::make_unique<GoneOn>();
    const int day = timeline_.steps[step].day;
    std::vector<engine::Detour> detours = laid_.detours;
    const engine::Detour cut{.at_h = day_h * day + hour};
    detours.insert(std::ranges::upper_bound(detours, cut.at_h, {}, &engine::Detour::at_h), cut);
    out->laid = changed(laid_, laid_.plan, detours, day);
    out->laid.course = std::make_shared<const engine::Course>(
        engine::recompile(*laid_.plan, out->laid.timeline, *laid_.course, step));
    const engine::Course& course = *out->laid.course;
    const bool within = hour > timeline_.steps[step].from_h + to_the_minute_h / 2;
    out->then = within ? step + 1 : step;
    engine::make_blank(out->record, course);
    out->reached.emplace(Engine::resume(standings_[step], course, step, out->record));
    Engine::go_on(course, *out->reached, out->then);
    return out;
  }

  /// A way back that begins at a clock hour within a step: where, and its least slack.
  struct Turned {
    double slack = nowhere;
    Moment moment;
  };

  Turned turned_within(const Span& span, std::size_t step, double hour,
                       engine::Record& scratch) const {
    const int reserve = span.stretch.reserve;
    const std::unique_ptr<GoneOn> until = gone_on(step, hour);
    const LaidTrip back =
        retreat(laid_, {.step = step, .hour = hour, .to_leg = span.to_leg}, {reserve});
    return {.slack = slack_back(back, *until->reached, until->then, reserve, scratch),
            .moment = moment_before(back, until->then)};
  }

  /// The moment reached `hour` o'clock within a step, on the way that is turned back from there.
  struct Reached {
    double hour = 0;
    Moment moment;
  };

  /// The last moment within a step from which a way back keeps its margin, where that of the step's
  /// beginning does and that of its last minute does not.
  Reached last_within(const Span& span, std::size_t step) const {
    engine::Record scratch;
    Reached out{.hour = timeline_.steps[step].from_h, .moment = moment_before(laid_, step)};
    double impossible_h = end_h(step);
    while (impossible_h - out.hour > to_the_minute_h) {
      const double hour = (out.hour + impossible_h) / 2;
      const Turned turned = turned_within(span, step, hour, scratch);
      if (turned.slack >= -engine::rounding) {
        out = {.hour = hour, .moment = turned.moment};
      } else {
        impossible_h = hour;
      }
    }
    return out;
  }

  /// The first moment within a step from which a way back keeps its margin, where that of the
  /// step's beginning does not and that of its last minute does.
  Reached first_within(const Span& span, std::size_t step) const {
    engine::Record scratch;
    Reached out{.hour = end_h(step), .moment = moment_before(laid_, step + 1)};
    double impossible_h = timeline_.steps[step].from_h;
    while (out.hour - impossible_h > to_the_minute_h) {
      const double hour = (out.hour + impossible_h) / 2;
      const Turned turned = turned_within(span, step, hour, scratch);
      if (turned.slack >= -engine::rounding) {
        out = {.hour = hour, .moment = turned.moment};
      } else {
        impossible_h = hour;
      }
    }
    return out;
  }

  /// What going back needs more than going on, from a moment within a step; and what going on
  /// needs.
  struct Balance {
    double back_more = 0;
    double on = 0;
    Moment moment;
  };

  Balance balance(const Span& span, std::size_t step, double hour) const {
    engine::Record scratch;
    const int reserve = span.stretch.reserve;
    const std::unique_ptr<GoneOn> until = gone_on(step, hour);
    const std::size_t then = until->then;
    const Engine::Standing& reached = *until->reached;
    const auto refuge = next_refuge(until->laid, then, reserve);
    const LaidTrip back =
        retreat(laid_, {.step = step, .hour = hour, .to_leg = span.to_leg}, {reserve});
    const auto home = next_refuge(back, then, reserve);
    Balance out{.moment = moment_before(until->laid, then)};
    const auto least = [&](const LaidTrip& way, const std::optional<Refuge>& supply) {
      const engine::Course course = taking_all_there_is(*way.course, reserve, reached, then);
      return least_level({.course = course,
                          .start = reached,
                          .from = then,
                          .until = supply ? supply->step : way.timeline->steps.size(),
                          .reserve = reserve},
                         scratch);
    };
    out.on = least(until->laid, refuge);
    const double need_back = home ? least(back, home) : engine::without_limit;
    out.back_more = need_back - out.on;
    return out;
  }

  /// Where going on and going back need the same: between two steps of which the first asks for
  /// less on the way back and the second for more.
  void find_even(Span& span) const {
    for (std::size_t k = span.leaves; k + 1 < span.ends; ++k) {
      const std::size_t i = k - span.leaves;
      const bool nearer_home = span.back[i] > span.on[i];
      if (!nearer_home || span.back[i + 1] > span.on[i + 1]) continue;
      double low_h = timeline_.steps[k].from_h;
      double high_h = end_h(k);
      Balance even = balance(span, k, low_h);
      while (high_h - low_h > to_the_minute_h) {
        const double hour = (low_h + high_h) / 2;
        const Balance middle = balance(span, k, hour);
        if (middle.back_more <= 0) {
          low_h = hour;
          even = middle;
        } else {
          high_h = hour;
        }
      }
      if (!std::isfinite(even.on)) return;
      span.stretch.even = even.moment;
      span.stretch.even_need = even.on;
      return;
    }
  }

  void judge(Span& span) const {
    SupplyStretch& stretch = span.stretch;
    stretch.windows = windows({span}, span.leaves, span.ends);
    auto next = stretch.windows.begin();
    if (next != stretch.windows.end() && is_when(next->from, stretch.leaves)) {
      stretch.always = next->decides < 0;
      if (!stretch.always) stretch.last = next->last;
      ++next;
    }
    if (next != stretch.windows.end()) stretch.again = next->from;
    find_even(span);
  }

  static double trip_hour(const Moment& moment) { return day_h * moment.day + moment.hour; }

  static bool is_when(const Moment& a, const Moment& b) {
    return std::abs(trip_hour(a) - trip_hour(b)) < to_the_minute_h;
  }

  // --- all together ---

  [[nodiscard]] static bool all_possible(const std::vector<Span>& spans, std::size_t step) {
    return std::ranges::all_of(
        spans, [&](const Span& span) { return !span.covers(step) || span.possible(step); });
  }

  [[nodiscard]] static bool all_possible_to_end(const std::vector<Span>& spans, std::size_t step) {
    return std::ranges::all_of(
        spans, [&](const Span& span) { return !span.covers(step) || span.possible_to_end(step); });
  }

  [[nodiscard]] std::vector<Window> windows(const std::vector<Span>& spans) const {
    std::size_t first = standings_.size();
    for (const Span& span : spans) first = std::min(first, span.leaves);
    return windows(spans, first, after_last_drive());
  }

  /// The times between two steps, `first` and `end`, at which it is possible for all.
  [[nodiscard]] std::vector<Window> windows(const std::vector<Span>& spans, std::size_t first,
                                            std::size_t end) const {
    std::vector<Window> out;
    for (std::size_t k = first; k < end; ++k) {
      if (!all_possible(spans, k)) continue;
      Window window;
      window.from = k > first ? opens(spans, k) : moment_before(laid_, k);
      while (k + 1 < end && all_possible_to_end(spans, k) && all_possible(spans, k + 1)) ++k;
      close(spans, window, k, end);
      // One instant is no time in which anything can be done.
      if (trip_hour(window.last) - trip_hour(window.from) >= minute_h) out.push_back(window);
    }
    return out;
  }

  /// The moment from which it is possible for all, where it is before a step and was not before the
  /// one that ends there.
  [[nodiscard]] Moment opens(const std::vector<Span>& spans, std::size_t step) const {
    if (!all_possible_to_end(spans, step - 1)) return moment_before(laid_, step);
    Reached out{.hour = timeline_.steps[step - 1].from_h, .moment = moment_before(laid_, step - 1)};
    for (const Span& span : spans) {
      if (!span.covers(step - 1) || span.possible(step - 1)) continue;
      const Reached first = first_within(span, step - 1);
      if (first.hour > out.hour) out = first;
    }
    return out.moment;
  }

  /// Ends a window within its last step, by the first reserve for which turning back fails.
  void close(const std::vector<Span>& spans, Window& window, std::size_t step,
             std::size_t end) const {
    window.last = moment_before(laid_, step + 1);
    double soonest_h = std::numeric_limits<double>::infinity();
    for (const Span& span : spans) {
      const bool within = span.covers(step) && !span.possible_to_end(step);
      const bool at_next = step + 1 < end && span.covers(step + 1) && !span.possible(step + 1);
      if (!within && !at_next) continue;
      // What fails at the next step and not before, a stretch that begins there or a worse road
      // home from there, fails at once.
      const Reached last =
          within ? last_within(span, step)
                 : Reached{.hour = end_h(step), .moment = moment_before(laid_, step + 1)};
      if (last.hour >= soonest_h) continue;
      soonest_h = last.hour;
      window.last = last.moment;
      window.decides = span.stretch.reserve;
    }
  }

  LaidTrip laid_;
  const engine::Timeline& timeline_;
  engine::Record record_;
  std::vector<Engine::Standing> standings_;
  std::vector<Span> spans_;
  std::map<int, engine::Course> on_;  ///< by reserve: going on, and taking all that there is of it
};

}  // namespace

TurnBack turn_back_points(const PlanRun& planned) { return TurnBackSearch(planned).answer(); }

}  // namespace drystage::answers
