#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "answers/base/plan_run.h"
#include "answers/offers/sized_line.h"

namespace drystage::answers {

struct SizeOptions {
  Least least = Least::mass;
  /// No single mishap of these kinds may run dry what life depends on. Nothing: mishaps are not
  /// asked. Empty: every kind that the plan does not leave out.
  std::optional<std::vector<plan::MishapKind>> survive{};
  bool confirmed_only = false;  ///< must hold with every unconfirmed supply shut as well
};

/// The set that was found.
struct SizedPlan {
  plan::Plan plan;  ///< with the set in it
  PlanRun planned;
  std::vector<SizedLine> lines;
  Totals totals;
};

/// Where nothing on offer is enough: the set that comes nearest, and what it lacks.
struct NearestMiss {
  SizedPlan set;                 ///< its lines without what one fewer would do
  std::vector<Failing> failing;  ///< at least one
  double lacks = 0;  ///< of the first failing margin's reserve, at its tightest, in its unit
  bool most_of_all = false;  ///< there is no more of anything that would help
};

/// What a search for a set leaves behind for another one (size/ground.h).
struct SizeGround;

struct Sizing {
  std::optional<SizedPlan> found;
  std::optional<NearestMiss> miss;  ///< where nothing was found
  Totals plan_totals;               ///< of what the plan itself has of the same things
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
