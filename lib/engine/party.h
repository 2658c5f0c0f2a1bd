#pragma once

#include <vector>

#include "plan/plan.h"

namespace drystage::engine {

/// Daily energy need of one person, kJ, with this activity (FAO/WHO/UNU).
double person_energy_kj(const plan::Person& person, const plan::Activity& activity);

/// Mean daily need of the plan's adults (of all, where there are none) over days with these
/// activities (indices into Plan::activities): three meals.
double three_meals_kj(const plan::Plan& plan, const std::vector<int>& day_activities);

/// Meals a day the party eats: three for an adult of average need on an average day, in proportion
/// to energy for everybody else; a person's stated number wins. Of those who are there
/// (Company::people), as in all that follows.
double party_meals_day(const plan::Plan& plan, const plan::Activity& activity,
                       double three_meals_kj, const std::vector<char>& people);

/// Utility water, litres: all of it, and the part that must be potable.
struct UtilityWater {
  double all_l = 0;
  double potable_l = 0;
};

/// What the party uses of it on day `day` (0-based): what is due every n days falls on day n, 2n,
/// ... of the trip. `share`: of what the party uses as a whole.
UtilityWater party_utility(const plan::Plan& plan, const std::vector<char>& people, int day,
                           double share = 1);

/// The same as a long-run mean, litres a day.
double party_utility_l_day(const plan::Plan& plan, const std::vector<char>& people,
                           double share = 1);

/// How many people there are.
int how_many(const std::vector<char>& people);

}  // namespace drystage::engine
