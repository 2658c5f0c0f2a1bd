#include "answers/odds/needs_on_trips.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <iterator>
#include <limits>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <span>
#include <utility>

#include "answers/base/supplies.h"
#include "answers/odds/many_trips.h"
#include "answers/onward/least_level.h"
#include "models/chance.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

using engine::Engine;

/// A moment of the plan at which it is asked what must be there of a reserve.
struct Asked {
  std::size_t step = 0;       ///< just before it
  std::size_t goal_from = 0;  ///< the step from which on the next supply is looked for
  int reserve = 0;
  bool joined = false;  ///< whether who joins before that step has joined
};

constexpr double not_counted = std::numeric_limits<double>::quiet_NaN();

/// The same course with what nobody has confirmed shut; the course itself where all is confirmed.
std::shared_ptr<const engine::Course> on_confirmed_only(
    const std::shared_ptr<const engine::Course>& course) {
  const auto is_doubtful = [](const engine::OrderInfo& order) {
    return order.open && !order.supply.confirmed;
  };
  if (std::ranges::none_of(course->orders, is_doubtful)) return course;
  auto out = std::make_shared<engine::Course>(*course);
  for (engine::OrderInfo& order : out->orders) order.open = order.open && order.supply.confirmed;
  return out;
}

/// What must be there on one trip, at moments in the order of time; at each of them first of the
/// reserves on which others depend.
class OneTrip {
 public:
  OneTrip(TripRunner& runner, const TripDraw& draw)
      : trip_(runner.written_out(draw)),
        certain_(on_confirmed_only(trip_.laid.course)),
        record_(engine::blank_record(*trip_.laid.course)),
        standing_(Engine::begin(*trip_.laid.course, record_, draw.factors)) {
    const bool any_limit = std::ranges::any_of(
        certain_->orders,
        [](const engine::OrderInfo& order) { return order.supply.most.has_value(); });
    if (any_limit) parts_ = parts_of_what_there_is(*certain_);
  }

  double least(const Asked& asked) {
    if (asked.step > trip_.as_planned_to) return not_counted;
    if (!start_ || start_step_ != asked.step || start_joined_ != asked.joined) {
      if (standing_.next < asked.step) Engine::go_on(*trip_.laid.course, standing_, asked.step);
      start_.emplace(standing_);
      start_step_ = asked.step;
      start_joined_ = asked.joined;
      if (asked.joined) Engine::meet_next(*trip_.laid.course, *start_);
    }
    const double level = least_from(*start_, asked);
    // Of the reserves that are asked for after it, none has to stand in for this one, and none goes
    // to waste for want of it.
    if (std::isfinite(level) && level > start_->run.reserve_level(asked.reserve)) {
      Engine::set_level(*trip_.laid.course, *start_, asked.reserve, level);
    }
    return level;
  }

 private:
  double least_from(const Engine::Standing& start, const Asked& asked) {
    if (!start.run.is_judged(asked.reserve)) return 0;
    const auto refuge = next_goal(trip_.laid, asked.goal_from, asked.reserve);
    const std::size_t until = refuge ? refuge->step : trip_.laid.timeline->steps.size();
    const auto in = [&](const engine::Course& course) {
      return least_level({.course = course,
                          .start = start,
                          .from = asked.step,
                          .until = until,
                          .reserve = asked.reserve},
                         scratch_);
    };
    if (!parts_) return in(*certain_);
    const auto known = taking_.find(asked.reserve);
    if (known != taking_.end()) return in(known->second);
    return in(taking_.emplace(asked.reserve, taking_all_there_is(*certain_, asked.reserve, *parts_))
                  .first->second);
  }

  TripRunner::WrittenOut trip_;
  std::shared_ptr<const engine::Course> certain_;
  engine::Record record_;
  engine::Record scratch_{};
  Engine::Standing standing_;
  std::optional<Engine::Standing> start_{};  ///< at the moment asked for last
  std::size_t start_step_ = 0;
  bool start_joined_ = false;
  std::optional<std::vector<std::optional<double>>> parts_{};  ///< of limited supplies, if any
  std::map<int, engine::Course> taking_{};                     ///< by reserve: taking its part
};

