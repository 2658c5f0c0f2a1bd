#include <algorithm>

#include "report/card/advice.h"

namespace drystage::report {
namespace {

/// From this height of the camp on, altitude illness is common (CDC Yellow Book; memory).
constexpr double altitude_illness_m = 2500;

/// The highest place where a night is spent, m; nothing of camps in the bush is known.
double highest_night_m(const AdvisedTrip& trip) {
  double most_m = 0;
  const auto& days = trip.planned.course.timeline->days;
  for (std::size_t day = 0; day + 1 < days.size(); ++day) {
    const int place = engine::place_at(days[day].schedule.to);
    if (place < 0) continue;
    most_m = std::max(most_m, trip.plan().places[static_cast<std::size_t>(place)].elevation_m);
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

std::vector<Advice> illness_advice(const AdvisedTrip& trip) {
  std::vector<Advice> out;
  if (trip.weather.heat) out.push_back(heat_illness());
  if (trip.weather.cold) out.push_back(cold_illness());
  if (highest_night_m(trip) >= altitude_illness_m) out.push_back(altitude_illness());
  return out;
}

}  // namespace drystage::report
