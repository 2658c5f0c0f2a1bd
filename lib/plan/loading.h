#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/mark.h"

namespace drystage::plan {

/// Where something lies in its vehicle, as far as the plan says it. What it leaves out is the
/// bay's; without a bay it is not known.
struct Spot {
  std::optional<int> bay{};          ///< index into Vehicle::bays of the vehicle that carries it
  std::optional<double> at_m{};      ///< behind the front axle; ahead of it: negative
  std::optional<double> height_m{};  ///< above the ground
  std::optional<double> right_m{};   ///< of the middle; left of it: negative
  bool operator==(const Spot&) const = default;
};

/// A named place in a vehicle: a tray, a roof rack, a seat.
struct Bay {
  std::string name;
  double at_m = 0;
  std::optional<double> height_m{};
  double right_m = 0;
  std::optional<double> limit_kg{};
  bool on_roof = false;
  Mark mark{};
};

/// A thing that is loaded, does not change, and has a place.
struct Gear {
  std::string name;
  double mass_kg = 0;
  bool needed = false;  ///< it is never left at home
  Spot spot{};
  Mark mark{};
};

/// What spare wheels are called where something names them.
inline constexpr const char* spare_wheels_name = "spare wheels";

/// What a weighbridge said: both axles, and what was in the vehicle then.
struct Ticket {
  struct With {
    std::string name;
    double kg = 0;
    Spot spot{};
  };
  double front_kg = 0;
  double rear_kg = 0;
  std::vector<With> with{};
  bool towing = false;  ///< the trailer was on the ball, and not on the scale
  Mark mark{};
};

/// The lengths and wheels that an axle load depends on.
struct Chassis {
  std::optional<double> wheelbase_m{};
  double front_overhang_m = 0;  ///< how far it reaches ahead of the front axle
  double rear_overhang_m = 0;   ///< ... and behind the rear axle
  std::optional<double> track_m{};
  int wheels = 4;                           ///< 2: a motorcycle; 6: twin wheels behind
  std::optional<double> centre_height_m{};  ///< of the empty vehicle's centre of gravity
};

/// What may rest where, besides the vehicle's whole mass: none where nothing is said.
struct LoadLimits {
  std::optional<double> front_kg{};
  std::optional<double> rear_kg{};
  std::optional<double> wheel_kg{};  ///< each wheel
  std::optional<int> load_index{};   ///< of each tyre: limits a wheel too
  std::optional<double> roof_kg{};
  std::optional<double> ball_kg{};
  std::optional<double> combination_kg{};  ///< with the trailer
};

}  // namespace drystage::plan
