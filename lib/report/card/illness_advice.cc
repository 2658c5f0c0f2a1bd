#include "report/card/illness_advice.h"

#include <algorithm>

namespace drystage::report {
namespace {

/// From this height of the camp on, altitude illness is common (CDC Yellow Book; memory).
constexpr double altitude_illness_m = 2500;

/// The highest place where a night is spent, m; nothing of camps in the bush is known.
double highest_night_m(const AdvisedTrip& trip) {
  double most_m = 0;
  const auto& days = trip.trial.course.timeline->days;
  for (std::size_t day = 0; day + 1 < days.size(); ++day) {
    const int place = engine::place_at(days[day].schedule.to);
    if (place < 0) continue;
    most_m = std::max(most_m, trip.plan().places[static_cast<std::size_t>(place)].elevation_m);
  }
  return most_m;
}

Advice heat_illness() {
  return {
      .title = "Heat illness: know the signs",
      .steps = {
          "Headache, dizziness, nausea, cramps, great weakness: stop work, lie down in shade, "
          "loosen clothes, wet the skin and fan it, drink small sips often. Not better within "
          "half an hour: treat it as heat stroke.",
          "HEAT STROKE: confused, odd, stumbling, a fit, or not awake, the skin hot, dry or wet. "
          "It kills. Cool at once, with all the water there is, utility and brackish too: wet the "
          "whole body, fan it, wet cloths to neck, armpits and groin. Raise the alarm.",
          "Give no drink to anyone who is confused or not fully awake: lay them on the side, and "
          "stay. Go on cooling until they are themselves again.",
          "Much drunk, clear urine, and headache, vomiting or confusion: too much water and too "
          "little salt. No more plain water; salty food if awake; raise the alarm."}};
}

Advice cold_illness() {
  return {.title = "Illness from cold: know the signs",
          .steps = {"Shivering, clumsy hands, slow speech, stumbling: out of the wind, wet clothes "
                    "off, dry ones on, insulate from the ground, warm the trunk first. Warm sweet "
                    "drinks only if fully awake. No alcohol. Do not rub.",
                    "Shivering stops, drowsy or confused: raise the alarm. Handle gently, lying "
                    "flat.",
                    "Numb, white or waxy skin is frostbite: warm it against skin. Do not rub it, "
                    "and do not thaw what may freeze again.",
                    "Never burn a stove, a heater, a generator or charcoal in a closed tent or "
                    "vehicle. Headache and sleepiness there: out into the air at once."}};
}

Advice altitude_illness() {
  return {.title = "Altitude illness: know the signs",
          .steps = {"Headache with nausea, tiredness or bad sleep above 2500 m: climb no higher, "
                    "rest, drink. Not better in a day: go down.",
                    "Stumbling, confusion, breathless at rest, or a wet cough: go down at once, at "
                    "night too, by 500 m or more, and raise the alarm. Nobody with these goes "
                    "alone."}};
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
