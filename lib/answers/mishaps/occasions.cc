#include "answers/mishaps/occasions.h"

#include <optional>

#include "answers/mishaps/aftermath.h"
#include "answers/onward/retreat.h"
#include "units/index.h"

namespace drystage::answers {

std::vector<std::size_t> mornings(const LaidTrip& laid) {
  std::vector<std::size_t> out;
  out.reserve(laid.timeline->days.size());
  for (int day = 0; day < static_cast<int>(laid.timeline->days.size()); ++day) {
    out.push_back(morning_step(*laid.timeline, day));
  }
  return out;
}

std::vector<std::size_t> along_legs(const LaidTrip& laid, double share) {
  const engine::Timeline& timeline = *laid.timeline;
  std::vector<std::size_t> out;
  int reached = -1;
  double done_km = 0;
  int leg = -1;
  for (std::size_t s = 0; s < timeline.steps.size(); ++s) {
    const engine::TimeStep& step = timeline.steps[s];
    if (step.drive < 0) continue;
    if (step.leg != leg) done_km = 0;
    leg = step.leg;
    const double whole_km = timeline.legs[at(leg)].distance_km;
    done_km += step.distance_km;
    // The step that ends at or beyond the share is the last one driven; nought is before the first.
    const bool there =
        share <= 0 || done_km > share * whole_km + tiny_km || done_km >= whole_km - tiny_km;
    if (!there || reached == leg) continue;
    reached = leg;
    out.push_back(s);
  }
  return out;
}

std::vector<std::size_t> along_later_legs(const LaidTrip& laid, double share) {
  std::vector<std::size_t> out = along_legs(laid, share);
  std::erase_if(
      out, [&](std::size_t step) { return share <= 0 && laid.timeline->steps[step].leg == 0; });
  return out;
}

std::vector<std::size_t> halfway_each_day(const LaidTrip& laid) {
  const engine::Timeline& timeline = *laid.timeline;
  std::vector<std::size_t> out;
  for (std::size_t day = 0; day < timeline.days.size(); ++day) {
    const double half_h = timeline.days[day].schedule.drive_h / 2;
    double done_h = 0;
    std::optional<std::size_t> first;
    std::optional<std::size_t> halfway;
    for (auto s = static_cast<std::size_t>(timeline.days[day].first_step);
         s < timeline.steps.size() && timeline.steps[s].day == static_cast<int>(day); ++s) {
      if (timeline.steps[s].drive < 0) continue;
      if (!first) first = s;
      done_h += timeline.steps[s].dt_h;
      if (!halfway && done_h >= half_h && progress_before(timeline, s).under_way) halfway = s;
    }
    if (first) out.push_back(halfway.value_or(*first));
  }
  return out;
}

std::vector<std::size_t> stops_at(const LaidTrip& laid, int place, bool visits_too) {
  const engine::Timeline& timeline = *laid.timeline;
  std::vector<std::size_t> out;
  for (std::size_t s = 0; s < timeline.steps.size(); ++s) {
    const engine::TimeStep& step = timeline.steps[s];
    const bool here = timeline.place_days[at(step.place_day)].place == place;
    if (!here || step.drive >= 0) continue;
    const bool arrives = s == 0 || timeline.steps[s - 1].drive >= 0;
    const bool outset = step.day == 0 && step.from_h <= 0;
    if (!outset && (step.stop >= 0 || (visits_too && arrives))) out.push_back(s);
  }
  return out;
}

bool is_only_road(const LaidTrip& laid, std::size_t step) {
  const int leg = laid.timeline->steps[step].leg;
  return !leads_home(laid, step, leg_to_last_supplies(laid, step, vital_reserves(*laid.course)),
                     leg);
}

}  // namespace drystage::answers
