#include "models/axle_load.h"

#include <array>
#include <cmath>
#include <numbers>

namespace drystage::models {
namespace {

constexpr std::array load_index_table{
    140,  145,  150,  155,  160,  165,  170,  175,  180,  185,   // 40
    190,  195,  200,  206,  212,  218,  224,  230,  236,  243,   // 50
    250,  257,  265,  272,  280,  290,  300,  307,  315,  325,   // 60
    335,  345,  355,  365,  375,  387,  400,  412,  425,  437,   // 70
    450,  462,  475,  487,  500,  515,  530,  545,  560,  580,   // 80
    600,  615,  630,  650,  670,  690,  710,  730,  750,  775,   // 90
    800,  825,  850,  875,  900,  925,  950,  975,  1000, 1030,  // 100
    1060, 1090, 1120, 1150, 1180, 1215, 1250, 1285, 1320, 1360,  // 110
    1400, 1450, 1500, 1550, 1600, 1650, 1700, 1750, 1800, 1850,  // 120
    1900, 1950, 2000, 2060, 2120, 2180, 2240, 2300, 2360, 2430,  // 130
    2500, 2575, 2650, 2725, 2800, 2900, 3000, 3075, 3150, 3250,  // 140
    3350};
static_assert(load_index_table.size() == most_load_index - least_load_index + 1);

}  // namespace

AxleShares axle_shares(double at_m, double wheelbase_m) {
  const double rear = at_m / wheelbase_m;
  return {.front = 1 - rear, .rear = rear};
}

double right_share(double right_m, double track_m) { return 0.5 + right_m / track_m; }

double static_roll_angle_deg(double track_m, double aside_m, double height_m) {
  const double arm_m = track_m / 2 - std::abs(aside_m);
  return std::atan2(arm_m, height_m) * 180 / std::numbers::pi;
}

std::optional<double> load_index_kg(int index) {
  if (index < least_load_index || index > most_load_index) return std::nullopt;
  return load_index_table.at(static_cast<std::size_t>(index - least_load_index));
}

}  // namespace drystage::models
