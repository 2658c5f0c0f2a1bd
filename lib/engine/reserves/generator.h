#pragma once

#include <vector>

#include "engine/course.h"

namespace drystage::engine::reserves {

/// A generator: the fuel family runs it, the power family takes what it gives.
struct Generator {
  /// Clock hours of the day on which it is started; past 24 for after midnight.
  struct Turn {
    double from_h = 0;
    double to_h = 0;
  };

  int charger = 0;  ///< index into the plan's chargers
  int bank = 0;
  int vehicle = 0;            ///< whose tanks feed it; -1: it has cans of its own
  std::vector<int> stores{};  ///< then: those cans, in order of use ...
  int reserve = -1;           ///< ... and the reserve that they are of
  plan::While when = plan::While::parked;
  double power_w = 0;
  double uses_l_h = 0;
  std::vector<Turn> turns{};    ///< when it runs each day: not in hours of quiet
  bool rests_on_mains = false;  ///< does not run where that is

  /// What it burns on a day of staying put.
  [[nodiscard]] double uses_l_day() const;
};

/// Those that still work. They rest on mains while a charger that takes it works too.
std::vector<Generator> generators(const plan::Plan& plan, const CourseBase& course);

/// When in a step a generator runs, if it has fuel.
struct Running {
  double from_h = 0;  ///< the first moment
  double hours = 0;   ///< in all
};
Running running(const Generator& generator, const Calendar& calendar, const TimeStep& step);

}  // namespace drystage::engine::reserves
