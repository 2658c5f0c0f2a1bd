#include "answers/odds/trip_tally.h"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

#include "units/index.h"

namespace drystage::answers {
namespace {

// No vessel holds more than what so many deviations make of it, but one in thirty thousand.
constexpr double deviations = 4;

constexpr double coldest_c = -30;
constexpr double warmest_c = 70;
constexpr std::size_t cells = TripTally::bins + 2;

void add_one(std::vector<std::uint64_t>& days, int day) {
  if (days.size() <= at(day)) days.resize(at(day) + 1, 0);
  ++days[at(day)];
}

void add_all(std::vector<std::uint64_t>& days, const std::vector<std::uint64_t>& more) {
  if (days.size() < more.size()) days.resize(more.size(), 0);
  for (std::size_t day = 0; day < more.size(); ++day) days[day] += more[day];
}

}  // namespace

bool life_depends_on(const engine::CourseBase& course, std::size_t reserve) {
  return course.reserves[reserve].life_supporting ||
         std::ranges::any_of(course.loads, [&](const engine::LoadInfo& load) {
           return load.never_shed && at(load.reserve) == reserve;
         });
}

TripTally::TripTally(const engine::CourseBase& course, std::size_t days, int worst, double fills)
    : days_(days), most_worst_(at(worst)) {
  for (std::size_t r = 0; r < course.reserves.size(); ++r) {
    const engine::ReserveInfo& info = course.reserves[r];
    const bool above = info.sense == engine::Sense::keep_above;
    OfReserve of{.above = above,
                 .is_vital = info.life_supporting,
                 .can_kill = life_depends_on(course, r),
                 .from = above ? 0 : coldest_c,
                 .to = above ? std::max(info.capacity, 1e-9) * (1 + deviations * fills) : warmest_c,
                 .scale = above ? std::max(info.capacity, 1e-9) : 10};
    reserves_.push_back(std::move(of));
  }
  levels_.assign(days_ * reserves_.size() * cells, 0);
}

void TripTally::count_level(std::size_t day, std::size_t reserve, double level) {
  const OfReserve& of = reserves_[reserve];
  const double along = (level - of.from) / (of.to - of.from) * bins;
  // What is exactly empty or full is counted by itself: many trips may be so.
  const std::size_t cell = along <= 0      ? 0
                           : along >= bins ? cells - 1
                                           : 1 + static_cast<std::size_t>(along);
  ++levels_[(day * reserves_.size() + reserve) * cells + cell];
}

void TripTally::add(const TripOutcome& outcome, std::uint64_t trip) {
  ++trips_;
  most_days_ = std::max(most_days_, outcome.days);
  bool breach = false;
  bool life_breach = false;
  bool life_dry = false;
  for (std::size_t r = 0; r < reserves_.size(); ++r) {
    const TripOutcome::OfReserve& its = outcome.reserves[r];
    OfReserve& of = reserves_[r];
    if (its.breach_day >= 0) {
      ++of.breach;
      add_one(of.first_breach_days, its.breach_day);
      breach = true;
      life_breach = life_breach || of.is_vital;
    }
    if (its.dry_day >= 0) {
      ++of.dry;
      add_one(of.first_dry_days, its.dry_day);
      life_dry = life_dry || of.can_kill;
    }
    for (std::size_t day = 0; day < std::min(days_, its.lowest.size()); ++day) {
      if (!std::isnan(its.lowest[day])) count_level(day, r, its.lowest[day]);
    }
  }
  // What runs out has been below its margin.
  life_breach = life_breach || life_dry;
  breach_ += breach ? 1U : 0U;
  life_breach_ += life_breach ? 1U : 0U;
  life_dry_ += life_dry ? 1U : 0U;
  if (most_worst_ > 0) keep_worst(outcome, trip);
}

void TripTally::keep_worst(const TripOutcome& outcome, std::uint64_t trip) {
  // What runs out that life depends on is worse than any other shortage.
  constexpr double deadly = 1000;
  constexpr double vital = 10;
  Bad bad{.badness = 0, .trip = {.trip = trip, .draw = {}}};
  for (std::size_t r = 0; r < reserves_.size(); ++r) {
    const TripOutcome::OfReserve& its = outcome.reserves[r];
    if (its.breach_day < 0) continue;
    const OfReserve& of = reserves_[r];
    // What was wanted and not there; where nothing was, how far it is below the margin.
    double badness = (its.short_of > 0 ? its.short_of : -its.slack) / of.scale;
    if (of.can_kill && its.dry_day >= 0) badness += deadly;
    if (of.is_vital) badness += vital;
    if (badness <= bad.badness) continue;
    bad.badness = badness;
    bad.trip.reserve = static_cast<int>(r);
    bad.trip.breach_day = its.breach_day;
    bad.trip.dry_day = its.dry_day;
    bad.trip.short_of = its.short_of;
    bad.trip.slack = its.slack;
  }
  if (bad.badness > 0) keep_worst(std::move(bad));
}

void TripTally::keep_worst(Bad bad) {
  const auto worse = [](const Bad& one, const Bad& other) {
    return std::tuple(-one.badness, one.trip.trip) < std::tuple(-other.badness, other.trip.trip);
  };
  worst_.insert(std::ranges::upper_bound(worst_, bad, worse), std::move(bad));
  if (worst_.size() > most_worst_) worst_.pop_back();
}

void TripTally::add(const TripTally& other) {
  trips_ += other.trips_;
  breach_ += other.breach_;
  life_breach_ += other.life_breach_;
  life_dry_ += other.life_dry_;
  most_days_ = std::max(most_days_, other.most_days_);
  for (std::size_t r = 0; r < reserves_.size(); ++r) {
    reserves_[r].breach += other.reserves_[r].breach;
    reserves_[r].dry += other.reserves_[r].dry;
    add_all(reserves_[r].first_breach_days, other.reserves_[r].first_breach_days);
    add_all(reserves_[r].first_dry_days, other.reserves_[r].first_dry_days);
  }
  for (std::size_t cell = 0; cell < levels_.size(); ++cell) levels_[cell] += other.levels_[cell];
  for (const Bad& bad : other.worst_) keep_worst(bad);
}

double TripTally::quantile(std::size_t day, std::size_t reserve, double share) const {
  const std::uint32_t* const counts = &levels_[(day * reserves_.size() + reserve) * cells];
  std::uint64_t all = 0;
  for (std::size_t cell = 0; cell < cells; ++cell) all += counts[cell];
  if (all == 0) return std::numeric_limits<double>::quiet_NaN();
  const OfReserve& of = reserves_[reserve];
  const double wanted = share * static_cast<double>(all);
  double before = 0;
  for (std::size_t cell = 0; cell < cells; ++cell) {
    const double here = counts[cell];
    if (here <= 0 || before + here < wanted) {
      before += here;
      continue;
    }
    if (cell == 0) return of.from;
    if (cell == cells - 1) return of.to;
    const double along = static_cast<double>(cell - 1) + (wanted - before) / here;
    return of.from + (of.to - of.from) * along / bins;
  }
  return of.to;
}

void TripTally::tell(Odds& odds) const {
  constexpr double low = 0.05;
  constexpr double middle = 0.5;
  constexpr double high = 0.95;
  odds.trips = trips_;
  odds.breach = models::chance_of(breach_, trips_);
  odds.life_breach = life_breach();
  odds.life_dry = life_dry();
  odds.most_days = most_days_;
  odds.reserves.clear();
  for (std::size_t r = 0; r < reserves_.size(); ++r) {
    const OfReserve& of = reserves_[r];
    ReserveOdds& out = odds.reserves.emplace_back();
    out.breach = models::chance_of(of.breach, trips_);
    out.dry = models::chance_of(of.dry, trips_);
    out.first_breach_days = of.first_breach_days;
    out.first_dry_days = of.first_dry_days;
    for (std::size_t day = 0; day < days_; ++day) {
      out.bands.push_back({.p5 = quantile(day, r, low),
                           .p50 = quantile(day, r, middle),
                           .p95 = quantile(day, r, high)});
    }
  }
  odds.worst.clear();
  for (const Bad& bad : worst_) odds.worst.push_back(bad.trip);
}

}  // namespace drystage::answers
