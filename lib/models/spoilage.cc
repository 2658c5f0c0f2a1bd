#include "models/spoilage.h"

#include <algorithm>
#include <limits>

namespace drystage::models {

namespace {

constexpr double never_h = std::numeric_limits<double>::infinity();
constexpr double coldest_reference_c = -9.0;
constexpr double hours_per_day = 24.0;

double hours_until(double limit_h, double hours, double temperature_c) {
  if (hours >= limit_h) {
    return 0.0;
  }
  return food_clock_runs(temperature_c) ? (limit_h - hours) / food_clock_rate(temperature_c)
                                        : never_h;
}

}  // namespace

double relative_spoilage_rate(double temperature_c) {
  const double root = 1.0 + 0.1 * temperature_c;
  return root > 0.0 ? root * root : 0.0;
}

double shelf_life_used_per_h(double temperature_c, double life_days, double life_at_c) {
  const double rate = relative_spoilage_rate(temperature_c);
  if (rate <= 0.0) {
    return 0.0;
  }
  if (life_days <= 0.0) {
    return never_h;
  }
  const double stated = relative_spoilage_rate(std::max(life_at_c, coldest_reference_c));
  return rate / (stated * life_days * hours_per_day);
}

double hours_until_spent(double used, double temperature_c, double life_days, double life_at_c) {
  if (used >= 1.0) {
    return 0.0;
  }
  const double per_h = shelf_life_used_per_h(temperature_c, life_days, life_at_c);
  return per_h > 0.0 ? (1.0 - used) / per_h : never_h;
}

double shelf_life_days(double temperature_c, double life_days, double life_at_c) {
  return hours_until_spent(0.0, temperature_c, life_days, life_at_c) / hours_per_day;
}

bool food_clock_runs(double temperature_c) {
  return temperature_c > danger_from_c && temperature_c < danger_to_c;
}

double share_above(double limit_c, double from_c, double to_c) {
  const double low = std::min(from_c, to_c);
  const double high = std::max(from_c, to_c);
  if (high <= limit_c) {
    return 0.0;
  }
  return low >= limit_c ? 1.0 : (high - limit_c) / (high - low);
}

double food_clock_rate(double temperature_c) {
  if (!food_clock_runs(temperature_c)) {
    return 0.0;
  }
  return temperature_c > great_heat_c ? great_heat_rate : 1.0;
}

double mean_food_clock_rate(double from_c, double to_c) {
  return share_above(danger_from_c, from_c, to_c) +
         (great_heat_rate - 1.0) * share_above(great_heat_c, from_c, to_c);
}

FoodClock food_clock(double hours) {
  if (hours < use_now_after_h) {
    return FoodClock::fine;
  }
  return hours <= throw_away_after_h ? FoodClock::use_now : FoodClock::throw_away;
}

double hours_until_use_now(double hours, double temperature_c) {
  return hours_until(use_now_after_h, hours, temperature_c);
}

double hours_until_throw_away(double hours, double temperature_c) {
  return hours_until(throw_away_after_h, hours, temperature_c);
}

}  // namespace drystage::models
