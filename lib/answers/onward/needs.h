#pragma once

#include <vector>

#include "answers/base/plan_run.h"

namespace drystage::answers {

/// What must be on board of one reserve as a day begins, beside what the plan expects.
struct Need {
  double must_have = 0;  ///< in the reserve's unit; infinite where no amount is enough
  double has = 0;        ///< what the plan expects then
  bool fits = true;      ///< what must be on board is no more than the reserve can hold
  bool judged = true;    ///< no: it is of something that is not with the party then
  // Where it must last to: the next confirmed supply, or where what it serves goes home.
  int until_day = 0;
  double until_h = 0;
  int until_place = -1;          ///< -1: the end of the trip, or (of a bank) when it is full again
  std::vector<int> taking_at{};  ///< places whose limited supply it counts on until then

  [[nodiscard]] double slack() const { return has - must_have; }
  /// Whether the plan has too little, by more than rounding.
  [[nodiscard]] bool lacks() const { return slack() < -1e-6; }
};

/// The needs of every morning that is still to come.
struct Needs {
  int first_day = 0;          ///< before it nothing is worked out: those days are past
  std::vector<int> reserves;  ///< indices into the course's: all that are amounts (none is cold)
  std::vector<Need> table;    ///< morning by morning, reserve by reserve

  [[nodiscard]] const Need& need(std::size_t day, std::size_t i) const {
    return table[day * reserves.size() + i];
  }
  /// Whether the plan has what it must have, on every morning.
  [[nodiscard]] bool met() const;
};

/// For each morning (midnight; the first when what is taken on at the outset is on board) and each
/// reserve, the least level with which the rest of the plan up to the next confirmed supply of that
/// reserve keeps its margin, everything else being as the plan expects. Found by running the engine
/// from that morning.
///
/// A supply is a stop of the plan that is confirmed and open; or a place that has it, is open while
/// the party is there, and gives without limit, whether or not the plan takes any. One that gives
/// at most so much is taken into account as far as it goes, and the reserve must last beyond it. A
/// bank must last until it is next full or where mains is to be had.
Needs morning_needs(const PlanRun& planned);

}  // namespace drystage::answers
