#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "answers/size/search.h"

namespace drystage::answers {

/// What one search for a set leaves behind for another, with more or less margin: what was proved
/// on the way, and what has been laid out.
struct SizeGround {
  std::shared_ptr<const std::vector<Decision>> decisions;
  Known known{};
  std::optional<Objective> best{};  ///< of the set that was found
  LaidTrip laid{};                  ///< of the set whose mishaps were tried last
};

/// Everything there is to decide, and nothing known.
SizeGround ground_of(const PlanRun& planned, const SizeOptions& options);

/// The least set; of mishaps that a set with one fewer does not survive the first that is found
/// will do. Where no set is enough no miss is sought. `ground` must be of the same plan, but for
/// how much more margin it asks for.
Sizing least_set(const PlanRun& planned, const SizeOptions& options, const Watch& watch,
                 const SizeGround& ground);

}  // namespace drystage::answers
