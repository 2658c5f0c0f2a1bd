#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "report/needs/report.h"
#include "units/format.h"

namespace drystage::report {

/// What stands beside the empty box of one reserve on one evening.
struct EveningFigures {
  std::string plan;       ///< what the plan expects, rounded down
  std::string must_have;  ///< rounded up; "+" before it where it cannot be held; "-" on the last
                          ///< night, for the trip ends
  bool lacks = false;     ///< the plan itself has too little
};

/// The one figure of a reserve that life does not depend on.
struct SmallFigure {
  std::string plan;  ///< what the plan expects that night, rounded down; of a cabinet the warmest
                     ///< of the day, rounded up; empty where nothing is known
  bool low = false;  ///< below its margin that day
};

/// What stands for a figure where no amount is enough.
inline constexpr const char* no_amount = "no amount is enough";

/// The reserves that life depends on, which have boxes, in the order in which they are shown:
/// indices into Needs::reserves.
std::vector<std::size_t> life_supporting(const NeedsAnswer& answer);

/// All others, in the order of the course: indices into its reserves.
std::vector<std::size_t> small_reserves(const answers::PlanRun& planned);

/// How many evenings there are: the one before setting out, and one for each day.
std::size_t evenings(const NeedsAnswer& answer);

/// The figures of a reserve (an index into Needs::reserves) at the midnight that ends a day,
/// counted from 1; 0 is the midnight with which the trip begins, when what is taken on at the
/// outset is on board. They are those of the morning that follows, and after the last day what is
/// left. They are whole, unless a tenth decides whether there is enough.
EveningFigures evening_figures(const NeedsAnswer& answer, std::size_t i, std::size_t evening,
                               units::System system);

/// The same of a reserve without a box, an index into the course's.
SmallFigure small_figure(const NeedsAnswer& answer, std::size_t reserve, std::size_t evening,
                         units::System system);

}  // namespace drystage::report
