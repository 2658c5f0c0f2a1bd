#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "answers/base/plan_run.h"
#include "answers/offers/mend.h"
#include "answers/onward/leaving.h"
#include "answers/onward/needs.h"
#include "answers/onward/turn_back.h"

namespace drystage::answers {

/// A reserve at a reading: as the plan alone has it then, and as it was found.
struct FoundReserve {
  int reserve = -1;               ///< of the course
  std::optional<double> planned;  ///< none: by the plan the trip is over by then
  double found = 0;
  bool partly = false;  ///< some of its vessels alone were read
};

/// What one reading found.
struct ReadingFound {
  int day = 0;  ///< 0-based
  double hour = 0;
  std::vector<FoundReserve> found;  ///< those that it has something of, in the course's order
};

/// Less utility water a day than planned, with which it lasts.
struct Ration {
  int reserve = -1;
  double share = 1;  ///< of the planned use
  double l_day = 0;  ///< of the whole party, mean over the days to come
};

/// What helps most where the rest of a trip does not hold, the first of these that does.
struct Help {
  enum class Kind {
    none,       ///< it holds
    share,      ///< the water and food that vehicles keep for themselves
    change,     ///< `mend`: nights left out, more taken at stops
    ration,     ///< utility water
    turn_back,  ///< while `turn_back` lasts
    fill_up,    ///< at a sure supply on the way, `place`, all that there is room for; and ask again
    alarm,      ///< what life depends on runs out before one
    not_found   ///< nothing that was tried is enough; life does not depend on it
  };
  Kind kind = Kind::none;
  std::optional<Mend> mend{};
  std::optional<Ration> ration{};
  std::optional<Window> turn_back{};
  int place = -1;
};

/// The rest of a trip, from its last reading on.
struct Resumed {
  PlanRun planned;                     ///< the plan alone, as if nothing had been read
  PlanRun rest;                        ///< from the last reading on
  Verdict at_plan;                     ///< the same at the plan's rates of use
  Moment now;                          ///< of the last reading
  int late_days = 0;                   ///< by how much later the rest of the trip ends than planned
  std::vector<ReadingFound> readings;  ///< as the plan has them, at least one
  Needs needs;
  TurnBack turn_back;
  std::vector<Leaving> leavings;  ///< of the supplies that are still to come
  Help help;

  /// What was used of a reserve before the last reading; null where that does not say.
  [[nodiscard]] const UseFound* use_of(int reserve) const;
};

/// Levels of all reserves before a step; `read`: with the reading that is taken there.
std::vector<double> levels_before(const engine::Course& course, std::size_t step, bool read);

/// Answers from a plan's last reading on. It must have one, and the timeline be its own. `rates`:
/// those of `rest`.
Resumed resume(const plan::Plan& plan, const std::shared_ptr<const engine::Timeline>& timeline,
               Rates rates = Rates::learned);

}  // namespace drystage::answers
