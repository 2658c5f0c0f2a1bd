#pragma once

#include <vector>

#include "engine/schedule.h"
#include "engine/timeline.h"
#include "support/plan_text.h"
#include "support/trip.h"

namespace drystage::support {

inline constexpr double day_h = 24;

/// When a stretch or a step of the calendar begins and ends, in hours since the trip's first
/// midnight.
inline double begins_h(const engine::Segment& segment) {
  return day_h * segment.day + segment.from_h;
}
inline double ends_h(const engine::Segment& segment) { return day_h * segment.day + segment.to_h; }
inline double begins_h(const engine::TimeStep& step) { return day_h * step.day + step.from_h; }

/// Kilometres driven, in all and by an hour of the trip.
double total_km(const std::vector<engine::Segment>& segments);
double driven_by_km(const engine::Schedule& schedule, double hour);

/// When the last drive ends.
double arrives_h(const engine::Schedule& schedule);

/// A plan laid out, and travelled, with detours.
engine::Timeline lay(const plan::Plan& plan, std::vector<engine::Detour> detours);
Trip travel_with(const plan::Plan& plan, std::vector<engine::Detour> detours);

/// 400 km at 100 km/h from Base to There, from eight on.
PlanText one_leg(const std::string& driving = "{most_per_day: 10 h, daylight_only: no}");

/// Every shipped scenario, in the order of their names.
std::vector<plan::Plan> all_scenarios();

}  // namespace drystage::support
