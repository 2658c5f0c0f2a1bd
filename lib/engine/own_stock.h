#pragma once

#include <vector>

#include "engine/course.h"
#include "plan/own.h"

namespace drystage::engine {

/// Whose stock a thing belongs to that the plan puts into a vehicle: where that was left behind, it
/// goes to whoever took it over.
int owner_now(const plan::Plan& plan, const Damage& damage, int vehicle, plan::Stock stock);

/// By person: who uses an owner's stock while the party is a company. They use that of the vehicle
/// they ride in, which is another one where theirs stands or was left behind.
std::vector<char> users_of(const plan::Plan& plan, const Damage& damage, const Company& company,
                           int owner, plan::Stock stock);

/// Whether anybody uses a reserve of water or food while the party is a company. Where vehicles
/// keep their own, all who share the common one may be gone too.
bool is_used(const plan::Plan& plan, const CourseBase& course, const Company& company,
             ReserveId id);
/// Whether anybody does at any time. Of a reserve that nobody ever uses nothing is asked.
bool is_ever_used(const plan::Plan& plan, const CourseBase& course, ReserveId id);
void ask_nothing_if_unused(const plan::Plan& plan, CourseBase& course, int reserve);

/// What an owner's people need in a step, and in a day of staying where it is.
struct OwnWater {
  double drink_l = 0;
  double utility_l = 0;
  double potable_utility_l = 0;
  double drink_l_day = 0;
  double utility_l_day = 0;
};
struct OwnMeals {
  double meals = 0;
  double meals_day = 0;
};

/// By step of the course's timeline, for the steps in range; the others stay as they are. All
/// owners together need what the party does: what it uses of utility water as a whole is divided by
/// heads.
void fill_own_water(std::vector<OwnWater>& out, const plan::Plan& plan, const CourseBase& course,
                    int owner, const IndexRange& steps);
std::vector<OwnMeals> own_meals(const plan::Plan& plan, const CourseBase& course, int owner);

}  // namespace drystage::engine
