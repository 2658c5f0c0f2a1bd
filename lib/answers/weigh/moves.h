#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "answers/weigh/loads.h"

namespace drystage::answers {

/// A thing put elsewhere in its vehicle, or left at home.
struct Move {
  int vehicle = 0;
  std::string name;
  int from_bay = -1;  ///< -1: in none
  double from_m = 0;  ///< behind the front axle
  int to_bay = -1;
  double to_m = 0;
  bool left = false;        ///< at home
  bool in_trailer = false;  ///< of the trailer's gear: `to_m` is ahead of its axle
  double kg = 0;            ///< at its heaviest
  plan::Spot to{};
};

/// What to move in one vehicle so that all its limits are kept.
struct Moves {
  std::vector<Move> moves;
  bool found = false;     ///< all its limits are kept then
  bool given_up = false;  ///< too much was to be tried: less may do, or something may
  /// Where not all can be kept: indices of the scales that stay over whatever is moved. What is
  /// moved keeps the others, and makes these no worse.
  std::vector<std::size_t> still{};
};

/// Which things may be moved, and whether some may be left at home.
struct MoveOptions {
  /// By thing of the Loads: it may be moved. Empty: whatever somebody can lift.
  std::vector<char> which{};
  bool may_leave = true;    ///< gear, where moving alone does not do
  bool whole_only = false;  ///< nothing is asked but what keeps all limits, and soon
};

/// The least mass that has to be moved in the vehicle itself so that no scale of the vehicle is
/// over its limit at any moment that is not past; where no move does it, also by leaving gear at
/// home. Found by trying sets of things, the lightest first, in every bay that is no seat, and on
/// the roof only where no other does; in a vehicle without bays, at every 5 cm between the foremost
/// and the hindmost place that something has.
Moves least_moves(const PlanRun& planned, const Trace& trace, const Loads& loads,
                  const std::vector<engine::Scale>& scales, const MoveOptions& options = {});

}  // namespace drystage::answers
