#include "report/charts/vehicle_side.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

#include "drawing/plot.h"
#include "engine/empty_axles.h"
#include "report/charts/flags.h"
#include "report/text/amounts.h"
#include "report/text/type.h"
#include "report/text/words.h"
#include "units/index.h"

namespace drystage::report {
namespace {

using answers::VehicleWeighing;
using answers::Weighed;
using drawing::Block;
using drawing::Point;
using engine::Scale;
using engine::ScaleKind;

// Of no vehicle: low enough that what lies on the roof stands above it.
constexpr double roof_m = 1.75;
constexpr double floor_m = 0.55;
constexpr double bonnet_m = 1.05;
constexpr double tyre_radius_m = 0.37;
constexpr double usual_load_m = 0.9;
constexpr double most_pt_m = 74;

struct Lying {
  std::string name;
  double at_m = 0;
  double height_m = usual_load_m;
  double kg = 0;
};

drawing::Shape circle(Point centre, double radius_pt, const drawing::Stroke& stroke,
                      double fill_grey) {
  constexpr int corners = 40;
  drawing::Shape out{.points = {}, .closed = true, .stroke = stroke, .fill_grey = fill_grey};
  for (int i = 0; i < corners; ++i) {
    const double angle = 2 * std::numbers::pi * i / corners;
    out.points.push_back(
        {.x = centre.x + radius_pt * std::cos(angle), .y = centre.y + radius_pt * std::sin(angle)});
  }
  return out;
}

class Side {
 public:
  Side(const drawing::Typesetter& typesetter, const answers::PlanRun& planned,
       const answers::Weighing& weighing, std::size_t vehicle, double width_pt,
       units::System system)
      : typesetter_(typesetter),
        planned_(planned),
        weighing_(weighing),
        its_(weighing.vehicles[vehicle]),
        vehicle_(planned.plan.vehicles[vehicle]),
        index_(vehicle),
        width_pt_(width_pt),
        system_(system) {
    const plan::Chassis& chassis = vehicle_.chassis;
    from_m_ = -chassis.front_overhang_m;
    to_m_ = *chassis.wheelbase_m + chassis.rear_overhang_m;
    double end_m = to_m_;
    if (vehicle_.trailer) {
      end_m = std::max(end_m, *chassis.wheelbase_m + vehicle_.trailer->coupling_m.value_or(0));
    }
    pt_m_ = std::min(most_pt_m, (width_pt_ - 2 * side_pt) / (end_m - from_m_));
    left_pt_ = (width_pt_ - pt_m_ * (end_m - from_m_)) / 2;
  }

  [[nodiscard]] Block block() {
    Block out;
    const std::vector<Lying> loads = lying();
    double highest_m = roof_height_m();
    for (const Lying& load : loads) {
      highest_m = std::max(highest_m, load.height_m + size_pt(load.kg) / 2 / pt_m_);
    }
    // Heights are measured from the ground, which lies so far below the flags.
    const double room_pt = highest_m * pt_m_ + 4;
    std::vector<Flag> poles;
    for (const Lying& load : loads) {
      const double top_pt = load.height_m * pt_m_ + size_pt(load.kg) / 2;
      poles.push_back({.at_pt = x(load.at_m),
                       .fall_pt = room_pt - top_pt,
                       .words = load.name + " " + mass_words(load.kg, system_, Toward::up)});
    }
    const Block words = flags(typesetter_, poles, 0, width_pt_);
    ground_pt_ = words.height_pt + room_pt;
    draw_outline(out);
    for (const Lying& load : loads) draw_load(out, load);
    for (const drawing::Mark& mark : words.marks) out.marks.push_back(mark);
    out.marks.emplace_back(drawing::line({.x = left_pt_ - side_pt, .y = ground_pt_},
                                         {.x = width_pt_ - left_pt_ + side_pt, .y = ground_pt_},
                                         {.width_pt = 1}));
    out.height_pt = write_axles(out) + 4;
    return out;
  }

 private:
  static constexpr double side_pt = 8;

  [[nodiscard]] double x(double at_m) const { return left_pt_ + (at_m - from_m_) * pt_m_; }
  [[nodiscard]] double y(double height_m) const { return ground_pt_ - height_m * pt_m_; }

