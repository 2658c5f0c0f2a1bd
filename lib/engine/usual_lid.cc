#include "engine/usual_lid.h"

#include <algorithm>

#include "models/lid.h"
#include "plan/values.h"

namespace drystage::engine {

double warm_l_day(const plan::Plan& plan, const plan::Cabinet& cabinet) {
  if (cabinet.lid && cabinet.lid->warm_l_day) return *cabinet.lid->warm_l_day;
  if (plan::is_freezer(cabinet)) return 0;
  double all_l = 0;
  for (const plan::Cabinet& other : plan.cold) {
    if (!plan::is_freezer(other)) all_l += other.volume_l;
  }
  const double party_l = usual_warm_l_person_day * static_cast<double>(plan.people.size());
  const double share_l = all_l > 0 ? party_l * cabinet.volume_l / all_l : 0;
  return std::min(share_l, most_warm_share_day * cabinet.volume_l);
}

double lid_w_per_k(const plan::Plan& plan, const plan::Cabinet& cabinet, double ambient_c,
                   double vapour_kpa) {
  static const double usual_day = plan::default_number("cold.lid.openings").value();
  const double openings =
      cabinet.lid && cabinet.lid->openings_day ? *cabinet.lid->openings_day : usual_day;
  const double inside_c = cabinet.ice_box ? cabinet.starts_at_c : cabinet.set_point_c;
  return models::warm_goods_w_per_k(warm_l_day(plan, cabinet), lid_hours) +
         models::exchanged_air_w_per_k(cabinet.volume_l, openings, lid_hours, ambient_c, vapour_kpa,
                                       inside_c);
}

double lid_share(double from_h, double to_h) {
  if (to_h <= from_h) return 0;
  const double open_h = std::min(to_h, lid_to_h) - std::max(from_h, lid_from_h);
  return std::max(0.0, open_h) / (to_h - from_h);
}

}  // namespace drystage::engine
