#pragma once

#include <optional>
#include <string>

#include "answers/base/verdict.h"
#include "answers/mishaps/finding.h"
#include "models/chance.h"

namespace drystage::answers {

/// What the sized plan is to have least of.
enum class Least { mass, cost };

/// Why a set is not enough: a margin that it breaks first, a vehicle that it overloads, a mishap
/// that it does not survive, that too few of the trips that are drawn keep every margin, or that it
/// has more things than a plan may have.
struct Failing {
  enum class Reason { margin, overload, packing, space, budget, mishap, chance, things };
  Reason reason = Reason::margin;
  std::optional<Breach> breach{};  ///< margin: the first one
  bool unconfirmed = false;        ///< margin: only with every unconfirmed supply shut
  int subject = -1;                ///< overload: scale of the course; packing: cabinet
  double over = 0;                 ///< kg, L, money or things too much
  std::string mishap{};            ///< its name ...
  Finding finding{};               ///< ... and what comes of it, of the reserve that runs dry
  models::Chance kept{};           ///< chance: to keep every margin
  int reserve = -1;                ///< chance: whose margin is broken most often ...
  models::Chance broken{};         ///< ... and how likely that is
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
  double holds = 0;           ///< counted, of cans: how much one could hold
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

}  // namespace drystage::answers
