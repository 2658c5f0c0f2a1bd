#pragma once

#include <span>

namespace drystage::models {

/// Thermal properties of a food, or of a mixture of foods, in the simplest form that still melts:
/// one specific heat when frozen, one when thawed, and the whole latent heat at one temperature.
///
/// Method: Earle, Unit Operations in Food Processing, appendix 7 (after ASHRAE). Real food melts
/// over a few degrees below its freezing point; here the latent heat is all taken at that point.
struct FoodThermal {
  double above_kj_kg_k = 0.0;  ///< Specific heat of the thawed food, kJ/(kg K).
  double below_kj_kg_k = 0.0;  ///< Specific heat of the frozen food, kJ/(kg K).
  double latent_kj_kg = 0.0;   ///< Heat taken up in melting, kJ/kg.
  double freezing_c = 0.0;     ///< Temperature of melting, degrees Celsius.
  bool operator==(const FoodThermal&) const = default;
};

/// Freezing point taken when none is given, degrees Celsius: fresh meat, fish, fruit and
/// vegetables lie between about -0.5 and -2.5 (Earle, appendix 7).
inline constexpr double usual_freezing_c = -1.0;

/// Properties of a food that is `water_fraction` water by mass (0 to 1; values outside are moved
/// to the nearer end), the rest being dry matter:
///   thawed 4.19 p + 0.84 (1 - p), frozen 2.1 p + 0.84 (1 - p) kJ/(kg K), latent 335 p kJ/kg.
/// Source: Earle, Unit Operations in Food Processing.
[[nodiscard]] FoodThermal food_thermal(double water_fraction, double freezing_c = usual_freezing_c);

/// Water ice: `food_thermal(1, 0)`.
[[nodiscard]] FoodThermal ice_thermal();

/// Specific enthalpy in kJ/kg at `temperature_c`, counted from the thawed food at 0 °C (negative
/// when frozen). At exactly the freezing point the food is taken to be still frozen. Any
/// temperature.
[[nodiscard]] double food_enthalpy_kj_kg(const FoodThermal& food, double temperature_c);

/// Enthalpy in kJ/kg of the food at its freezing point, all of it thawed.
[[nodiscard]] constexpr double thawed_end_kj_kg(const FoodThermal& food) {
  return food.above_kj_kg_k * food.freezing_c;
}

/// Enthalpy in kJ/kg of the food at its freezing point, all of it frozen.
[[nodiscard]] constexpr double frozen_end_kj_kg(const FoodThermal& food) {
  return thawed_end_kj_kg(food) - food.latent_kj_kg;
}

/// Temperature in degrees Celsius at `enthalpy_kj_kg` (counted as in food_enthalpy_kj_kg); the
/// freezing point while it melts. A food of no specific heat stays at its freezing point.
[[nodiscard]] double food_temperature_c(const FoodThermal& food, double enthalpy_kj_kg);

/// Share of the food that is thawed, 0 to 1, at `enthalpy_kj_kg`.
[[nodiscard]] double thawed_fraction(const FoodThermal& food, double enthalpy_kj_kg);

/// One food of a mixture and how much of it there is.
struct FoodPortion {
  FoodThermal food;
  double mass_kg = 0.0;
};

/// The mixture as one food: specific and latent heats weighted by mass, the freezing point by the
/// latent heat each brings (so that dry matter does not move it). Portions of no mass, or less,
/// count nothing; an empty mixture has all properties zero.
[[nodiscard]] FoodThermal mix_foods(std::span<const FoodPortion> portions);

}  // namespace drystage::models
