#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

#include "answers/base/in_parallel.h"
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
  void run(std::uint64_t from, std::uint64_t until, const Watch& watch, const Each& each) {
    for_each(from, until, watch, [&](TripRunner& runner, std::uint64_t trip) {
      each(runner.run(draws_.draw(trip)), trip);
    });
  }

  /// The same for the first trips with one source as usual. A trip on which nothing comes of that
  /// source is not run again: `same(trip)` is called.
  template <class Each, class Same>
  void run_without(plan::Source source, std::uint64_t until, const Watch& watch, const Each& each,
                   const Same& same) {
    for_each(0, until, watch, [&](TripRunner& runner, std::uint64_t trip) {
      const TripDraw without = draws_.draw(trip, source);
      if (without == draws_.draw(trip)) {
        same(trip);
      } else {
        each(runner.run(without), trip);
      }
    });
  }

  /// Calls `each(runner, draw, trip)` for the first trips, from any thread.
  template <class Each>
  void go_through(std::uint64_t until, const Watch& watch, const Each& each) {
    for_each(0, until, watch, [&](TripRunner& runner, std::uint64_t trip) {
      each(runner, draws_.draw(trip), trip);
    });
  }

  /// What happened on a trip.
  [[nodiscard]] std::vector<Happened> happened(const TripDraw& draw) {
    return runners_.local().run(draw).happened;
  }

 private:
  static constexpr std::uint64_t at_a_time = 100;  ///< that one thread runs

  template <class Body>
  void for_each(std::uint64_t from, std::uint64_t until, const Watch& watch, const Body& body) {
    const std::uint64_t blocks = (until - from + at_a_time - 1) / at_a_time;
    in_parallel(blocks, [&](std::size_t block) {
      TripRunner& runner = runners_.local();
      const std::uint64_t first = from + block * at_a_time;
      const std::uint64_t last = std::min(until, first + at_a_time);
      for (std::uint64_t trip = first; trip < last && !watch.stopped(); ++trip) {
        body(runner, trip);
      }
    });
  }

  TripGround ground_;
  TripDraws draws_;
  PerThread<TripRunner> runners_;
};

}  // namespace drystage::answers
