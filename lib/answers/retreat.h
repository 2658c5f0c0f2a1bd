#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "answers/supplies.h"
#include "answers/voyage.h"

namespace drystage::answers {

/// A moment at which a voyage is broken off to go back to a place that has been left.
struct Turn {
  std::size_t step = 0;   ///< the last step of the voyage that begins by then
  double hour = 0;        ///< clock hour of its day, in that step: what is left of it is not done
  int to_leg = 0;         ///< the leg, of the timeline's, that led away from the place
  bool may_go_on = true;  ///< the leg under way may be driven on, where that leads home sooner
};

/// The voyage with the way back: the legs driven since, in reverse order, whole ones by the road
/// given as the way back where there is one; in the same driving hours. Rounds that led back to a
/// place are left out; where the leg under way leads to a place passed before, and that is shorter,
/// it is driven on. Where a supply behind, of any of the reserves, is shut on arrival, it is waited
/// for at the end of the way, two weeks at the most.
/// Up to `Turn::step` its steps are those of the voyage; that one may be shorter.
Voyage retreat(const Voyage& voyage, const Turn& turn, const std::vector<int>& reserves);

/// Whether the way back from before a step, to where leg `to_leg` began, leads over a leg's own
/// road: from where it begins to where it ends.
bool leads_over(const Voyage& voyage, std::size_t step, int to_leg, int leg);

}  // namespace drystage::answers
