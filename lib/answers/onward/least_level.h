#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "engine/engine.h"

namespace drystage::answers {

/// What must be there fits if it is above what can be held by no more than this.
inline constexpr double fit_rounding = 1e-6;

/// A part of a course, from a moment on, over which a reserve must last.
struct Stint {
  const engine::Course& course;
  const engine::Engine::Standing& start;  ///< of the moment; may stand on another course
  std::size_t from = 0;                   ///< the course's step at that moment
  std::size_t until = 0;                  ///< the step before which the reserve is topped up
  int reserve = 0;
};

/// Least slack of the reserve over the stint, less all that was wanted and not there, if it begins
/// at `level`, or as it stands; not negative where the margin stays whole. What utility water
/// stands in for was not there. A bank's stint ends when it is full again. `scratch` is any record,
/// and is overwritten.
double slack_over(const Stint& stint, std::optional<double> level, engine::Record& scratch);

/// A reserve, and the step before which it is topped up.
struct Goal {
  int reserve = 0;
  std::size_t until = 0;
};

/// By goal, and by start: the same from before step `from` and those after it, where the starts
/// stand one after the other in a run that is the course's too: one run serves all of them. Of
/// amounts alone, each start before the goal.
std::vector<std::vector<double>> slacks_from_each(const engine::Course& course,
                                                  std::span<const engine::Engine::Standing> starts,
                                                  std::size_t from, const std::vector<Goal>& goals,
                                                  engine::Record& scratch);

/// The least level at which the reserve may begin to keep its margin over the stint, to a tenth of
/// a millilitre or its like, never too low; infinite when none is enough. What does not fit into
/// tanks and containers is reckoned with all the same; a bank holds no more than its capacity.
double least_level(const Stint& stint, engine::Record& scratch);

/// The step before which a bank that begins the stint as it stands is full again; else its end.
std::size_t full_again(const Stint& stint, engine::Record& scratch);

}  // namespace drystage::answers
