#include <algorithm>
#include <numeric>
#include <string>
#include <utility>
#include <vector>

#include "models/spoilage.h"
#include "report/card/advice.h"
#include "report/text/rounding.h"
#include "units/format.h"
#include "units/list.h"

namespace drystage::report {
namespace {

/// The items of food in the order in which they spoil: what ages fastest first, frozen goods
/// after chilled ones, what keeps for ever last.
std::vector<std::string> eat_first(const AdvisedTrip& trip) {
  const auto& compiled = std::get<engine::reserves::Food::Compiled>(trip.planned.course.families);
  std::vector<std::size_t> order(trip.plan().food.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const auto key = [&](std::size_t i) {
    const engine::reserves::Food::Item& item = compiled.items[i];
    const bool keeps = item.ageing_at_0c_per_h <= 0;
    const int rank = keeps ? 2 : item.kept == plan::Kept::frozen ? 1 : 0;
    return std::pair(rank, -item.ageing_at_0c_per_h);
  };
  std::ranges::stable_sort(order, {}, key);
  std::vector<std::string> names(order.size());
  std::ranges::transform(order, names.begin(),
                         [&](std::size_t i) { return trip.plan().food[i].name; });
  return names;
}

}  // namespace

Advice food_advice(const AdvisedTrip& trip) {
  Advice out{.title = "Food", .steps = {}};
  const std::vector<std::string> order = eat_first(trip);
  if (order.size() > 1) {
    out.steps.push_back("Eat thawed goods first, then in this order: " + units::listed(order) +
                        ".");
  }
  out.steps.emplace_back(
      "Healthy adults can eat less for some days; not children, pregnant women, the ill, or who "
      "takes medicine. Hunger is no reason to hurry, to drive by night or to eat what you do not "
      "know: water and fuel decide.");
  if (trip.weather.cold) {
    out.steps.emplace_back("In the cold food is warmth: eat some before you sleep.");
  }
  return out;
}

Advice cold_advice(const AdvisedTrip& trip) {
  Advice out{.title = "Fridge too warm", .steps = {}};
  const units::Display shown = units::display(units::Kind::temperature, trip.system);
  constexpr double clock_c = 5;
  const std::string limit =
      units::format_number(rounded(shown.number(clock_c), 0, Toward::down), units::decimals(0)) +
      " " + std::string(shown.unit);
  out.steps.emplace_back(
      "Keep it closed, in shade, with air round it. Go by a thermometer inside. See that it runs.");
  const std::string great_heat =
      units::format_number(rounded(shown.number(models::great_heat_c), 0, Toward::down),
                           units::decimals(0)) +
      " " + std::string(shown.unit);
  out.steps.push_back("Above " + limit + ": eat within 2 hours in all, throw away after 4; above " +
                      great_heat +
                      " half of that. Thawed food: eat first, cook through, never freeze again.");
  for (std::size_t c = 0; c < trip.plan().cold.size(); ++c) {
    std::vector<std::string> inside;
    for (const plan::FoodItem& food : trip.plan().food) {
      if (food.cabinet == static_cast<int>(c)) inside.push_back(food.name);
    }
    if (inside.empty()) continue;
    out.steps.push_back("In " + trip.plan().cold[c].name + ": " + units::listed(inside) + ".");
  }
  if (trip.weather.cold) {
    out.steps.emplace_back("In frost: what must not freeze goes where you sleep.");
  }
  out.steps.emplace_back(
      "Medicine: to its second cold place; ask before using what has been warm.");
  return out;
}

}  // namespace drystage::report
