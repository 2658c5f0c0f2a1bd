#include "report/charts/nearness.h"

#include <algorithm>
#include <tuple>

#include "report/charts/day_list.h"
#include "report/charts/reserve_order.h"
#include "report/text/words.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

/// The level from which a reserve comes down, or up, to its margin.
double best_level(const answers::PlanRun& planned, const engine::ReserveInfo& info) {
  if (info.id.family != engine::Family::cold) return info.capacity;
  const plan::Cabinet& cabinet = planned.plan.cold[at(info.id.of)];
  return cabinet.ice_box ? 0 : cabinet.set_point_c;
}

}  // namespace

Room room_of(const answers::PlanRun& planned, std::size_t reserve, std::size_t day) {
  const engine::ReserveInfo& info = planned.course.reserves[reserve];
  const engine::ReserveDay& row = planned.record.reserve(day, reserve);
  const bool above = info.sense == engine::Sense::keep_above;
  const double best = best_level(planned, info);
  const double whole = above ? best - row.margin : row.margin - best;
  Room out{.beyond = row.breach_h >= 0, .runs_out = row.short_of > 0};
  // Where the margin is the best there can be, there is no room at all.
  out.share = whole > 0 ? std::min(1.0, row.slack / whole) : std::min(0.0, row.slack);
  return out;
}

std::size_t decides_on(const answers::PlanRun& planned, std::size_t day) {
  return std::ranges::min(life_first(planned), {}, [&](std::size_t reserve) {
    const Room room = room_of(planned, reserve, day);
    const bool life = planned.course.reserves[reserve].life_supporting;
    return std::tuple(!room.runs_out, !room.beyond, room.beyond && !life, room.share);
  });
}

std::string decides_words(const answers::PlanRun& planned) {
  std::vector<std::vector<int>> days(planned.course.reserves.size());
  for (std::size_t day = 0; day < planned.record.days(); ++day) {
    days[decides_on(planned, day)].push_back(static_cast<int>(day));
  }
  std::vector<std::string> parts;
  for (const std::size_t reserve : life_first(planned)) {
    if (days[reserve].empty()) continue;
    parts.push_back(name_words(reserve_words(planned.course.reserves[reserve])) + " on " +
                    day_list(days[reserve]));
  }
  return units::listed(parts, "; ", "; ") + ".";
}

}  // namespace drystage::report
