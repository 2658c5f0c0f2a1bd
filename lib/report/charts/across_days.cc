#include "report/charts/across_days.h"

#include "drawing/paper.h"
#include "units/day.h"

namespace drystage::report {

std::vector<DaysAcross> across_days(const answers::PlanRun& planned, const TripLine& line) {
  constexpr double narrowest_day_pt = 4 * drawing::points_per_mm;
  const auto days = static_cast<int>(planned.record.days());
  const std::vector<DayPiece> pieces = day_pieces(days, across_pt(), narrowest_day_pt);
  std::vector<DaysAcross> out;
  for (const DayPiece& piece : pieces) {
    const double share = static_cast<double>(piece.count) / pieces.front().count;
    const int end = piece.first + piece.count;
    DaysAcross now{.piece = piece, .across = across(day_h * piece.first, day_h * end, share)};
    now.across.nights = line.nights;
    for (int day = piece.first + 1; day < end; ++day) now.across.lines.push_back(day_h * day);
    out.push_back(std::move(now));
  }
  return out;
}

}  // namespace drystage::report
