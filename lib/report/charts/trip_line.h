#pragma once

#include <vector>

#include "engine/timeline.h"

namespace drystage::report {

/// A part of an axis, in its numbers.
struct Stretch {
  double from = 0;
  double to = 0;
};

/// Standing still at one place, for no time at all where it is only passed.
struct Halt {
  Stretch hours;
  int place = -1;  ///< -1 in the bush
  double km = 0;   ///< driven before
};

/// A trip as one line: what happens when, in hours since its first midnight.
struct TripLine {
  std::vector<Stretch> drives;  ///< from place to place, without halts
  std::vector<Halt> halts;
  std::vector<Stretch> nights;  ///< from sunset to sunrise

  /// How far the party has driven at an hour, and in all.
  [[nodiscard]] double km_at(double hour) const;
  [[nodiscard]] double total_km() const { return driven.back().km; }

  struct Driven {
    double hour = 0;
    double km = 0;
  };
  std::vector<Driven> driven;  ///< in between it goes on evenly
};

TripLine trip_line(const engine::Timeline& timeline);

}  // namespace drystage::report
