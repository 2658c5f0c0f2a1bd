#include "models/water_need.h"

#include <algorithm>
#include <array>

#include "models/heat_strain.h"

namespace drystage::models {
namespace {

struct Intake {
  double below_years;
  double female_l;
  double male_l;
};

constexpr std::array<Intake, 6> child_intakes{{{0.5, 0.7, 0.7},
                                               {1.0, 1.0, 1.0},
                                               {2.0, 1.2, 1.2},
                                               {4.0, 1.3, 1.3},
                                               {9.0, 1.6, 1.6},
                                               {14.0, 1.9, 2.1}}};
constexpr double adult_years = 14.0;
constexpr double woman_l = 2.0;
constexpr double man_l = 2.5;

constexpr double temperate_air_c = 20.0;
constexpr double temperate_vapour_kpa = 1.2;

}  // namespace

double temperate_water_l_per_day(double age_years, Sex sex) {
  for (const Intake& intake : child_intakes) {
    if (age_years < intake.below_years) {
      return sex == Sex::male ? intake.male_l : intake.female_l;
    }
  }
  return sex == Sex::male ? man_l : woman_l;
}

double planning_water_l_per_day(double age_years, Sex sex) {
  const double need = temperate_water_l_per_day(age_years, sex);
  return age_years < adult_years ? need : std::max(need, survival_water_l_per_day);
}

double base_drinking_l_per_h(double age_years, Sex sex, double food_share) {
  const double drunk_share = 1.0 - std::clamp(food_share, 0.0, 1.0);
  return planning_water_l_per_day(age_years, sex) * drunk_share / 24.0;
}

double extra_breath_g_per_h_m2(double metabolic_w_m2, double air_c, double vapour_pressure_kpa,
                               double breathing) {
  const double resting_w_m2 = class_metabolic_w_m2.front();
  const double counted =
      breath_evaporation_w_m2(resting_w_m2, temperate_air_c, temperate_vapour_kpa);
  const double now = breath_evaporation_w_m2(metabolic_w_m2, air_c, vapour_pressure_kpa);
  return std::max(0.0, breathing * now - counted) * grams_per_watt_hour;
}

double comfort_sweat_g_per_h_m2(double metabolic_w_m2) {
  constexpr double share = 0.42;
  const double counted_w_m2 = class_metabolic_w_m2.at(1);
  return std::max(0.0, share * (metabolic_w_m2 - counted_w_m2)) * grams_per_watt_hour;
}

double drinking_l_per_h(double base_l_per_h, double loss_g_per_h) {
  return base_l_per_h + std::max(0.0, loss_g_per_h) / 1000.0;
}

}  // namespace drystage::models
