#pragma once

#include <array>
#include <span>
#include <vector>

#include "engine/schedule.h"
#include "engine/weather_day.h"
#include "plan/diagnostic.h"
#include "plan/plan.h"

namespace drystage::engine {

/// Litres per clock hour 0..23 that the whole party must drink on a day on which people lose so
/// much water in each hour (`water_loss_g_m2`), at an elevation in m. `factors` says for each
/// person how many times the model's figure they need; nobody gets less than the base, which is
/// what a temperate day of rest takes. Of those who are there (Company::people).
std::array<double, 24> party_drinking_l_h(const plan::Plan& plan,
                                          const std::array<double, 24>& loss_g_m2,
                                          double elevation_m, std::span<const double> factors,
                                          std::span<const char> people);

/// What drinking depends on besides the weather, of some of the party together, on such a day.
struct Drinkers {
  double base_l_h = 0;
  double surface_m2 = 0;  ///< of their bodies: what they lose in an hour is by it
};
Drinkers drinkers(const plan::Plan& plan, double day_loss_g_m2, double elevation_m,
                  std::span<const double> factors, std::span<const char> people);

/// The sum of a day's hours.
double day_loss_g_m2(const std::array<double, 24>& loss_g_m2);

/// Litres that one person must drink on such a day.
struct PersonNeed {
  double by_model_l = 0;  ///< whatever was observed
  double planned_l = 0;   ///< with their factor, and not less than the base
};
PersonNeed person_drinking_l(const plan::Person& person, double loss_g_m2, double elevation_m,
                             double factor);

/// For each person, how many times the model's figure they need: 1, and for somebody whose drinking
/// was observed, what was observed over what the model gives for the weather and the activity that
/// it was observed in. Where the plan does not say which, those of the trip's first day count,
/// without any spell that an answer lays over it.
std::vector<double> drinking_factors(const plan::Plan& plan, const ScheduledDay& first_day);

/// Observed drinking is far under the model below this share of it. Sweat rates of people at the
/// same work in the same heat differ by about a quarter of the mean (standard deviation; memory of
/// general physiology): one in ten sweats less than this. Ours.
inline constexpr double far_under_model = 0.7;

/// Warnings: people whose observed drinking lies far under the model in the weather in which it was
/// observed, with both figures.
std::vector<plan::Diagnostic> drinking_remarks(const plan::Plan& plan,
                                               const ScheduledDay& first_day,
                                               std::span<const double> factors);

}  // namespace drystage::engine
