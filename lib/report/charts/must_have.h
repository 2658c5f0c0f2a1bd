#pragma once

#include <cstddef>
#include <vector>

#include "answers/base/levels.h"
#include "answers/base/plan_run.h"
#include "answers/onward/needs.h"
#include "report/charts/day_axis.h"

namespace drystage::report {

/// What must be on board of a reserve on a morning.
struct Morning {
  int day = 0;      ///< 0-based
  double hour = 0;  ///< since the trip's first midnight
  const answers::Need* need = nullptr;

  /// It is an amount, and one that can be held.
  [[nodiscard]] bool can_be_met() const;
};

/// Every morning of a trip, in order: midnight; the first once all is on board that is taken on at
/// the outset. Empty where `needs` is null or has nothing of the reserve (an index into the
/// course's).
std::vector<Morning> mornings_of(const answers::PlanRun& planned, const answers::Needs* needs,
                                 std::size_t reserve);

/// What must be on board at a time.
struct MustHave {
  double hour = 0;
  double level = 0;  ///< in the reserve's own unit
};

/// Lines that join mornings that must last to the same moment, of two mornings or more, as far as
/// they reach into a piece of the trip. Where something is taken on between two mornings, where
/// the second asks for more than the first, as of a battery, or one of them cannot be met, they are
/// not joined. From one morning to the next what must be on board
/// falls as the plan's level does, for what is to spare stays: a straight line would pass above the
/// plan where much is used at once. Only where something is charged, lost or lacking is it
/// straight.
std::vector<std::vector<MustHave>> must_have_lines(const answers::PlanRun& planned,
                                                   const std::vector<answers::Level>& levels,
                                                   const std::vector<Morning>& mornings,
                                                   std::size_t reserve, const DayPiece& piece);

}  // namespace drystage::report
