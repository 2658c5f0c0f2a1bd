#include "report/charts/level_strip.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "drawing/plot.h"
#include "report/charts/picture.h"
#include "report/text/amounts.h"
#include "report/text/words.h"
#include "units/day.h"

namespace drystage::report {
namespace {

using drawing::Block;
using drawing::Plot;
using drawing::Point;

constexpr double strip_gap_pt = 7;
constexpr double flags_gap_pt = 1.5;

std::vector<Point> numbers_of(const LevelStrip& strip, double StripPoint::*what) {
  std::vector<Point> out;
  out.reserve(strip.points.size());
  for (const StripPoint& point : strip.points) out.push_back({.x = point.x, .y = point.*what});
  return out;
}

/// Between the margin and the foot, or the top, of the frame.
void draw_zone(Plot& plot, const LevelStrip& strip) {
  std::vector<Point> area;
  for (const StripPoint& point : strip.points) area.push_back(plot.at(point.x, point.margin));
  area = drawing::without_needless(area);
  const double edge = strip.above ? plot.frame().bottom() : plot.frame().y;
  area.push_back({.x = area.back().x, .y = edge});
  area.push_back({.x = area.front().x, .y = edge});
  plot.add(drawing::hatch(area, plot.frame(), zone_apart_pt, zone_hatch()));
}

/// A low frame has room for few numbers: of some axes, the one with most of them.
drawing::Axis axis_of(const LevelStrip& strip) {
  constexpr double number_apart_pt = 13.5;
  drawing::Axis out;
  std::size_t most = 0;
  for (const double ends_pt : {6, 5, 4, 3, 2}) {
    const drawing::Axis axis = drawing::axis_over(strip.range.first, strip.range.second,
                                                  strip.height_pt, ends_pt, number_apart_pt);
    const std::size_t numbers = axis.numbers().size();
    if (numbers > most) out = axis;
    most = std::max(most, numbers);
  }
  return out;
}

Block flags_of(const drawing::Typesetter& typesetter, const LevelStrip& strip, const Across& across,
               const drawing::Axis& axis) {
  const drawing::Scale down{
      .from = axis.high, .to = axis.low, .from_pt = 0, .to_pt = strip.height_pt};
  std::vector<Flag> all;
  for (const LevelStrip::Flag& flag : strip.flags) {
    if (!across.has(flag.x)) continue;
    const double fall = down.at_pt(flag.level);
    all.push_back({.at_pt = across.scale.at_pt(flag.x),
                   .fall_pt = flags_gap_pt + std::clamp(fall, 0.0, strip.height_pt),
                   .words = flag.words,
                   .font = flag.font});
  }
  return flags(typesetter, all, across.scale.from_pt, picture.column_pt());
}

/// Days on end on which something is so, each run of them as a moment on its first day. What lasts
/// through a day on which it is not so begins no other run after that.
template <class IsSo, class Lasts>
std::vector<BreachMoment> runs_of_days(const answers::PlanRun& planned, std::size_t reserve,
                                       BreachMoment::Kind kind, double engine::ReserveDay::*clock_h,
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
std::string what_words(const answers::PlanRun& planned, std::size_t reserve,
                       BreachMoment::Kind kind) {
  if (kind == BreachMoment::Kind::runs_out) return "runs out";
  if (kind == BreachMoment::Kind::utility_drunk) return "utility water drunk";
  const bool above = planned.course.reserves[reserve].sense == engine::Sense::keep_above;
  return above ? "below margin" : "above margin";
}

}  // namespace

Block level_strip(const drawing::Typesetter& typesetter, const LevelStrip& strip,
                  const Across& across) {
  constexpr double title_gap_pt = 6;
  const drawing::Axis axis = axis_of(strip);
  const Block poles = flags_of(typesetter, strip, across, axis);
  const double half_line_pt = key_line_pt(typesetter) / 2;
  const double top = std::max(poles.height_pt, half_line_pt) + flags_gap_pt;
  Plot plot(
      {.x = across.scale.from_pt, .y = top, .width = across.width_pt(), .height = strip.height_pt},
      across.scale.from, across.scale.to, axis.low, axis.high);
  if (strip.has_margin) draw_zone(plot, strip);
  plot.level_lines(axis.numbers(), faint_grid());
  plot.upright_lines(across.lines, faint_grid());
  if (strip.has_margin) plot.line(numbers_of(strip, &StripPoint::margin), margin_line());
  const std::vector<Point> levels = numbers_of(strip, &StripPoint::level);
  plot.line(levels, halo());
  plot.edge(edge_line());
  plot.line(levels, plan_line());
  plot.numbers_left(typesetter, axis, body_font);
  for (const drawing::Mark& mark : poles.marks) {
    plot.add(moved(mark, 0, top - flags_gap_pt - poles.height_pt));
  }
  const double title_pt =
      across.scale.from_pt - numbers_width(typesetter, axis, body_font) - title_gap_pt;
  const drawing::Text title =
      typesetter.text(strip.title, strong_font, {.x = 0, .y = top}, title_pt);
  plot.add(title);
  double foot = std::max(plot.frame().bottom() + half_line_pt, title.box.bottom());
  for (const std::string& note : strip.notes) {
    const drawing::Text words =
        typesetter.text(note, body_font, {.x = across.scale.from_pt, .y = foot}, across_pt());
    foot = words.box.bottom();
    plot.add(words);
  }
  Block out;
  out.height_pt = foot + strip_gap_pt;
  out.marks = night_marks(across, 0, out.height_pt);
  for (drawing::Mark& mark : std::move(plot).marks()) out.marks.push_back(std::move(mark));
  return out;
}

std::vector<BreachMoment> breach_moments(const answers::PlanRun& planned,
                                         const std::vector<answers::Level>& levels,
                                         std::size_t reserve) {
  using Row = engine::ReserveDay;
  constexpr double slight_h = 1e-6;
  // What has run out stays so, wanted or not, until something is taken on.
  const auto still_out = [](const Row& row) { return row.gained <= 0; };
  std::vector<BreachMoment> out = runs_of_days(
      planned, reserve, BreachMoment::Kind::runs_out, &Row::short_h,
      [](const Row& row) { return row.short_of > 0; }, still_out);
  const std::vector<BreachMoment> drunk = runs_of_days(
      planned, reserve, BreachMoment::Kind::utility_drunk, &Row::short_h,
      [](const Row& row) { return row.stood_in > 0 && row.short_of <= 0; }, still_out);
  out.insert(out.end(), drunk.begin(), drunk.end());
  for (const BreachMoment& low : runs_of_days(
           planned, reserve, BreachMoment::Kind::beyond_margin, &Row::breach_h,
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
  if (moment.kind != BreachMoment::Kind::beyond_margin) {
    return fmt::format("{} {}day {}, {}", what,
                       moment.kind == BreachMoment::Kind::utility_drunk ? "from " : "", day,
                       clock(moment.hour - day_h * moment.day));
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
  return fmt::format(
      "{} {} {}", what_words(planned, reserve, moment.kind),
      moment.kind == BreachMoment::Kind::runs_out ? "after" : "from",
      rounded_words(line.km_at(moment.hour), units::Kind::distance, system, 0, Toward::down));
}

LevelStrip strip_of(const answers::PlanRun& planned, const ChartedReserve& charted,
                    std::size_t reserve, const DayPiece& piece,
                    const std::function<double(double hour)>& across,
                    const std::function<std::string(const BreachMoment&)>& words) {
  LevelStrip out{.title = charted.title(piece, false),
                 .above = charted.above(),
                 .has_margin = charted.has_margin(),
                 .range = charted.range()};
  for (const answers::Level& level : charted.levels()) {
    out.points.push_back({.x = across(level.hour),
                          .level = charted.shown(level.level),
                          .margin = charted.shown(level.margin)});
  }
  for (const BreachMoment& moment : breach_moments(planned, charted.levels(), reserve)) {
    const bool margin = moment.kind == BreachMoment::Kind::beyond_margin;
    out.flags.push_back({.x = across(moment.hour),
                         .level = charted.shown(moment.level),
                         .words = words(moment),
                         .font = margin ? body_font : strong_font});
  }
  return out;
}

}  // namespace drystage::report
