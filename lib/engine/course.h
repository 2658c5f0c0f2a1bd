#pragma once

#include <algorithm>
#include <limits>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/damage.h"
#include "engine/factors.h"
#include "engine/reserve_id.h"
#include "engine/scale.h"
#include "engine/timeline.h"
#include "plan/plan.h"
#include "units/kind.h"

namespace drystage::engine {

/// One thing with a level: a container, a tank, a bank, an item of food, the heat in a cabinet.
struct StoreInfo {
  std::string name;
  std::optional<units::Kind> kind{};  ///< what its amounts are; none: they have a unit of their own
  std::string unit{};                 ///< of its amounts: by its kind, or its own
  double capacity = 0;                ///< its size; what 1e-9 of it is measured by
  double initial = 0;
  double kg_per_unit = 0;  ///< mass that follows the level
  bool fills = false;      ///< its level is the room that is left, and what is in it weighs
  int vehicle = -1;        ///< whose load it is
  double empty_kg = 0;     ///< what it weighs by itself; 0: part of the vehicle's empty mass
  plan::Spot spot{};       ///< where it lies there
  Family family = Family::other;
  int index = -1;  ///< in its family's list of the plan: containers, the vehicle's tanks, banks ...
  int of = -1;     ///< which of the plan's vehicles or consumables: of a tank, of tyres, of a store
};

/// What a store weighs more as its level rises by one: less, of one that fills.
inline double kg_per_level(const StoreInfo& store) {
  return store.fills ? -store.kg_per_unit : store.kg_per_unit;
}

/// What a store weighs at level 0. One that fills weighs the more the less room there is.
inline double own_kg(const StoreInfo& store) {
  return store.empty_kg + (store.fills ? store.capacity * store.kg_per_unit : 0);
}

/// How much heavier than at a level a store may become.
inline double most_more_kg(const StoreInfo& store, double level) {
  const double more = store.fills ? level : store.capacity - level;
  return std::max(0.0, more) * store.kg_per_unit;
}

/// One thing that is carried and has no level: a cabinet, a panel.
struct ThingInfo {
  std::string name;
  int vehicle = -1;
  double kg = 0;
  plan::Spot spot{};
  Family family = Family::other;
  int index = -1;  ///< in its list of the plan: cabinets, chargers
};

enum class Sense { keep_above, keep_below };
enum class Endurance { days, km, hours };

/// A margin made ready to be evaluated: amount = fixed + days x use per day + km x use per km.
struct MarginRule {
  double fixed = 0;
  double days = 0;
  double km = 0;
};

/// Anything that can run out.
struct ReserveInfo {
  ReserveId id{};
  std::string owner{};                ///< the name of the vehicle, cabinet or bank whose it is
  std::string name{};                 ///< as in JSON and in `margins:`: "drinking_water",
                                      ///< "fuel:truck"; follows from id and owner but for `other`
  std::string title;                  ///< for a table's head: "Drinking"
  std::optional<units::Kind> kind{};  ///< what its amounts are; none: they have a unit of their own
  std::string unit{};                 ///< L, meals, Ah, °C: by its kind, or its own
  Sense sense = Sense::keep_above;
  Endurance endurance = Endurance::days;
  double capacity = 0;
  double empty_at = 0;  ///< the level at which it is of no more use
  MarginRule margin{};
  bool life_supporting = false;
  bool counted = false;                        ///< its amounts are whole numbers
  int decimals = 0;                            ///< sensible ones for display
  std::optional<plan::Commodity> commodity{};  ///< what tops it up
  std::optional<int> vehicle{};                ///< for whom
  bool fills = false;                          ///< its level is the room that is left in its stores
};

inline bool is_bank(const ReserveInfo& reserve) { return reserve.id.family == Family::battery; }

/// One thing ordered at one stop, with what the place and the day make of it.
struct OrderInfo {
  plan::Order order;  ///< Take::needed is resolved to an amount before the run
  plan::Supply supply;
  int item = 0;  ///< itinerary index of the resupply
  int place = 0;
  int visit = 0;  ///< counts arrivals: what a place gives "per visit" is shared by its orders
  int day = 0;
  double hour = 0;
  bool open = true;
  bool cleaned = false;  ///< empty water containers are washed first
  bool shared = false;   ///< said once for several vehicles; an amount is then for all together
  double up_to = 0;      ///< where its reserve is below this level, more is taken, up to it
  /// Its reserve's part of what the place gives at most in one visit: as much as that is taken.
  std::optional<double> share{};
  int reserve = -1;  ///< the reserve it fills, once one has claimed it
};

/// A load on a bank, as far as the verdict asks.
struct LoadInfo {
  int bank = 0;     ///< index into the plan's banks: subject of its events
  int reserve = 0;  ///< its bank's
  bool never_shed = false;
};

/// A reading made ready: what stores and reserves are found at before a step.
struct ReadingInfo {
  struct Level {
    int of = 0;  ///< store or reserve
    double level = 0;
  };
  std::size_t step = 0;
  std::vector<Level> stores{};
  std::vector<Level> reserves{};
};

/// What a company (Calendar::companies) comes to on a course: 1 is there, 0 is not.
struct Presence {
  std::vector<char> stores;     ///< can be used and filled
  std::vector<char> apart;      ///< stores that have not joined yet, or have gone home
  std::vector<char> reserves;   ///< are judged
  std::vector<double> more_kg;  ///< by vehicle, on CourseBase::vehicle_kg: people and empty cans
  std::vector<double> ball_kg;  ///< by vehicle: what its trailer presses on it with
};

/// What a course is made of besides a plan and its timeline.
struct CourseOptions {
  std::size_t first_step = 0;   ///< steps before it are not made ready: it cannot be run from there
  double more_margin_days = 0;  ///< on every margin that days can be added to
  Damage damage{};
  /// How much more or less than calculated was and will be used: from the outset, then from each
  /// reading on. None: as calculated.
  std::vector<Factors> learned{};
};

/// A plan made ready to run: its timeline, and what every reserve put on board. What a single
/// reserve needs to step is kept by that reserve (engine.h).
struct CourseBase : CourseOptions {
  std::shared_ptr<const Timeline> timeline;
  std::vector<StoreInfo> stores;
  std::vector<ThingInfo> things;  ///< with the stores this is all that is loaded
  std::vector<ReserveInfo> reserves;
  std::vector<OrderInfo> orders;
  std::vector<LoadInfo> loads;     ///< as in the plan
  std::vector<int> first_order;    ///< by itinerary index: where its orders begin, or -1
  std::vector<double> vehicle_kg;  ///< what does not change: vehicle, gear, people, containers
  std::vector<double> vehicle_limit_kg;  ///< infinite where there is none
  std::vector<Scale> scales;             ///< the vehicles', then all that is limited besides
  std::vector<Event> events;             ///< of the orders, known before the run
  std::vector<ReadingInfo> readings;     ///< in time order
  std::vector<Presence> presences;       ///< by Calendar::companies
  std::size_t cabinets = 0;              ///< how many signals are exchanged about them
  std::size_t chargers = 0;
  bool gets_heavier = false;  ///< something fills with use, so that it may be heaviest at any time

