#pragma once

#include <memory>

#include "engine/calendar.h"
#include "engine/conditions.h"
#include "plan/plan.h"

namespace drystage::engine {

/// Everything of a trip that no store can change: when and where, and the conditions met there.
/// Plans that differ only in their stores share it.
struct Timeline : Calendar {
  Conditions conditions;
  std::shared_ptr<Almanac> almanac;  ///< for whatever is laid out from it
};

/// Lays out the plan and its needs. Problems as in `lay_calendar`; then there are no conditions.
Timeline lay_timeline(const plan::Plan& plan, const Layout& layout);
Timeline lay_timeline(const plan::Plan& plan, double most_step_h = 1.0);

}  // namespace drystage::engine
