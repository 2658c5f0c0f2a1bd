#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "answers/base/levels.h"
#include "answers/base/plan_run.h"
#include "answers/onward/needs.h"
#include "report/charts/day_axis.h"
#include "report/charts/must_have.h"
#include "units/format.h"

namespace drystage::report {

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

}  // namespace drystage::report
