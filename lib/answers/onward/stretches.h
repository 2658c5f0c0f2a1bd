#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "answers/base/laid_trip.h"
#include "engine/engine.h"

namespace drystage::answers {

/// A time within which turning back is possible, for one reserve or for several at once.
struct Window {
  Moment from;
  Moment last;
  int decides = -1;  ///< the reserve that ends it; -1: the trip or the stretch ends
};

/// From one supply of a reserve to the next: when the party can still turn back to the one behind
/// and keep the margin whole on the way.
struct SupplyStretch {
  int reserve = 0;              ///< index into the course's
  int from_place = 0;           ///< the supply behind
  int to_place = -1;            ///< the one ahead; -1: none, the trip ends
  Moment leaves;                ///< when the one behind is left
  Moment arrives;               ///< when the one ahead is reached, or the trip ends
  bool always = false;          ///< turning back is possible until the end of the stretch
  std::optional<Moment> last;   ///< else the last moment before it is not; none: not at first
  std::optional<Moment> again;  ///< it becomes possible again here: hotter or dearer days between
  /// All times within it at which it is possible, in order; none is shorter than a minute.
  std::vector<Window> windows;
  /// Where going on to the next supply and going back to the last need the same; with the amount.
  std::optional<Moment> even;
  double even_need = 0;
};

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

/// The stretches of all reserves that places supply, nothing tried yet: by reserve, then in time
/// order.
std::vector<Span> stretches_of(const WayOn& way);

}  // namespace drystage::answers
