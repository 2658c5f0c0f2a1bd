#pragma once

#include <cstddef>
#include <limits>
#include <vector>

#include "engine/course.h"
#include "engine/event.h"

namespace drystage::engine {

/// A store's ledger for one day: start + gained - used - lost = end.
struct StoreDay {
  double start = 0;
  double gained = 0;
  double used = 0;
  double lost = 0;
  double end = 0;
};

/// A reserve's ledger for one day. For amounts, start + gained - used - lost = end.
struct ReserveDay {
  double start = 0;
  double gained = 0;
  double used = 0;
  double lost = 0;
  double end = 0;
  double short_of = 0;   ///< wanted, and not there
  double stood_in = 0;   ///< wanted and not there, and replaced: utility water that was drunk
  double lowest = 0;     ///< the worst level of the day (the highest, for a temperature)
  double endurance = 0;  ///< how long that lasts: days, km or hours; infinite if not used
  // At the tightest moment of the day, which is where level and margin are nearest:
  double left = 0;
  double margin = 0;
  double slack = std::numeric_limits<double>::infinity();  ///< left - margin (or margin - left)
  double tight_h = 0;                                      ///< clock hour
  /// Of a cabinet: the warmest that what lies frozen in it was; not a number where nothing does.
  double frozen_c = std::numeric_limits<double>::quiet_NaN();
  double breach_h = -1;  ///< clock hour at which the margin was first broken, or the reserve
                         ///< ran out; -1: neither happened
  double short_h = -1;   ///< clock hour at which it first ran out that day, or else was replaced;
                         ///< -1: neither happened
  double drawn = 0;      ///< of a bank: what its loads took, out of it or past it from a charger
  bool judged = true;    ///< it is of something that was with the party on that day
};

/// A reserve over all days of a run that have ended: what one asks of many runs.
struct Least {
  double slack = std::numeric_limits<double>::infinity();    ///< the least ...
  double left = 0;                                           ///< ... and the level at that moment
  int day = 0;                                               ///< of that moment, 0-based
  double hour = 0;                                           ///< and its clock hour
  double lowest = std::numeric_limits<double>::quiet_NaN();  ///< the worst level of all
  int breach_day = -1;   ///< first day on which its margin was broken or it ran out; -1: never
  double breach_h = -1;  ///< clock hour of that
  int short_day = -1;    ///< first day on which some was wanted and not there; -1: never
  double short_h = -1;   ///< clock hour of that
  double short_of = 0;   ///< wanted and not there, in all
};

/// What a record keeps of a run. Which it is changes nothing in the run.
enum class Keep {
  ledgers,  ///< the ledgers of every day, and events
  days,     ///< the ledgers of every day, without how long what is left would last
  least     ///< of each reserve its Least; no days and no events
};

/// When a vehicle, or a part of it, is heaviest with all that it carries, and first above its
/// limit.
struct Heaviest {
  double kg = 0;
  int day = 0;
  int over_day = -1;  ///< 0-based; -1: never
  double over_h = 0;  ///< clock hour
};

/// What one run of the engine leaves behind.
struct Record {
  Keep keep = Keep::ledgers;
  std::size_t stores = 0;
  std::size_t reserves = 0;
  /// Day by day, store by store and reserve by reserve. With Keep::least: the day that is open.
  std::vector<StoreDay> store_days;
  std::vector<ReserveDay> reserve_days;
  std::vector<Least> least;         ///< by reserve; empty but with Keep::least
  std::vector<Event> events;        ///< in time order
  std::vector<Heaviest> heaviest;   ///< by scale: first the vehicles
  std::vector<double> order_slack;  ///< by order: least slack until the next of its reserve
  std::vector<double> order_taken;  ///< by order
  std::vector<double> order_left;   ///< by order: level of its reserve once carried out
  std::size_t most_events = 0;      ///< that there is room for
  std::size_t events_dropped = 0;

  /// How many days have ledgers.
  [[nodiscard]] std::size_t days() const {
    return reserves != 0 && keep != Keep::least ? reserve_days.size() / reserves : 0;
  }
  [[nodiscard]] const StoreDay& store(std::size_t day, std::size_t index) const {
    return store_days[day * stores + index];
  }
  [[nodiscard]] const ReserveDay& reserve(std::size_t day, std::size_t index) const {
    return reserve_days[day * reserves + index];
  }
};

/// Room for a whole run of this course, so that stepping allocates nothing. The second one makes
/// do with the room of a record that is there, of whatever course.
Record blank_record(const CourseBase& course, Keep keep = Keep::ledgers);
void make_blank(Record& record, const CourseBase& course, Keep keep = Keep::ledgers);

/// Makes a record that has been run into blank again, for another run of the same course.
/// Allocates nothing.
void wipe(Record& record);

}  // namespace drystage::engine
