#pragma once

#include <algorithm>
#include <cmath>
#include <span>
#include <utility>
#include <vector>

#include "engine/course.h"
#include "engine/factors.h"
#include "engine/record.h"

namespace drystage::engine {

/// What reserves tell each other within a step. Each is written by the reserve named, before or
/// during its own turn, and read by the others.
struct Signals {
  std::vector<double> generator_share;    ///< by charger; fuel: 0..1 of the asked running time
  std::vector<double> chilled_kj_k;       ///< by cabinet; food: heat capacity of chilled contents
  std::vector<double> frozen_kg;          ///< by cabinet; food: what lies in the frozen part
  std::vector<double> bought_kj_k;        ///< by cabinet; food: of that, put in since the last step
                                          ///< as warm as the air; taken in by cold
  std::vector<double> stated_kj_k;        ///< by cabinet; food: the same of goods whose temperature
                                          ///< is stated ...
  std::vector<double> stated_kj;          ///< ... and their heat above 0 °C
  std::vector<double> chilled_c;          ///< by cabinet; cold: mean over the step
  std::vector<double> chilled_from_c;     ///< by cabinet; cold: as it began
  std::vector<double> chilled_to_c;       ///< by cabinet; cold: as it ended
  std::vector<double> frozen_c;           ///< by cabinet; cold: mean over the step
  std::vector<double> above_5c_h;         ///< by cabinet; cold: hours of the step above 5 °C
  std::vector<double> clock_h;            ///< by cabinet; cold: the same, on the food clock
  std::vector<double> frozen_above_5c_h;  ///< by cabinet; cold: as above_5c_h, in the frozen part
  std::vector<double> frozen_clock_h;     ///< by cabinet; cold: as clock_h, in the frozen part
  std::vector<char> has_thawed;           ///< by cabinet; cold: frozen goods have thawed once
  std::vector<double> thawed_at_h;        ///< by cabinet; cold: hour of the step at which the
                                          ///< frozen part had thawed: 0 before, never: infinite
};

/// A margin is broken only by more than rounding.
inline constexpr double rounding = 1e-9;

/// The moment of a step at which something runs out that is used evenly in it: `wanted` in all, of
/// which `missing` was not there.
inline double runs_out_h(const TimeStep& step, double wanted, double missing) {
  const double share = wanted > 0 ? std::clamp(missing / wanted, 0.0, 1.0) : 1.0;
  return step.from_h + step.dt_h * (1 - share);
}

/// A run under way: levels, the rows of the day's ledger, and the way to write in them.
/// Everything is sized beforehand; nothing here allocates.
class Run {
 public:
  Run(const CourseBase& course, Record& record, const Factors& factors);
  /// Where another run stands, to go on from a step of a course with the same stores and reserves,
  /// or the first of them, into another record, with the same factors. A day must be opened next.
  Run(const Run& other, const CourseBase& course, Record& record, std::size_t next);

