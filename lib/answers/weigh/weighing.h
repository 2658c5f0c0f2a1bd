#pragma once

#include <optional>
#include <string>
#include <vector>

#include "answers/weigh/loads.h"
#include "answers/weigh/moves.h"

namespace drystage::answers {

/// What a scale shows on one day, or over the trip.
struct Weighed {
  bool there = false;  ///< of a trailer: it is behind at some time
  double most_kg = 0;
  double least_kg = 0;
  double end_kg = 0;  ///< at the end of the day
  int most_day = 0;   ///< 0-based
  int least_day = 0;
};

/// Where a vehicle's own mass has its centre, at one moment.
struct Centre {
  double behind_m = 0;               ///< the front axle
  std::optional<double> height_m{};  ///< above the ground, where that of the empty vehicle is said
  double right_m = 0;
  double front = 0;  ///< what of all that stands on its wheels is on the front axle, as a share
  std::optional<double> roll_deg{};  ///< static roll angle, where height and track are known
};

/// A vehicle on one day; nothing where it does not drive along.
struct VehicleDay {
  std::vector<Weighed> scales;  ///< by Weighing::scales that are this vehicle's, in order
  std::optional<Centre> full;   ///< where the axles are known
  std::optional<Centre> light;
};

/// How one vehicle fares.
struct VehicleWeighing {
  std::vector<std::size_t> scales;  ///< indices into Weighing::scales; the first is the whole
  std::vector<std::optional<VehicleDay>> days;
  std::vector<Weighed> trip;   ///< by `scales`: over all days that are not past
  std::optional<Centre> full;  ///< at the trip's heaviest and lightest
  std::optional<Centre> light;
  std::vector<std::string> unplaced;  ///< things without a place, halfway between the axles
  double unplaced_kg = 0;
  std::vector<std::string> without_height;
  /// By bay: what could be added there on the whole trip, within all limits; infinite where
  /// nothing limits it.
  std::vector<double> room_kg;
  std::vector<int> room_by;  ///< the scale that limits it: index into Weighing::scales; -1: none
};

/// A limit that is passed.
struct Overload {
  int day = 0;  ///< the first, 0-based
  double hour = 0;
  std::size_t scale = 0;
  double kg = 0;        ///< by how much, at the worst of the trip
  std::string most{};   ///< the thing that has most on this scale then ...
  double most_kg = 0;   ///< ... how much of it ...
  double thing_kg = 0;  ///< ... and what the thing weighs
};

/// What everything weighs, on which axle, on which day.
struct Weighing {
  std::vector<engine::Scale> scales;  ///< all that are known
  std::vector<VehicleWeighing> vehicles;
  std::vector<Overload> over;  ///< in the order of time
  std::vector<Moves> moves;    ///< by vehicle; what they refer to is in `scales`
};

/// Follows the engine's own levels hour by hour.
Weighing weigh(const PlanRun& planned);

}  // namespace drystage::answers
