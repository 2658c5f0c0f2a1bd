#include "answers/onward/turn_back.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <span>

#include "answers/base/in_parallel.h"
#include "answers/onward/turn_by_step.h"
#include "answers/onward/turn_within.h"
#include "units/day.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

/// When turning back is possible for each of some stretches at once.
class Windows {
 public:
  Windows(const WayOn& way, std::span<const Span> spans) : way_(way), spans_(spans) {}

  /// The times between two steps, `first` and `end`, at which it is possible for all.
  [[nodiscard]] std::vector<Window> between(std::size_t first, std::size_t end) const {
    std::vector<Window> out;
    for (std::size_t k = first; k < end; ++k) {
      if (!possible(k, &StepSlacks::back)) continue;
      Window window;
      window.from = k > first ? opens(k) : moment_before(way_.laid, k);
      while (k + 1 < end && possible(k, &StepSlacks::back_end) &&
             possible(k + 1, &StepSlacks::back))
        ++k;
      close(window, k, end);
      // One instant is no time in which anything can be done.
      if (window.last.trip_h() - window.from.trip_h() >= minute_h) out.push_back(window);
    }
    return out;
  }

  /// The same from the first step of any stretch to the last drive.
  [[nodiscard]] std::vector<Window> all() const {
    std::size_t first = way_.standings.size();
    for (const Span& span : spans_) first = std::min(first, span.leaves);
    return between(first, way_.after_last_drive());
  }

 private:
  /// Whether a stretch stands in the way of turning back at a step's beginning, or its end.
  static bool fails(const Span& span, std::size_t step, double StepSlacks::*when) {
    return span.covers(step) && span.of(step).*when < -engine::rounding;
  }
  [[nodiscard]] bool possible(std::size_t step, double StepSlacks::*when) const {
    return std::ranges::none_of(spans_, [&](const Span& span) { return fails(span, step, when); });
  }

  /// The moment within a step nearest to another from which a way back keeps its margin, where that
  /// of the step's one end does and that of the other, at `impossible_h`, does not.
  [[nodiscard]] Turned limit(const Span& span, std::size_t step, const Turned& possible,
                             double impossible_h) const {
    engine::Record scratch;
    const auto look = [&](double hour) -> std::optional<Turned> {
      const Turned turned = turned_within(way_, span, step, hour, scratch);
      return turned.slack >= -engine::rounding ? std::optional(turned) : std::nullopt;
    };
    return to_the_minute(possible, possible.hour, impossible_h, look);
  }

  [[nodiscard]] Turned begins(std::size_t step) const {
    return {.hour = way_.timeline.steps[step].from_h, .moment = moment_before(way_.laid, step)};
  }
  [[nodiscard]] Turned ends(std::size_t step) const {
    return {.hour = way_.end_h(step), .moment = moment_before(way_.laid, step + 1)};
  }

  /// The moment from which it is possible for all, where it is before a step and was not before the
  /// one that ends there.
  [[nodiscard]] Moment opens(std::size_t step) const {
    if (!possible(step - 1, &StepSlacks::back_end)) return moment_before(way_.laid, step);
    Turned out = begins(step - 1);
    for (const Span& span : spans_) {
      if (!fails(span, step - 1, &StepSlacks::back)) continue;
      const Turned first = limit(span, step - 1, ends(step - 1), begins(step - 1).hour);
      if (first.hour > out.hour) out = first;
    }
    return out.moment;
  }

  /// Ends a window within its last step, by the first reserve for which turning back fails.
  void close(Window& window, std::size_t step, std::size_t end) const {
    window.last = moment_before(way_.laid, step + 1);
    double soonest_h = std::numeric_limits<double>::infinity();
    for (const Span& span : spans_) {
      const bool within = fails(span, step, &StepSlacks::back_end);
      const bool at_next = step + 1 < end && fails(span, step + 1, &StepSlacks::back);
      if (!within && !at_next) continue;
      // What fails at the next step and not before, a stretch that begins there or a worse road
      // home from there, fails at once.
      const Turned last = within ? limit(span, step, begins(step), way_.end_h(step)) : ends(step);
      if (last.hour >= soonest_h) continue;
      soonest_h = last.hour;
      window.last = last.moment;
      window.decides = span.stretch.reserve;
    }
  }

  const WayOn& way_;
  std::span<const Span> spans_;
};

/// Where going on and going back need the same: between two steps of which the first asks for less
/// on the way back and the second for more.
void find_even(const WayOn& way, Span& span) {
  for (std::size_t k = span.leaves; k + 1 < span.ends; ++k) {
    const StepSlacks& now = span.of(k);
    const StepSlacks& next = span.of(k + 1);
    if (now.back <= now.on || next.back > next.on) continue;
    const double from_h = way.timeline.steps[k].from_h;
    const auto look = [&](double hour) -> std::optional<Balance> {
      const Balance there = balance(way, span, k, hour);
      return there.back_more <= 0 ? std::optional(there) : std::nullopt;
    };
    const Balance even = to_the_minute(balance(way, span, k, from_h), from_h, way.end_h(k), look);
    if (!std::isfinite(even.on)) return;
    span.stretch.even = even.moment;
    span.stretch.even_need = even.on;
    return;
  }
}

void judge(const WayOn& way, Span& span) {
  SupplyStretch& stretch = span.stretch;
  stretch.windows = Windows(way, {&span, 1}).between(span.leaves, span.ends);
  auto next = stretch.windows.begin();
  if (next != stretch.windows.end() &&
      std::abs(next->from.trip_h() - stretch.leaves.trip_h()) < to_the_minute_h) {
    stretch.always = next->decides < 0;
    if (!stretch.always) stretch.last = next->last;
    ++next;
  }
  if (next != stretch.windows.end()) stretch.again = next->from;
  find_even(way, span);
}

}  // namespace

TurnBack turn_back_points(const PlanRun& planned) {
  const WayOn way(planned);
  std::vector<Span> spans = stretches_of(way);
  try_each_step(way, spans);
  in_parallel(spans.size(), [&](std::size_t s) { judge(way, spans[s]); });
  TurnBack out;
  for (const Span& span : spans) out.stretches.push_back(span.stretch);
  out.windows = Windows(way, spans).all();
  std::vector<Span> vital;
  std::ranges::copy_if(spans, std::back_inserter(vital), [&](const Span& span) {
    return way.laid.course->reserves[at(span.stretch.reserve)].life_supporting;
  });
  out.vital = Windows(way, vital).all();
  return out;
}

}  // namespace drystage::answers
