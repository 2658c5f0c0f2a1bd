#pragma once

#include <string>
#include <vector>

#include "report/card/answer.h"
#include "units/format.h"

namespace drystage::report {

/// Something that is met on a day, and stands above its evening.
struct DayLine {
  enum class Kind { supply, leave, turn_back, note };
  Kind kind{};
  double hour = 0;
  std::string words{};
  std::string more{};  ///< of turning back: what the page says besides
  bool grave = false;  ///< not sure, or somebody may go without
  bool shut = false;   ///< of a supply: nothing can be had
  bool opens = false;  ///< of turning back: it is possible from here on
};

/// What stands above every evening, 0 the one before setting out, in the order of time: what is
/// taken on, with how much a place must be left, where the way back ends or opens, and what happens
/// by the plan. What is taken on comes before the rules of the same moment.
std::vector<std::vector<DayLine>> day_lines(const CardAnswer& answer, units::System system);

}  // namespace drystage::report