  /// The step from which the trip is judged: that of the last reading. What was before is past.
  [[nodiscard]] std::size_t judged_from() const {
    return readings.empty() ? 0 : readings.back().step;
  }
  /// The day of that step.
  [[nodiscard]] int first_judged_day() const {
    return readings.empty() ? 0 : timeline->steps[judged_from()].day;
  }

  /// The steps that are made ready.
  [[nodiscard]] IndexRange made_ready() const {
    return {.from = std::min(first_step, timeline->steps.size()), .until = timeline->steps.size()};
  }
};

inline constexpr double without_limit = std::numeric_limits<double>::infinity();

/// Adds a store and answers its index. What it weighs by itself is part of its vehicle's mass.
int add_store(CourseBase& course, StoreInfo store);

/// Adds something that is carried. Its mass is part of its vehicle's.
void add_thing(CourseBase& course, ThingInfo thing);

/// Adds a reserve with the margin that the plan asks for it: its own name's, else its family's,
/// else `usual`.
int add_reserve(CourseBase& course, const plan::Plan& plan, ReserveInfo reserve,
                const plan::Margin& usual = {});

/// The index of a reserve, or -1 where the course has none like that.
int find_reserve(const CourseBase& course, ReserveId id);

/// The margin that a plan asks for: by the reserve's own name, else by its family's. Null if none.
const plan::Margin* margin_of(const plan::Plan& plan, const ReserveInfo& reserve);

/// Who and what is there in each company of the course's calendar, once all stores and reserves are
/// known.
std::vector<Presence> presences_of(const plan::Plan& plan, const CourseBase& course);

/// Whether a store stands somewhere by itself, left there by the plan.
bool is_left(const plan::Plan& plan, const Company& company, const StoreInfo& store);

/// The calendar, stops and masses common to all reserves.
CourseBase base_course(const plan::Plan& plan, std::shared_ptr<const Timeline> timeline,
                       CourseOptions options);

}  // namespace drystage::engine