  // --- the clock ---
  void open_day(std::size_t day);
  void close_day();
  /// What was taken on where the trip begins is on board: the day's levels count from here.
  void set_out();
  /// Notes how heavy the vehicles are at `hour`, where they may be at their heaviest.
  void weigh(double hour);
  /// From here on levels move evenly until they are next observed.
  void begin_step(double hour);
  /// Compares every reserve with its margin, as it stands at `hour`. A margin that is broken now is
  /// broken since the moment at which the level came down to it, moving evenly since it was last
  /// observed or the step began.
  void observe(double hour);
  /// Before the trip's first use: what is below a margin that no rate changes is so already. (What
  /// is kept cold may be warm until it has been on.)
  void observe_outset();
  /// Whether a reading is to be taken before a step, and which of the course's.
  [[nodiscard]] bool is_read_before(std::size_t step) const {
    return next_reading_ < course_.readings.size() && course_.readings[next_reading_].step == step;
  }
  [[nodiscard]] std::size_t next_reading() const { return next_reading_; }
  /// A reading has been taken: what was before is past, and nothing of it counts for the day's
  /// tightest moment, the want of the day, or how heavy the vehicles were.
  void begin_judging(double hour);
  // --- who is there ---
  /// From now on the company is another: index into Calendar::companies. Each family then `meet`s
  /// its stores.
  void set_company(int company);
  /// All of them have: what has come to the party is judged from now on.
  void company_has_met(double hour);
  [[nodiscard]] int company() const { return company_; }
  [[nodiscard]] const Presence& presence() const { return course_.presences[idx(company_)]; }
  /// Whether a reserve is judged: it is of something that is with the party.
  [[nodiscard]] bool is_judged(int reserve) const { return gauges_[idx(reserve)].judged; }
  /// Whether a store is with the party. Nobody can use or fill one that is not: its level is 0.
  [[nodiscard]] bool is_here(int store) const { return presence().stores[idx(store)] != 0; }
  /// A store that has come to the party brings what is in it, and one that is away keeps it.
  void meet(int store, int reserve) {
    const bool here = is_here(store);
    double& kept = away_[idx(store)];
    if (here == (kept < 0)) return;
    if (here) {
      gain(store, reserve, std::exchange(kept, is_with_us));
    } else {
      kept = level(store);
      lose(store, reserve, kept);
    }
  }
  /// What is in a store that is away and has no room for it, is lost there.
  void lose_away(int store, double holds) {
    double& kept = away_[idx(store)];
    kept = std::min(kept, holds);
  }
  /// What a store of the party holds, also where it has been left standing.
  [[nodiscard]] double content(int store) const {
    if (is_here(store)) return level(store);
    return presence().apart[idx(store)] != 0 ? 0 : std::max(0.0, away_[idx(store)]);
  }

  /// The same as `observe` of one reserve in the middle of a step: just before a sudden change, and
  /// after it.
  void observe(int reserve, double hour);

  // --- stores (amounts must be >= 0; ledgers and levels, of store and reserve, move together) ---
  [[nodiscard]] double level(int store) const { return levels_[idx(store)]; }
  /// A store with a ledger but no reserve of its own.
  static constexpr int no_reserve = -1;
  void gain(int store, int reserve, double amount) {
    move(store, amount);
    store_row_[idx(store)].gained += amount;
    if (reserve < 0 || amount <= 0) return;
    reserve_row_[idx(reserve)].gained += amount;
    gauge(reserve).level += amount;
    gauge(reserve).running_short = false;
  }
  void use(int store, int reserve, double amount) {
    move(store, -amount);
    store_row_[idx(store)].used += amount;
    if (reserve < 0) return;
    reserve_row_[idx(reserve)].used += amount;
    gauge(reserve).level -= amount;
  }
  void lose(int store, int reserve, double amount) {
    move(store, -amount);
    store_row_[idx(store)].lost += amount;
    if (reserve < 0) return;
    reserve_row_[idx(reserve)].lost += amount;
    gauge(reserve).level -= amount;
  }
  /// A store as far as it serves a reserve: what it holds, and what of that is of no use.
  struct Vessel {
    int store = 0;
    double holds = 0;
    double unusable = 0;
  };
  /// Makes a reserve's level what it is told, by its vessels in order of use: the first ones are
  /// emptied first, the last ones filled first; what does not fit goes to the last.
  void set_level(const std::vector<Vessel>& vessels, int reserve, double target_level);

  /// Makes a store's level what it is told; the difference is gained or lost.
  void set_store(int store, int reserve, double level_now) {
    if (!is_here(store)) {
      away_[idx(store)] = level_now;
      return;
    }
    const double more = level_now - level(store);
    if (more > 0) gain(store, reserve, more);
    if (more < 0) lose(store, reserve, -more);
  }

