#pragma once

#include <string>
#include <vector>

#include "answers/base/trial.h"
#include "report/card/trip_weather.h"
#include "units/format.h"

namespace drystage::report {

/// What to do first when something is low, in this order.
struct Advice {
  std::string title;
  std::vector<std::string> steps;
};

/// The trip that advice is given for. It refers to the trial, which must last as long.
struct AdvisedTrip {
  const answers::Trial& trial;
  TripWeather weather{};
  units::System system = units::System::metric;  ///< to show amounts in

  [[nodiscard]] const plan::Plan& plan() const { return trial.plan; }
};

/// Where a commodity can be had for sure, in a sentence; it also says so where it is nowhere.
std::string sure_supplies(const AdvisedTrip& trip, plan::Commodity commodity);

/// A volume in litres as words, rounded up, that do not break between number and unit.
std::string advised_volume(const AdvisedTrip& trip, double volume_l);

}  // namespace drystage::report
