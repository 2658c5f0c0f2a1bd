#pragma once

#include <cstddef>
#include <vector>

#include "answers/onward/turn_back.h"
#include "engine/engine.h"

namespace drystage::answers {

/// A laid trip, run once, which can be broken off before each of its steps.
struct WayOn {
  explicit WayOn(const PlanRun& planned);

  LaidTrip laid;
  const engine::Timeline& timeline;
  engine::Record record;  ///< what they stand in
  std::vector<engine::Engine::Standing> standings;

  /// The clock hour at which a step ends, in its day.
  [[nodiscard]] double end_h(std::size_t step) const {
    return timeline.steps[step].from_h + timeline.steps[step].dt_h;
  }
  /// The step before which the last drive is over.
  [[nodiscard]] std::size_t after_last_drive() const;
};

/// Slack at its tightest from a step on; without end where there is no way.
struct StepSlacks {
  double back = -engine::without_limit;      ///< on the way back
  double back_end = -engine::without_limit;  ///< the same from the step's last minute
  double on = -engine::without_limit;        ///< on the way to the next supply
  bool tried = false;                        ///< whether the way back has been tried
};

/// A stretch as it is worked out.
struct Span {
  SupplyStretch stretch;
  std::size_t leaves = 0;    ///< step at which the supply behind is left
  std::size_t lasts_to = 0;  ///< step before which the one ahead is reached, or the trip ends
  std::size_t ends = 0;      ///< the same, or the end of the last drive
  int to_leg = 0;            ///< the leg that led away from it
  std::vector<StepSlacks> slacks{};  ///< by step from `leaves` to `ends`

  [[nodiscard]] bool covers(std::size_t step) const { return step >= leaves && step < ends; }
  // Of a step that it covers:
  StepSlacks& of(std::size_t step) { return slacks[step - leaves]; }
  [[nodiscard]] const StepSlacks& of(std::size_t step) const { return slacks[step - leaves]; }
};

/// The stretches of all reserves that places supply, by reserve, then in time order. Each of their
/// steps has been tried: the way back from its beginning and, where that is another, from its last
/// minute; and the way on to the next supply.
std::vector<Span> stretches_of(const WayOn& way);

}  // namespace drystage::answers
