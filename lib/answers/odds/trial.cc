#include "answers/odds/trial.h"

#include <algorithm>
#include <limits>
#include <optional>
#include <stdexcept>

#include "answers/odds/trip_tally.h"

namespace drystage::answers {
namespace {

constexpr std::uint64_t none = std::numeric_limits<std::uint64_t>::max();

bool is_reached(double chance, std::uint64_t broken, std::uint64_t trips) {
  return models::chance_of(trips - broken, trips).low >= chance;
}

/// The most of so many trips that may break a margin; `none` where even none of them is too many.
std::uint64_t most_broken(const Confidence& asked) {
  if (!is_reached(asked.chance, 0, asked.trips)) return none;
  std::uint64_t enough = 0;
  std::uint64_t too_many = asked.trips;
  while (too_many - enough > 1) {
    const std::uint64_t middle = enough + (too_many - enough) / 2;
    (is_reached(asked.chance, middle, asked.trips) ? enough : too_many) = middle;
  }
  return enough;
}

}  // namespace

std::uint64_t fewest_trips(double chance) {
  std::uint64_t enough = 1;
  while (!is_reached(chance, 0, enough)) enough *= 2;
  std::uint64_t too_few = enough / 2;
  while (enough - too_few > 1) {
    const std::uint64_t middle = too_few + (enough - too_few) / 2;
    (is_reached(chance, 0, middle) ? enough : too_few) = middle;
  }
  return enough;
}

Trial::Trial(const Confidence& asked, const engine::CourseBase& course)
    : asked_(asked), reserves_(course.reserves.size()), most_broken_(most_broken(asked)) {
  if (most_broken_ == none) throw std::invalid_argument("too few trips for that confidence");
  for (std::size_t r = 0; r < reserves_; ++r) {
    is_asked_.push_back(!asked.vital || life_depends_on(course, r) ? 1 : 0);
    is_vital_.push_back(course.reserves[r].life_supporting ? 1 : 0);
  }
}

void Trial::run(ManyTrips& trips, bool all, const Watch& watch) {
  // The first tell of what is far off; each round has as many as all before it.
  constexpr std::uint64_t first_round = 200;
  of_.resize(asked_.trips * reserves_);
  lost_.resize(asked_.trips, 0);
  stuck_.resize(asked_.trips, 0);
  while (trips_ < asked_.trips && (all || !is_plain())) {
    const std::uint64_t next = std::min(asked_.trips, std::max(first_round, 2 * trips_));
    trips.run(trips_, next, watch,
              [this](const TripOutcome& outcome, std::uint64_t trip) { put(outcome, trip); });
    // Some of this round may not have been run then.
    if (watch.stopped()) return;
    trips_ = next;
  }
}

void Trial::put(const TripOutcome& outcome, std::uint64_t trip) {
  for (std::size_t r = 0; r < reserves_; ++r) {
    const TripOutcome::OfReserve& its = outcome.reserves[r];
    // As TripTally counts: the charge of a load that is never shed counts once it is out.
    const bool breaks = its.breach_day >= 0 && (!asked_.vital || is_vital_[r] != 0);
    const bool runs_out = its.dry_day >= 0 && is_asked(r);
    of_[trip * reserves_ + r] = {
        .slack = its.slack, .broken = breaks || runs_out, .dry = its.dry_day >= 0};
  }
  for (const Happened& one : outcome.happened) {
    if (one.event.source == plan::Source::containers) lost_[trip] = 1;
    if (one.event.source == plan::Source::punctures && one.halt_h > 0) stuck_[trip] = 1;
  }
}

bool Trial::is_plain() const {
  // Some more than may be, so that it shows for other sets too (size/laws.h).
  const std::uint64_t plainly = most_broken_ + most_broken_ / 4;
  for (std::size_t r = 0; r < reserves_; ++r) {
    if (broken(r) > plainly) return true;
  }
  return false;
}

std::uint64_t Trial::broken() const {
  std::uint64_t count = 0;
  for (std::uint64_t trip = 0; trip < trips_; ++trip) {
    bool any = false;
    for (std::size_t r = 0; r < reserves_; ++r) any = any || of(trip, r).broken;
    count += any ? 1U : 0U;
  }
  return count;
}

std::uint64_t Trial::broken(std::size_t reserve) const {
  std::uint64_t count = 0;
  for (std::uint64_t trip = 0; trip < trips_; ++trip) count += of(trip, reserve).broken ? 1U : 0U;
  return count;
}

models::Chance Trial::kept() const { return models::chance_of(trips_ - broken(), trips_); }

int Trial::most_often() const {
  int out = -1;
  std::uint64_t most = 0;
  for (std::size_t r = 0; r < reserves_; ++r) {
    if (broken(r) <= most) continue;
    most = broken(r);
    out = static_cast<int>(r);
  }
  return out;
}

}  // namespace drystage::answers
