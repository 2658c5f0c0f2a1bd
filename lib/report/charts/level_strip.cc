#include "report/charts/level_strip.h"

#include <algorithm>
#include <utility>

#include "drawing/hatch.h"
#include "drawing/plot.h"
#include "report/charts/key.h"
#include "report/charts/picture.h"
#include "report/charts/style.h"

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

}  // namespace drystage::report
