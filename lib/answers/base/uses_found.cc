#include "answers/base/uses_found.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <utility>

#include "answers/base/reading_errors.h"
#include "engine/readings.h"
#include "models/reading_error.h"
#include "units/day.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

using engine::Engine;
using engine::Extent;
using engine::Family;

// Of what a reserve holds, so near is full.
constexpr double nearly_full = 1e-6;

bool is_learned(Family family) {
  return family == Family::drinking_water || family == Family::utility_water ||
         family == Family::fuel || family == Family::food;
}

/// What one reserve was used at since it was last known.
struct Watched {
  double level = 0;       ///< when it was last known
  double error = 0;       ///< and how well
  bool was_read = false;  ///< by a reading, and not by having been filled up
  double since_h = 0;     ///< that was, since the trip began
  double taken = 0;       ///< on since then
  std::array<double, plan::surface_count>
      by_surface{};  ///< used, as calculated; first of what has no parts
  std::vector<double> by_day{};
  int day = -1;

  void begin(double known, double how_well, bool read, double now_h) {
    *this = {.level = known, .error = how_well, .was_read = read, .since_h = now_h};
  }
  void use(double amount, std::size_t part, int on_day) {
    by_surface.at(part) += amount;
    if (on_day != day) by_day.push_back(0);
    day = on_day;
    by_day.back() += amount;
  }
  [[nodiscard]] double calculated() const {
    double sum = 0;
    for (const double amount : by_surface) sum += amount;
    return sum;
  }
};

class Comparison {
 public:
  Comparison(const plan::Plan& plan, const engine::Course& course)
      : plan_(plan),
        readings_(engine::all_readings(plan)),
        course_(course),
        watched_(course.reserves.size()) {}

  UsesFound follow() {
    out_.intervals.resize(course_.reserves.size());
    whole_.resize(course_.reserves.size());
    engine::Record record = engine::blank_record(course_);
    Engine::Standing now = Engine::begin(course_, record);
    const std::vector<engine::TimeStep>& steps = course_.timeline->steps;
    for (std::size_t s = 0; s <= course_.judged_from() && s < steps.size(); ++s) {
      const std::size_t reading = now.run.next_reading();
      const bool reads = now.run.is_read_before(s);
      const double now_h = day_h * steps[s].day + steps[s].from_h;
      meet_company(now, steps[s]);
      note(before_, now.run);
      if (reads) take_off_lost(reading, now.run);
      note_stores(now.run);
      Engine::begin_step(course_, now);
      if (steps[s].stop >= 0) vessels_.clear();
      if (reads) close(reading, now.run, now_h);
      for (std::size_t r = 0; r < watched_.size(); ++r) {
        const double level = now.run.reserve_level(static_cast<int>(r));
        if (s == 0 || (steps[s].stop >= 0 && is_full(r, level) && level > before_[r])) {
          watched_[r].begin(level, s == 0 ? 0 : brim_error(r), false, now_h);
        } else if (!reads) {
          watched_[r].taken += std::max(0.0, level - before_[r]);
        }
      }
      note(before_, now.run);
      const std::vector<double> burnt_before = burnt(record, steps[s].day);
      Engine::end_step(course_, now);
      const std::vector<double> burnt_after = burnt(record, steps[s].day);
      for (std::size_t r = 0; r < watched_.size(); ++r) {
        double used = before_[r] - now.run.reserve_level(static_cast<int>(r));
        if (course_.reserves[r].id.family == Family::fuel) {
          // What was poured from one vehicle into another was not used.
          const double burnt_l = burnt_after[r] - burnt_before[r];
          watched_[r].taken += burnt_l - used;
          used = burnt_l;
        }
        watched_[r].use(used, part_of(r, steps[s]), steps[s].day);
      }
    }
    return std::move(out_);
  }

 private:
  /// What a day's ledger says was used by now, by reserve.
  static std::vector<double> burnt(const engine::Record& record, int day) {
    std::vector<double> out(record.reserves);
    for (std::size_t r = 0; r < out.size(); ++r) out[r] = record.reserve(at(day), r).used;
    return out;
  }

  void note(std::vector<double>& levels, const engine::Run& run) const {
    levels.resize(watched_.size());
    for (std::size_t r = 0; r < levels.size(); ++r) {
      levels[r] = run.reserve_level(static_cast<int>(r));
    }
  }

  /// What comes with whoever joins, or goes with whoever leaves, was not used.
  void meet_company(Engine::Standing& now, const engine::TimeStep& step) {
    if (step.company == now.run.company()) return;
    note(before_, now.run);
    Engine::meet_next(course_, now);
    for (std::size_t r = 0; r < watched_.size(); ++r) {
      watched_[r].taken += now.run.reserve_level(static_cast<int>(r)) - before_[r];
    }
  }

