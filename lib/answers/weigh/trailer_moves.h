#pragma once

#include <vector>

#include "answers/weigh/moves.h"

namespace drystage::answers {

/// What to leave and to move in a trailer that is `over_kg` over its limit, and presses with
/// `ball_over_kg` too much on the ball (0: not): of its gear the lightest that is enough, else the
/// heaviest first; further back, to half as far behind the axle as the ball is ahead of it.
struct TrailerMoves {
  std::vector<Move> moves;
  bool keeps_limit = true;
  bool keeps_ball = true;
};
TrailerMoves trailer_moves(const plan::Vehicle& vehicle, int index, double over_kg,
                           double ball_over_kg);

}  // namespace drystage::answers
