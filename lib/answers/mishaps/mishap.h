#pragma once

#include <functional>
#include <vector>

#include "answers/base/laid_trip.h"
#include "answers/mishaps/finding.h"

namespace drystage::answers {

/// A failure as it is carried out, from the moment it strikes.
struct Mishap {
  Failure failure;
  engine::Damage damage{};  ///< what breaks
  /// What else changes in the plan from then on: supplies, weather, ground, people. Lists of what
  /// has a store or a reserve keep their lengths. The laid trip is the one before.
  std::function<void(plan::Plan&, const LaidTrip&, std::size_t step)> change{};
  bool lays_anew = false;   ///< the calendar, the weather or what people need changes
  double halt_h = 0;        ///< nothing moves for so long
  bool turns_back = false;  ///< to the last supplies of what life depends on
  bool repeats = false;     ///< may strike twice in one trip
  std::size_t number = 0;   ///< among those of the plan that move time
  /// The steps of a laid trip at which it can strike, in order.
  std::function<std::vector<std::size_t>(const LaidTrip&)> strikes{};

  /// Whether the laid trip after it depends on when it strikes.
  [[nodiscard]] bool moves_time() const { return lays_anew || halt_h > 0 || turns_back; }
};

}  // namespace drystage::answers
