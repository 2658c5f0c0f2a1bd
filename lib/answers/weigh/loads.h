#pragma once

#include <cstddef>
#include <vector>

#include "answers/base/plan_run.h"

namespace drystage::answers {

/// A moment at which everything is weighed: the beginning and end of every step, once who joins has
/// joined and what is taken on is on board.
struct WeighedMoment {
  int day = 0;        ///< 0-based
  double hour = 0;    ///< clock hour
  int company = 0;    ///< index into Calendar::companies
  bool past = false;  ///< before the last reading
};

/// A run of a plan, with what each store held at every such moment.
struct Trace {
  std::vector<WeighedMoment> moments;
  std::vector<double> levels;  ///< moment by moment, store by store
  std::size_t stores = 0;

  [[nodiscard]] double level(std::size_t moment, int store) const {
    return levels[moment * stores + static_cast<std::size_t>(store)];
  }
};

/// Runs a plan hour by hour.
Trace trace_of(const PlanRun& planned);

/// What one vehicle carries through a trip: the mass of each thing at every moment at which the
/// vehicle drives along. Where things lie changes nothing of that.
class Loads {
 public:
  Loads(const PlanRun& planned, const Trace& trace, int vehicle);

  [[nodiscard]] int vehicle() const { return vehicle_; }
  [[nodiscard]] const std::vector<engine::Carried>& things() const { return things_; }
  /// Indices into the trace, in the order of time.
  [[nodiscard]] const std::vector<std::size_t>& moments() const { return moments_; }
  /// Mass of a thing at one of these, kg.
  [[nodiscard]] double kg(std::size_t thing, std::size_t moment) const {
    return kg_[thing * moments_.size() + moment];
  }
  /// The most that it weighs at any of these that is not past.
  [[nodiscard]] double most_kg(std::size_t thing) const { return most_kg_[thing]; }

 private:
  int vehicle_;
  std::vector<engine::Carried> things_;
  std::vector<std::size_t> moments_;
  std::vector<double> kg_;
  std::vector<double> most_kg_;
};

/// What a scale shows at a moment of a trace, kg.
double scale_kg(const engine::Scale& scale, const Trace& trace, std::size_t moment);

}  // namespace drystage::answers
