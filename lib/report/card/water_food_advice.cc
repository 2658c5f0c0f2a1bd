#include <fmt/core.h>

#include <algorithm>
#include <functional>
#include <numeric>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "models/spoilage.h"
#include "report/card/advice.h"
#include "report/text/amounts.h"
#include "units/format.h"
#include "units/list.h"

namespace drystage::report {
namespace {

/// The most that all drink in a day of staying put.
double most_drinking_l_day(const AdvisedTrip& trip) {
  double most = 0;
  for (const engine::PlaceConditions& here : trip.planned.course.timeline->conditions.place_days) {
    most = std::max(most, here.drink_l);
  }
  return most;
}

/// From when a container holds brackish water: a day from 0; -1: from the beginning; nothing if
/// it never does by the plan.
std::optional<int> brackish_from(const AdvisedTrip& trip, const plan::Container& can, int store) {
  if (can.quality == plan::WaterQuality::brackish) return -1;
  for (const engine::Event& event : trip.planned.record.events) {
    if (event.kind == engine::EventKind::brackish_in && event.subject == store) return event.day;
  }
  return std::nullopt;
}

/// Which utility water may be drunk and which may not; empty where there is none.
std::string utility_to_drink(const AdvisedTrip& trip) {
  std::vector<std::string> good;
  std::string bad;
  const engine::Course& course = trip.planned.course;
  for (const bool last : {false, true}) {
    for (const engine::StoreInfo& info : course.stores) {
      if (info.family != engine::Family::drinking_water) continue;
      const plan::Container& can = trip.plan().water.containers[at(info.index)];
      if (can.opened_last != last) continue;
      const int store = static_cast<int>(&info - course.stores.data());
      const std::optional<int> from = brackish_from(trip, can, store);
      const std::string name = can.name;
      if (from) {
        units::add_to(bad, name);
        if (*from >= 0) bad += fmt::format(" (brackish from day {})", *from + 1);
      } else if (can.use == plan::WaterUse::utility) {
        good.push_back(can.name);
      }
    }
  }
  std::string text;
  if (!good.empty()) {
    text =
        "Stop washing. Utility water may be drunk only if all of it is potable and nothing else "
        "was ever in: " +
        units::listed(good) + ".";
  }
  if (!bad.empty()) {
    units::add_to(text,
                  "BRACKISH, DO NOT DRINK: " + bad + "." +
                      (trip.weather.cold ? "" : " It may wet clothes, which cools."),
                  " ");
  }
  return text;
}

/// The items of food in the order in which they spoil: what ages fastest first, frozen goods
/// after chilled ones, what keeps for ever last.
std::vector<std::string> eat_first(const AdvisedTrip& trip) {
  const auto& pools =
      std::get<engine::reserves::Food::Compiled>(trip.planned.course.families).pools;
  std::vector<const engine::reserves::Food::Item*> items(trip.plan().food.size());
  for (const engine::reserves::Food::Pool& pool : pools) {
    for (const engine::reserves::Food::Item& item : pool.items) {
      if (item.number < items.size()) items[item.number] = &item;
    }
  }
  std::vector<std::size_t> order(trip.plan().food.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const auto key = [&](std::size_t i) {
    const engine::reserves::Food::Item& item = *items[i];
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

Advice drinking_water_advice(const AdvisedTrip& trip) {
  Advice out{.title = "Drinking water"};
  out.say("Never cut drinking.");
  out.say_if(
      trip.weather.heat,
      "Rest in deep shade and moving air in the hot hours. Cover the skin. Work and dig in the "
      "evening and at dawn, never at noon.");
  out.say_if(
      trip.weather.cold,
      "In the cold work slowly: sweat is lost water, and chills. Keep water from freezing: the "
      "next day's inside by night, cans not quite full, tight ones upside down. Never eat snow "
      "or ice: melt it and boil it.");
  const engine::Course& course = trip.planned.course;
  const double own = course.learned.empty() ? 1 : std::max(1.0, course.learned.back().drinking);
  const double most_l = own * most_drinking_l_day(trip);
  if (most_l > 0) {
    out.say(fmt::format("Staying put, all together drink up to {} a day.",
                        advised_volume(trip, most_l)));
  }
  std::vector<std::string> last;
  for (const plan::Container& can : trip.plan().water.containers) {
    if (can.opened_last && can.use == plan::WaterUse::drinking) last.push_back(can.name);
  }
  if (!last.empty()) out.say("Open last: " + units::listed(last) + ".");
  const std::string utility = utility_to_drink(trip);
  if (!utility.empty()) out.say(utility);
  out.say("Eat little, nothing salty or dry. No alcohol, sea water, coolant or urine.");
  out.say(
      "Raise the alarm when no sure supply is in reach, at the latest when only the margin is "
      "left.");
  return out;
}

Advice utility_water_advice(const AdvisedTrip& trip) {
  Advice out{.title = "Utility water"};
  struct Use {
    std::string name;
    double l_day = 0;
  };
  std::vector<Use> uses;
  for (const plan::UtilityUse& use : trip.plan().water.utility_uses) {
    const double people = use.per_person ? static_cast<double>(trip.plan().people.size()) : 1;
    const double l_day = use.volume_l * people / std::max(use.every_days, 1e-9);
    if (l_day > 0) uses.push_back({.name = use.name, .l_day = l_day});
  }
  std::ranges::stable_sort(uses, std::greater<>{}, &Use::l_day);
  std::string list;
  for (const Use& use : uses) {
    units::add_to(list, use.name + " " + advised_volume(trip, use.l_day));
  }
  if (list.empty()) {
    out.say("Leave out all that can wait.");
  } else {
    out.say("Leave out what can wait. Planned for a day: " + list + ".");
  }
  out.say("Never make it up from drinking water. Clean dishes dry, with sand or paper.");
  return out;
}

Advice food_advice(const AdvisedTrip& trip) {
  Advice out{.title = "Food"};
  const std::vector<std::string> order = eat_first(trip);
  if (order.size() > 1) {
    out.say("Eat thawed goods first, then in this order: " + units::listed(order) + ".");
  }
  out.say(
      "Healthy adults can eat less for some days; not children, pregnant women, the ill, or who "
      "takes medicine. Hunger is no reason to hurry, to drive by night or to eat what you do not "
      "know: water and fuel decide.");
  out.say_if(trip.weather.cold, "In the cold food is warmth: eat some before you sleep.");
  return out;
}

Advice cold_advice(const AdvisedTrip& trip) {
  Advice out{.title = "Fridge too warm"};
  const auto limit = [&](double air_c) {
    return rounded_words(air_c, units::Kind::temperature, trip.system, 0, Toward::down);
  };
  constexpr double clock_c = 5;
  out.say(
      "Keep it closed, in shade, with air round it. Go by a thermometer inside. See that it runs.");
  out.say("Above " + limit(clock_c) + ": eat within 2 hours in all, throw away after 4; above " +
          limit(models::great_heat_c) +
          " half of that. Thawed food: eat first, cook through, never freeze again.");
  for (std::size_t c = 0; c < trip.plan().cold.size(); ++c) {
    std::vector<std::string> inside;
    for (const plan::FoodItem& food : trip.plan().food) {
      if (food.cabinet == static_cast<int>(c)) inside.push_back(food.name);
    }
    if (inside.empty()) continue;
    out.say("In " + trip.plan().cold[c].name + ": " + units::listed(inside) + ".");
  }
  out.say_if(trip.weather.cold, "In frost: what must not freeze goes where you sleep.");
  out.say("Medicine: to its second cold place; ask before using what has been warm.");
  return out;
}

}  // namespace drystage::report
