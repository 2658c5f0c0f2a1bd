#pragma once

#include <optional>
#include <vector>

#include "answers/base/plan_run.h"

namespace drystage::answers {

/// What the readings of a trip taught of one rate of use.
struct Lesson {
  int reserve = -1;                        ///< of the course
  std::optional<plan::Surface> surface{};  ///< of fuel
  double planned = 0;          ///< the plan's rate: of fuel L/km, of others in their unit a day
  models::UseFactor factor{};  ///< one's own, over the plan's
};

/// Of each reserve that was read: its rate so far by the plan, of fuel on each surface that was
/// driven on. The plan's own figure is what was known before, so that what comes of both weighs a
/// trip by how much it was read. By reserve, then by surface.
std::vector<Lesson> lessons(const PlanRun& rest);

}  // namespace drystage::answers