  /// A square of 100 kg is so wide.
  static double size_pt(double kg) {
    constexpr double of_100_kg_pt = 17;
    return of_100_kg_pt * std::sqrt(std::max(0.0, kg) / 100);
  }

  [[nodiscard]] const Weighed* find(ScaleKind kind, int bay = -1) const {
    for (std::size_t i = 0; i < its_.scales.size(); ++i) {
      const Scale& scale = weighing_.scales[its_.scales[i]];
      if (scale.kind == kind && scale.bay == bay) return &its_.trip[i];
    }
    return nullptr;
  }

  /// What lies in each bay, and what has a place of its own in none.
  [[nodiscard]] std::vector<Lying> lying() const {
    std::vector<Lying> out;
    for (std::size_t b = 0; b < vehicle_.bays.size(); ++b) {
      const plan::Bay& bay = vehicle_.bays[b];
      const Weighed* weighed = find(ScaleKind::bay, static_cast<int>(b));
      if (weighed == nullptr || weighed->most_kg <= 0) continue;
      const bool over = bay.limit_kg && weighed->most_kg > *bay.limit_kg + 1e-6;
      out.push_back({.name = (over ? "OVER: " : "") + name_words(bay.name),
                     .at_m = bay.at_m,
                     .height_m = bay.height_m.value_or(usual_load_m),
                     .kg = weighed->most_kg});
    }
    const auto carried =
        engine::carried_in(planned_.plan, planned_.course, static_cast<int>(index_));
    for (const engine::Carried& thing : carried) {
      if (thing.spot.bay || !thing.spot.at_m) continue;
      const bool store = thing.sort == engine::Carried::Sort::store;
      const double content_kg = store ? std::max(0.0, thing.kg_per_level) *
                                            planned_.course.stores[at(thing.index)].capacity
                                      : 0;
      if (thing.own_kg + content_kg <= 0) continue;
      out.push_back({.name = name_words(thing.name),
                     .at_m = *thing.spot.at_m,
                     .height_m = thing.spot.height_m.value_or(floor_m),
                     .kg = thing.own_kg + content_kg});
    }
    return out;
  }

  /// Below what lies on the roof.
  [[nodiscard]] double roof_height_m() const {
    constexpr double gap_m = 0.2;
    double height_m = roof_m;
    for (const plan::Bay& bay : vehicle_.bays) {
      if (bay.on_roof && bay.height_m) height_m = std::clamp(*bay.height_m - gap_m, 1.3, 3.0);
    }
    return height_m;
  }

  void draw_outline(Block& out) const {
    const double wheelbase_m = *vehicle_.chassis.wheelbase_m;
    const double top_m = roof_height_m();
    const std::vector<std::pair<double, double>> corners{
        {from_m_, floor_m},     {from_m_, bonnet_m - 0.1},
        {0.15, bonnet_m},       {0.45, bonnet_m + 0.05},
        {0.95, top_m},          {to_m_ - 0.1, top_m},
        {to_m_, floor_m + 0.3}, {to_m_, floor_m}};
    drawing::Shape shape{.points = {},
                         .closed = true,
                         .stroke = drawing::Stroke{.width_pt = 1.2},
                         .fill_grey = 0.96};
    for (const auto& [at_m, height_m] : corners) {
      shape.points.push_back({.x = x(at_m), .y = y(height_m)});
    }
    if (vehicle_.chassis.wheels > 2) out.marks.emplace_back(std::move(shape));
    for (const double axle_m : {0.0, wheelbase_m}) {
      const Point hub{.x = x(axle_m), .y = y(tyre_radius_m)};
      out.marks.emplace_back(circle(hub, tyre_radius_m * pt_m_, {.width_pt = 1.6}, 1));
      out.marks.emplace_back(circle(hub, 2, {.width_pt = 1}, 0));
    }
    if (!vehicle_.trailer) return;
    const double ball_m = wheelbase_m + vehicle_.trailer->coupling_m.value_or(0);
    out.marks.emplace_back(circle({.x = x(ball_m), .y = y(floor_m - 0.1)}, 3, {.width_pt = 1}, 0));
  }

