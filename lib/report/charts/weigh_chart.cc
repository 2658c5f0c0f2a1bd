#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "drawing/plot.h"
#include "report/charts/charts.h"
#include "report/charts/day_axis.h"
#include "report/charts/picture.h"
#include "report/charts/vehicle_side.h"
#include "report/text/words.h"
#include "report/weigh/words.h"
#include "units/day.h"
#include "units/index.h"

namespace drystage::report {
namespace {

using answers::VehicleWeighing;
using answers::Weighed;
using drawing::Block;
using drawing::Point;
using engine::Scale;
using engine::ScaleKind;

constexpr double axle_strip_pt = 62;
constexpr double gap_pt = 8;

/// One scale through the days: the most of each, what is there at its end, and the limit.
class ScaleStrip {
 public:
  ScaleStrip(const drawing::Typesetter& typesetter, const WeighAnswer& answer,
             const VehicleWeighing& vehicle, std::size_t scale, units::System system)
      : typesetter_(typesetter),
        answer_(answer),
        vehicle_(vehicle),
        index_(scale),
        scale_(answer.weighing.scales[vehicle.scales[scale]]),
        system_(system) {}

  [[nodiscard]] Block block(bool with_days) const {
    const auto days = static_cast<int>(vehicle_.days.size());
    const DayPiece piece{.first = 0, .count = days};
    const Across width = across(0, day_h * days);
    double low = std::isfinite(scale_.limit_kg) ? shown(scale_.limit_kg) : 0;
    double high = low;
    bool first = !std::isfinite(scale_.limit_kg);
    for (const auto& day : vehicle_.days) {
      if (!day) continue;
      const Weighed& its = day->scales[index_];
      low = first ? shown(its.least_kg) : std::min(low, shown(its.least_kg));
      high = first ? shown(its.most_kg) : std::max(high, shown(its.most_kg));
      first = false;
    }
    constexpr double least_share = 0.02;
    const double spare = std::max(1.0, std::max(high - low, least_share * high) * 0.1);
    const drawing::Axis axis =
        drawing::axis_over(std::max(0.0, low - spare), high + spare, axle_strip_pt, 7, 13);
    Block out;
    const std::string name = scale_.kind == ScaleKind::total
                                 ? "in all"
                                 : engine::scale_name(answer_.planned.plan, scale_);
    const std::string unit = std::string(units::display(units::Kind::mass, system_).unit);
    drawing::Text title = typesetter_.text(capital(name) + ", " + unit, strong_font,
                                           {.x = 0, .y = 0}, picture.column_pt());
    const double top = title.box.bottom() + 2;
    out.marks.emplace_back(std::move(title));
    drawing::Plot plot(
        {.x = width.scale.from_pt, .y = top, .width = width.width_pt(), .height = axle_strip_pt}, 0,
        day_h * days, axis.low, axis.high);
    plot.level_lines(axis.fine_lines(), faint_grid());
    plot.level_lines(axis.numbers(), faint_grid());
    day_lines(plot, piece, strong_grid(), faint_grid());
    draw(plot);
    plot.edge(edge_line());
    plot.numbers_left(typesetter_, axis, body_font);
    double y = plot.frame().bottom() + 2;
    if (with_days) {
      y += day_labels(plot, typesetter_, answer_.planned, piece, y, picture.column_pt());
    }
    for (drawing::Mark& mark : std::move(plot).marks()) out.marks.push_back(std::move(mark));
    out.height_pt = y + 4;
    return out;
  }

 private:
  [[nodiscard]] double shown(double kg) const {
    return units::display(units::Kind::mass, system_).number(kg);
  }

