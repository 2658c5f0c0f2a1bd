#include "answers/resume/lessons.h"

#include <algorithm>
#include <array>

#include "units/day.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

using engine::Engine;
using engine::Family;

// Less than this tells nothing of a surface.
constexpr double least_km = 1;

/// What was used so far at the plan's rates.
struct UsedSoFar {
  std::vector<std::array<double, plan::surface_count>> by_surface;  ///< by reserve; fuel
  std::vector<double> in_all;                                       ///< by reserve
  std::array<double, plan::surface_count> km{};
  double days = 0;
};

UsedSoFar used_so_far(const PlanRun& rest) {
  engine::Course course = rest.course;
  course.learned.clear();
  const std::size_t reserves = course.reserves.size();
  UsedSoFar out{.by_surface = {}, .in_all = std::vector<double>(reserves)};
  out.by_surface.resize(reserves);
  engine::Record record = engine::blank_record(course);
  Engine::Standing now = Engine::begin(course, record);
  std::vector<double> before(reserves);
  for (std::size_t s = 0; s < course.judged_from(); ++s) {
    const engine::TimeStep& step = course.timeline->steps[s];
    Engine::begin_step(course, now);
    for (std::size_t r = 0; r < reserves; ++r)
      before[r] = now.run.reserve_level(static_cast<int>(r));
    Engine::end_step(course, now);
    out.days += step.dt_h / day_h;
    const bool drives = step.drive >= 0;
    const auto surface =
        drives ? static_cast<std::size_t>(course.timeline->pieces[at(step.drive)].surface) : 0;
    if (drives) out.km.at(surface) += step.distance_km;
    for (std::size_t r = 0; r < reserves; ++r) {
      const double used = before[r] - now.run.reserve_level(static_cast<int>(r));
      out.in_all[r] += used;
      if (drives) out.by_surface[r].at(surface) += used;
    }
  }
  return out;
}

}  // namespace

std::vector<Lesson> lessons(const PlanRun& rest) {
  std::vector<Lesson> out;
  if (rest.learned.uses.empty()) return out;
  const UsedSoFar used = used_so_far(rest);
  for (std::size_t r = 0; r < rest.course.reserves.size(); ++r) {
    const int reserve = static_cast<int>(r);
    const auto& uses = rest.learned.uses;
    if (std::ranges::find(uses, reserve, &UseFound::reserve) == uses.end()) continue;
    if (rest.course.reserves[r].id.family != Family::fuel) {
      const auto factor = rest.learned.of(rest.course, reserve);
      if (!factor || used.in_all[r] <= 0) continue;
      out.push_back({.reserve = reserve, .planned = used.in_all[r] / used.days, .factor = *factor});
      continue;
    }
    for (std::size_t s = 0; s < plan::surface_count; ++s) {
      if (used.km.at(s) < least_km || used.by_surface[r].at(s) <= 0) continue;
      out.push_back(
          {.reserve = reserve,
           .surface = static_cast<plan::Surface>(s),
           .planned = used.by_surface[r].at(s) / used.km.at(s),
           .factor = rest.learned.fuel.at(at(rest.course.reserves[r].id.of)).parts.at(s)});
    }
  }
  return out;
}

}  // namespace drystage::answers
