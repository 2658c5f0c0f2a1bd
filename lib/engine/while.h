#pragma once

#include "engine/calendar.h"
#include "plan/cold.h"

namespace drystage::engine {

/// Whether what applies at some times only does so in a step.
inline bool applies(plan::While when, const TimeStep& step) {
  switch (when) {
    case plan::While::always:
      return true;
    case plan::While::driving:
      return step.drive >= 0;
    case plan::While::parked:
      return step.drive < 0;
    case plan::While::camp:
      return step.camp;
  }
  return true;
}

}  // namespace drystage::engine
