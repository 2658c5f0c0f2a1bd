#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "plan/consumables.h"
#include "plan/mark.h"
#include "plan/vehicle.h"
#include "plan/weather.h"
#include "plan/words.h"

namespace drystage::plan {

/// The kinds of mishap that are worked out from a plan, and the user's own.
enum class MishapKind {
  container,   ///< a water container, fuel tank or can is lost with its contents
  supply,      ///< a supply is missing, wholly or for one thing
  stuck,       ///< nothing moves for some time
  shut,        ///< a leg is shut: back to the last supply
  compressor,  ///< a cabinet's compressor stops
  charger,     ///< a charging source is gone
  battery,     ///< a bank has lost part of its capacity
  vehicle,     ///< a vehicle is lost; its stores move into the others as far as they fit
  puncture,    ///< one puncture, or two in one day
  heat_wave,   ///< a hot spell
  dull_spell,  ///< a week of little sun
  soft_going,  ///< a leg whose unsealed parts take more fuel and time
  one_more,    ///< one person more to care for
  own          ///< the user's own, under `mishaps: own:`
};
inline constexpr int mishap_kind_count = 14;

/// The words for the kinds, in the order of MishapKind.
inline constexpr std::array<Word<MishapKind>, mishap_kind_count> mishap_words{
    {{"container", MishapKind::container},
     {"supply", MishapKind::supply},
     {"stuck", MishapKind::stuck},
     {"shut", MishapKind::shut},
     {"compressor", MishapKind::compressor},
     {"charger", MishapKind::charger},
     {"battery", MishapKind::battery},
     {"vehicle", MishapKind::vehicle},
     {"puncture", MishapKind::puncture},
     {"heat_wave", MishapKind::heat_wave},
     {"dull_spell", MishapKind::dull_spell},
     {"soft_going", MishapKind::soft_going},
     {"one_more", MishapKind::one_more},
     {"own", MishapKind::own}}};

/// A mishap of the user's own: everything that it names strikes at once.
struct OwnMishap {
  std::string name;
  std::vector<int> containers;                   ///< lost: indices into Water::containers
  std::vector<TankReference> tanks;              ///< lost
  std::vector<ConsumableStoreReference> stores;  ///< lost
  std::vector<int> cabinets;  ///< whose compressor stops: indices into Plan::cold
  std::vector<int> chargers;  ///< gone: indices into Power::chargers
  double stuck_h = 0;
  double hotter_k = 0;  ///< for `hot_days`, from the day it strikes
  int hot_days = 0;
  int people = 0;          ///< more to care for
  std::optional<int> day;  ///< strikes on this day of the trip alone, from 0; else on any
  Mark mark{};
};

/// How hard mishaps strike, and which.
struct Mishaps {
  double stuck_h = 0;
  std::optional<double> hotter_k;  ///< of the heat wave; none: as a hot spell of the climate's
  int hot_days = 0;
  double soft_more_fuel = 0;         ///< share of fuel added on the unsealed parts of a leg
  double soft_slower = 0;            ///< share of speed lost there
  double battery_left = 0;           ///< share of the capacity that is left
  double shut_found_after = 0;       ///< share of a leg driven before it is found to be shut
  std::vector<MishapKind> left_out;  ///< not to be tried
  std::vector<OwnMishap> own;
};

}  // namespace drystage::plan
