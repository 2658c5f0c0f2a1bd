#pragma once

#include <vector>

#include "answers/mishaps/sweep_plan.h"

namespace drystage::answers {

/// A heavy vehicle may coast further downhill, and burn less for it. Nothing is counted on that.
void burn_no_less_when_heavier(engine::reserves::Fuel::Compiled& fuel);

/// Fuel run by itself, in vehicles that are all the time as heavy as they can ever be. If it lasts
/// so, it lasts whatever becomes of all else on board, for the reasons that VitalCheck gives. Where
/// that cannot be said, it does not last.
class HeavyFuel {
 public:
  using Standing = engine::Engine::Standing;

  /// The sweep must outlive it.
  explicit HeavyFuel(const SweepPlan& sweep);

  /// A course with everything but fuel on board at its most.
  static engine::Course loaded(engine::Course course);

  /// Where the plan stands before a step at which something strikes.
  [[nodiscard]] const Standing& before(std::size_t step) const;

  /// Goes over to another loaded course before a step, after something has struck.
  static Standing strike(const Standing& standing, const engine::Course& course, std::size_t step,
                         engine::Record& record);
  static void go_on(const engine::Course& course, Standing& standing, std::size_t until);

  /// Whether it lasts to the end, in the plan itself or after something has struck.
  [[nodiscard]] bool lasts() const { return lasts_; }
  [[nodiscard]] bool lasts_after(const Standing& before, const engine::Course& course,
                                 std::size_t step, engine::Record& scratch) const;

 private:
  engine::Course course_;
  engine::Record record_;
  const std::vector<std::size_t>& steps_;  ///< at which something strikes, in order
  std::vector<Standing> standings_;        ///< before each of them
  bool tells_ = true;
  bool lasts_ = false;
};

}  // namespace drystage::answers
