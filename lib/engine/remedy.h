#pragma once

#include <functional>
#include <limits>
#include <string>

#include "plan/plan.h"

namespace drystage::engine {

/// What a change is called: so many of one thing, or something that is not counted.
struct ChangeName {
  std::string one;  ///< "more 20 L can of diesel for truck"
  std::string
      many{};  ///< "more 20 L cans of diesel for truck"; empty: `one` is all there is to say
  int count = 1;
};

/// "two more 20 L cans of diesel for truck", or the name as it stands.
std::string words(const ChangeName& name);

/// Something that can be added to a plan to help a reserve: one more can, a larger panel.
struct Remedy {
  ChangeName name;
  double size = 0;  ///< by which remedies are ranked: mass added, kg
  /// The most by which it can raise the reserve's level, in its own unit, where that is known.
  double adds = std::numeric_limits<double>::infinity();
  std::function<void(plan::Plan&)> apply;  ///< must leave the itinerary as it is
  // Of what comes in equal steps, such as cans: what it is, how many, and another number of them.
  std::string kind{};
  int steps = 0;  ///< 0: it does not come in steps
  std::function<Remedy(int steps)> of_steps{};
};

/// So many steps of one kind: what `make` makes of that number, which must be above 0.
Remedy in_steps(const std::string& kind, const std::function<Remedy(int)>& make, int steps);

/// Most pieces of one kind that are offered together.
inline constexpr int most_pieces = 12;

/// How many pieces of `size` cover what is lacking, and one over; 1 to `most_pieces`.
int pieces_for(double lacking, double size);

}  // namespace drystage::engine
