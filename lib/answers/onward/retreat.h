#pragma once

#include <cstddef>
#include <vector>

#include "answers/base/laid_trip.h"
#include "answers/base/supplies.h"

namespace drystage::answers {

/// The longest that a party waits at a supply that is shut when it gets there (ours).
inline constexpr int longest_wait_days = 14;

/// A moment at which a laid trip is broken off to go back to a place that has been left.
struct Turn {
  std::size_t step = 0;  ///< the last step of the laid trip that begins by then
  double hour = 0;       ///< clock hour of its day, in that step: what is left of it is not done
  int to_leg = 0;        ///< the leg, of the timeline's, that led away from the place
  int shut = -1;         ///< the leg whose road is shut, the way it leads; -1: none is
};

/// The laid trip with the way back, in the same driving hours: the shortest over the roads of the
/// legs driven since, either way; against a leg by the road given as the way back, where there is
/// one. Where the plan has roads (`roads:`), also over these and over the legs driven before; and
/// where a place off the trip's way is nearer than every last supply behind, and always has all
/// that these have for sure, the way leads there. Where the leg under way leads to a place passed
/// before, and that is shorter, it is driven on. Where what is shut leaves no way, the party stays.
/// Where a sure supply on it gives at most so much and is open on arrival, all of that is taken, as
/// far as there is room. Where a supply behind, of any of the reserves, is shut on arrival, it is
/// waited for at the end of the way, two weeks at the most. Up to `Turn::step` its steps are those
/// of the laid trip; that one may be shorter.
LaidTrip retreat(const LaidTrip& laid, const Turn& turn, const std::vector<int>& reserves);

/// Whether, from before a step, there is a way back as above, to where leg `to_leg` began, that
/// does not take the road of leg `shut`, the way it leads. One of the plan's roads is another road.
bool leads_home(const LaidTrip& laid, std::size_t step, int to_leg, int shut);

}  // namespace drystage::answers