  void draw(drawing::Plot& plot) const {
    std::vector<Point> most;
    const auto flush = [&] { plot.line(std::exchange(most, {}), plan_line()); };
    for (std::size_t d = 0; d < vehicle_.days.size(); ++d) {
      if (!vehicle_.days[d]) {
        flush();
        continue;
      }
      const Weighed& its = vehicle_.days[d]->scales[index_];
      const double from = day_h * static_cast<double>(d);
      most.push_back({.x = from, .y = shown(its.most_kg)});
      most.push_back({.x = from + day_h, .y = shown(its.most_kg)});
      plot.add(drawing::dot(plot.at(from + day_h, shown(its.end_kg)), 2.2));
    }
    flush();
    if (!std::isfinite(scale_.limit_kg)) return;
    const double limit = shown(scale_.limit_kg);
    plot.line({{.x = plot.across().from, .y = limit}, {.x = plot.across().to, .y = limit}},
              margin_line());
  }

  const drawing::Typesetter& typesetter_;
  const WeighAnswer& answer_;
  const VehicleWeighing& vehicle_;
  std::size_t index_;
  const Scale& scale_;
  units::System system_;
};

KeyItem dot_item(const drawing::Typesetter& typesetter, std::string words) {
  constexpr double sample_pt = 8;
  KeyItem out{.words = std::move(words), .sample_pt = sample_pt};
  out.sample.emplace_back(
      drawing::dot({.x = sample_pt / 2, .y = key_line_pt(typesetter) / 2}, 2.2));
  return out;
}

void write_vehicle(drawing::Flow& flow, const drawing::Typesetter& typesetter,
                   const WeighAnswer& answer, std::size_t v, units::System system) {
  const VehicleWeighing& its = answer.weighing.vehicles[v];
  flow.add(drawing::space(gap_pt));
  write(flow, typesetter, capital(answer.planned.plan.vehicles[v].name), part_font);
  const Block side =
      vehicle_side(typesetter, answer.planned, answer.weighing, v, picture.column_pt(), system);
  if (side.height_pt > 0) flow.add(side);
  write(flow, typesetter, centre_words(its, system), body_font);
  if (!its.unplaced.empty()) {
    write(flow, typesetter,
          fmt::format("Without a place, halfway between the axles: {}.",
                      counted(its.unplaced.size(), "thing", "things")),
          body_font);
  }
  std::vector<std::size_t> shown;
  for (std::size_t i = 0; i < its.scales.size(); ++i) {
    const ScaleKind kind = answer.weighing.scales[its.scales[i]].kind;
    if (kind == ScaleKind::total || kind == ScaleKind::front || kind == ScaleKind::rear) {
      shown.push_back(i);
    }
  }
  for (const std::size_t i : shown) {
    flow.add(ScaleStrip(typesetter, answer, its, i, system).block(i == shown.back()));
  }
}

}  // namespace

drawing::Drawing weigh_chart(const WeighAnswer& answer, units::System system) {
  const drawing::Typesetter typesetter;
  drawing::Flow flow(picture);
  write_trip(flow, typesetter, answer.planned);
  write(flow, typesetter, weigh_verdict_words(answer, system), heading_font);
  write(flow, typesetter, nearest_words(answer, system), body_font);
  write(flow, typesetter, moves_words(answer, system), body_font);
  write_warnings(flow, typesetter, answer.warnings);
  const std::vector<KeyItem> items{line_item(typesetter, plan_line(), "the day's most"),
                                   dot_item(typesetter, "at the day's end"),
                                   line_item(typesetter, margin_line(), "limit")};
  flow.add(key(typesetter, items, picture.column_pt()));
  for (std::size_t v = 0; v < answer.weighing.vehicles.size(); ++v) {
    write_vehicle(flow, typesetter, answer, v, system);
  }
  write(flow, typesetter, "A square's area is its mass, at its most.", body_font, 2);
  write(flow, typesetter, std::string(weigh_cautions), body_font, 0);
  write_cautions(flow, typesetter);
  return {.title = answer.planned.plan.trip.title, .pages = flow.pages(typesetter, {})};
}

}  // namespace drystage::report
