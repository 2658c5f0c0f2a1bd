#pragma once

#include <optional>
#include <vector>

#include "answers/base/moment.h"
#include "answers/base/plan_run.h"

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

struct TurnBack {
  std::vector<SupplyStretch> stretches;  ///< by reserve, then in time order
  std::vector<Window> windows;  ///< in time order; empty: there never is a way back for all
  std::vector<Window> vital;    ///< the same for what life depends on alone
};

/// The last places to turn back, for each reserve that places supply. From any moment the way back
/// is the way that was come (or the one given as `back:` of a leg driven whole), in the same
/// driving hours; each is run by the engine, with the loads and levels of that moment and the
/// weather of those days, and found to the minute. Nothing is taken from a supply that nobody has
/// confirmed, on the way out neither. A reserve that no place behind supplies with certainty has no
/// stretch.
TurnBack turn_back_points(const PlanRun& planned);

}  // namespace drystage::answers
