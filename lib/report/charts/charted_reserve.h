#pragma once

#include <algorithm>
#include <cstddef>
#include <functional>
#include <numeric>
#include <string>
#include <utility>
#include <vector>

#include "answers/base/levels.h"
#include "answers/base/plan_run.h"
#include "answers/onward/needs.h"
#include "report/charts/day_axis.h"
#include "units/format.h"

namespace drystage::report {

/// What must be on board of a reserve on a morning.
struct Morning {
  int day = 0;      ///< 0-based
  double hour = 0;  ///< since the trip's first midnight
  const answers::Need* need = nullptr;

  /// It is an amount, and one that can be held.
  [[nodiscard]] bool can_be_met() const;
};

/// What must be on board at a time.
struct MustHave {
  double hour = 0;
  double level = 0;  ///< in the reserve's own unit
};

/// What the chart of a reserve has to tell: its numbers in the units to show, on which days what
/// is to be marked, and what must be said in words. It refers to run, levels and needs, which
/// must last as long. Without needs it has no mornings.
class ChartedReserve {
 public:
  /// `reserve` is an index into the course's reserves.
  ChartedReserve(const answers::PlanRun& planned, const answers::Levels& levels,
                 const answers::Needs* needs, std::size_t reserve, units::System system);

  [[nodiscard]] const std::vector<answers::Level>& levels() const { return levels_; }
  [[nodiscard]] const std::vector<Morning>& mornings() const { return mornings_; }

  /// A level of the reserve as a number in the units to show.
  [[nodiscard]] double shown(double level) const;

  /// More is better of it, as of all but a temperature.
  [[nodiscard]] bool above() const;
  [[nodiscard]] bool has_margin() const;

  /// What the chart shows from foot to top, in the units to show.
  [[nodiscard]] std::pair<double, double> range() const;

  /// Its name and unit; with the days of the piece where the trip is cut into several.
  [[nodiscard]] std::string title(const DayPiece& piece, bool cut) const;

  /// Days of a piece (from 0) on which it runs out, and others on which it is beyond its margin.
  [[nodiscard]] std::vector<int> dry_days(const DayPiece& piece) const;
  [[nodiscard]] std::vector<int> low_days(const DayPiece& piece) const;

  /// Days of a piece on whose morning the plan has less than must be on board, and those on which
  /// that cannot be met.
  [[nodiscard]] std::vector<int> lacking(const DayPiece& piece) const;
  [[nodiscard]] std::vector<int> beyond(const DayPiece& piece) const;

  /// Lines that join what must be on board on the mornings of a piece (must_have_lines).
  [[nodiscard]] std::vector<std::vector<MustHave>> must_have(const DayPiece& piece) const;

  /// What cannot be seen in a chart of a piece that ends at the top with this number.
  [[nodiscard]] std::vector<std::string> notes(const DayPiece& piece, double top) const;

 private:
  [[nodiscard]] const engine::ReserveDay& row(int day) const;
  [[nodiscard]] std::vector<int> mornings_where(
      const DayPiece& piece, const std::function<bool(const Morning&)>& so) const;

  const answers::PlanRun& planned_;
  const engine::ReserveInfo& info_;
  std::size_t reserve_;
  const std::vector<answers::Level>& levels_;
  units::System system_;
  std::vector<Morning> mornings_;  ///< of every day, where needs are known
};

/// Every morning of a trip, in order: midnight; the first once all is on board that is taken on at
/// the outset. Empty where `needs` is null or has nothing of the reserve (an index into the
/// course's).
std::vector<Morning> mornings_of(const answers::PlanRun& planned, const answers::Needs* needs,
                                 std::size_t reserve);

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

/// The reserves (indices into the course's) in the order of charts: first what life depends on.
inline std::vector<std::size_t> life_first(const answers::PlanRun& planned) {
  std::vector<std::size_t> order(planned.course.reserves.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_partition(order.begin(), order.end(), [&planned](std::size_t r) {
    return planned.course.reserves[r].life_supporting;
  });
  return order;
}

}  // namespace drystage::report
