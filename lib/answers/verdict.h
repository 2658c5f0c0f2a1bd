#pragma once

#include <optional>
#include <vector>

#include "engine/course.h"
#include "engine/record.h"

namespace drystage::answers {

/// A margin broken: on which day, by which reserve, and what was left at the tightest moment.
struct Breach {
  int day = 0;  ///< 0-based
  int reserve = 0;
  double hour = 0;  ///< clock hour at which it was first broken that day
  double left = 0;
  double margin = 0;
  double short_of = 0;  ///< wanted that day and not there; above 0, it has run out
};

/// One reserve over the whole trip.
struct ReserveOutlook {
  std::optional<int> first_breach_day;  ///< 0-based
  int lowest_day = 0;                   ///< 0-based
  double lowest = 0;                    ///< worst level of the trip
  int tightest_day = 0;                 ///< day on which level and margin are nearest
  double slack = 0;                     ///< level less margin there (the other way for cold)
  double short_of = 0;                  ///< wanted and not there, over the whole trip
};

/// Does the plan hold?
struct Verdict {
  bool holds = true;
  std::optional<Breach> first_breach;
  std::vector<ReserveOutlook> reserves;
};

/// Reads the verdict off a finished record. A plan holds when no reserve is ever below its margin
/// or runs out; the first breach is the earliest by day and hour, on a tie the reserve that comes
/// first.
Verdict verdict(const engine::CourseBase& course, const engine::Record& record);

}  // namespace drystage::answers