  void draw_load(Block& out, const Lying& load) const {
    const double size = size_pt(load.kg);
    const drawing::Rect box{.x = x(load.at_m) - size / 2,
                            .y = y(load.height_m) - size / 2,
                            .width = size,
                            .height = size};
    out.marks.emplace_back(drawing::Shape{.points = drawing::corners(box),
                                          .closed = true,
                                          .stroke = drawing::Stroke{.width_pt = 0.8},
                                          .fill_grey = 0.75});
  }

  [[nodiscard]] std::string nearest(double kg) const {
    return units::format(kg, units::Kind::mass, system_, units::decimals(0));
  }

  [[nodiscard]] std::vector<std::string> lines_of(const char* name, ScaleKind kind) const {
    const Weighed* weighed = find(kind);
    if (weighed == nullptr) return {};
    double limit_kg = engine::without_limit;
    for (const std::size_t s : its_.scales) {
      if (weighing_.scales[s].kind == kind) limit_kg = weighing_.scales[s].limit_kg;
    }
    const bool limited = std::isfinite(limit_kg);
    const bool over = limited && weighed->most_kg > limit_kg + 1e-6;
    return {over ? fmt::format("{}: OVER", name) : name, "most " + nearest(weighed->most_kg),
            "least " + nearest(weighed->least_kg),
            limited ? "limit " + mass_words(limit_kg, system_, Toward::down) : "no limit given"};
  }

  /// Answers where the words end.
  double write_axles(Block& out) const {
    const double wheelbase_m = *vehicle_.chassis.wheelbase_m;
    double end_pt = ground_pt_;
    double taken_to_pt = 0;
    const auto write = [&](double at_m, const std::vector<std::string>& lines) {
      if (lines.empty()) return;
      double wide_pt = 0;
      for (const std::string& line : lines) {
        wide_pt = std::max(wide_pt, typesetter_.width(line, strong_font) + 2);
      }
      double left = std::clamp(x(at_m) - wide_pt / 2, 0.0, width_pt_ - wide_pt);
      left = std::max(left, taken_to_pt);
      taken_to_pt = left + wide_pt + side_pt;
      constexpr double arrow_pt = 12;
      out.marks.emplace_back(drawing::line({.x = x(at_m), .y = ground_pt_},
                                           {.x = x(at_m), .y = ground_pt_ + arrow_pt},
                                           {.width_pt = 1}));
      double top = ground_pt_ + arrow_pt;
      for (std::size_t i = 0; i < lines.size(); ++i) {
        const drawing::Text text =
            typesetter_.text(lines[i], i == 0 ? strong_font : body_font, {.x = left, .y = top},
                             wide_pt, drawing::Align::centre);
        top = text.box.bottom();
        out.marks.emplace_back(text);
      }
      end_pt = std::max(end_pt, top);
    };
    write(0, lines_of("front axle", ScaleKind::front));
    write(wheelbase_m, lines_of("rear axle", ScaleKind::rear));
    if (vehicle_.trailer) {
      write(wheelbase_m + vehicle_.trailer->coupling_m.value_or(0),
            lines_of("tow ball", ScaleKind::ball));
    }
    return end_pt;
  }

  const drawing::Typesetter& typesetter_;
  const answers::PlanRun& planned_;
  const answers::Weighing& weighing_;
  const VehicleWeighing& its_;
  const plan::Vehicle& vehicle_;
  std::size_t index_;
  double width_pt_;
  units::System system_;
  double from_m_ = 0;
  double to_m_ = 0;
  double pt_m_ = 1;
  double left_pt_ = 0;
  double ground_pt_ = 0;
};

}  // namespace

Block vehicle_side(const drawing::Typesetter& typesetter, const answers::PlanRun& planned,
                   const answers::Weighing& weighing, std::size_t vehicle, double width_pt,
                   units::System system) {
  if (!engine::empty_axles(planned.plan.vehicles[vehicle])) return {};
  return Side(typesetter, planned, weighing, vehicle, width_pt, system).block();
}

}  // namespace drystage::report
