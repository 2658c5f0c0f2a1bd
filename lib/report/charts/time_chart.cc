#include <algorithm>
#include <string>
#include <utility>

#include "drawing/plot.h"
#include "report/charts/charted_reserve.h"
#include "report/charts/day_axis.h"
#include "report/charts/flags.h"
#include "report/charts/level_strip.h"
#include "report/charts/picture.h"
#include "report/charts/run_parts.h"
#include "report/text/events.h"
#include "report/text/words.h"
#include "units/day.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using drawing::Block;
using drawing::Typesetter;

drawing::Rect box_of(const Typesetter& typesetter, const KeyItem& item) {
  return {.x = 0, .y = 2, .width = item.sample_pt, .height = key_line_pt(typesetter) - 4};
}

/// A box as it stands in a chart, for a key.
KeyItem box_item(const Typesetter& typesetter, std::string words) {
  KeyItem out{.words = std::move(words)};
  out.sample.emplace_back(drawing::outline(box_of(typesetter, out), {.width_pt = 0.6}));
  return out;
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

constexpr double band_height_pt = 11;
constexpr double band_gap_pt = 3;

/// As far as it lies on the axis, on paper.
Stretch on_paper(const Stretch& hours, const Across& across) {
  return {.from = across.scale.at_pt(std::max(hours.from, across.scale.from)),
          .to = across.scale.at_pt(std::min(hours.to, across.scale.to))};
}

/// The trip as a band over some of its days, under their numbers and dates: driving in black, the
/// names of places below, and above what is taken on where.
drawing::Block trip_band(const drawing::Typesetter& typesetter, const answers::PlanRun& planned,
                         const TripLine& line, const std::vector<SupplyStop>& stops,
                         const DayPiece& piece, const Across& across) {
  drawing::Block out;
  const auto add = [&out](const std::vector<drawing::Mark>& marks, double down_pt) {
    for (const drawing::Mark& mark : marks) out.marks.push_back(moved(mark, 0, down_pt));
  };
  std::vector<Flag> taken;
  for (const SupplyStop& stop : stops) {
    if (!across.has(stop.hour)) continue;
    taken.push_back({.at_pt = across.scale.at_pt(stop.hour), .words = stop.words});
  }
  std::vector<NameUnder> places;
  for (const Halt& halt : line.halts) {
    const Stretch at_pt = on_paper(halt.hours, across);
    if (halt.place < 0 || at_pt.to < at_pt.from) continue;
    places.push_back({.from_pt = at_pt.from,
                      .to_pt = at_pt.to,
                      .words = name_in(planned.plan.places, halt.place)});
  }
  const drawing::Block supplies =
      flags(typesetter, taken, across.scale.from_pt, picture.column_pt());
  const drawing::Block names =
      name_rows(typesetter, places, across.scale.from_pt, picture.column_pt());

  drawing::Plot days({.x = across.scale.from_pt, .width = across.width_pt()}, across.scale.from,
                     across.scale.to, 0, 1);
  const double labels_pt = day_labels(days, typesetter, planned, piece, 0, picture.column_pt());
  const double top = labels_pt + supplies.height_pt + band_gap_pt;
  const drawing::Rect band{
      .x = across.scale.from_pt, .y = top, .width = across.width_pt(), .height = band_height_pt};
  out.height_pt = band.bottom() + names.height_pt + band_gap_pt;
  out.marks = night_marks(across, labels_pt, out.height_pt);
  add(std::move(days).marks(), 0);
  for (const Stretch& drive : line.drives) {
    const Stretch at_pt = on_paper(drive, across);
    if (at_pt.to <= at_pt.from) continue;
    out.marks.emplace_back(drawing::filled(
        {.x = at_pt.from, .y = band.y, .width = at_pt.to - at_pt.from, .height = band.height}, 0));
  }
  out.marks.emplace_back(drawing::outline(band, edge_line()));
  out.marks.emplace_back(
      typesetter.text("Trip", strong_font, {.x = 0, .y = top}, across.scale.from_pt));
  if (!taken.empty()) {
    out.marks.emplace_back(
        typesetter.text("taken on", body_font, {.x = 0, .y = labels_pt}, across.scale.from_pt));
  }
  add(supplies.marks, top - supplies.height_pt);
  add(names.marks, band.bottom());
  return out;
}

}  // namespace

std::vector<Block> time_chart(const Typesetter& typesetter, const answers::PlanRun& planned,
                              const TripLine& line, const answers::Levels& levels,
                              units::System system) {
  constexpr double low_strip_pt = 54;
  const std::vector<SupplyStop> stops = supply_stops(planned, system);
  std::vector<Block> out{key_of(typesetter)};
  for (const auto& [piece, across] : across_days(planned, line)) {
    out.push_back(trip_band(typesetter, planned, line, stops, piece, across));
    for (const std::size_t reserve : life_first(planned)) {
      const ChartedReserve charted(planned, levels, nullptr, reserve, system);
      LevelStrip strip = strip_of(
          planned, charted, reserve, piece, [](double hour) { return hour; },
          [&](const BreachMoment& moment) { return moment_by_day(planned, reserve, moment); });
      if (!planned.course.reserves[reserve].life_supporting) strip.height_pt = low_strip_pt;
      strip.notes = charted.notes(piece, strip.range.second);
      out.push_back(level_strip(typesetter, strip, across));
    }
  }
  return out;
}

std::vector<SupplyStop> supply_stops(const answers::PlanRun& planned, units::System system) {
  constexpr double least_amount = 0.05;
  std::vector<SupplyStop> out;
  for (const engine::Event& event : all_events(planned)) {
    const bool shut = event.kind == engine::EventKind::shut;
    const bool taken = event.kind == engine::EventKind::refill && event.amount >= least_amount;
    if (!shut && !taken) continue;
    const engine::OrderInfo& order = planned.course.orders[at(event.subject)];
    std::string words = ordered_words(planned.plan, order);
    if (shut) {
      words += ": shut";
    } else {
      words += " " + taken_words(planned.plan, order, event.amount, system);
      if (!order.supply.confirmed) words += " (not confirmed)";
    }
    const double hour = day_h * event.day + event.hour;
    if (out.empty() || out.back().hour != hour) out.push_back({.hour = hour, .words = {}});
    units::add_to(out.back().words, words);
  }
  return out;
}

}  // namespace drystage::report
