#include <string>
#include <utility>

#include "report/card/advice.h"
#include "report/card/trip_weather.h"
#include "report/needs/table.h"
#include "report/text/capital.h"
#include "units/index.h"

namespace drystage::report {
namespace {

/// Whether a plan asks for any of a reserve (an index into Needs::reserves) on any morning.
bool is_needed(const NeedsAnswer& answer, std::size_t i) {
  constexpr double noise = 1e-6;
  for (std::size_t day = 0; day < answer.planned.record.days(); ++day) {
    if (answer.needs.need(day, i).must_have > noise) return true;
  }
  return false;
}

/// How those stay alive and are found who stay with the vehicle.
std::string waiting_words(const TripWeather& weather) {
  std::string text = "Stay with the vehicle, ";
  if (weather.heat) text += "make shade, ";
  if (weather.cold) text += "keep warm, dry and out of the wind, ";
  return text + "make yourselves seen.";
}

/// What comes before all else, whichever reserve is low.
Advice whatever_it_is(const AdvisedTrip& trip) {
  Advice out{.title = "If a reading is below must have", .steps = {}};
  out.steps.emplace_back(
      "Stop where it is safe. Dip or count again. Look for a leak, an open tap, a loose cap.");
  const std::string alarm =
      "raise the alarm at once, while there is water to wait on. It can be called off. " +
      waiting_words(trip.weather);
  if (!trip.planned.course.timeline->legs.empty()) {
    out.steps.emplace_back(
        "Do not go on as planned. Find your camp in \"The way out\". A way is open only if you "
        "have its figure of every reserve.");
    out.steps.emplace_back(
        "At least what stands under \"back\": turn back in the morning. At least what stands "
        "under \"on at once\": go on in the morning, no more stays. Both: take the way whose "
        "scarcest reserve has most to spare. If much the same, back. Tell the person at home of "
        "every change of plan.");
    out.steps.emplace_back(
        "Neither tonight? Look at the later nights of this camp. If you will still have enough "
        "then: wait, and go then.");
    out.steps.push_back("Neither tonight nor later: " + alarm);
  } else {
    out.steps.emplace_back(
        "Do not wait: fetch more, or leave, while what is there still lasts the way.");
    out.steps.push_back("No sure supply in reach: " + alarm);
    out.steps.emplace_back("Tell the person at home of every change of plan.");
  }
  return out;
}

Advice consumable_advice(const AdvisedTrip& trip, std::size_t reserve) {
  const engine::ReserveInfo& info = trip.planned.course.reserves[reserve];
  Advice out{.title = capital(info.owner), .steps = {}};
  if (info.life_supporting) {
    out.steps.emplace_back(
        "Life, or the way home, depends on it: leave, or call for help, while it still lasts the "
        "way.");
  } else {
    out.steps.emplace_back("Use it only where nothing else will do.");
  }
  return out;
}

}  // namespace

std::vector<Advice> first_steps(const CardAnswer& answer, units::System system) {
  const answers::PlanRun& planned = answer.needs.planned;
  const AdvisedTrip trip{.planned = planned, .weather = trip_weather(planned), .system = system};
  std::vector<Advice> out{whatever_it_is(trip)};
  using engine::Family;
  bool told_fuel = false;
  for (const int i : needs_order(answer.needs)) {
    if (!is_needed(answer.needs, at(i))) continue;
    const std::size_t reserve = at(answer.needs.needs.reserves[at(i)]);
    const Family family = planned.course.reserves[reserve].id.family;
    if (family == Family::drinking_water) out.push_back(drinking_water_advice(trip));
    if (family == Family::utility_water) out.push_back(utility_water_advice(trip));
    if (family == Family::fuel && !told_fuel) {
      out.push_back(fuel_advice(trip));
      told_fuel = true;
    }
    if (family == Family::food) out.push_back(food_advice(trip));
    if (family == Family::battery) out.push_back(battery_advice(trip, reserve));
    if (family == Family::consumable) out.push_back(consumable_advice(trip, reserve));
  }
  if (!planned.plan.cold.empty()) out.push_back(cold_advice(trip));
  for (Advice& advice : illness_advice(trip)) out.push_back(std::move(advice));
  return out;
}

}  // namespace drystage::report
