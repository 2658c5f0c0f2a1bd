#include "report/charts/charted_reserve.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "answers/base/laid_trip.h"
#include "report/charts/day_axis.h"
#include "report/needs/words.h"
#include "report/text/amounts.h"
#include "report/text/words.h"
#include "units/day.h"
#include "units/index.h"

namespace drystage::report {
namespace {

std::string mornings_words(const std::vector<int>& days) {
  return (days.size() == 1 ? "Morning of " : "Mornings of ") + day_list(days);
}

/// Days of a piece of which something is so.
std::vector<int> days_where(const DayPiece& piece, const std::function<bool(int)>& so) {
  std::vector<int> out;
  for (int day = piece.first; day < piece.first + piece.count; ++day) {
    if (so(day)) out.push_back(day);
  }
  return out;
}

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

ChartedReserve::ChartedReserve(const answers::PlanRun& planned, const answers::Levels& levels,
                               const answers::Needs* needs, std::size_t reserve,
                               units::System system)
    : planned_(planned),
      info_(planned.course.reserves[reserve]),
      reserve_(reserve),
      levels_(levels.reserves[reserve]),
      system_(system),
      mornings_(mornings_of(planned, needs, reserve)) {}

double ChartedReserve::shown(double level) const { return display_number(info_, level, system_); }

bool ChartedReserve::above() const { return info_.sense == engine::Sense::keep_above; }

bool ChartedReserve::has_margin() const {
  return !above() ||
         std::ranges::any_of(levels_, [](const answers::Level& one) { return one.margin > 0; });
}

std::pair<double, double> ChartedReserve::range() const {
  constexpr double least_degrees = 5;
  constexpr double most_margin = 1.5;  // times what can be held
  constexpr double more = 1.03;        // lest what is full lies on the edge
  const auto ends = [this](double answers::Level::*what) {
    const auto [least, most] = std::ranges::minmax(levels_, {}, what);
    return std::pair(shown(least.*what), shown(most.*what));
  };
  auto [low, high] = ends(&answers::Level::level);
  const auto [least_margin, margin] = ends(&answers::Level::margin);
  if (!above()) {
    // A degree more on either side, so that no line lies on the edge.
    low = std::min(low, least_margin) - 1;
    high = std::max(high, margin) + 1;
    return {low, std::max(high, low + least_degrees)};
  }
  const double held = shown(info_.capacity);
  high = std::max({high, held, std::min(margin, most_margin * held)});
  for (const Morning& morning : mornings_) {
    if (morning.can_be_met()) high = std::max(high, shown(morning.need->must_have));
  }
  return {std::min(0.0, low), high > 0 ? high * more : 1.0};
}

std::string ChartedReserve::title(const DayPiece& piece, bool cut) const {
  std::string text = capital(reserve_words(info_) + ", " + unit(info_, system_));
  if (cut) text += fmt::format(", days {} to {}", piece.first + 1, piece.first + piece.count);
  return text;
}

const engine::ReserveDay& ChartedReserve::row(int day) const {
  return planned_.record.reserve(static_cast<std::size_t>(day), reserve_);
}

std::vector<int> ChartedReserve::mornings_where(
    const DayPiece& piece, const std::function<bool(const Morning&)>& so) const {
  std::vector<int> out;
  for (const Morning& morning : mornings_) {
    if (piece.has(morning.day) && so(morning)) out.push_back(morning.day);
  }
  return out;
}

std::vector<int> ChartedReserve::dry_days(const DayPiece& piece) const {
  return days_where(piece, [this](int day) { return row(day).short_of > 0; });
}

std::vector<int> ChartedReserve::low_days(const DayPiece& piece) const {
  return days_where(piece,
                    [this](int day) { return row(day).short_of <= 0 && row(day).breach_h >= 0; });
}

std::vector<int> ChartedReserve::lacking(const DayPiece& piece) const {
  return mornings_where(
      piece, [](const Morning& morning) { return morning.can_be_met() && morning.need->lacks(); });
}

std::vector<int> ChartedReserve::beyond(const DayPiece& piece) const {
  return mornings_where(piece, [](const Morning& morning) { return !morning.can_be_met(); });
}

std::vector<std::vector<MustHave>> ChartedReserve::must_have(const DayPiece& piece) const {
  return must_have_lines(planned_, levels_, mornings_, reserve_, piece);
}

std::vector<std::string> ChartedReserve::notes(const DayPiece& piece, double top) const {
  std::vector<std::string> out;
  const auto endless =
      mornings_where(piece, [](const Morning& morning) { return is_endless(*morning.need); });
  const auto too_much = mornings_where(piece, [](const Morning& morning) {
    return !is_endless(*morning.need) && !morning.need->fits;
  });
  if (!too_much.empty()) {
    double most = 0;
    for (const Morning& morning : mornings_) {
      if (std::ranges::find(too_much, morning.day) != too_much.end()) {
        most = std::max(most, morning.need->must_have);
      }
    }
    out.push_back(fmt::format("{}: must have {}{}, more than the {} that can be held.",
                              mornings_words(too_much), too_much.size() > 1 ? "up to " : "",
                              amount_toward(info_, most, system_, Toward::up),
                              amount_toward(info_, info_.capacity, system_, Toward::down)));
  }
  if (!endless.empty()) {
    out.push_back(mornings_words(endless) + ": no amount is enough.");
  }
  std::vector<int> hidden;
  for (const answers::Level& level : levels_) {
    const bool known = !hidden.empty() && hidden.back() == level.day;
    if (known || !piece.has(level.day) || shown(level.margin) <= top) continue;
    hidden.push_back(level.day);
  }
  if (!hidden.empty()) {
    out.push_back(fmt::format("On {} the margin lies above the chart.", day_list(hidden)));
  }
  return out;
}

bool Morning::can_be_met() const { return !is_endless(*need) && need->fits; }

std::vector<Morning> mornings_of(const answers::PlanRun& planned, const answers::Needs* needs,
                                 std::size_t reserve) {
  if (needs == nullptr) return {};
  const std::optional<std::size_t> index = need_of(*needs, static_cast<int>(reserve));
  if (!index) return {};
  std::vector<Morning> out;
  for (std::size_t day = at(needs->first_day); day < planned.record.days(); ++day) {
    const int number = static_cast<int>(day);
    out.push_back({.day = number,
                   .hour = morning_hour(*planned.course.timeline, number),
                   .need = &needs->need(day, *index)});
  }
  return out;
}

std::vector<std::vector<MustHave>> must_have_lines(const answers::PlanRun& planned,
                                                   const std::vector<answers::Level>& levels,
                                                   const std::vector<Morning>& mornings,
                                                   std::size_t reserve, const DayPiece& piece) {
  const bool can_be_taken_on = planned.course.reserves[reserve].commodity.has_value();
  const auto ledger = [&](const Morning& morning) -> const engine::ReserveDay& {
    return planned.record.reserve(at(morning.day), reserve);
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
