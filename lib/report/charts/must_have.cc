#include "report/charts/must_have.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "answers/base/laid_trip.h"
#include "report/needs/words.h"
#include "units/day.h"

namespace drystage::report {
namespace {

bool last_as_long(const answers::Need& a, const answers::Need& b) {
  constexpr double noise = 1e-6;
  return a.until_place == b.until_place && a.until_day == b.until_day &&
         std::abs(a.until_h - b.until_h) < noise;
}

double morning_hour(const engine::Timeline& timeline, int day) {
  const std::size_t step = answers::morning_step(timeline, day);
  const bool has_step = step < timeline.steps.size() && timeline.steps[step].day == day;
  return day_h * day + (has_step ? timeline.steps[step].from_h : 0);
}

/// What lies between two mornings, as levels of the plan less what is to spare.
void go_on(std::vector<MustHave>& line, const std::vector<answers::Level>& levels,
           const Morning& from, const Morning& to) {
  auto level = std::ranges::upper_bound(levels, from.hour, {}, &answers::Level::hour);
  for (; level != levels.end() && level->hour < to.hour; ++level) {
    const double share = (level->hour - from.hour) / (to.hour - from.hour);
    const double slack = std::lerp(from.need->slack(), to.need->slack(), share);
    line.push_back({.hour = level->hour, .level = level->level - slack});
  }
}

}  // namespace

bool Morning::can_be_met() const { return !is_endless(*need) && need->fits; }

std::vector<Morning> mornings_of(const answers::PlanRun& planned, const answers::Needs* needs,
                                 std::size_t reserve) {
  if (needs == nullptr) return {};
  const auto own = std::ranges::find(needs->reserves, static_cast<int>(reserve));
  if (own == needs->reserves.end()) return {};
  const auto index = static_cast<std::size_t>(own - needs->reserves.begin());
  std::vector<Morning> out;
  for (std::size_t day = 0; day < planned.record.days(); ++day) {
    const int number = static_cast<int>(day);
    out.push_back({.day = number,
                   .hour = morning_hour(*planned.course.timeline, number),
                   .need = &needs->need(day, index)});
  }
  return out;
}

std::vector<std::vector<MustHave>> must_have_lines(const answers::PlanRun& planned,
                                                   const std::vector<answers::Level>& levels,
                                                   const std::vector<Morning>& mornings,
                                                   std::size_t reserve, const DayPiece& piece) {
  const bool can_be_taken_on = planned.course.reserves[reserve].commodity.has_value();
  const auto ledger = [&](const Morning& morning) -> const engine::ReserveDay& {
    return planned.record.reserve(static_cast<std::size_t>(morning.day), reserve);
  };
  std::vector<std::vector<MustHave>> out;
  std::vector<MustHave> line;
  const auto end_line = [&] {
    if (line.size() > 1) out.push_back(std::move(line));
    line = {};
  };
  // From the last morning before the piece to the first after it.
  const auto first = static_cast<std::size_t>(std::max(0, piece.first - 1));
  const int after = piece.first + piece.count;
  const auto last = static_cast<std::size_t>(after);
  for (std::size_t i = first; i < mornings.size() && i <= last; ++i) {
    const Morning& now = mornings[i];
    if (!now.can_be_met()) {
      end_line();
      continue;
    }
    line.push_back({.hour = now.hour, .level = now.need->must_have});
    if (i + 1 == mornings.size() || i == last) break;
    const Morning& next = mornings[i + 1];
    const engine::ReserveDay& day = ledger(now);
    constexpr double noise = 1e-6;
    const bool rises = next.need->must_have > now.need->must_have + noise;
    if (!last_as_long(*now.need, *next.need) || (can_be_taken_on && day.gained > 0) || rises) {
      end_line();
    } else if (next.can_be_met() && day.gained <= 0 && day.lost <= 0 && day.short_of <= 0) {
      go_on(line, levels, now, next);
    }
  }
  end_line();
  return out;
}

}  // namespace drystage::report