  /// Moves a store's content from one reserve's ledger to another's, the store itself unchanged.
  void reassign(int from_reserve, int to_reserve, double amount);
  /// Makes a reserve's level what its stores have come to hold; what is more or less than it was
  /// is gained or lost.
  void match_stores(int reserve, double level);
  /// Records what was wanted and not there from `hour` on; answers true the first time since the
  /// last gain.
  bool fall_short(int reserve, double amount, double hour);
  /// Records what was wanted and not there from `hour` on, where something else has stood in for
  /// it. That breaks its margin as running out does.
  void make_do(int reserve, double amount, double hour);

  // --- reserves: each sets its use, and its level where that is no sum of stores ---
  double& reserve_level(int reserve) { return gauge(reserve).level; }
  /// The level as the step began, where the last one observed is another: a temperature's, of which
  /// the warmest of a step is observed.
  double& level_at_start(int reserve) { return gauge(reserve).from_level; }
  /// And the level as the step ended, with which the next day begins.
  double& level_at_end(int reserve) { return gauge(reserve).end_level; }
  double& use_per_day(int reserve) { return gauge(reserve).per_day; }
  double& use_per_km(int reserve) { return gauge(reserve).per_km; }
  /// What a bank's loads took, out of it or past it from what charges it.
  void note_drawn(int reserve, double amount) { reserve_row_[idx(reserve)].drawn += amount; }
  /// How warm what lies frozen in a cabinet was in the step, at its warmest.
  void note_frozen(int reserve, double warmest_c) {
    double& most_c = reserve_row_[idx(reserve)].frozen_c;
    most_c = std::isnan(most_c) ? warmest_c : std::max(most_c, warmest_c);
  }
  /// Level at which it is of no more use now; ReserveInfo::empty_at to begin with.
  double& empty_at(int reserve) { return gauge(reserve).empty_at; }
  /// What its margin asks for now beyond its rule: a bank's in the cold.
  double& margin_more(int reserve) { return gauge(reserve).margin_more; }
  /// Whether the record keeps how long what is left would last.
  [[nodiscard]] bool keeps_endurance() const { return record_.keep == Keep::ledgers; }
  /// For a reserve whose endurance is hours and not level over use: as it stands in the evening.
  double& endurance_h(int reserve) { return gauge(reserve).endurance_h; }

  /// A reserve's level now.
  [[nodiscard]] double reserve_level(int reserve) const { return gauges_[idx(reserve)].level; }

  /// What a reserve's margin comes to now, at the rates of the last step.
  [[nodiscard]] double margin(int reserve) const { return gauges_[idx(reserve)].margin(); }

  /// Mass of a vehicle with all that it carries now, kg.
  [[nodiscard]] double vehicle_kg(int vehicle) const { return vehicle_kg_[idx(vehicle)]; }

  /// What stands on its wheels: with what a trailer presses on its ball.
  [[nodiscard]] double standing_kg(int vehicle) const {
    return vehicle_kg(vehicle) + presence().ball_kg[idx(vehicle)];
  }

  /// What a scale shows now, kg.
  [[nodiscard]] double scale_kg(const Scale& scale) const {
    double kg = scale.fixed_kg[idx(company_)];
    for (const Scale::Part& part : scale.parts) kg += part.kg_per_level * level(part.store);
    return kg;
  }

  /// By how much a vehicle is heavier than it may be, kg; 0 where it has no limit.
  [[nodiscard]] double over_limit_kg(int vehicle) const {
    return std::max(0.0, standing_kg(vehicle) - course_.vehicle_limit_kg[idx(vehicle)]);
  }

  /// Writes down an event; `hour` is the clock hour of the day that is open.
  void tell(EventKind kind, double hour, int subject, double amount = 0, double other = 0);

  /// The most an order may take now: what it asks for and the place gives, less what orders before
  /// it on the same visit have taken of the same; 0 when the supply is shut.
  [[nodiscard]] double order_room(int order) const;

