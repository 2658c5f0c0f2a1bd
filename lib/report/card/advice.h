#pragma once

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "answers/base/plan_run.h"
#include "report/card/answer.h"
#include "units/format.h"

namespace drystage::report {

/// What the weather of a plan asks advice for. One trip can ask for both.
struct TripWeather {
  bool heat = false;
  bool cold = false;
};

/// What to do first when something is low, in this order.
struct Advice {
  std::string title;
  std::vector<std::string> steps{};
  bool in_lines = false;  ///< a line for each step: they are not read in one go

  /// One step more, where it applies.
  void say(std::string step) { steps.push_back(std::move(step)); }
  void say_if(bool applies, const char* step) {
    if (applies) steps.emplace_back(step);
  }
};

/// The trip that advice is given for. It refers to the run, which must last as long.
struct AdvisedTrip {
  const answers::PlanRun& planned;
  TripWeather weather{};
  units::System system = units::System::metric;  ///< to show amounts in

  [[nodiscard]] const plan::Plan& plan() const { return planned.plan; }
};

/// A volume in litres as words, rounded up, that do not break between number and unit.
std::string advised_volume(const AdvisedTrip& trip, double volume_l);

/// When drinking water is low: how much all drink in a day, what of the other water may be drunk,
/// when to raise the alarm.
Advice drinking_water_advice(const AdvisedTrip& trip);

/// When utility water is low: what it goes for, most first.
Advice utility_water_advice(const AdvisedTrip& trip);

/// When fuel is low, for all vehicles together.
Advice fuel_advice(const AdvisedTrip& trip);

/// When spares are low or a tyre is flat, for all vehicles together: what a repair mends and what
/// it does not, and what to check. Common practice.
Advice tyre_advice();

/// When food is low: what to eat first, by what spoils first.
Advice food_advice(const AdvisedTrip& trip);

/// When it is too warm in a cabinet, for all cabinets together: when their food is to be eaten and
/// thrown away, and what lies in each.
Advice cold_advice(const AdvisedTrip& trip);

/// When a battery is low (an index into the course's reserves): in which order its loads are
/// switched off, what must go on, and what charges it.
Advice battery_advice(const AdvisedTrip& trip, std::size_t reserve);

/// Signs of illness that the weather and the height of a trip can bring, and what to do first: heat
/// illness, illness from cold, altitude illness; each only where the trip asks for it, by
/// `TripWeather` and by the highest place where a night is spent. Common practice, as public health
/// services teach it (docs/models.md names them); medical advice comes before it.
std::vector<Advice> illness_advice(const AdvisedTrip& trip);

/// All of it for a trip: first what holds for every reserve, then for each that the plan needs
/// anything of; vehicles together, and cabinets; last the signs of illness. What the plan can say
/// is said by it. The rest is common practice, on the cautious side; local advice comes before it.
std::vector<Advice> first_steps(const CardAnswer& answer, units::System system);

/// Cold where a night of the plan comes below 5 °C: its temperatures are means, and colder nights
/// than the mean bring frost. Heat where a day comes to 25 °C, and wherever it is not cold.
TripWeather trip_weather(const answers::PlanRun& planned);

}  // namespace drystage::report
