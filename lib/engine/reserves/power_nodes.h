#pragma once

#include <span>
#include <vector>

#include "engine/reserves/power.h"

namespace drystage::engine::reserves {

/// Where the sky of a place day lies among the nodes of tables: the node to its left, and the part
/// of the way to the next.
struct SkyPlace {
  double warmer_k = 0;
  std::size_t warm = 0;
  double warm_part = 0;
  std::size_t sun = 0;
  double sun_part = 0;
};

/// What of Power's tables goes by the weather, for some weathers: all days as much warmer, or with
/// as much sun. In between lie straight lines. They are the tables of Power::fill, and nothing is
/// calculated in another way.
struct PowerNodes {
  Power::Tables planned;
  std::vector<Power::Tables> warm;  ///< by node of warmth, with the sun as planned
  struct Sun {
    std::vector<double> panel_a;        ///< by half step, by bank, as warm as planned
    std::vector<double> panel_a_per_k;  ///< and more for each K: a straight line
  };
  std::vector<Sun> sun;  ///< by node of sun
};

/// Puts the weather of one trip into tables. `skies` are by PlaceDay. What is cold enough to change
/// a bank is worked out anew.
void take_between(Power::Tables& out, const Power::Compiled& compiled, const CourseBase& course,
                  const PowerNodes& nodes, std::span<const SkyPlace> skies);

}  // namespace drystage::engine::reserves
