#pragma once

#include <optional>
#include <vector>

#include "engine/course.h"
#include "engine/record.h"

namespace drystage::answers {

/// What a breach does to people, the worst first.
enum class Harm {
  runs_out_vital,  ///< drinking water, fuel, or the charge of a load that is never shed runs out
  utility_drunk,   ///< the drinking containers are empty, and utility water is drunk instead
  margin_vital,    ///< drinking water or fuel falls below its margin
  overload,        ///< a vehicle, or a part of it, is heavier than it may be
  runs_out,        ///< another reserve runs out
  load_off,        ///< a load goes off and is not on again before the trip ends
  margin           ///< another reserve falls below its margin
};

/// Something that fails: what, and when first.
struct Breach {
  Harm harm = Harm::margin;
  int day = 0;       ///< 0-based
  double hour = 0;   ///< clock hour
  int reserve = -1;  ///< of a load, its bank's; of an overload none
  int load = -1;     ///< index into the plan's loads
  int vehicle = -1;  ///< of an overload: index into the plan's vehicles ...
  int scale = -1;    ///< ... and into the course's scales
  // Of a reserve, at that day's tightest moment; of a vehicle its mass and its limit, kg.
  double left = 0;
  double margin = 0;
  /// Wanted and not there, or utility water drunk instead: over the whole trip, of the first breach
  /// on its day.
  double short_of = 0;
  /// Of a reserve: by how much its margin is missed at the worst moment of the trip, and when that
  /// is. The first breach may be slight.
  double at_worst = 0;
  int worst_day = 0;
};

/// One reserve over the trip, from the last reading on.
struct ReserveOutlook {
  std::optional<int> first_breach_day;  ///< 0-based
  int lowest_day = 0;                   ///< 0-based
  double lowest = 0;                    ///< worst level of the trip
  int tightest_day = 0;                 ///< day on which level and margin are nearest
  double slack = 0;                     ///< level less margin there (the other way for cold)
  double short_of = 0;                  ///< wanted and not there, over the whole trip
  double stood_in = 0;                  ///< utility water drunk in place of drinking water
};

/// Does the plan hold?
struct Verdict {
  bool holds = true;
  /// One for each reserve, load and vehicle that fails, of its worst harm; worst first, then by
  /// time, then in the order of the reserves.
  std::vector<Breach> breaches;
  std::optional<Breach> first_breach;  ///< the earliest of any kind, by day and hour
  std::vector<ReserveOutlook> reserves;

  /// Whether all but the vehicles' limits of mass are kept.
  [[nodiscard]] bool reserves_hold() const;
  /// The worst breach of a reserve or load; nothing where there is none.
  [[nodiscard]] const Breach* worst_of_reserves() const;
  /// Whether that reserve, or a load on that bank, fails.
  [[nodiscard]] bool breaks(int reserve) const;
};

/// Reads the verdict off a finished record. A plan holds when no reserve is ever below its margin
/// or runs out, no utility water is drunk in place of drinking water, no load is off for the last
/// 24 hours of the trip or longer, and no vehicle is ever above its limit. What was before the last
/// reading is past, and not judged.
Verdict verdict(const engine::CourseBase& course, const engine::Record& record);

}  // namespace drystage::answers
