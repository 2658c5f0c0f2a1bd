#include "engine/own_stock.h"

#include <algorithm>
#include <array>
#include <map>
#include <numeric>
#include <utility>

#include "engine/drinking.h"
#include "engine/party.h"
#include "units/index.h"

namespace drystage::engine {
namespace {

using plan::Stock;

/// An owner's people in each company, and their share of the heads.
class Users {
 public:
  Users(const plan::Plan& plan, const CourseBase& course, int owner, Stock stock) {
    for (const Company& company : course.timeline->companies) {
      people_.push_back(users_of(plan, course.damage, company, owner, stock));
      const int all = how_many(company.people);
      const int some = how_many(people_.back());
      // What is used when nobody is there comes from the common stock.
      shares_.push_back(all > 0 ? static_cast<double>(some) / all : owner < 0 ? 1.0 : 0.0);
    }
  }

  [[nodiscard]] const std::vector<char>& people(int company) const { return people_[at(company)]; }
  [[nodiscard]] double share(int company) const { return shares_[at(company)]; }

 private:
  std::vector<std::vector<char>> people_;
  std::vector<double> shares_;
};

class WaterFiller {
 public:
  WaterFiller(const plan::Plan& plan, const CourseBase& course, int owner)
      : plan_(plan), timeline_(*course.timeline), users_(plan, course, owner, Stock::water) {}

  [[nodiscard]] OwnWater of(const TimeStep& step) {
    OwnWater out;
    const std::vector<char>& people = users_.people(step.company);
    const double share = users_.share(step.company);
    out.utility_l_day = party_utility_l_day(plan_, people, share);
    const PlaceDay& place = timeline_.place_days[at(step.place_day)];
    const Hours& camp = drink_l_h(place.camp, step.company);
    out.drink_l_day = std::accumulate(camp.begin(), camp.end(), 0.0);
    if (step.dt_h <= 0) return out;
    const UtilityWater utility = party_utility(plan_, people, step.day, share);
    out.utility_l = utility.all_l / 24 * step.dt_h;
    out.potable_utility_l = utility.potable_l / 24 * step.dt_h;
    out.drink_l = drink_l_h(step.party_day, step.company).at(clock_hour(step)) * step.dt_h;
    return out;
  }

 private:
  using Hours = std::array<double, 24>;

  /// What they drink by the hour of a party day. All lose as much by their skin's area, so theirs
  /// follows from what the whole party drinks.
  const Hours& drink_l_h(int party_day, int company) {
    const auto [known, is_new] = drink_l_h_.try_emplace({party_day, company});
    Hours& hours = known->second;
    if (!is_new) return hours;
    const int place_day = timeline_.party_days[at(party_day)].place_day;
    const Conditions& conditions = timeline_.conditions;
    const PartyConditions& all = conditions.party_days[at(party_day)];
    const auto needs = [&](const std::vector<char>& people) {
      return drinkers(plan_, all.loss_g_m2,
                      conditions.place_days[at(place_day)].weather.elevation_m,
                      conditions.drinking_factors, people);
    };
    const int its_company = timeline_.place_days[at(place_day)].company;
    const Drinkers party = needs(timeline_.companies[at(its_company)].people);
    const Drinkers some = needs(users_.people(company));
    hours = all.drink_l_h;
    const double times = conditions.days[at(timeline_.party_days[at(party_day)].day)].drinking;
    for (double& hour : hours) {
      const double by_area =
          party.surface_m2 > 0 ? (hour / times - party.base_l_h) / party.surface_m2 : 0;
      hour = times * (some.base_l_h + by_area * some.surface_m2);
    }
    return hours;
  }

  const plan::Plan& plan_;
  const Timeline& timeline_;
  Users users_;
  std::map<std::pair<int, int>, Hours> drink_l_h_;  ///< by party day and company
};

}  // namespace

int owner_now(const plan::Plan& plan, const Damage& damage, int vehicle, Stock stock) {
  return plan.vehicles.empty() ? -1 : plan::owner_of(plan, carrier(plan, damage, vehicle), stock);
}

std::vector<char> users_of(const plan::Plan& plan, const Damage& damage, const Company& company,
                           int owner, Stock stock) {
  std::vector<char> out(plan.people.size(), 0);
  for (std::size_t p = 0; p < out.size(); ++p) {
    if (company.people[p] == 0) continue;
    out[p] = owner_now(plan, damage, ride_of(plan, company, p), stock) == owner ? 1 : 0;
  }
  return out;
}

bool is_used(const plan::Plan& plan, const CourseBase& course, const Company& company,
             ReserveId id) {
  const Stock stock = id.family == Family::food ? Stock::food : Stock::water;
  if (plan::owners(plan, stock).size() < 2) return true;
  const auto is_its_utility = [&](const plan::Container& can) {
    return can.use == plan::WaterUse::utility &&
           owner_now(plan, course.damage, can.vehicle, stock) == id.of;
  };
  const bool any = id.family != Family::utility_water || !plan.water.utility_uses.empty() ||
                   std::ranges::any_of(plan.water.containers, is_its_utility);
  return any && how_many(users_of(plan, course.damage, company, id.of, stock)) > 0;
}

bool is_ever_used(const plan::Plan& plan, const CourseBase& course, ReserveId id) {
  return std::ranges::any_of(course.timeline->companies, [&](const Company& company) {
    return is_used(plan, course, company, id);
  });
}

void ask_nothing_if_unused(const plan::Plan& plan, CourseBase& course, int reserve) {
  ReserveInfo& info = course.reserves[at(reserve)];
  if (!is_ever_used(plan, course, info.id)) info.margin = {};
}

void fill_own_water(std::vector<OwnWater>& out, const plan::Plan& plan, const CourseBase& course,
                    int owner, const IndexRange& steps) {
  WaterFiller filler(plan, course, owner);
  out.resize(course.timeline->steps.size());
  for (std::size_t s = steps.from; s < steps.until; ++s) {
    out[s] = filler.of(course.timeline->steps[s]);
  }
}

std::vector<OwnMeals> own_meals(const plan::Plan& plan, const CourseBase& course, int owner) {
  const Timeline& timeline = *course.timeline;
  const Users users(plan, course, owner, Stock::food);
  const double three_meals_kj = 3 * timeline.meal_kj;
  std::vector<OwnMeals> out;
  out.reserve(timeline.steps.size());
  for (const TimeStep& step : timeline.steps) {
    const std::vector<char>& people = users.people(step.company);
    const auto a_day = [&](int activity) {
      return party_meals_day(plan, plan.activities[at(activity)], three_meals_kj, people);
    };
    const double today = a_day(timeline.days[at(step.day)].schedule.activity);
    out.push_back({.meals = today / 24 * step.dt_h, .meals_day = a_day(plan.camp_activity)});
  }
  return out;
}

}  // namespace drystage::engine
