#include "report/charts/breach_moments.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "report/text/rounding.h"
#include "report/text/words.h"
#include "units/day.h"

namespace drystage::report {
namespace {

using Kind = BreachMoment::Kind;

/// Days on end on which something is so, each run of them as a moment on its first day. What lasts
/// through a day on which it is not so begins no other run after that.
template <class IsSo, class Lasts>
std::vector<BreachMoment> runs_of_days(const answers::PlanRun& planned, std::size_t reserve,
                                       Kind kind, double engine::ReserveDay::*clock_h,
                                       const IsSo& is_so, const Lasts& lasts) {
  std::vector<BreachMoment> out;
  bool goes_on = false;
  for (std::size_t d = 0; d < planned.record.days(); ++d) {
    const engine::ReserveDay& row = planned.record.reserve(d, reserve);
    const int day = static_cast<int>(d);
    const bool now = is_so(row);
    if (now && !goes_on) out.push_back({kind, day_h * day + row.*clock_h, day, day});
    if (now) out.back().last_day = day;
    goes_on = now || (goes_on && lasts(row));
  }
  return out;
}

/// The level at an hour; where it jumps then, as it was before.
double level_at(const std::vector<answers::Level>& levels, double hour) {
  const auto next = std::ranges::lower_bound(levels, hour, {}, &answers::Level::hour);
  if (next == levels.end()) return levels.back().level;
  if (next == levels.begin()) return next->level;
  const answers::Level& before = *std::prev(next);
  return std::lerp(before.level, next->level, (hour - before.hour) / (next->hour - before.hour));
}

/// What happens, without when.
std::string what_words(const answers::PlanRun& planned, std::size_t reserve, Kind kind) {
  if (kind == Kind::runs_out) return "runs out";
  if (kind == Kind::utility_drunk) return "utility water drunk";
  const bool above = planned.course.reserves[reserve].sense == engine::Sense::keep_above;
  return above ? "below margin" : "above margin";
}

}  // namespace

std::vector<BreachMoment> breach_moments(const answers::PlanRun& planned,
                                         const std::vector<answers::Level>& levels,
                                         std::size_t reserve) {
  using Row = engine::ReserveDay;
  constexpr double slight_h = 1e-6;
  // What has run out stays so, wanted or not, until something is taken on.
  const auto still_out = [](const Row& row) { return row.gained <= 0; };
  std::vector<BreachMoment> out = runs_of_days(
      planned, reserve, Kind::runs_out, &Row::short_h,
      [](const Row& row) { return row.short_of > 0; }, still_out);
  const std::vector<BreachMoment> drunk = runs_of_days(
      planned, reserve, Kind::utility_drunk, &Row::short_h,
      [](const Row& row) { return row.stood_in > 0 && row.short_of <= 0; }, still_out);
  out.insert(out.end(), drunk.begin(), drunk.end());
  for (const BreachMoment& low : runs_of_days(
           planned, reserve, Kind::beyond_margin, &Row::breach_h,
           [](const Row& row) { return row.breach_h >= 0; }, [](const Row&) { return false; })) {
    const bool told = std::ranges::any_of(out, [&low](const BreachMoment& other) {
      return std::abs(other.hour - low.hour) < slight_h && other.last_day >= low.last_day;
    });
    if (!told) out.push_back(low);
  }
  for (BreachMoment& moment : out) moment.level = level_at(levels, moment.hour);
  std::ranges::stable_sort(out, {}, &BreachMoment::hour);
  return out;
}

std::string moment_by_day(const answers::PlanRun& planned, std::size_t reserve,
                          const BreachMoment& moment) {
  const std::string what = what_words(planned, reserve, moment.kind);
  const int day = moment.day + 1;
  if (moment.kind != Kind::beyond_margin) {
    return fmt::format("{} {}day {}, {}", what, moment.kind == Kind::utility_drunk ? "from " : "",
                       day, clock(moment.hour - day_h * moment.day));
  }
  const int last_day = moment.last_day + 1;
  if (last_day == static_cast<int>(planned.record.days())) {
    return fmt::format("{} from day {}", what, day);
  }
  if (last_day == day) return fmt::format("{} day {}", what, day);
  return fmt::format("{} days {} to {}", what, day, last_day);
}

std::string moment_by_way(const answers::PlanRun& planned, std::size_t reserve,
                          const BreachMoment& moment, const TripLine& line, units::System system) {
  const units::Display shown = units::display(units::Kind::distance, system);
  const double way = rounded(shown.number(line.km_at(moment.hour)), 0, Toward::down);
  return fmt::format("{} {} {} {}", what_words(planned, reserve, moment.kind),
                     moment.kind == Kind::runs_out ? "after" : "from",
                     units::format_number(way, units::decimals(0)), shown.unit);
}

}  // namespace drystage::report
