#pragma once

#include "answers/base/plan_run.h"

namespace drystage::report {

/// What the weather of a plan asks advice for. One trip can ask for both.
struct TripWeather {
  bool heat = false;
  bool cold = false;
};

/// Cold where a night of the plan comes below 5 °C: its temperatures are means, and colder nights
/// than the mean bring frost. Heat where a day comes to 25 °C, and wherever it is not cold.
TripWeather trip_weather(const answers::PlanRun& planned);

}  // namespace drystage::report
