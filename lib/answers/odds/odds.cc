#include "answers/odds/odds.h"

#include <algorithm>
#include <mutex>
#include <numeric>
#include <string>
#include <tuple>
#include <utility>

#include "answers/odds/many_trips.h"
#include "answers/odds/spread.h"
#include "answers/odds/trip_runner.h"
#include "answers/odds/trip_tally.h"
#include "answers/offers/changes.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

// Trips after which it is asked whether more are wanted.
constexpr std::uint64_t in_a_round = 4'000;

// More trips than that tell nothing more that anybody could use.
constexpr std::uint64_t most_trips = 10'000'000;

// So many trips tell what makes them differ, and what would help.
constexpr std::uint64_t compared_trips = 1'000;
// And so many whether a source matters at all.
constexpr std::uint64_t first_trips = 60;

// Kinds of change that are tried for one reserve.
constexpr std::size_t most_kinds = 2;

class Counted {
 public:
  Counted(ManyTrips& trips, const OddsOptions& options, const Watch& watch)
      : trips_(trips), options_(options), watch_(watch), tallies_([&trips, &options] {
          const engine::Course& course = *trips.ground().laid().course;
          return TripTally(course, course.timeline->days.size(), options.worst,
                           trips.ground().laid().plan->uncertainty.fills_vessel);
        }) {}

  TripTally count(std::uint64_t wanted, bool until) {
    std::uint64_t done = 0;
    TripTally all = sum();
    while (done < wanted && !watch_.stopped()) {
      const std::uint64_t next = std::min(wanted, done + in_a_round);
      trips_.run(done, next, watch_, [&](const TripOutcome& outcome, std::uint64_t trip) {
        tallies_.local().add(outcome, trip);
      });
      done = next;
      all = sum();
      if (watch_.progress) watch_.progress(done, until ? 0 : wanted);
      if (until && models::half_width(all.life_breach()) <= *options_.until) break;
    }
    return all;
  }

 private:
  TripTally sum() {
    const engine::Course& course = *trips_.ground().laid().course;
    TripTally out(course, course.timeline->days.size(), options_.worst,
                  trips_.ground().laid().plan->uncertainty.fills_vessel);
    tallies_.for_each([&](const TripTally& one) { out.add(one); });
    return out;
  }

  ManyTrips& trips_;
  const OddsOptions& options_;
  const Watch& watch_;
  PerThread<TripTally> tallies_;
};

/// The first trips, of a plan that may be another.
struct Compared {
  Spread spread;
  TripTally tally;
};

Compared compared(ManyTrips& trips, std::uint64_t count, const Watch& watch) {
  const engine::Course& course = *trips.ground().laid().course;
  Compared out{.spread = Spread(course.reserves.size(), count), .tally = TripTally(course, 0, 0)};
  std::mutex mutex;
  trips.run(0, count, watch, [&](const TripOutcome& outcome, std::uint64_t trip) {
    // Each trip has its own place in the spread.
    out.spread.put(trip, outcome);
    const std::scoped_lock lock(mutex);
    out.tally.add(outcome, trip);
  });
  return out;
}

/// The first trips with one source as usual; `all`: with all that is drawn.
Spread without(plan::Source source, ManyTrips& trips, std::uint64_t count, const Spread& all,
               const Watch& watch) {
  Spread out(trips.ground().laid().course->reserves.size(), count);
  trips.run_without(
      source, count, watch,
      [&](const TripOutcome& outcome, std::uint64_t trip) { out.put(trip, outcome); },
      [&](std::uint64_t trip) { out.put(trip, all); });
  return out;
}

void find_drivers(Odds& odds, ManyTrips& trips, const Spread& all, const Watch& watch) {
  const plan::Uncertainty& asked = trips.ground().planned().plan.uncertainty;
  for (const auto& word : plan::source_words) {
    if (!asked.draws(word.value) || watch.stopped()) continue;
    const std::uint64_t first = std::min(odds.compared, first_trips);
    if (all.is_same(without(word.value, trips, first, all, watch), first)) continue;
    const Spread its = without(word.value, trips, odds.compared, all, watch);
    if (watch.stopped()) return;
    for (std::size_t r = 0; r < odds.reserves.size(); ++r) {
      const auto share = all.share_of(its, r);
      if (!share || share->low <= 0) continue;
      odds.drivers.push_back({.source = word.value,
                              .reserve = static_cast<int>(r),
                              .share = share->share,
                              .low = share->low,
                              .high = share->high});
    }
  }
  std::ranges::stable_sort(odds.drivers, [](const Driver& one, const Driver& other) {
    return std::tuple(one.reserve, -one.share) < std::tuple(other.reserve, -other.share);
  });
}

/// Tries changes to the plan, each on the same trips.
class Helper {
 public:
  Helper(Odds& odds, const TripGround& like, const Compared& before, std::uint64_t seed,
         const Watch& watch)
      : odds_(odds),
        like_(like),
        planned_(like.planned()),
        before_(before),
        seed_(seed),
        watch_(watch) {}

