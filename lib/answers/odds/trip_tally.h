#pragma once

#include <cstdint>
#include <vector>

#include "answers/odds/chances.h"
#include "answers/odds/trip_runner.h"

namespace drystage::answers {

/// Counts what became of trips. What it holds does not grow with their number, and sums of counts
/// do not depend on their order. Levels are counted in bins: a quantile is right within
/// `bins` of the range, that is from empty to full, or from -30 to 70 °C.
class TripTally {
 public:
  static constexpr int bins = 400;

  /// `days`: of the plan; bands are of these. `fills`: the deviation of what a full vessel holds,
  /// as a share: so there is room above what it is said to hold.
  TripTally(const engine::CourseBase& course, std::size_t days, int worst, double fills = 0);

  void add(const TripOutcome& outcome, std::uint64_t trip);
  void add(const TripTally& other);

  [[nodiscard]] std::uint64_t trips() const { return trips_; }
  [[nodiscard]] models::Chance life_breach() const {
    return models::chance_of(life_breach_, trips_);
  }
  [[nodiscard]] models::Chance life_dry() const { return models::chance_of(life_dry_, trips_); }
  [[nodiscard]] models::Chance breach(std::size_t reserve) const {
    return models::chance_of(reserves_[reserve].breach, trips_);
  }
  /// Fills in what was counted.
  void tell(Odds& odds) const;

 private:
  struct OfReserve {
    bool above = true;
    bool is_vital = false;  ///< life depends on its margin
    bool can_kill = false;  ///< life depends on it once it is out
    double from = 0;        ///< range of the bins
    double to = 0;
    double scale = 1;  ///< what a shortfall is measured by
    std::uint64_t breach = 0;
    std::uint64_t dry = 0;
    std::vector<std::uint64_t> first_breach_days{};
    std::vector<std::uint64_t> first_dry_days{};
  };
  void count_level(std::size_t day, std::size_t reserve, double level);
  [[nodiscard]] double quantile(std::size_t day, std::size_t reserve, double share) const;
  void keep_worst(const TripOutcome& outcome, std::uint64_t trip);
  struct Bad {
    double badness = 0;
    WorstTrip trip;
  };
  void keep_worst(Bad bad);

  std::size_t days_;
  std::size_t most_worst_;
  std::vector<OfReserve> reserves_;
  std::vector<std::uint32_t> levels_;  ///< by day, by reserve, by bin; the first is below, the last
                                       ///< above the range
  std::uint64_t trips_ = 0;
  std::uint64_t breach_ = 0;
  std::uint64_t life_breach_ = 0;
  std::uint64_t life_dry_ = 0;
  int most_days_ = 0;
  std::vector<Bad> worst_;
};

/// Whether somebody's life depends on a reserve once it is out: it is life-supporting, or charges a
/// load that is never shed.
bool life_depends_on(const engine::CourseBase& course, std::size_t reserve);

}  // namespace drystage::answers
