#include "report/charts/trip_band.h"

#include <algorithm>
#include <utility>

#include "drawing/plot.h"
#include "report/charts/flags.h"
#include "report/charts/name_rows.h"
#include "report/charts/picture.h"
#include "report/charts/style.h"
#include "units/index.h"

namespace drystage::report {
namespace {

constexpr double band_height_pt = 11;
constexpr double band_gap_pt = 3;

/// As far as it lies on the axis, on paper.
Stretch on_paper(const Stretch& hours, const Across& across) {
  return {.from = across.scale.at_pt(std::max(hours.from, across.scale.from)),
          .to = across.scale.at_pt(std::min(hours.to, across.scale.to))};
}

}  // namespace

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
                      .words = planned.plan.places[at(halt.place)].name});
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

}  // namespace drystage::report