  /// An order has been carried out: from now on the reserve's slack counts for it. (One that found
  /// its supply shut changes nothing.)
  void ordered(int order, int reserve, double taken);

  [[nodiscard]] const CourseBase& course() const { return course_; }
  /// What differs in this run from what the course was made of, as far as was learned by now.
  [[nodiscard]] const Factors& factors() const { return factors_; }
  /// The conditions of a step of the course.
  [[nodiscard]] const StepConditions& conditions(const TimeStep& step) const {
    return course_.timeline->conditions.steps[step.index];
  }
  [[nodiscard]] int day() const { return static_cast<int>(day_); }

  Signals signals;

 private:
  static std::size_t idx(int i) { return static_cast<std::size_t>(i); }

  /// Changes a level, and with it the mass of the vehicle that carries it.
  void move(int store, double amount) {
    levels_[idx(store)] += amount;
    const Load& load = loads_[idx(store)];
    vehicle_kg_[load.vehicle] += amount * load.kg_per_unit;
  }

  /// What a reserve is used at, and where it is of no more use.
  struct Rate {
    double per_day = 0;
    double per_km = 0;
    double empty_at = 0;
  };

  /// A reserve as it stands now, with what its comparison with the margin needs close by.
  struct Gauge {
    double level = 0;
    double per_day = 0;
    double per_km = 0;
    double empty_at = 0;
    double margin_more = 0;
    double endurance_h = without_limit;
    MarginRule rule{};
    Rate at_lowest{};            ///< from which endurance follows at day's end
    double short_since = 0;      ///< wanted and not there since the last order
    int open_order = -1;         ///< the order whose slack is being watched
    int told_short = -1;         ///< the day on which it was told last that it ran short
    bool running_short = false;  ///< told, and nothing gained since
    bool above = true;           ///< to be kept above its margin
    bool judged = true;          ///< it is of something that is with the party
    bool joins = false;          ///< and has been so only from this moment on
    double end_level = 0;        ///< as the step ended, of what is kept below its margin
    double from_level = 0;       ///< when last observed, or as the step began ...
    double from_h = 0;           ///< ... and when that was

    [[nodiscard]] double margin() const {
      return rule.fixed + rule.days * per_day + rule.km * per_km + margin_more;
    }
    /// What is left of a sum of stores that are empty is rounding.
    void drop_rounding() {
      if (std::abs(level) < rounding) level = 0;
    }
    /// The level now, where `level` may be the warmest of the step that has ended.
    [[nodiscard]] double now() const { return above ? level : end_level; }
    /// What a level has beyond a margin.
    [[nodiscard]] double slack(double at_level, double its_margin) const {
      return above ? at_level - its_margin : its_margin - at_level;
    }
  };
  Gauge& gauge(int reserve) { return gauges_[idx(reserve)]; }
  void observe(Gauge& now, ReserveDay& row, double hour);
  /// Running out breaks any margin, one of nothing too.
  static void note_empty(ReserveDay& row, double hour);

  struct Load {
    std::size_t vehicle = 0;  ///< the last one stands for "carried by none"
    double kg_per_unit = 0;
  };

  static std::vector<Load> loads_of(const CourseBase& course);

  const CourseBase& course_;
  Record& record_;
  Factors factors_;
  std::size_t day_ = 0;
  std::size_t next_reading_ = 0;
  std::span<StoreDay> store_row_;
  std::span<ReserveDay> reserve_row_;
  std::vector<double> levels_;
  std::vector<Load> loads_;         ///< by store
  std::vector<double> vehicle_kg_;  ///< by vehicle, and one more
  std::vector<Gauge> gauges_;       ///< by reserve
  static constexpr double is_with_us = -1;
  std::vector<double> away_;  ///< by store: what is in it while it is not with the party
  int company_ = 0;           ///< index into Calendar::companies
};

}  // namespace drystage::engine
