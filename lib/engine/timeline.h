#pragma once

#include <memory>
#include <vector>

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

/// How a plan is laid out.
struct Layout {
  double most_step_h = 1;              ///< longest step; 0 < h <= 1
  std::vector<Detour> detours{};       ///< in time order
  const Timeline* same = nullptr;      ///< a timeline that has the same days before ...
  int same_days = 0;                   ///< ... this one; they are taken from there
  std::shared_ptr<Almanac> almanac{};  ///< where none is given, that of `same`, or a new one
};

/// Lays out the plan and its needs. Problems as in `lay_calendar`; then there are no conditions.
Timeline lay_timeline(const plan::Plan& plan, const Layout& layout);
Timeline lay_timeline(const plan::Plan& plan, double most_step_h = 1.0);

}  // namespace drystage::engine
