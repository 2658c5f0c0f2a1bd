#pragma once

#include <oneapi/tbb/enumerable_thread_specific.h>
#include <oneapi/tbb/parallel_for.h>

#include <algorithm>
#include <cstdint>
#include <optional>
#include <vector>

#include "answers/base/watch.h"
#include "answers/odds/trip_draw.h"
#include "answers/odds/trip_runner.h"

namespace drystage::answers {

/// Runs trips of one plan, many at once. The plan's run must outlive it. `like`: as of TripGround.
class ManyTrips {
 public:
  ManyTrips(const PlanRun& planned, std::uint64_t seed, const TripGround* like = nullptr)
      : ground_(planned, like),
        draws_(planned, seed),
        runners_([this] { return TripRunner(ground_); }) {}

  [[nodiscard]] const TripGround& ground() const { return ground_; }
  [[nodiscard]] const TripDraws& draws() const { return draws_; }

  /// Calls `each(outcome, trip)` for trips from one to another, from any thread.
  template <class Each>
  void run(std::uint64_t from, std::uint64_t until, std::optional<plan::Source> as_usual,
           const Watch& watch, const Each& each) {
    const std::uint64_t blocks = (until - from + at_a_time - 1) / at_a_time;
    oneapi::tbb::parallel_for(std::uint64_t{0}, blocks, [&](std::uint64_t block) {
      if (watch.stopped()) return;
      TripRunner& runner = runners_.local();
      const std::uint64_t first = from + block * at_a_time;
      const std::uint64_t last = std::min(until, first + at_a_time);
      for (std::uint64_t trip = first; trip < last; ++trip) {
        each(runner.run(draws_.draw(trip, as_usual)), trip);
      }
    });
  }

  /// What happened on a trip.
  [[nodiscard]] std::vector<Happened> happened(const TripDraw& draw) {
    return runners_.local().run(draw).happened;
  }

 private:
  static constexpr std::uint64_t at_a_time = 100;  ///< that one thread runs

  TripGround ground_;
  TripDraws draws_;
  oneapi::tbb::enumerable_thread_specific<TripRunner> runners_;
};

}  // namespace drystage::answers