/// What is enough on so many of the trips that count; nothing where so few cannot show it.
std::optional<double> enough(std::span<const double> all, double chance) {
  std::vector<double> counted;
  std::ranges::copy_if(all, std::back_inserter(counted),
                       [](double level) { return !std::isnan(level); });
  const std::uint64_t trips = counted.size();
  const auto reaches = [&](std::uint64_t kept) {
    return trips > 0 && models::chance_of(kept, trips).low >= chance;
  };
  if (!reaches(trips)) return std::nullopt;
  std::uint64_t most = trips;
  while (most > 1 && reaches(most - 1)) --most;
  std::ranges::sort(counted);
  return counted[most - 1];
}

}  // namespace

NeedsOnTrips raise_to_confidence(Needs& needs, std::vector<Leaving>& leavings,
                                 const PlanRun& planned, const Confidence& asked,
                                 const Watch& watch) {
  ManyTrips trips(planned, asked.seed);
  const engine::Timeline& timeline = *trips.ground().laid().timeline;
  struct Raised {
    Asked asked;
    double* must_have = nullptr;
    bool* fits = nullptr;
  };
  std::vector<Raised> all;
  const std::size_t reserves = needs.reserves.size();
  for (std::size_t i = 0; i < needs.table.size(); ++i) {
    const auto day = static_cast<int>(i / reserves);
    Need& need = needs.table[i];
    if (day < needs.first_day || !need.judged) continue;
    const std::size_t step = morning_step(timeline, day);
    all.push_back({.asked = {.step = step,
                             .goal_from = step,
                             .reserve = needs.reserves[i % reserves],
                             .joined = true},
                   .must_have = &need.must_have,
                   .fits = &need.fits});
  }
  for (Leaving& leaving : leavings) {
    all.push_back(
        {.asked = {.step = leaving.step, .goal_from = leaving.step + 1, .reserve = leaving.reserve},
         .must_have = &leaving.must_have,
         .fits = &leaving.fits});
  }
  std::ranges::stable_sort(all, {}, [](const Raised& one) { return one.asked.step; });

  // By moment and reserve, then by trip.
  std::vector<double> least(all.size() * asked.trips, not_counted);
  std::atomic<std::uint64_t> on_time{0};
  std::mutex mutex;
  std::uint64_t done = 0;
  trips.go_through(asked.trips, watch,
                   [&](TripRunner& runner, const TripDraw& draw, std::uint64_t trip) {
                     OneTrip one(runner, draw);
                     bool always = true;
                     for (std::size_t i = 0; i < all.size(); ++i) {
                       double& its = least[i * asked.trips + trip];
                       its = one.least(all[i].asked);
                       always = always && !std::isnan(its);
                     }
                     if (always) ++on_time;
                     const std::scoped_lock lock(mutex);
                     if (watch.progress) watch.progress(++done, asked.trips);
                   });

  NeedsOnTrips out{.asked = asked, .on_time = on_time};
  for (std::size_t i = 0; i < all.size(); ++i) {
    const Raised& raised = all[i];
    const auto level = enough(std::span(least).subspan(i * asked.trips, asked.trips), asked.chance);
    if (!level) throw TooFewOnTime(asked.trips, on_time);
    if (*level <= *raised.must_have) continue;
    *raised.must_have = *level;
    const engine::ReserveInfo& info = planned.course.reserves[at(raised.asked.reserve)];
    const bool is_held = info.commodity && info.commodity != plan::Commodity::food;
    *raised.fits = std::isfinite(*level) && (!is_held || *level <= info.capacity + fit_rounding);
  }
  return out;
}

void raise_in_proportion(WaysOutTable& ways, const engine::CourseBase& course, const Needs& before,
                         const Needs& needs) {
  const std::size_t reserves = ways.reserves.size();
  for (std::size_t w = 0; w < ways.table.size(); ++w) {
    const std::size_t day = w / reserves;
    const int reserve = ways.reserves[w % reserves];
    const auto i = static_cast<std::size_t>(std::ranges::find(needs.reserves, reserve) -
                                            needs.reserves.begin());
    const double was = before.need(day, i).must_have;
    const double is = needs.need(day, i).must_have;
    if (!(is > was)) continue;
    WaysOut& its = ways.table[w];
    its.as_planned.least = is;
    its.as_planned.fits = needs.need(day, i).fits;
    const double times = was > 0 ? is / was : 1;
    const auto raise = [&](WayOut& way) {
      // Of what takes nothing, as much more is nothing, also where no amount is enough.
      if (way.least > 0) way.least *= times;
      way.fits = std::isfinite(way.least) &&
                 way.least <= course.reserves[at(reserve)].capacity + fit_rounding;
    };
    raise(its.at_once);
    if (its.back) raise(*its.back);
  }
}

}  // namespace drystage::answers
