#pragma once

#include <array>

#include "models/heat_strain_table_axes.h"
#include "models/metabolism.h"

namespace drystage::models {

/// Sweat a person keeps up, grams per hour and m² of body surface: a table of the predicted heat
/// strain of ISO 7933 (`heat_strain.h`), quick enough to be asked for every hour and person.
///
/// In: work class, air °C, vapour pressure kPa, mean radiant temperature less air K, air speed m/s.
/// The person is the standard one (75 kg, 1.80 m, standing, 0.5 clo). Times one's own body surface.
///
/// How: the table holds the two smooth quantities from which the standard finds sweat (evaporation
/// required and evaporation possible), 45 minutes into the exposure, when the body's lags have
/// settled and its core has not yet run away. They are interpolated linearly on four axes, and the
/// standard's own rule makes sweat of them. So the ceiling of sweat and the onset of sweating keep
/// their sharp corners, and nothing is smoothed away.
///
/// Against the mean of the standard's eight-hour exposure, for a whole person of 1.94 m² (shown by
/// the tests): about 2 % above, because the half hour in which sweating starts is left out; never
/// below by more than 20 g/h or 5 %, whichever is more; where the body holds its heat, within 20
/// g/h or 5 % in 995 climates of 1000 and at worst 100 g/h above. In moist heat that it cannot hold
/// (the core keeps rising) the eight-hour mean falls off, as hotter skin dries faster, while the
/// table stays at the rate of the first hour: up to two fifths above the mean. No rate is ever held
/// down, even in exposures that nobody could bear for eight hours.
///
/// In wind of 4 to 20 m/s, against the same reference (which holds two of its regressions there,
/// see `heat_strain.h`): never below by more than 45 g/h where the body holds its heat.
///
/// Not acclimatised: the ceiling is lower by a fifth; below the ceiling the rate is the same.
///
/// Outside the table (air 10 to 55 °C, vapour 0 to 5.6 kPa, excess 0 to 60 K, air 0.1 to 20 m/s)
/// the nearest edge is taken; see `heat_strain_validated` for where the standard itself ends.
[[nodiscard]] double sweat_g_per_h_m2(WorkClass work, double air_c, double vapour_pressure_kpa,
                                      double radiant_excess_k, double air_speed_m_s,
                                      bool acclimatised = true);

/// Evaporation that would hold a body's balance, and the most that can evaporate, both signed.
struct HeatBalance {
  double required_w_m2;
  double possible_w_m2;
};

/// A place on an axis of the table: the node to its left, and the part of the way to the next.
struct PlaceOnAxis {
  std::size_t left = 0;
  double part = 0;
};
[[nodiscard]] PlaceOnAxis place_of_air(double air_c);
[[nodiscard]] PlaceOnAxis place_of_excess(double radiant_excess_k);

/// The same of air of one vapour pressure and speed, of somebody used to heat: made once, it
/// answers several times as fast.
class SweatInAir {
 public:
  SweatInAir(double vapour_pressure_kpa, double air_speed_m_s);

  [[nodiscard]] double g_per_h_m2(WorkClass work, const PlaceOnAxis& air,
                                  const PlaceOnAxis& excess) const;

 private:
  using ByExcess = std::array<HeatBalance, heat_strain_table::excess_k.size()>;
  using ByAir = std::array<ByExcess, heat_strain_table::air_c.size()>;
  std::array<ByAir, work_class_count> nodes_;
  std::array<double, work_class_count> ceiling_w_m2_;
};

/// The same and the breath beyond the temperate day's (`extra_breath_g_per_h_m2`): all that the
/// hour takes over the base of `base_drinking_l_per_h`. This is the figure to plan water with.
[[nodiscard]] double water_loss_g_per_h_m2(WorkClass work, double air_c, double vapour_pressure_kpa,
                                           double radiant_excess_k, double air_speed_m_s,
                                           bool acclimatised = true);

/// True where ISO 7933 was validated: air 15 to 50 °C, vapour 0 to 4.5 kPa, radiant excess 0 to
/// 60 K, air up to 3 m/s, class not above `high` (450 W). Cooler than 15 °C is harmless (little
/// sweat); the others mean that the figure is an extrapolation and the user should be told.
[[nodiscard]] bool heat_strain_validated(WorkClass work, double air_c, double vapour_pressure_kpa,
                                         double radiant_excess_k, double air_speed_m_s);

}  // namespace drystage::models
