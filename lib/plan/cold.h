#pragma once

#include <optional>
#include <string>

#include "plan/loading.h"
#include "plan/mark.h"

namespace drystage::plan {

/// When something applies: always, only while driving, only while not driving, or only in camp:
/// from the day's last arrival until setting out, and on a day of staying.
enum class While { always, driving, parked, camp };

/// The part of a cabinet that holds frozen goods: below a barrier and passively kept, or (with a
/// set point) a freezer that the compressor serves too.
struct FrozenPart {
  double barrier_w_k = 0;
  double wall_share = 0;  ///< share of the wall's heat leak that falls on it
  std::optional<double> set_point_c;
  Mark mark{};
  bool operator==(const FrozenPart&) const = default;
};

/// How a cabinet is used. What is left out, the engine fills in (engine/usual_lid.h).
struct Lid {
  std::optional<double> openings_day{};
  std::optional<double> warm_l_day{};  ///< put in as warm as the surroundings, as litres of water
  bool operator==(const Lid&) const = default;
};

/// A cabinet that is set to this or colder is a freezer as a whole, with goods that stay frozen.
inline constexpr double warmest_freezer_c = -5;

/// A refrigerator, freezer or ice box.
struct Cabinet {
  std::string name;
  double volume_l = 0;
  double mass_kg = 0;       ///< of the cabinet itself; 0: part of the vehicle's
  double set_point_c = 4;   ///< not used by an ice box
  double starts_at_c = 4;   ///< temperature inside at the start (default: set point)
  double rated_draw_w = 0;  ///< maker's mean electrical draw at the rating point
  double rated_ambient_c = 32;
  double rated_inside_c = 4;
  std::optional<double> running_w;      ///< draw while the compressor turns
  std::optional<double> heat_leak_w_k;  ///< own figure; required for an ice box
  std::optional<FrozenPart> frozen;
  std::optional<Lid> lid;
  bool ice_box = false;
  double ice_kg = 0;           ///< of an ice box: what it starts with, and is filled up to
  double above_ambient_k = 0;  ///< hotter than the air where it stands ...
  While above_ambient_while = While::always;  ///< ... and when
  int bank = 0;                               ///< index into Power::banks
  int vehicle = 0;
  Spot spot{};
  Mark mark{};
  bool operator==(const Cabinet&) const = default;
};

/// Whether it is a freezer as a whole.
inline bool is_freezer(const Cabinet& cabinet) {
  return !cabinet.ice_box && !cabinet.frozen && cabinet.set_point_c <= warmest_freezer_c;
}

}  // namespace drystage::plan
