#pragma once

#include <limits>
#include <vector>

namespace drystage::engine {

/// What a limit of mass may be for: the vehicle, a part of it, or what it tows.
enum class ScaleKind {
  total,  ///< what stands on its wheels: its own mass, and what a trailer presses on its ball
  front,
  rear,
  front_left,
  front_right,
  rear_left,
  rear_right,
  roof,
  bay,
  ball,
  trailer,     ///< all of it
  combination  ///< vehicle and trailer
};

/// Something that could be put on a scale, and what it may weigh at most. What it weighs follows
/// from the levels of the stores and from who is there.
struct Scale {
  struct Part {
    int store = 0;
    double kg_per_level = 0;  ///< what it weighs more as the store's level rises by one
  };
  ScaleKind kind = ScaleKind::total;
  int vehicle = 0;
  int bay = -1;
  double limit_kg = std::numeric_limits<double>::infinity();
  std::vector<double> fixed_kg{};  ///< by Calendar::companies: all that has no level
  std::vector<Part> parts{};
};

}  // namespace drystage::engine