  /// What was in a vessel that is lost, as calculated, was not used.
  void take_off_lost(std::size_t reading, const engine::Run& run) {
    for (const engine::ReadingInfo::Level& found : course_.readings[reading].stores) {
      const engine::StoreInfo& store = course_.stores[at(found.of)];
      if (found.level > 0 || !engine::is_lost(course_, store)) continue;
      for (std::size_t r = 0; r < watched_.size(); ++r) {
        if (engine::serves(plan_, store, course_.reserves[r].id)) {
          watched_[r].taken -= run.level(found.of);
        }
      }
    }
  }

  /// What is in each vessel, as calculated, before a reading.
  void note_stores(const engine::Run& run) {
    stores_.resize(course_.stores.size());
    for (std::size_t s = 0; s < stores_.size(); ++s) stores_[s] = run.level(static_cast<int>(s));
  }

  [[nodiscard]] bool is_full(std::size_t reserve, double level) const {
    return level >= course_.reserves[reserve].capacity * (1 - nearly_full);
  }
  [[nodiscard]] double brim_error(std::size_t reserve) const {
    const engine::ReserveInfo& info = course_.reserves[reserve];
    return info.id.family == Family::fuel ? models::brim_error_share * info.capacity : 0;
  }

  /// Which part of a reserve's use a step belongs to: of fuel, the surface under the wheels.
  [[nodiscard]] std::size_t part_of(std::size_t reserve, const engine::TimeStep& step) const {
    if (course_.reserves[reserve].id.family != Family::fuel || step.drive < 0) return 0;
    return static_cast<std::size_t>(course_.timeline->pieces[at(step.drive)].surface);
  }

  /// What a reading says of each reserve that it has whole.
  void close(std::size_t reading, const engine::Run& run, double now_h) {
    doubt_vessels(reading, now_h);
    for (std::size_t r = 0; r < watched_.size(); ++r) {
      const engine::ReserveInfo& info = course_.reserves[r];
      if (!is_learned(info.id.family) || extent(reading, r) == Extent::nothing) continue;
      Watched& one = watched_[r];
      const double found = run.reserve_level(static_cast<int>(r));
      const std::array errors{reading_error(plan_, readings_[reading], info.id),
                              unread_error(course_.readings[reading], info.id)};
      const double error = models::error_of_sum(errors);
      const double used = one.level + one.taken - found;
      const models::UsualUse usual = usual_use(plan_, info.id.family);
      models::UseInterval interval{.used = used,
                                   .begin_error = one.error,
                                   .end_error = error,
                                   .shares_begin = one.was_read,
                                   .scatter = models::scatter_of_days(usual, one.by_day)};
      if (info.id.family == Family::fuel) {
        interval.expected.assign(one.by_surface.begin(), one.by_surface.end());
      } else {
        interval.expected.assign(1, one.calculated());
      }
      const UseFound use{.reserve = static_cast<int>(r),
                         .reading = reading,
                         .calculated = one.calculated(),
                         .used = used,
                         .days = (now_h - one.since_h) / day_h,
                         .partly = extent(reading, r) == Extent::some};
      add_up(whole_[r], interval, use);
      if (!doubt(use, interval, usual) && whole_[r].readings > 1) {
        doubt(whole_[r].use, whole_[r].interval, usual);
      }
      out_.intervals[r].push_back(std::move(interval));
      out_.uses.push_back(use);
      one.begin(found, error, true, now_h);
    }
  }

  /// All that was used since a reserve was last filled up, over several readings: of a little every
  /// day no reading alone says much.
  struct Whole {
    models::UseInterval interval{};
    UseFound use{};
    int readings = 0;
  };

  static void add_up(Whole& whole, const models::UseInterval& interval, const UseFound& use) {
    if (!interval.shares_begin || whole.readings == 0) {
      whole = {.interval = interval, .use = use};
    } else {
      for (std::size_t p = 0; p < interval.expected.size(); ++p) {
        whole.interval.expected[p] += interval.expected[p];
      }
      whole.interval.used += interval.used;
      whole.interval.end_error = interval.end_error;
      whole.interval.scatter = std::hypot(whole.interval.scatter, interval.scatter);
      whole.use.used += use.used;
      whole.use.calculated += use.calculated;
      whole.use.days += use.days;
      whole.use.reading = use.reading;
    }
    ++whole.readings;
  }

  /// Notes a use that is more than anything explains, or less than nothing; whether it is.
  bool doubt(const UseFound& use, const models::UseInterval& interval,
             const models::UsualUse& usual) {
    const bool gained = use.used < -beyond_error(interval.begin_error, interval.end_error);
    if (!gained &&
        use.used <= models::most_usual_use(usual, interval, models::unusual_from) + hardly_any)
      return false;
    const bool told = std::ranges::any_of(out_.doubts, [&](const Doubt& other) {
      return other.reading == use.reading && other.store >= 0 &&
             engine::serves(plan_, course_.stores[at(other.store)],
                            course_.reserves[at(use.reserve)].id);
    });
    if (told) return true;
    out_.doubts.push_back({.kind = gained ? Doubt::Kind::gained : Doubt::Kind::unexplained,
                           .reading = use.reading,
                           .reserve = use.reserve,
                           .amount = gained ? -use.used : use.used - use.calculated,
                           .days = use.days});
    return true;
  }

