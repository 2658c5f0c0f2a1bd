#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "answers/base/uses_found.h"
#include "engine/engine.h"
#include "models/use_factors.h"
#include "plan/plan.h"

namespace drystage::answers {

/// What a plan's readings teach.
struct Learned {
  /// For CourseOptions::learned. Before the last reading: what was used, as it was found. After it:
  /// what is most likely now.
  std::vector<engine::Factors> factors{};
  std::vector<UseFound> uses{};  ///< in time order
  std::vector<Doubt> doubts{};   ///< the same
  models::UseFactors drinking{};
  models::UseFactors utility{};
  models::UseFactors meals{};
  std::vector<models::UseFactors> fuel{};  ///< of each vehicle, by plan::Surface

  /// The factor of a reserve with its range, for the use that is still to come; nothing where none
  /// is learned. Of fuel it is that of the surfaces ahead.
  [[nodiscard]] std::optional<models::UseFactor> of(const engine::Course& course,
                                                    int reserve) const;
};

/// Compares each reading with what the plan's rates make of the one before it. Stops that fill up
/// begin anew: how much went in before is not known, how much is there afterwards is. Amounts taken
/// on are those of the plan. Of a reserve of which some vessels alone
/// were read the others are as calculated, and as uncertain as that is. What was in a vessel that
/// is lost was not used. Batteries and cold are set too. The timeline must be the plan's own.
Learned learn_from_readings(const plan::Plan& plan,
                            const std::shared_ptr<const engine::Timeline>& timeline);

}  // namespace drystage::answers
