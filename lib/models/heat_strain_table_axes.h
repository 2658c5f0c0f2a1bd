#pragma once

#include <array>
#include <cstddef>

#include "models/metabolism.h"

namespace drystage::models::heat_strain_table {

// Where the table has its nodes. Vapour is closest where sweat can just not evaporate; air speed
// where the air layer on the skin thins fastest, and far enough for a gale.
inline constexpr std::array<double, 10> air_c{10, 15, 20, 25, 30, 35, 40, 45, 50, 55};
inline constexpr std::array<double, 12> vapour_kpa{0, 1, 2, 2.5, 3, 3.5, 4, 4.5, 4.75, 5, 5.3, 5.6};
inline constexpr std::array<double, 7> excess_k{0, 10, 20, 30, 40, 50, 60};
inline constexpr std::array<double, 14> air_m_s{0.1, 0.2, 0.3, 0.5, 0.75, 1,  1.5,
                                                2,   3,   4,   5,   8,    13, 20};

inline constexpr std::size_t node_count =
    work_class_count * air_c.size() * vapour_kpa.size() * excess_k.size() * air_m_s.size();

// What stands at a node: evaporation required and evaporation possible, W/m², both signed.
struct Node {
  float required;
  float possible;
};

}  // namespace drystage::models::heat_strain_table
