#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "answers/mishaps.h"
#include "answers/trial.h"

namespace drystage::answers {

/// What the sized plan is to have least of.
enum class Least { mass, cost };

struct SizeOptions {
  Least least = Least::mass;
  /// No single mishap of these kinds may run dry what life depends on. Nothing: mishaps are not
  /// asked. Empty: every kind that the plan does not leave out.
  std::optional<std::vector<plan::MishapKind>> survive{};
  bool confirmed_only = false;  ///< must hold with every unconfirmed supply shut as well
};

/// Why a set is not enough: a margin that it breaks first, a vehicle that it overloads, or a
/// mishap that it does not survive.
struct Failing {
  enum class Reason { margin, overload, packing, space, budget, mishap };
  Reason reason = Reason::margin;
  std::optional<Breach> breach{};  ///< margin: the first one
  bool unconfirmed = false;        ///< margin: only with every unconfirmed supply shut
  int subject = -1;                ///< overload: vehicle; packing: cabinet
  double over = 0;                 ///< kg, L or money too much
  std::string mishap{};            ///< its name ...
  Finding finding{};               ///< ... and what comes of it, of the reserve that runs dry
};

/// One line of what to load: so many of one kind of can, or one piece of equipment in one size.
struct SizedLine {
  std::string one;     ///< "20 L container of drinking water", "camp battery", "day of dry stores"
  std::string many{};  ///< "20 L containers of drinking water"; empty: not counted, `one` is a name
  /// Counted: how many. Otherwise its size, in `unit`; 0: none of it.
  double plan_amount = 0;
  double amount = 0;
  std::string unit{};         ///< L, Ah or W; of what is counted that of `each`: L or days
  std::string of{};           ///< counted: what they are of, "drinking water", "diesel for van"
  double each = 0;            ///< counted: how much of that one is, 20 (L) or 1 (days)
  std::string plan_detail{};  ///< what else tells the choice apart: "agm", "full"
  std::string detail{};
  double plan_kg = 0;  ///< all of them, as loaded when setting out
  double kg = 0;
  double cost = 0;  ///< of all of them; nothing for what is kept
  double space_l = 0;
  bool kept = false;                   ///< pinned: not to be changed
  std::optional<std::string> fewer{};  ///< what "one fewer" is, where there is less to be had
  std::optional<Failing> one_fewer{};  ///< what fails then, by running it
};

/// Totals of what was chosen.
struct Totals {
  double kg = 0;  ///< of all that is listed, kept or chosen, as loaded when setting out
  double cost = 0;
  double space_l = 0;
};

/// The set that was found.
struct SizedPlan {
  plan::Plan plan;  ///< with the set in it
  Trial trial;
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
};

/// Finds the set on offer (Plan::size) that has the least mass, or cost, of all with which every
/// margin is kept on every day and no limit is passed: each is judged by running the engine. Ties
/// go to the lesser cost (or mass), then to the smaller pieces. How the search is cut short, and
/// why that is right, is said in size_search.h. The trial must be the plan's own, laid out on its
/// timeline; what is chosen changes no timeline.
Sizing size_plan(const Trial& trial, const SizeOptions& options, const Watch& watch = {});

/// The same for whoever asks many times: of mishaps that a set with one fewer does not survive the
/// first that is found will do, and where no set is enough no miss is sought.
Sizing least_set(const Trial& trial, const SizeOptions& options, const Watch& watch = {});

/// One row of the trade between mass and safety.
struct TradeOff {
  double more_days = 0;  ///< on every margin of drinking water, utility water and food; may be < 0
  Sizing sizing{};
};

/// The same search with margins of some days less and more: what another day of safety costs.
/// `own` is the answer for the plan's own margins and stands among the rows.
std::vector<TradeOff> trade_off(const Trial& trial, const SizeOptions& options, const Sizing& own,
                                const Watch& watch = {});

}  // namespace drystage::answers
