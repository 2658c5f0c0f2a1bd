#include "answers/base/dip_table.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>
#include <utility>

#include "engine/dipstick.h"

namespace drystage::answers {
namespace {

using plan::Gauge;
using plan::Item;

constexpr double cm_per_m = 100;
constexpr double cm_per_inch = 2.54;
constexpr std::size_t most_rows = 25;

constexpr std::array<double, 7> steps_cm{1, 2, 5, 10, 20, 50, 100};
constexpr std::array<double, 7> steps_inch{0.5, 1, 2, 5, 10, 20, 50};

/// As printed there is nothing of what is only the rounding of a double: 0.31 m is 31 cm.
double tidy_cm(double depth_m) {
  constexpr double per_cm = 1e6;
  return std::round(depth_m * cm_per_m * per_cm) / per_cm;
}

std::vector<double> round_rows(double step_cm, double top_cm, const std::vector<DipRow>& fixed) {
  constexpr double nearest = 0.1;
  std::vector<double> made;
  for (int n = 1; n * step_cm < top_cm; ++n) {
    const double depth_cm = n * step_cm;
    const bool stands = std::ranges::any_of(fixed, [&](const DipRow& row) {
      return std::abs(row.depth_cm - depth_cm) < nearest * step_cm;
    });
    if (!stands) made.push_back(depth_cm);
  }
  return made;
}

/// The rows that stand in any case: own marks, or the full height.
std::vector<DipRow> fixed_rows(const Gauge& gauge, double holds_l) {
  if (engine::has_shape(gauge)) {
    return {{.depth_cm = tidy_cm(plan::height_m(gauge.shape)), .volume_l = holds_l}};
  }
  std::vector<DipRow> made;
  for (const plan::DipMark& mark : gauge.marks) {
    if (mark.depth_m <= 0) continue;
    made.push_back(
        {.depth_cm = tidy_cm(mark.depth_m), .volume_l = mark.volume_l, .own_mark = true});
  }
  return made;
}

std::vector<DipRow> rows_of(const Gauge& gauge, double holds_l, StickMarks stick) {
  const bool inches = stick == StickMarks::inches;
  const double unit_cm = inches ? cm_per_inch : 1;
  std::vector<DipRow> made = fixed_rows(gauge, holds_l);
  if (made.empty()) return made;
  const double top_cm = made.back().depth_cm;
  for (const double step : inches ? std::span(steps_inch) : std::span(steps_cm)) {
    const std::vector<double> more = round_rows(step * unit_cm, top_cm, made);
    if (made.size() + more.size() > most_rows) continue;
    for (const double depth_cm : more) {
      made.push_back({.depth_cm = depth_cm,
                      .volume_l = engine::dipped_l(gauge, holds_l, depth_cm / cm_per_m)});
    }
    break;
  }
  std::ranges::sort(made, {}, &DipRow::depth_cm);
  return made;
}

template <class Vessel>
DipTable table_of(const Vessel& vessel, double unusable_l, StickMarks stick) {
  const Gauge& gauge = vessel.gauge;
  DipTable made{.name = vessel.name,
                .holds_l = vessel.holds_l,
                .measured = !engine::has_shape(gauge),
                .unusable_l = unusable_l,
                .rows = rows_of(gauge, vessel.holds_l, stick)};
  if (!gauge.marks.empty() && gauge.marks.front().depth_m <= 0) {
    made.below_stick_l = gauge.marks.front().volume_l;
  }
  if (unusable_l > 0) {
    if (const auto depth_m = engine::dipped_depth_m(gauge, vessel.holds_l, unusable_l)) {
      made.unusable_depth_cm = *depth_m * cm_per_m;
    }
  }
  for (DipRow& row : made.rows) row.usable_l = std::max(0.0, row.volume_l - unusable_l);
  constexpr double nearly = 1e-9;
  made.ends_full = !made.rows.empty() && made.rows.back().volume_l >= vessel.holds_l * (1 - nearly);
  return made;
}

std::string vehicle_name(const plan::Plan& plan, int index) {
  const auto at = static_cast<std::size_t>(index);
  return at < plan.vehicles.size() ? plan.vehicles[at].name : std::string();
}

}  // namespace

std::vector<DipTable> dip_tables(const plan::Plan& plan, StickMarks stick) {
  std::vector<DipTable> made;
  const auto add = [&](DipTable table, Item::Sort sort, std::size_t index, int tank_of, int vehicle,
                       const char* contents) {
    const std::string carried_by = vehicle_name(plan, vehicle);
    const std::string under = tank_of < 0 ? "water" : carried_by;
    table.vessel = {.sort = sort,
                    .index = static_cast<int>(index),
                    .of = tank_of,
                    .name = table.name,
                    .full_name = under + "/" + table.name};
    table.vehicle = carried_by;
    table.contents = contents;
    made.push_back(std::move(table));
  };
  for (std::size_t c = 0; c < plan.water.containers.size(); ++c) {
    const plan::Container& container = plan.water.containers[c];
    if (!container.gauge.is_given()) continue;
    add(table_of(container, 0, stick), Item::Sort::container, c, -1, container.vehicle,
        container.use == plan::WaterUse::drinking ? "drinking water" : "utility water");
  }
  for (std::size_t v = 0; v < plan.vehicles.size(); ++v) {
    const plan::Vehicle& vehicle = plan.vehicles[v];
    for (std::size_t t = 0; t < vehicle.tanks.size(); ++t) {
      const plan::Tank& tank = vehicle.tanks[t];
      if (!tank.gauge.is_given()) continue;
      add(table_of(tank, tank.unusable_l, stick), Item::Sort::tank, t, static_cast<int>(v),
          static_cast<int>(v), vehicle.fuel == plan::FuelKind::diesel ? "diesel" : "petrol");
    }
  }
  return made;
}

}  // namespace drystage::answers
