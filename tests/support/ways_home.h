#pragma once

#include <optional>
#include <vector>

#include "plan/plan.h"

namespace drystage::support {

/// A drive the other way, on the road that was come.
plan::Drive turned(plan::Drive drive, int to);

/// The way home from the end of a drive: the road that is meant for it, or the one that was come.
plan::Drive way_home(const plan::Drive& drive, int to);

/// The roads of a plan's first drives, from the one of leg `first` to before that of leg `end`,
/// either way. Those that lead from one place to another are shut where both are given. Where the
/// plan has roads of its own, these as well, never shut, and all its drives before `end`.
class KnownRoads {
 public:
  KnownRoads(const plan::Plan& plan, int first, int end, int shut_from = -1, int shut_to = -1);

  /// The shortest way over them: every one that passes no place twice is tried. Nothing where none
  /// leads there.
  [[nodiscard]] std::optional<std::vector<plan::Drive>> shortest(int from, int to) const;

 private:
  struct Road {
    int from = -1;
    plan::Drive drive{};
  };
  struct Search;

  std::vector<Road> roads_{};
};

/// The stop on a way home at a place where confirmed supplies give at most so much: all of it is
/// taken. Of fuel each vehicle takes an equal part first. Nothing where there is none.
std::optional<plan::Resupply> limited_stop(const plan::Plan& plan, int place);

/// Some drives from a place, with all such stops on the way.
std::vector<plan::ItineraryItem> with_limited_stops(const plan::Plan& plan, int from,
                                                    const std::vector<plan::Drive>& drives);

/// How far some drives are together, km.
double km(const std::vector<plan::Drive>& drives);

}  // namespace drystage::support
