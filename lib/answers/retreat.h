#pragma once

#include <cstddef>
#include <optional>

#include "answers/supplies.h"
#include "answers/voyage.h"

namespace drystage::answers {

/// A moment at which a voyage is broken off to go back to a place that has been left.
struct Turn {
  std::size_t step = 0;  ///< the last step of the voyage that begins by then
  double hour = 0;       ///< clock hour of its day, in that step: what is left of it is not done
  int to_leg = 0;        ///< the leg, of the timeline's, that led away from the place
};

/// The voyage with the way back: the legs driven since, in reverse order, whole ones by the road
/// given as the way back where there is one; in the same driving hours. `place` is where it leads;
/// where a supply of `reserve` there is shut on arrival, it is waited for, two weeks at the most.
/// Up to `Turn::step` its steps are those of the voyage; that one may be shorter.
Voyage retreat(const Voyage& voyage, const Turn& turn, int reserve);

}  // namespace drystage::answers
