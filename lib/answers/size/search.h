#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

#include "answers/offers/decision.h"
#include "answers/size/judge.h"
#include "answers/size/kits.h"
#include "answers/size/proof.h"

namespace drystage::answers {

/// What a search has proved, for another one of the same decisions, where the plan differs in how
/// much more margin it asks for alone.
struct Known {
  std::optional<Kits> kits{};  ///< those that are hopeless are taken out
  std::vector<Floor> floors{};
  std::vector<Proof> proofs{};
  std::optional<Objective> at_most{};  ///< no set is sought that comes to more

  /// What of it holds for smaller margins, where a set that comes to so much holds.
  [[nodiscard]] Known for_less_margin(std::optional<Objective> holds) const;
};

/// The best set that was found, or what came nearest.
struct SearchResult {
  std::optional<ChoiceSet> best;
  std::optional<ChoiceSet> nearest;  ///< where there is none
  bool cut_short = false;            ///< not all was tried that might be less
  Known known{};                     ///< by now
};

/// Runs of the engine after which a search is given up, and sets looked at, run or not.
inline constexpr std::size_t most_runs = 10'000;
inline constexpr std::size_t most_trials = 300;  ///< sets whose trips are drawn
inline constexpr std::size_t most_looked_at = 2'000'000;

/// Finds the set with the least objective that holds, among all combinations of choices.
///
/// Equipment is gone through from the least on, and for each the stores, from the least on: the
/// first that holds is the least with that equipment, and nothing after it need be looked at. Only
/// what a run has proved hopeless is left out (size/laws.h); every combination of equipment is
/// tried that could still be the least. Where so little can be proved that `most_runs`, or
/// `most_looked_at`, are not enough, some set that holds is sought by taking more of what fails,
/// and `cut_short` says so. Begins with what is `known` already.
SearchResult search(const SizeJudge& judge, const std::vector<Decision>& decisions,
                    const std::function<void(std::size_t done, std::size_t total)>& progress,
                    Known known = {});

}  // namespace drystage::answers
