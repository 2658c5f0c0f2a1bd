#pragma once

#include <cstdint>

namespace drystage::models {

/// Random numbers by what they are for, and not by the order in which they are asked: the same
/// seed, stream, draw and place always give the same number, on any number of threads and on any
/// machine. (Philox 4x32-10: Salmon, Moraes, Dror and Shaw, Parallel random numbers: as easy as 1,
/// 2, 3, SC11; by Random123.)
struct RandomSource {
  std::uint64_t seed = 0;
  std::uint64_t trip = 0;
  std::uint32_t stream = 0;  ///< what it is for

  /// Evenly over 0 to 1, both excluded, with 52 bits.
  [[nodiscard]] double uniform(std::uint32_t place) const;
  /// Two independent ones, normal with mean 0 and standard deviation 1. (Box and Muller, 1958; by
  /// Random123.)
  struct Pair {
    double first = 0;
    double second = 0;
  };
  [[nodiscard]] Pair normals(std::uint32_t place) const;
  [[nodiscard]] double normal(std::uint32_t place) const { return normals(place).first; }
};

/// How many events there are, where `mean` are expected, for a number that lies evenly over 0 to 1:
/// Poisson's distribution, by its own sum. `mean` is 0 to 700; at most `most` are told.
[[nodiscard]] int poisson_quantile(double probability, double mean, int most);

}  // namespace drystage::models
