#include "answers/onward/leaving.h"

#include <cmath>
#include <set>

#include "answers/base/supplies.h"
#include "answers/onward/least_level.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

/// The step that drives on after a step, or the number of steps.
std::size_t next_drive(const engine::Timeline& timeline, std::size_t step) {
  while (step < timeline.steps.size() && timeline.steps[step].drive < 0) ++step;
  return step;
}

/// The day on which the party came to where it is before a step that drives away.
int arrival_day(const engine::Timeline& timeline, std::size_t step) {
  const int day = timeline.steps[step].day;
  std::size_t first = step;
  while (first > 0 && timeline.steps[first - 1].drive < 0) --first;
  return first == step ? day : timeline.steps[first].day;
}

/// The steps that drive away from a confirmed supply of a reserve.
std::set<std::size_t> leaving_steps(const LaidTrip& laid, int reserve) {
  const engine::Timeline& timeline = *laid.timeline;
  std::set<std::size_t> out;
  for (const Passed& passed : passed_refuges(laid, reserve)) out.insert(passed.leaves);
  for (const engine::OrderInfo& order : laid.course->orders) {
    if (order.reserve != reserve || !order.open || !order.supply.confirmed) continue;
    for (std::size_t s = 0; s < timeline.steps.size(); ++s) {
      if (timeline.steps[s].stop == order.item) out.insert(next_drive(timeline, s));
    }
  }
  out.erase(timeline.steps.size());
  return out;
}

}  // namespace

std::vector<Leaving> leavings(const PlanRun& planned) {
  const LaidTrip laid = laid_trip_of(planned);
  const LaidTrip certain = laid_trip_on_what_is_certain(planned);
  const engine::Timeline& timeline = *laid.timeline;
  engine::Record record = engine::blank_record(*laid.course);
  engine::Record scratch;
  const auto parts = parts_of_what_there_is(*certain.course);
  std::vector<Leaving> out;
  for (std::size_t r = 0; r < laid.course->reserves.size(); ++r) {
    const engine::ReserveInfo& info = laid.course->reserves[r];
    if (!info.life_supporting || info.sense != engine::Sense::keep_above) continue;
    const int reserve = static_cast<int>(r);
    std::set<std::size_t> steps = leaving_steps(laid, reserve);
    // Those that lie behind.
    std::erase_if(steps, [&](std::size_t step) { return step < laid.course->judged_from(); });
    if (steps.empty()) continue;
    const engine::Course course = taking_all_there_is(*certain.course, reserve, parts);
    engine::make_blank(record, *laid.course);
    engine::Engine::Standing standing = engine::Engine::begin(*laid.course, record);
    for (const std::size_t step : steps) {
      if (!is_there(*laid.course, step, reserve)) continue;
      engine::Engine::go_on(*laid.course, standing, step);
      // Driven through, the place itself is met before that step: look beyond it.
      const auto refuge = next_goal(laid, step + 1, reserve);
      Leaving leaving{
          .reserve = reserve,
          .place = timeline.legs[at(timeline.steps[step].leg)].from,
          .leaves = moment_before(laid, step),
          .step = step,
          .arrives_day = arrival_day(timeline, step),
          .must_have = least_level({.course = course,
                                    .start = standing,
                                    .from = step,
                                    .until = refuge ? refuge->step : timeline.steps.size(),
                                    .reserve = reserve},
                                   scratch),
          .has = standing.run.reserve_level(reserve),
          .fits = true,
          .until_place = refuge ? refuge->place : -1};
      leaving.fits =
          std::isfinite(leaving.must_have) && leaving.must_have <= info.capacity + fit_rounding;
      out.push_back(leaving);
    }
  }
  return out;
}

}  // namespace drystage::answers
