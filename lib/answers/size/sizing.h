#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "answers/base/plan_run.h"
#include "answers/odds/trial.h"
#include "answers/offers/sized_line.h"

namespace drystage::answers {

struct SizeOptions {
  Least least = Least::mass;
  /// No single mishap of these kinds may run dry what life depends on. Nothing: mishaps are not
  /// asked. Empty: every kind that the plan does not leave out.
  std::optional<std::vector<plan::MishapKind>> survive{};
  bool confirmed_only = false;  ///< must hold with every unconfirmed supply shut as well
  /// Every margin must be kept on so many of the trips that are drawn as well. Nothing: none are.
  std::optional<Confidence> confidence{};
};

/// How likely a plan is to keep its margins, by the trips that were drawn.
struct KeptOdds {
  std::uint64_t trips = 0;
  models::Chance kept{};  ///< every margin that is asked for
  struct OfReserve {
    int reserve = 0;  ///< of that plan's course
    models::Chance broken{};
  };
  std::vector<OfReserve> reserves{};  ///< those whose margins are asked for, the worst first
};

/// The set that was found.
struct SizedPlan {
  plan::Plan plan;  ///< with the set in it
  PlanRun planned;
  std::vector<SizedLine> lines;
  Totals totals;
  std::optional<KeptOdds> odds{};  ///< where a confidence is asked for
};

/// More of something, which would help on drawn trips, and the limit that it would pass.
struct InTheWay {
  int reserve = -1;  ///< what there would be more of; -1: of equipment
  Failing limit;
};

/// Where nothing on offer is enough: the set that comes nearest, and what it lacks.
struct NearestMiss {
  SizedPlan set;                 ///< its lines without what one fewer would do
  std::vector<Failing> failing;  ///< at least one
  double lacks = 0;  ///< of the first failing margin's reserve, at its tightest, in its unit
  bool most_of_all = false;  ///< there is no more of anything that would help
  /// Nothing on offer serves the reserve whose margin is broken most often on drawn trips.
  bool beyond_load = false;
  std::optional<InTheWay> in_the_way{};  ///< of a confidence that is out of reach
};

/// What a search for a set leaves behind for another one (size/ground.h).
struct SizeGround;

struct Sizing {
  std::optional<SizedPlan> found;
  std::optional<NearestMiss> miss;      ///< where nothing was found
  Totals plan_totals;                   ///< of what the plan itself has of the same things
  std::optional<KeptOdds> plan_odds{};  ///< of the plan itself, where a confidence is asked for
  bool costs_given = false;
  bool space_limited = false;
  bool stopped = false;   ///< told to stop before it was done: `found` may not be the least
  bool given_up = false;  ///< too much was to be tried: there may be a set, or one that is less
  std::size_t runs = 0;   ///< of the engine, those of mishaps not counted
  std::vector<std::string> remarks;  ///< what the reader must know of how it was reckoned
  /// Of the mishaps asked for, the kinds that the set found was tried with. The others cannot
  /// strike in this plan: nobody is stuck who never drives.
  std::vector<plan::MishapKind> tried;
  std::shared_ptr<const SizeGround> ground{};
};

/// One row of the trade between mass and safety.
struct TradeOff {
  double more_days = 0;  ///< on every margin of drinking water, utility water and food; may be < 0
  Sizing sizing{};
};

}  // namespace drystage::answers