  /// Of each reserve that is likely to fail, those that life depends on, and the likeliest of the
  /// others: the changes that `run` would try for as much as one trip in twenty lacks.
  void find() {
    constexpr double worth_it = 0.01;
    bool other = false;
    for (const std::size_t r : likeliest_first()) {
      if (odds_.reserves[r].breach.chance < worth_it) continue;
      const bool vital = life_depends_on(planned_.course, r);
      if (!vital && std::exchange(other, true)) continue;
      find_for(static_cast<int>(r));
    }
    std::ranges::stable_sort(odds_.helps, {}, [&](const OddsHelp& help) {
      return std::tuple(help.overloads, !planned_.course.reserves[at(help.reserve)].life_supporting,
                        help.life_breach.chance, help.breach.chance);
    });
  }

 private:
  [[nodiscard]] std::vector<std::size_t> likeliest_first() const {
    std::vector<std::size_t> order(odds_.reserves.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order, {}, [&](std::size_t r) {
      return std::tuple(!life_depends_on(planned_.course, r), -odds_.reserves[r].breach.chance);
    });
    return order;
  }

  void find_for(int reserve) {
    constexpr double one_in_twenty = 0.05;
    const double lacking = std::max(0.0, -before_.spread.quantile(at(reserve), one_in_twenty));
    std::vector<std::string> known;
    for (const Option& option : options_for(planned_, reserve, lacking)) {
      const std::string kind = option.kind.empty() ? option.change.name.one : option.kind;
      if (std::ranges::find(known, kind) != known.end()) continue;
      known.push_back(kind);
      if (known.size() > most_kinds || watch_.stopped()) return;
      const auto help = option.of_steps ? fewest(option, reserve) : tried(option, reserve);
      if (help) odds_.helps.push_back(*help);
    }
  }

  [[nodiscard]] static bool halves(const OddsHelp& help) {
    return help.breach.chance <= help.breach_before.chance / 2;
  }

  /// Of what comes in equal steps: as many as make trouble half as likely, or else the most.
  std::optional<OddsHelp> fewest(const Option& option, int reserve) {
    int enough = engine::most_pieces;
    std::optional<OddsHelp> best = tried(option.of_steps(enough), reserve);
    if (!best || !halves(*best)) return best;
    int too_few = 0;
    while (enough - too_few > 1) {
      const int middle = (enough + too_few) / 2;
      const auto help = tried(option.of_steps(middle), reserve);
      const bool is_enough = help && halves(*help);
      (is_enough ? enough : too_few) = middle;
      if (is_enough) best = help;
    }
    return best;
  }

  /// How likely trouble is with a change; nothing where it does not help, overloads a vehicle, or
  /// cannot be laid out.
  std::optional<OddsHelp> tried(const Option& option, int reserve) {
    if (watch_.stopped()) return std::nullopt;
    plan::Plan changed = planned_.plan;
    option.apply(changed);
    auto timeline = planned_.course.timeline;
    if (option.moves_time) {
      timeline = std::make_shared<const engine::Timeline>(
          engine::lay_timeline(changed, {.almanac = planned_.course.timeline->almanac}));
      if (!timeline->problems.empty()) return std::nullopt;
    }
    PlanRun with = run_plan(std::move(changed), timeline, &planned_.course);
    with.learned = planned_.learned;
    ManyTrips trips(with, seed_, &like_);
    const Compared after = compared(trips, odds_.compared, watch_);
    if (watch_.stopped()) return std::nullopt;
    const OddsHelp help{.name = option.name_in ? option.name_in(with) : option.change.name,
                        .reserve = reserve,
                        .breach_before = before_.tally.breach(at(reserve)),
                        .breach = after.tally.breach(at(reserve)),
                        .overloads = is_overloaded(with) && !is_overloaded(planned_),
                        .life_breach = after.tally.life_breach(),
                        .life_dry = after.tally.life_dry()};
    return help.breach.chance < help.breach_before.chance ? std::optional(help) : std::nullopt;
  }

  [[nodiscard]] static bool is_overloaded(const PlanRun& run) {
    return std::ranges::any_of(run.verdict.breaches,
                               [](const Breach& breach) { return breach.harm == Harm::overload; });
  }

  Odds& odds_;
  const TripGround& like_;
  const PlanRun& planned_;
  const Compared& before_;
  std::uint64_t seed_;
  const Watch& watch_;
};

}  // namespace

Odds odds_of(const PlanRun& planned, const OddsOptions& options, const Watch& watch) {
  ManyTrips trips(planned, options.seed);
  const bool until = options.until.has_value();
  const TripTally counted =
      Counted(trips, options, watch).count(until ? most_trips : options.trips, until);
  Odds odds;
  odds.seed = options.seed;
  counted.tell(odds);
  odds.partial = watch.stopped();
  for (WorstTrip& worst : odds.worst) {
    worst.draw = trips.draws().draw(worst.trip);
    worst.happened = trips.happened(worst.draw);
  }
  if (odds.partial || (!options.drivers && !options.helps)) return odds;
  odds.compared = std::min(odds.trips, compared_trips);
  const Watch unseen{.progress = {}, .stop = watch.stop};
  const Compared all = compared(trips, odds.compared, unseen);
  odds.life_breach_of_compared = all.tally.life_breach();
  odds.life_dry_of_compared = all.tally.life_dry();
  if (options.drivers) find_drivers(odds, trips, all.spread, unseen);
  if (options.helps) Helper(odds, trips.ground(), all, options.seed, unseen).find();
  odds.partial = watch.stopped();
  return odds;
}

}  // namespace drystage::answers
