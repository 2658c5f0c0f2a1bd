#include "engine/spell.h"

#include <algorithm>

#include "models/clearness.h"
#include "models/radiation.h"
#include "plan/values.h"

namespace drystage::engine {

double spell_hotter_k(const plan::Weather& normals) {
  static const double usual_k = plan::default_number("climate.spread").value();
  return spell_spreads * normals.spread_c.value_or(usual_k);
}

double spell_sun_share(plan::Spell spell, double mean_kwh_m2, double latitude_deg,
                       int day_of_year) {
  constexpr double mj_per_kwh = 3.6;
  const double outside_kwh_m2 =
      models::extraterrestrial_mj_m2(latitude_deg, day_of_year) / mj_per_kwh;
  if (spell == plan::Spell::usual || mean_kwh_m2 <= 0 || outside_kwh_m2 <= 0) return 1;
  const double mean = mean_kwh_m2 / outside_kwh_m2;
  if (spell == plan::Spell::hot) return std::max(1.0, models::clear_days_clearness(mean) / mean);
  return std::clamp(1 - spell_sun_deviations * models::clearness_variation(mean), 0.0, 1.0);
}

}  // namespace drystage::engine
