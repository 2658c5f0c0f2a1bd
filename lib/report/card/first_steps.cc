#include <algorithm>
#include <set>
#include <string>
#include <utility>

#include "report/card/advice.h"
#include "report/card/supply_words.h"
#include "report/needs/words.h"
#include "report/text/amounts.h"
#include "report/text/words.h"
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
  Advice out{.title = "If a reading is below must have"};
  out.say("Stop where it is safe. Dip or count again. Look for a leak, an open tap, a loose cap.");
  const std::string alarm =
      "raise the alarm at once, while there is water to wait on. It can be called off. " +
      waiting_words(trip.weather);
  if (!trip.planned.course.timeline->legs.empty()) {
    out.say(
        "Do not go on as planned. Find your camp in \"The way out\". A way is open only if you "
        "have its figure of every reserve.");
    out.say(
        "At least what stands under \"back\": turn back in the morning. At least what stands "
        "under \"on at once\": go on in the morning, no more stays. Both: take the way whose "
        "scarcest reserve has most to spare. If much the same, back. Tell the person at home of "
        "every change of plan.");
    out.say(
        "Neither tonight? Look at the later nights of this camp. If you will still have enough "
        "then: wait, and go then.");
    out.say("Neither tonight nor later: " + alarm);
  } else {
    out.say("Do not wait: fetch more, or leave, while what is there still lasts the way.");
    out.say("No sure supply in reach: " + alarm);
    out.say("Tell the person at home of every change of plan.");
  }
  return out;
}

Advice consumable_advice(const engine::ReserveInfo& info) {
  Advice out{.title = capital(reserve_words(info))};
  out.say(
      "Life, or the way home, depends on it: leave, or call for help, while it still lasts the "
      "way.");
  return out;
}

/// From this height of the camp on, altitude illness is common (CDC Yellow Book; memory).
constexpr double altitude_illness_m = 2500;

/// The highest place where a night is spent, m; nothing of camps in the bush is known.
double highest_night_m(const AdvisedTrip& trip) {
  double most_m = 0;
  const auto& days = trip.planned.course.timeline->days;
  for (std::size_t day = 0; day + 1 < days.size(); ++day) {
    const int place = engine::place_at(days[day].schedule.to);
    if (place < 0) continue;
    most_m = std::max(most_m, trip.plan().places[at(place)].elevation_m);
  }
  return most_m;
}

Advice heat_illness() {
  return {
      .title = "Heat illness",
      .steps =
          {"Headache, dizziness, nausea, cramps, weakness: stop, lie in shade, loosen "
           "clothes, wet and fan the skin, sip often. Not better in half an hour: heat stroke.",
           "HEAT STROKE: confused, odd, stumbling, a fit, not awake; skin hot, dry or wet. It "
           "kills. Cool at once with all water, brackish too: wet the whole body, fan, wet cloths "
           "to neck, armpits, groin. Raise the alarm.",
           "Give no drink to anyone who is confused or not fully awake: lay them on the side, "
           "stay, and cool until they are themselves again.",
           "Much drunk, clear urine, and headache, vomiting or confusion: too much water, too "
           "little salt. No more plain water; salty food if awake; raise the alarm."},
      .in_lines = true};
}

Advice cold_illness() {
  return {.title = "Illness from cold",
          .steps = {"Shivering, clumsy, slow speech, stumbling: out of the wind, wet clothes off, "
                    "dry ones on, off the ground, warm the trunk first. Warm sweet drinks only if "
                    "fully awake. No alcohol. Do not rub.",
                    "Shivering stops, drowsy or confused: raise the alarm. Handle gently, lying "
                    "flat.",
                    "Numb, white or waxy skin is frostbite: warm it against skin. Do not rub it. "
                    "Do not thaw what may freeze again.",
                    "Burn no stove, heater, generator or charcoal in a closed tent or vehicle. "
                    "Headache and sleepiness there: out into the air at once."},
          .in_lines = true};
}

Advice altitude_illness() {
  return {.title = "Altitude illness",
          .steps = {"Headache with nausea, tiredness or bad sleep above 2500 m: climb no higher, "
                    "rest, drink. Not better in a day: go down.",
                    "Stumbling, confusion, breathless at rest, or a wet cough: go down at once, at "
                    "night too, by 500 m or more. Raise the alarm. Nobody with these goes "
                    "alone."},
          .in_lines = true};
}

}  // namespace

TripWeather trip_weather(const answers::PlanRun& planned) {
  constexpr double cold_below_c = 5;
  constexpr double heat_from_c = 25;
  TripWeather out;
  for (const engine::DayConditions& day : planned.course.timeline->conditions.days) {
    out.cold = out.cold || day.min_c < cold_below_c;
    out.heat = out.heat || day.max_c >= heat_from_c;
  }
  out.heat = out.heat || !out.cold;
  return out;
}

std::string advised_volume(const AdvisedTrip& trip, double volume_l) {
  return unbroken(volume_words(volume_l, trip.system, Toward::up));
}

std::vector<Advice> first_steps(const CardAnswer& answer, units::System system) {
  const answers::PlanRun& planned = answer.needs.planned;
  const AdvisedTrip trip{.planned = planned, .weather = trip_weather(planned), .system = system};
  std::vector<Advice> out{whatever_it_is(trip)};
  using engine::Family;
  std::set<Family> told;
  for (const std::size_t i : needs_order(answer.needs)) {
    if (!is_needed(answer.needs, i)) continue;
    const std::size_t reserve = at(answer.needs.needs.reserves[i]);
    const Family family = planned.course.reserves[reserve].id.family;
    if (told.insert(family).second) {
      if (family == Family::drinking_water) out.push_back(drinking_water_advice(trip));
      if (family == Family::utility_water) out.push_back(utility_water_advice(trip));
      if (family == Family::fuel) out.push_back(fuel_advice(trip));
      if (family == Family::tyres) out.push_back(tyre_advice());
      if (family == Family::food) out.push_back(food_advice(trip));
    }
    if (family == Family::battery) out.push_back(battery_advice(trip, reserve));
    const engine::ReserveInfo& info = planned.course.reserves[reserve];
    if (family == Family::consumable && info.life_supporting) {
      out.push_back(consumable_advice(info));
    }
  }
  if (!planned.plan.cold.empty()) out.push_back(cold_advice(trip));
  for (Advice& advice : illness_advice(trip)) out.push_back(std::move(advice));
  return out;
}

std::vector<Advice> illness_advice(const AdvisedTrip& trip) {
  std::vector<Advice> out;
  if (trip.weather.heat) out.push_back(heat_illness());
  if (trip.weather.cold) out.push_back(cold_illness());
  if (highest_night_m(trip) >= altitude_illness_m) out.push_back(altitude_illness());
  return out;
}

}  // namespace drystage::report
