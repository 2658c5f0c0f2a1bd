#pragma once

#include <cstdint>
#include <optional>

#include "answers/base/plan_run.h"
#include "answers/base/watch.h"
#include "answers/odds/chances.h"

namespace drystage::answers {

struct OddsOptions {
  std::uint64_t trips = 10'000;
  std::uint64_t seed = 1;
  /// More trips are run until the interval of the chance that a margin that life depends on is
  /// broken is this much to either side, at the most; then `trips` says nothing.
  std::optional<double> until{};
  int worst = 0;        ///< how many of the worst trips are told
  bool drivers = true;  ///< what makes trips differ
  bool helps = true;    ///< what would help
};

/// Runs many trips that differ as real ones do (Plan::uncertainty), each by the engine, in
/// parallel. The answer depends on plan and options alone, and not on the number of threads.
/// Stopped, it tells of the trips that have been run.
Odds odds_of(const PlanRun& planned, const OddsOptions& options, const Watch& watch = {});

}  // namespace drystage::answers
