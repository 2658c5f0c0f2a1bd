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

/// What stands for a figure where no amount is enough.
inline constexpr const char* no_amount = "no amount is enough";

/// The reserves that life depends on, in the order in which they are shown: indices into
/// Needs::reserves.
std::vector<std::size_t> life_supporting(const NeedsAnswer& answer);

/// The same, and after them those that the plan fails or that have too little on some morning: all
/// that has a box on the sheet.
std::vector<std::size_t> reserves_with_boxes(const NeedsAnswer& answer);

/// How many evenings there are: the one before setting out, and one for each day.
std::size_t evenings(const NeedsAnswer& answer);

/// The figures of a reserve (an index into Needs::reserves) at the midnight that ends a day,
/// counted from 1; 0 is the midnight with which the trip begins, when what is taken on at the
/// outset is on board. They are those of the morning that follows, and after the last day what is
/// left.
EveningFigures evening_figures(const NeedsAnswer& answer, std::size_t i, std::size_t evening,
                               units::System system);

}  // namespace drystage::report