  /// Vessels of which more is found than at the reading before, without a stop between.
  void doubt_vessels(std::size_t reading, double now_h) {
    const plan::Reading& read = readings_[reading];
    const auto error_of = [&](const engine::StoreInfo& store) {
      if (store.family == Family::fuel) {
        const plan::Tank& tank = plan_.vehicles[at(store.vehicle)].tanks[at(store.index)];
        for (const plan::TankFound& one : read.tanks) {
          if (one.tank == plan::TankReference{store.vehicle, store.index}) {
            return vessel_error_l(one.found, tank.gauge, tank.holds_l);
          }
        }
      }
      const plan::Container& can = plan_.water.containers[at(store.index)];
      const auto one =
          std::ranges::find(read.containers, store.index, &plan::ContainerFound::container);
      return vessel_error_l(one->found, can.gauge, can.holds_l);
    };
    for (const engine::ReadingInfo::Level& level : course_.readings[reading].stores) {
      const Family family = course_.stores[at(level.of)].family;
      if (family == Family::consumable || family == Family::tyres) continue;
      const double error = error_of(course_.stores[at(level.of)]);
      const auto before = vessels_.find(level.of);
      const bool poured = course_.stores[at(level.of)].family == Family::fuel &&
                          !is_can(course_.stores[at(level.of)]);
      if (before != vessels_.end() && !poured) {
        const double more = level.level - before->second.level;
        if (more > beyond_error(before->second.error, error)) {
          out_.doubts.push_back({.kind = Doubt::Kind::gained,
                                 .reading = reading,
                                 .store = level.of,
                                 .amount = more,
                                 .days = (now_h - before->second.since_h) / day_h});
        }
      }
      vessels_[level.of] = {.level = level.level, .error = error, .since_h = now_h};
    }
  }

  /// A fuel can; what is no can is filled from cans on the way.
  [[nodiscard]] bool is_can(const engine::StoreInfo& store) const {
    return plan_.vehicles[at(store.vehicle)].tanks[at(store.index)].empty_kg > 0;
  }

  [[nodiscard]] Extent extent(std::size_t reading, std::size_t reserve) const {
    return engine::extent_of(plan_, course_, course_.readings[reading], static_cast<int>(reserve));
  }

  /// How far off vessels may be that a reading leaves out: by all that was calculated to be used of
  /// them. What nobody has touched is what it was.
  [[nodiscard]] double unread_error(const engine::ReadingInfo& reading,
                                    engine::ReserveId reserve) const {
    using Level = engine::ReadingInfo::Level;
    const int index = engine::find_reserve(course_, reserve);
    if (std::ranges::find(reading.reserves, index, &Level::of) != reading.reserves.end()) return 0;
    double out = 0;
    for (std::size_t s = 0; s < course_.stores.size(); ++s) {
      const engine::StoreInfo& store = course_.stores[s];
      const int number = static_cast<int>(s);
      const bool read =
          std::ranges::find(reading.stores, number, &Level::of) != reading.stores.end();
      if (read || !engine::serves(plan_, store, reserve) || engine::is_lost(course_, store))
        continue;
      out += std::max(0.0, store.initial - stores_[s]);
    }
    return out;
  }

  const plan::Plan& plan_;
  std::vector<plan::Reading> readings_;
  const engine::Course& course_;
  std::vector<Watched> watched_;  ///< by reserve, as are the next
  std::vector<Whole> whole_;
  std::vector<double> before_;
  /// What a vessel was last found to hold, since the last stop.
  struct VesselFound {
    double level = 0;
    double error = 0;
    double since_h = 0;
  };
  std::map<int, VesselFound> vessels_;  ///< by store
  std::vector<double> stores_;          ///< levels before the step
  UsesFound out_;
};

}  // namespace

UsesFound uses_found(const plan::Plan& plan, const engine::Course& course) {
  return Comparison(plan, course).follow();
}

models::UsualUse usual_use(const plan::Plan& plan, Family family) {
  if (family == Family::drinking_water) {
    return models::usual_drinking(std::ranges::any_of(
        plan.people, [](const plan::Person& one) { return one.drinking_l_day.has_value(); }));
  }
  if (family == Family::utility_water) return models::usual_utility();
  if (family == Family::food) return models::usual_meals();
  return models::usual_fuel(std::ranges::all_of(
      plan.vehicles, [](const plan::Vehicle& one) { return !one.observed.empty(); }));
}

double beyond_error(double one, double other) { return std::hypot(one, other) + hardly_any; }

}  // namespace drystage::answers
