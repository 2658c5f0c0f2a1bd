#include "models/food_properties.h"

#include <algorithm>

namespace drystage::models {

namespace {

constexpr double water_above_kj_kg_k = 4.19;
constexpr double water_below_kj_kg_k = 2.1;
constexpr double dry_kj_kg_k = 0.84;
constexpr double water_latent_kj_kg = 335.0;

}  // namespace

FoodThermal food_thermal(double water_fraction, double freezing_c) {
  const double p = std::clamp(water_fraction, 0.0, 1.0);
  const double dry = dry_kj_kg_k * (1.0 - p);
  return {.above_kj_kg_k = water_above_kj_kg_k * p + dry,
          .below_kj_kg_k = water_below_kj_kg_k * p + dry,
          .latent_kj_kg = water_latent_kj_kg * p,
          .freezing_c = freezing_c};
}

FoodThermal ice_thermal() { return food_thermal(1.0, 0.0); }

double food_enthalpy_kj_kg(const FoodThermal& food, double temperature_c) {
  if (temperature_c > food.freezing_c) {
    return food.above_kj_kg_k * temperature_c;
  }
  return frozen_end_kj_kg(food) + food.below_kj_kg_k * (temperature_c - food.freezing_c);
}

double food_temperature_c(const FoodThermal& food, double enthalpy_kj_kg) {
  const double thawed_end = thawed_end_kj_kg(food);
  if (enthalpy_kj_kg > thawed_end && food.above_kj_kg_k > 0.0) {
    return enthalpy_kj_kg / food.above_kj_kg_k;
  }
  const double frozen_end = thawed_end - food.latent_kj_kg;
  if (enthalpy_kj_kg < frozen_end && food.below_kj_kg_k > 0.0) {
    return food.freezing_c + (enthalpy_kj_kg - frozen_end) / food.below_kj_kg_k;
  }
  return food.freezing_c;
}

double thawed_fraction(const FoodThermal& food, double enthalpy_kj_kg) {
  const double thawed_end = thawed_end_kj_kg(food);
  if (enthalpy_kj_kg >= thawed_end) {
    return 1.0;
  }
  const double frozen_end = thawed_end - food.latent_kj_kg;
  if (enthalpy_kj_kg <= frozen_end) {
    return 0.0;
  }
  return (enthalpy_kj_kg - frozen_end) / food.latent_kj_kg;
}

FoodThermal mix_foods(std::span<const FoodPortion> portions) {
  FoodThermal sum;
  double mass_kg = 0.0;
  double freezing_by_latent = 0.0;
  double freezing_by_mass = 0.0;
  for (const FoodPortion& portion : portions) {
    if (!(portion.mass_kg > 0.0)) {
      continue;
    }
    const double m = portion.mass_kg;
    mass_kg += m;
    sum.above_kj_kg_k += m * portion.food.above_kj_kg_k;
    sum.below_kj_kg_k += m * portion.food.below_kj_kg_k;
    sum.latent_kj_kg += m * portion.food.latent_kj_kg;
    freezing_by_latent += m * portion.food.latent_kj_kg * portion.food.freezing_c;
    freezing_by_mass += m * portion.food.freezing_c;
  }
  if (mass_kg <= 0.0) {
    return {};
  }
  // Nothing in the mixture melts when the latent heat is zero: any freezing point will do.
  sum.freezing_c =
      sum.latent_kj_kg > 0.0 ? freezing_by_latent / sum.latent_kj_kg : freezing_by_mass / mass_kg;
  sum.above_kj_kg_k /= mass_kg;
  sum.below_kj_kg_k /= mass_kg;
  sum.latent_kj_kg /= mass_kg;
  return sum;
}

}  // namespace drystage::models
