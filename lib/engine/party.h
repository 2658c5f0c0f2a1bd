#pragma once

#include <array>
#include <vector>

#include "engine/weather_day.h"
#include "plan/plan.h"

namespace drystage::engine {

/// Litres per clock hour 0..23 that each person must drink on a day with this activity in this
/// weather; summed over the party. A person's own observed figure is spread over the day.
std::array<double, 24> party_drinking_l_h(const plan::Plan& plan, const plan::Activity& activity,
                                          const WeatherDay& weather);

/// Whether this weather and activity lie beyond the heat for which the sweat model was validated
/// (ISO 7933): there its figures are an extrapolation.
bool beyond_proven_heat(const plan::Activity& activity, const WeatherDay& weather);

/// Litres a day for one person, by the same model.
double person_drinking_l_day(const plan::Person& person, const plan::Activity& activity,
                             const WeatherDay& weather);

/// Daily energy need of one person, kJ, with this activity (FAO/WHO/UNU).
double person_energy_kj(const plan::Person& person, const plan::Activity& activity);

/// Mean daily need of the plan's adults (of all, where there are none) over days with these
/// activities (indices into Plan::activities): three meals.
double three_meals_kj(const plan::Plan& plan, const std::vector<int>& day_activities);

/// Meals a day the party eats: three for an adult of average need on an average day, in proportion
/// to energy for everybody else; a person's stated number wins.
double party_meals_day(const plan::Plan& plan, const plan::Activity& activity,
                       double three_meals_kj);

/// Utility water the party uses on day `day` (0-based), litres: what is due every n days falls on
/// day n, 2n, ... of the trip.
double party_utility_l(const plan::Plan& plan, int day);

/// The same as a long-run mean, litres a day.
double party_utility_l_day(const plan::Plan& plan);

}  // namespace drystage::engine
