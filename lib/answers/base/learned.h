#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "engine/engine.h"
#include "models/use_factors.h"
#include "plan/plan.h"

namespace drystage::answers {

/// What was used of one reserve from one reading to the next, or since it was last filled up.
struct UseFound {
  int reserve = -1;         ///< of the course
  std::size_t reading = 0;  ///< at its end
  double calculated = 0;    ///< at the plan's rates
  double used = 0;
  double days = 0;      ///< how long it took
  bool partly = false;  ///< some of its vessels alone were read
};

/// What a reading says that using it cannot explain.
struct Doubt {
  enum class Kind {
    unexplained,  ///< used, beyond what is likely even where the plan's rates are off
    gained        ///< there is more than before, and nothing was taken on
  };
  Kind kind = Kind::unexplained;
  std::size_t reading = 0;
  int reserve = -1;   ///< of the course; -1: a store alone was read
  int store = -1;     ///< of the course
  double amount = 0;  ///< more than calculated, or more than before
  double days = 0;    ///< in which that came about
};

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
