#include "models/heat_strain_table.h"

#include <algorithm>
#include <array>
#include <cstddef>

#include "models/heat_strain.h"
#include "models/heat_strain_table_axes.h"
#include "models/water_need.h"

namespace drystage::models {
namespace {

using heat_strain_table::Node;

constexpr std::array<Node, heat_strain_table::node_count> nodes{{
#include "heat_strain_table_data.inc"
}};

constexpr double standard_surface_m2 = 1.9378714863;  // 75 kg, 1.80 m

using Place = PlaceOnAxis;

template <std::size_t n>
Place place_on(const std::array<double, n>& axis, double value) {
  const double held = std::clamp(value, axis.front(), axis.back());
  // Counting, not searching: weather jumps about, and a wrong guess costs more than a comparison.
  std::size_t left = 0;
  for (std::size_t i = 1; i + 1 < n; ++i) {
    left += held >= axis[i] ? 1U : 0U;
  }
  return {left, (held - axis[left]) / (axis[left + 1] - axis[left])};
}

HeatBalance balance_of(const Node& node) {
  return {static_cast<double>(node.required), static_cast<double>(node.possible)};
}

HeatBalance mix(const HeatBalance& a, const HeatBalance& b, double part) {
  return {a.required_w_m2 + part * (b.required_w_m2 - a.required_w_m2),
          a.possible_w_m2 + part * (b.possible_w_m2 - a.possible_w_m2)};
}

HeatBalance balance_at(WorkClass work, const Place& air, const Place& vapour, const Place& excess,
                       const Place& speed) {
  namespace table = heat_strain_table;
  const auto along_speed = [&](std::size_t a, std::size_t v, std::size_t e) {
    const std::size_t row = static_cast<std::size_t>(work) * table::air_c.size() + a;
    const std::size_t index = ((row * table::vapour_kpa.size() + v) * table::excess_k.size() + e) *
                                  table::air_m_s.size() +
                              speed.left;
    return mix(balance_of(nodes[index]), balance_of(nodes[index + 1]), speed.part);
  };
  const auto along_excess = [&](std::size_t a, std::size_t v) {
    return mix(along_speed(a, v, excess.left), along_speed(a, v, excess.left + 1), excess.part);
  };
  const auto along_vapour = [&](std::size_t a) {
    return mix(along_excess(a, vapour.left), along_excess(a, vapour.left + 1), vapour.part);
  };
  return mix(along_vapour(air.left), along_vapour(air.left + 1), air.part);
}

double ceiling_of(WorkClass work, bool acclimatised) {
  return sweat_ceiling_w_m2(metabolic_w_m2(work), standard_surface_m2, acclimatised);
}

double sweat_of(const HeatBalance& balance, double ceiling_w_m2) {
  return answering_sweat_w_m2(balance.required_w_m2, balance.possible_w_m2, ceiling_w_m2) *
         grams_per_watt_hour;
}

}  // namespace

double sweat_g_per_h_m2(WorkClass work, double air_c, double vapour_pressure_kpa,
                        double radiant_excess_k, double air_speed_m_s, bool acclimatised) {
  const HeatBalance balance =
      balance_at(work, place_on(heat_strain_table::air_c, air_c),
                 place_on(heat_strain_table::vapour_kpa, vapour_pressure_kpa),
                 place_on(heat_strain_table::excess_k, radiant_excess_k),
                 place_on(heat_strain_table::air_m_s, air_speed_m_s));
  return sweat_of(balance, ceiling_of(work, acclimatised));
}

SweatInAir::SweatInAir(double vapour_pressure_kpa, double air_speed_m_s) {
  namespace table = heat_strain_table;
  const Place vapour = place_on(table::vapour_kpa, vapour_pressure_kpa);
  const Place speed = place_on(table::air_m_s, air_speed_m_s);
  for (std::size_t work = 0; work < nodes_.size(); ++work) {
    ceiling_w_m2_[work] = ceiling_of(static_cast<WorkClass>(work), true);
    for (std::size_t a = 0; a < table::air_c.size(); ++a) {
      for (std::size_t e = 0; e < table::excess_k.size(); ++e) {
        nodes_[work][a][e] =
            balance_at(static_cast<WorkClass>(work), place_on(table::air_c, table::air_c[a]),
                       vapour, place_on(table::excess_k, table::excess_k[e]), speed);
      }
    }
  }
}

namespace {

/// The same on an axis whose nodes are as far apart.
template <std::size_t n>
PlaceOnAxis place_on_even(const std::array<double, n>& axis, double value) {
  const double apart = axis[1] - axis[0];
  const double along = (std::clamp(value, axis.front(), axis.back()) - axis.front()) / apart;
  const std::size_t left = std::min(static_cast<std::size_t>(along), n - 2);
  return {.left = left, .part = along - static_cast<double>(left)};
}

template <std::size_t n>
constexpr bool is_even(const std::array<double, n>& axis) {
  for (std::size_t i = 2; i < n; ++i) {
    if (axis[i] - axis[i - 1] != axis[1] - axis[0]) return false;
  }
  return true;
}
static_assert(is_even(heat_strain_table::air_c) && is_even(heat_strain_table::excess_k));

}  // namespace

PlaceOnAxis place_of_air(double air_c) { return place_on_even(heat_strain_table::air_c, air_c); }

PlaceOnAxis place_of_excess(double radiant_excess_k) {
  return place_on_even(heat_strain_table::excess_k, radiant_excess_k);
}

double SweatInAir::g_per_h_m2(WorkClass work, const PlaceOnAxis& air,
                              const PlaceOnAxis& excess) const {
  const auto index = static_cast<std::size_t>(work);
  const ByAir& its = nodes_[index];
  const auto along_excess = [&](const ByExcess& row) {
    return mix(row[excess.left], row[excess.left + 1], excess.part);
  };
  return sweat_of(mix(along_excess(its[air.left]), along_excess(its[air.left + 1]), air.part),
                  ceiling_w_m2_[index]);
}

double water_loss_g_per_h_m2(WorkClass work, double air_c, double vapour_pressure_kpa,
                             double radiant_excess_k, double air_speed_m_s, bool acclimatised) {
  return sweat_g_per_h_m2(work, air_c, vapour_pressure_kpa, radiant_excess_k, air_speed_m_s,
                          acclimatised) +
         extra_breath_g_per_h_m2(metabolic_w_m2(work), air_c, vapour_pressure_kpa);
}

bool heat_strain_validated(WorkClass work, double air_c, double vapour_pressure_kpa,
                           double radiant_excess_k, double air_speed_m_s) {
  return work != WorkClass::very_high && air_c >= 15.0 && air_c <= 50.0 &&
         vapour_pressure_kpa >= 0.0 && vapour_pressure_kpa <= 4.5 && radiant_excess_k >= 0.0 &&
         radiant_excess_k <= 60.0 && air_speed_m_s >= 0.0 && air_speed_m_s <= 3.0;
}

}  // namespace drystage::models
