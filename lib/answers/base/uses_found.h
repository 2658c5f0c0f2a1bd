#pragma once

#include <cstddef>
#include <vector>

#include "engine/engine.h"
#include "models/use_factors.h"
#include "models/use_priors.h"
#include "plan/plan.h"

namespace drystage::answers {

/// Less than this was not used: nothing is learned of it, in the unit of the reserve.
inline constexpr double hardly_any = 0.05;

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

/// What a plan's readings found, each compared with the one before it.
struct UsesFound {
  std::vector<UseFound> uses{};                               ///< in time order
  std::vector<Doubt> doubts{};                                ///< the same
  std::vector<std::vector<models::UseInterval>> intervals{};  ///< by reserve, in time order
};

/// Follows a trip at the plan's rates from one reading to the next. The course must be the plan's
/// own, with nothing learned.
UsesFound uses_found(const plan::Plan& plan, const engine::Course& course);

/// How sure use is before anything was read.
models::UsualUse usual_use(const plan::Plan& plan, engine::Family family);

/// What two readings with such errors differ by, with nothing used or gained: two times in three it
/// is less.
double beyond_error(double one, double other);

}  // namespace drystage::answers
