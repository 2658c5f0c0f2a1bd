#include "engine/drawn.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

#include "models/radiation.h"
#include "plan/values.h"
#include "units/day.h"
#include "units/index.h"

namespace drystage::engine {
namespace {

// The dullest day that is told from night.
constexpr double least_sun_share = 0.02;

double share_below(double deviations) { return 0.5 * std::erfc(-deviations / std::numbers::sqrt2); }

}  // namespace

Skies::Skies(const plan::Plan& plan, const Calendar& calendar) {
  for (const PlaceDay& place : calendar.place_days) {
    spreads_.push_back(spread_of(plan, place, calendar.days[at(place.day)].schedule.date));
  }
}

Skies::Spread Skies::spread_of(const plan::Plan& plan, const PlaceDay& place, plan::Date date) {
  const auto month = static_cast<std::size_t>(date.month().as_number() - 1);
  const auto& normals = plan.climates[at(place.climate)].months.at(month).value();
  static const double usual_k = plan::default_number("climate.spread").value();
  Spread out{.day = place.day, .heat_k = normals.spread_c.value_or(usual_k)};
  bool knows_sun = false;
  for (const plan::NamedDays& days : plan.weather) {
    if (date < days.from || date > days.to) continue;
    out.knows_air = out.knows_air || days.max_c || days.min_c;
    knows_sun = knows_sun || days.sun_kwh_m2;
  }
  constexpr double mj_per_kwh = 3.6;
  const double outside_kwh_m2 =
      models::extraterrestrial_mj_m2(place.at.latitude_deg, date.day_of_year()) / mj_per_kwh;
  if (knows_sun || normals.sun_kwh_m2 <= 0 || outside_kwh_m2 <= 0) return out;
  const double mean = normals.sun_kwh_m2 / outside_kwh_m2;
  out.clearness.emplace(mean);
  if (plan.uncertainty.sun.day) {
    out.wider = *plan.uncertainty.sun.day / models::clearness_variation(mean);
  }
  return out;
}

void Skies::draw(const Drawn& drawn, std::vector<DrawnSky>& out) const {
  out.resize(spreads_.size());
  for (std::size_t p = 0; p < spreads_.size(); ++p) {
    const Spread& spread = spreads_[p];
    out[p] = {};
    if (!spread.knows_air) {
      out[p].warmer_k = drawn.season_k + of_day(drawn.heat, spread.day, 0) * spread.heat_k;
    }
    const auto day = static_cast<std::size_t>(spread.day);
    if (!spread.clearness || day >= drawn.sun.size()) continue;
    out[p].sun_share = spread.sun_share(share_below(drawn.sun[day]));
  }
}

double Skies::Spread::sun_share(double share_of_days) const {
  return std::max(least_sun_share, 1 + wider * (clearness->over_mean(share_of_days) - 1));
}

double Skies::clearest() const {
  double out = 1;
  for (const Spread& spread : spreads_) {
    if (spread.clearness) out = std::max(out, spread.sun_share(1));
  }
  return out;
}

void draw_into(DayFigures& figures, const DrawnSky& sky) {
  figures.max_warmer_k += sky.warmer_k;
  figures.min_warmer_k += sky.warmer_k;
  if (!sky.sun_share) return;
  figures.weather.sun_kwh_m2 *= *sky.sun_share;
  figures.sun = models::RadiationFigure::one_day;
}

plan::Activity at_work(const plan::Activity& activity, double times) {
  plan::Activity out = activity;
  const double all_h = std::accumulate(out.hours.begin(), out.hours.end(), 0.0);
  const double held = all_h > 0 ? std::min(times, day_h / all_h) : times;
  for (double& hours : out.hours) hours *= held;
  return out;
}

}  // namespace drystage::engine
