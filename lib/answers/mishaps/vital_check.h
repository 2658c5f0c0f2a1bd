#pragma once

#include <optional>
#include <vector>

#include "answers/base/in_parallel.h"
#include "answers/mishaps/sweep_plan.h"

namespace drystage::answers {

/// What becomes of what life depends on after a mishap, found out at little cost: water and fuel
/// are run alone, and all else on board weighs as much as it ever can.
///
/// That is enough. Water depends on nothing else, but where a vehicle is left behind. Fuel depends
/// on the mass of the vehicle alone, and a run with more mass never has more of it: a heavier
/// vehicle burns no less (what it might save downhill is not counted), and one that is heavier by d
/// litres saved burns less than d litres more on account of them, since in an hour no vehicle burns
/// a litre for each kilogram. What is taken on leaves no more where there was less.
class VitalCheck {
 public:
  /// The sweep must outlive it.
  explicit VitalCheck(const SweepPlan& sweep);

  /// Nothing where this does not tell. Of what runs dry that life depends on it tells which it is
  /// and how much was short, and neither when nor where. All else counts as holding.
  [[nodiscard]] std::optional<Finding> finding(const Strike& strike) const;

 private:
  using Course = engine::VitalEngine::Course;
  [[nodiscard]] Course course_after(const Strike& strike) const;
  void load_what_is_left_out(Course& course) const;
  void load_what_may_be_bought(Course& course, const Strike& strike) const;

  const SweepPlan& sweep_;
  Course planned_;
  std::vector<double> left_out_kg_{};  ///< by vehicle: batteries, cabinets and panels themselves
  mutable PerThread<engine::Record> scratch_;
};

}  // namespace drystage::answers
