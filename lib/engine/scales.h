#pragma once

#include <string>
#include <vector>

#include "engine/scale.h"
#include "plan/plan.h"

namespace drystage::engine {

struct CourseBase;

/// Something that a vehicle carries: what of it has no level, and the store that has.
struct Carried {
  enum class Sort { store, thing, person, gear };
  std::string name;
  Sort sort = Sort::thing;
  int index = -1;  ///< into the course's stores or things, or the plan's people
  plan::Spot spot{};
  double own_kg = 0;         ///< without contents
  double kg_per_level = 0;   ///< of its store
  std::vector<char> here{};  ///< by company: it is in the vehicle; its content is 0 elsewhere
  bool leavable = false;     ///< it may stay at home
  bool is_fuel = false;      ///< it goes only where fuel is carried
  bool movable = false;      ///< somebody can lift it and put it elsewhere

  [[nodiscard]] bool is_placed() const { return spot.bay || spot.at_m; }
};

/// All that a vehicle of a course carries besides its empty mass, in the order of the course: the
/// sum of it with the empty mass is what the engine weighs.
std::vector<Carried> carried_in(const plan::Plan& plan, const CourseBase& course, int vehicle);

/// Whether somebody sits in a bay of a vehicle, by the plan.
bool is_seat(const plan::Plan& plan, int vehicle, int bay);

/// What a scale takes of a thing, as a share of its mass.
double share_of(const plan::Vehicle& vehicle, const Scale& scale, const plan::Spot& spot);

/// The scales of all vehicles: first the totals, in the order of the plan; then vehicle by vehicle
/// those that are limited, or all that are known.
std::vector<Scale> scales_of(const plan::Plan& plan, const CourseBase& course, bool all);

/// What the scale is of: "front axle", "roof", "bay tray", "trailer"; empty for the total.
std::string scale_name(const plan::Plan& plan, const Scale& scale);

}  // namespace drystage::engine
