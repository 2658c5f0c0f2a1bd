#include "answers/onward/stretches.h"

#include <algorithm>
#include <utility>

#include "answers/base/supplies.h"

namespace drystage::answers {

WayOn::WayOn(const PlanRun& planned)
    : laid(laid_trip_on_what_is_certain(planned)),
      timeline(*laid.timeline),
      record(engine::blank_record(*laid.course)),
      standings(stand_before_each_step(*laid.course, record)) {}

std::size_t WayOn::after_last_drive() const {
  std::size_t end = timeline.steps.size();
  while (end > 0 && timeline.steps[end - 1].drive < 0) --end;
  return end;
}

std::vector<Span> stretches_of(const WayOn& way) {
  std::vector<Span> out;
  for (std::size_t r = 0; r < way.laid.course->reserves.size(); ++r) {
    const engine::ReserveInfo& info = way.laid.course->reserves[r];
    if (!info.commodity || info.sense != engine::Sense::keep_above) continue;
    const std::vector<Passed> passed = passed_refuges(way.laid, static_cast<int>(r));
    for (std::size_t p = 0; p < passed.size(); ++p) {
      const Refuge* ahead = p + 1 < passed.size() ? &passed[p + 1].refuge : nullptr;
      Span span{.stretch = {},
                .leaves = passed[p].leaves,
                .lasts_to = ahead != nullptr ? ahead->step : way.timeline.steps.size(),
                .to_leg = passed[p].to_leg};
      // Nobody turns back from where the trip ends.
      span.ends = std::min(span.lasts_to, way.after_last_drive());
      if (span.leaves >= span.ends) continue;
      span.stretch.reserve = static_cast<int>(r);
      span.stretch.from_place = passed[p].refuge.place;
      if (ahead != nullptr) span.stretch.to_place = ahead->place;
      span.stretch.leaves = moment_before(way.laid, span.leaves);
      span.stretch.arrives = moment_before(way.laid, span.ends);
      span.slacks.resize(span.ends - span.leaves);
      out.push_back(std::move(span));
    }
  }
  return out;
}

}  // namespace drystage::answers
