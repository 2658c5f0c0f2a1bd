#include <fmt/core.h>

#include <algorithm>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "report/card/advice.h"
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
  const auto& cans = std::get<engine::reserves::Water::Compiled>(trip.planned.course.families).cans;
  std::size_t next = 0;
  for (const bool last : {false, true}) {
    for (const plan::Container& can : trip.plan().water.containers) {
      if (can.opened_last != last) continue;
      const int store = cans[next++].store;
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

}  // namespace

Advice drinking_water_advice(const AdvisedTrip& trip) {
  Advice out{.title = "Drinking water", .steps = {}};
  out.steps.emplace_back("Never cut drinking.");
  if (trip.weather.heat) {
    out.steps.emplace_back(
        "Rest in deep shade and moving air in the hot hours. Cover the skin. Work and dig in the "
        "evening and at dawn, never at noon.");
  }
  if (trip.weather.cold) {
    out.steps.emplace_back(
        "In the cold work slowly: sweat is lost water, and chills. Keep water from freezing: the "
        "next day's inside by night, cans not quite full, tight ones upside down. Never eat snow "
        "or ice: melt it and boil it.");
  }
  const double most_l = most_drinking_l_day(trip);
  if (most_l > 0) {
    out.steps.push_back(fmt::format("Staying put, all together drink up to {} a day.",
                                    advised_volume(trip, most_l)));
  }
  std::vector<std::string> last;
  for (const plan::Container& can : trip.plan().water.containers) {
    if (can.opened_last && can.use == plan::WaterUse::drinking) last.push_back(can.name);
  }
  if (!last.empty()) out.steps.push_back("Open last: " + units::listed(last) + ".");
  const std::string utility = utility_to_drink(trip);
  if (!utility.empty()) out.steps.push_back(utility);
  out.steps.emplace_back(
      "Eat little, nothing salty or dry. No alcohol, sea water, coolant or urine.");
  out.steps.emplace_back(
      "Raise the alarm when no sure supply is in reach, at the latest when only the margin is "
      "left.");
  return out;
}

Advice utility_water_advice(const AdvisedTrip& trip) {
  Advice out{.title = "Utility water", .steps = {}};
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
    out.steps.emplace_back("Leave out all that can wait.");
  } else {
    out.steps.push_back("Leave out what can wait. Planned for a day: " + list + ".");
  }
  out.steps.emplace_back(
      "Never make it up from drinking water. Clean dishes dry, with sand or paper.");
  return out;
}

}  // namespace drystage::report
