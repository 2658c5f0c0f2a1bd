#pragma once

#include <optional>
#include <string>

#include "plan/mishaps.h"

namespace drystage::answers {

/// One thing that can go wrong, whenever it does.
struct Failure {
  plan::MishapKind kind{};
  std::string name;  ///< "can 3 lost", "stuck 2 days on the way"
};

/// What a mishap leads to, in rising order of harm.
enum class Outcome {
  holds,          ///< every reserve keeps its margin, or is no worse off than in the plan itself
  eats_margin,    ///< below a margin, or utility water drunk, further than in the plan itself
  runs_out,       ///< a reserve that life does not depend on is dry
  runs_out_vital  ///< drinking water, or fuel to get out, is dry
};

/// One failure at one moment, run to the end of the trip.
struct Finding {
  int failure = 0;  ///< index into Sweep::failures
  int day = 0;      ///< when it strikes, 0-based
  double hour = 0;
  Outcome outcome = Outcome::holds;
  int reserve = -1;     ///< the one that fares worst; -1 where all hold
  double slack = 0;     ///< of that reserve at its tightest: level less margin
  double stood_in = 0;  ///< utility water drunk, from then on, in place of drinking water
  // Where it runs out:
  double short_of = 0;  ///< wanted and not there, in its unit
  int dry_day = -1;     ///< when it is dry first
  double dry_hour = 0;
  std::string where;     ///< and where
  bool in_bush = false;  ///< between two places, in the bush
  double dry_for_h = 0;  ///< from then until it is topped up, or the trip ends
  int over_scale = -1;   ///< scale of the course that it puts over its limit; -1: none ...
  double over_kg = 0;    ///< ... and by how much
  std::optional<bool> retreat_saves;  ///< turning back at once keeps it, and what life depends on
};

}  // namespace drystage::answers
