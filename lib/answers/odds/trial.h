#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "answers/base/watch.h"
#include "answers/odds/many_trips.h"
#include "models/chance.h"

namespace drystage::answers {

/// How sure somebody wants to be that a plan keeps every margin.
struct Confidence {
  double chance = 0.95;  ///< more than 0, less than 1
  std::uint64_t trips = 2000;
  std::uint64_t seed = 1;
  bool vital = false;  ///< of what life depends on alone
};

/// So few trips can show it: none of them may break a margin.
[[nodiscard]] std::uint64_t fewest_trips(double chance);

/// Some trips of a plan, and which margins each of them breaks. The plan has the confidence asked
/// for when the lower end of the interval of its chance (models::Chance) reaches it: so it is not
/// by the luck of the draw that it does.
class Trial {
 public:
  struct OfReserve {
    double slack = 0;     ///< the least: level less margin (or the other way)
    bool broken = false;  ///< it falls below its margin, or runs out, and that is asked
    bool dry = false;
  };

  /// Throws std::invalid_argument where so few trips cannot show it.
  Trial(const Confidence& asked, const engine::CourseBase& course);

  /// Runs the trips. Unless `all`, it ends once it is plain that a reserve by itself breaks its
  /// margin too often; the answer is the same on any number of threads.
  void run(ManyTrips& trips, bool all, const Watch& watch);

  [[nodiscard]] std::uint64_t trips() const { return trips_; }
  [[nodiscard]] std::size_t reserves() const { return reserves_; }
  [[nodiscard]] const OfReserve& of(std::uint64_t trip, std::size_t reserve) const {
    return of_[trip * reserves_ + reserve];
  }
  /// Whether it is asked of a reserve that it keeps its margin.
  [[nodiscard]] bool is_asked(std::size_t reserve) const { return is_asked_[reserve] != 0; }
  /// Whether a container, tank or can was lost on a trip.
  [[nodiscard]] bool has_lost(std::uint64_t trip) const { return lost_[trip] != 0; }
  /// Whether somebody waited for want of a spare wheel.
  [[nodiscard]] bool was_stuck(std::uint64_t trip) const { return stuck_[trip] != 0; }

  /// All trips were run, and few enough break a margin.
  [[nodiscard]] bool is_enough() const {
    return trips_ == asked_.trips && broken() <= most_broken_;
  }
  /// Whether so many trips are too many to break a margin.
  [[nodiscard]] bool is_too_many(std::uint64_t broken) const { return broken > most_broken_; }

  [[nodiscard]] std::uint64_t broken() const;  ///< trips on which any margin is broken
  [[nodiscard]] std::uint64_t broken(std::size_t reserve) const;
  [[nodiscard]] models::Chance kept() const;  ///< chance to keep every margin
  /// The reserve whose margin is broken most often; -1: none is.
  [[nodiscard]] int most_often() const;
  [[nodiscard]] const Confidence& asked() const { return asked_; }

 private:
  void put(const TripOutcome& outcome, std::uint64_t trip);
  [[nodiscard]] bool is_plain() const;

  Confidence asked_;
  std::size_t reserves_;
  std::uint64_t most_broken_;
  std::uint64_t trips_ = 0;
  std::vector<char> is_asked_;  ///< by reserve
  std::vector<char> is_vital_;  ///< by reserve: life depends on its margin, and not only on charge
  std::vector<OfReserve> of_;   ///< by trip, by reserve
  std::vector<char> lost_;      ///< by trip
  std::vector<char> stuck_;     ///< by trip
};

}  // namespace drystage::answers
