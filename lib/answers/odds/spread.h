#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "answers/odds/trip_runner.h"

namespace drystage::answers {

/// How far trips differ in what is to spare of each reserve at its tightest moment: level less
/// margin, less what was wanted and not there.
class Spread {
 public:
  Spread(std::size_t reserves, std::uint64_t trips);

  /// Any thread may put any trip in, each once.
  void put(std::uint64_t trip, const TripOutcome& outcome);
  /// The same as in another spread.
  void put(std::uint64_t trip, const Spread& other);

  struct Share {
    double share = 0;
    double low = 0;
    double high = 0;
  };
  /// By how much less the variance is on the same trips without one source, and the interval of 95
  /// % (by the jackknife over 20 parts of the trips: Tukey; Efron, The Jackknife, 1982). Nothing
  /// where there is no variance.
  [[nodiscard]] std::optional<Share> share_of(const Spread& without, std::size_t reserve) const;

  /// Whether the first so many trips are the same in both.
  [[nodiscard]] bool is_same(const Spread& other, std::uint64_t trips) const;

  /// What this share of the trips does not reach.
  [[nodiscard]] double quantile(std::size_t reserve, double share) const;

 private:
  [[nodiscard]] std::vector<double> of(std::size_t reserve) const;

  std::size_t reserves_;
  std::vector<double> spare_;  ///< by trip, by reserve
};

}  // namespace drystage::answers
