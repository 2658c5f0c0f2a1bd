#include "report/card/trip_weather.h"

namespace drystage::report {

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

}  // namespace drystage::report
