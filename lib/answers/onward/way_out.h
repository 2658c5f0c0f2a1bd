#pragma once

#include <optional>
#include <vector>

#include "answers/base/plan_run.h"
#include "answers/onward/needs.h"

namespace drystage::answers {

/// One way on from a morning, for one reserve: the least with which the margin stays whole until
/// more of it is to be had.
struct WayOut {
  double least = 0;       ///< in the reserve's unit; infinite where no amount is enough
  double bare = 0;        ///< what it takes to arrive with nothing left; no more than the least
  bool fits = true;       ///< the least is no more than the reserve can hold
  int place = -1;         ///< where more is to be had; -1: nowhere, the trip ends before
  int day = 0;            ///< 0-based, when the party is there
  double km = 0;          ///< driven until then
  bool own_road = false;  ///< some of it by one of the plan's roads, or by the `back:` of a leg
  std::vector<int> taking_at{};  ///< places whose limited supply it counts on
  // Of at once, what is open as planned and is found shut, first of all; -1: nothing.
  int shut_place = -1;
  int shut_day = 0;  ///< 0-based, when the party is there too early
};

/// The ways on from a morning, for one reserve.
struct WaysOut {
  bool judged = true;          ///< no: it is of something that is not with the party then
  WayOut as_planned;           ///< with all stays: Need::must_have (`bare` is not worked out)
  WayOut at_once;              ///< without the stays that are left until then
  std::optional<WayOut> back;  ///< turned back at once; none: no sure supply lies behind
};

/// The ways on from every morning, which is the evening before.
struct WaysOutTable {
  std::vector<int> reserves;   ///< indices into the course's: all that life depends on
  std::vector<WaysOut> table;  ///< morning by morning, reserve by reserve

  [[nodiscard]] const WaysOut& ways(std::size_t day, std::size_t i) const {
    return table[day * reserves.size() + i];
  }
};

/// For each morning of `morning_needs` (of the same plan) and each reserve that life depends on,
/// the least level for going on as planned, for going on at once, and for turning back at once.
/// Each is found by running the engine from that morning, everything else being as the plan
/// expects.
///
/// Going on at once leads by the plan's drives and stops to where going on as planned has more to
/// be had, or earlier where something on the way is open then; what is shut on arrival is waited
/// for, two weeks at the most. Without any supply ahead it leads to the end of the drives, and no
/// stay is left. Where no drive or no stay lies before, it is going on as planned.
///
/// Turning back leads to the last supply behind, or to one that only a road leads to, by the same
/// roads and to the same supplies as in `turn_back_points`; a party that is at such a supply waits
/// there until it is open.
WaysOutTable ways_out(const PlanRun& planned, const Needs& needs);

}  // namespace drystage::answers
