#include "engine/party.h"

#include <algorithm>
#include <cmath>

#include "models/metabolism.h"
#include "units/index.h"

namespace drystage::engine {
namespace {

constexpr double adult_years = 18;
constexpr int meals_a_day = 3;

models::Sex sex(const plan::Person& person) {
  return person.sex == plan::Sex::female ? models::Sex::female : models::Sex::male;
}

}  // namespace

double person_energy_kj(const plan::Person& person, const plan::Activity& activity) {
  return models::daily_energy_kj(person.mass_kg, person.age_years, sex(person), activity.hours);
}

double three_meals_kj(const plan::Plan& plan, const std::vector<int>& day_activities) {
  const bool adults = std::ranges::any_of(
      plan.people, [](const plan::Person& p) { return p.age_years >= adult_years; });
  double sum = 0;
  double count = 0;
  for (const plan::Person& person : plan.people) {
    if (adults && person.age_years < adult_years) continue;
    for (const int activity : day_activities) {
      sum += person_energy_kj(person, plan.activities[at(activity)]);
      ++count;
    }
  }
  return count > 0 ? sum / count : 0;
}

double party_meals_day(const plan::Plan& plan, const plan::Activity& activity,
                       double three_meals_kj, const std::vector<char>& people) {
  double meals = 0;
  for (std::size_t p = 0; p < people.size(); ++p) {
    if (people[p] == 0) continue;
    const plan::Person& person = plan.people[p];
    if (person.meals_day) {
      meals += *person.meals_day;
    } else if (three_meals_kj > 0) {
      meals += meals_a_day * person_energy_kj(person, activity) / three_meals_kj;
    }
  }
  return meals;
}

UtilityWater party_utility(const plan::Plan& plan, const std::vector<char>& people, int day,
                           double share) {
  constexpr double whole_days = 1e-9;
  UtilityWater sum;
  for (const plan::UtilityUse& use : plan.water.utility_uses) {
    const double times = std::floor((day + 1) / use.every_days + whole_days) -
                         std::floor(day / use.every_days + whole_days);
    const double litres = times * use.volume_l * (use.per_person ? how_many(people) : share);
    sum.all_l += litres;
    if (use.potable) sum.potable_l += litres;
  }
  return sum;
}

double party_utility_l_day(const plan::Plan& plan, const std::vector<char>& people, double share) {
  double sum = 0;
  for (const plan::UtilityUse& use : plan.water.utility_uses) {
    sum += use.volume_l / use.every_days * (use.per_person ? how_many(people) : share);
  }
  return sum;
}

int how_many(const std::vector<char>& people) {
  return static_cast<int>(std::ranges::count(people, 1));
}

}  // namespace drystage::engine
