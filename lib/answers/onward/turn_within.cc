#include "answers/onward/turn_within.h"

#include <algorithm>
#include <memory>

#include "answers/base/supplies.h"
#include "answers/onward/least_level.h"
#include "answers/onward/retreat.h"
#include "units/day.h"

namespace drystage::answers {
namespace {

using engine::Engine;

/// The trip as it goes on up to a clock hour within a step, and the way back from there. (Not to be
/// copied: what is reached stands in the record.)
struct Broken {
  LaidTrip on{};
  engine::Record record{};
  std::optional<Engine::Standing> reached{};
  std::size_t then = 0;  ///< the step that comes next
  LaidTrip back{};
};

std::unique_ptr<Broken> broken_off(const WayOn& way, const Span& span, std::size_t step,
                                   double hour) {
  auto out = std::make_unique<Broken>();
  const LaidTrip& laid = way.laid;
  const int day = way.timeline.steps[step].day;
  std::vector<engine::Detour> detours = laid.detours;
  const engine::Detour cut{.at_h = day_h * day + hour};
  detours.insert(std::ranges::upper_bound(detours, cut.at_h, {}, &engine::Detour::at_h), cut);
  out->on = changed(laid, laid.plan, detours, day);
  out->on.course = std::make_shared<const engine::Course>(
      engine::recompile(*laid.plan, out->on.timeline, *laid.course, step));
  const engine::Course& course = *out->on.course;
  const bool within = hour > way.timeline.steps[step].from_h + to_the_minute_h / 2;
  out->then = within ? step + 1 : step;
  engine::make_blank(out->record, course);
  out->reached.emplace(Engine::resume(way.standings[step], course, step, out->record));
  Engine::go_on(course, *out->reached, out->then);
  out->back =
      retreat(laid, {.step = step, .hour = hour, .to_leg = span.to_leg}, {span.stretch.reserve});
  return out;
}

}  // namespace

Turned turned_within(const WayOn& way, const Span& span, std::size_t step, double hour,
                     engine::Record& scratch) {
  const int reserve = span.stretch.reserve;
  const std::unique_ptr<Broken> trip = broken_off(way, span, step, hour);
  Turned out{.hour = hour, .moment = moment_before(trip->back, trip->then)};
  const std::optional<Refuge> refuge = next_refuge(trip->back, trip->then, reserve);
  if (!refuge) return out;
  out.slack = slack_over({.course = *trip->back.course,
                          .start = *trip->reached,
                          .from = trip->then,
                          .until = refuge->step,
                          .reserve = reserve},
                         std::nullopt, scratch);
  return out;
}

Balance balance(const WayOn& way, const Span& span, std::size_t step, double hour) {
  engine::Record scratch;
  const int reserve = span.stretch.reserve;
  const std::unique_ptr<Broken> trip = broken_off(way, span, step, hour);
  const auto least = [&](const LaidTrip& laid, const std::optional<Refuge>& supply) {
    const engine::Course course =
        taking_all_there_is(*laid.course, reserve, *trip->reached, trip->then);
    return least_level({.course = course,
                        .start = *trip->reached,
                        .from = trip->then,
                        .until = supply ? supply->step : laid.timeline->steps.size(),
                        .reserve = reserve},
                       scratch);
  };
  const auto home = next_refuge(trip->back, trip->then, reserve);
  const double on = least(trip->on, next_refuge(trip->on, trip->then, reserve));
  const double back = home ? least(trip->back, home) : engine::without_limit;
  return {.back_more = back - on, .on = on, .moment = moment_before(trip->on, trip->then)};
}

}  // namespace drystage::answers
