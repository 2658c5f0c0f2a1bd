#include "report/charts/time_chart.h"

#include <string>
#include <utility>

#include "drawing/hatch.h"
#include "report/charts/across_days.h"
#include "report/charts/breach_moments.h"
#include "report/charts/charted_reserve.h"
#include "report/charts/key.h"
#include "report/charts/level_strip.h"
#include "report/charts/picture.h"
#include "report/charts/reserve_order.h"
#include "report/charts/style.h"
#include "report/charts/supply_stops.h"
#include "report/charts/trip_band.h"

namespace drystage::report {
namespace {

using drawing::Block;
using drawing::Typesetter;

constexpr double tall_strip_pt = 84;
constexpr double low_strip_pt = 54;

LevelStrip strip_of(const answers::PlanRun& planned, const ChartedReserve& charted,
                    std::size_t reserve, const DayPiece& piece) {
  const bool life = planned.course.reserves[reserve].life_supporting;
  LevelStrip out{.title = charted.title(piece, false),
                 .above = charted.above(),
                 .has_margin = charted.has_margin(),
                 .range = charted.range(),
                 .height_pt = life ? tall_strip_pt : low_strip_pt,
                 .notes = charted.notes(piece, charted.range().second)};
  for (const answers::Level& level : charted.levels()) {
    out.points.push_back({.x = level.hour,
                          .level = charted.shown(level.level),
                          .margin = charted.shown(level.margin)});
  }
  for (const BreachMoment& moment : breach_moments(planned, charted.levels(), reserve)) {
    const bool margin = moment.kind == BreachMoment::Kind::beyond_margin;
    out.flags.push_back({.x = moment.hour,
                         .level = charted.shown(moment.level),
                         .words = moment_by_day(planned, reserve, moment),
                         .font = margin ? body_font : strong_font});
  }
  return out;
}

KeyItem box_item(const Typesetter& typesetter, std::string words) {
  KeyItem out{.words = std::move(words)};
  const double line_pt = key_line_pt(typesetter);
  out.sample.emplace_back(drawing::outline(
      {.x = 0, .y = 2, .width = out.sample_pt, .height = line_pt - 4}, {.width_pt = 0.6}));
  return out;
}

drawing::Rect box_of(const Typesetter& typesetter, const KeyItem& item) {
  return {.x = 0, .y = 2, .width = item.sample_pt, .height = key_line_pt(typesetter) - 4};
}

Block key_of(const Typesetter& typesetter) {
  KeyItem zone = box_item(typesetter, "beyond its margin");
  const drawing::Rect box = box_of(typesetter, zone);
  for (drawing::Mark& line :
       drawing::hatch(drawing::corners(box), box, zone_apart_pt, zone_hatch())) {
    zone.sample.push_back(std::move(line));
  }
  KeyItem night = box_item(typesetter, "night");
  night.sample.insert(night.sample.begin(), drawing::filled(box, night_grey));
  KeyItem driving = box_item(typesetter, "driving");
  driving.sample.emplace_back(drawing::filled(box, 0));
  std::vector<KeyItem> items{line_item(typesetter, plan_line(), "level"),
                             line_item(typesetter, margin_line(), "margin"), std::move(zone),
                             std::move(night), std::move(driving)};
  return key(typesetter, items, picture.column_pt());
}

}  // namespace

std::vector<Block> time_chart(const Typesetter& typesetter, const answers::PlanRun& planned,
                              const TripLine& line, const answers::Levels& levels,
                              units::System system) {
  const std::vector<SupplyStop> stops = supply_stops(planned, system);
  std::vector<Block> out{key_of(typesetter)};
  for (const auto& [piece, across] : across_days(planned, line)) {
    out.push_back(trip_band(typesetter, planned, line, stops, piece, across));
    for (const std::size_t reserve : life_first(planned)) {
      const ChartedReserve charted(planned, levels, nullptr, reserve, system);
      out.push_back(level_strip(typesetter, strip_of(planned, charted, reserve, piece), across));
    }
  }
  return out;
}

}  // namespace drystage::report
