#pragma once

#include <optional>
#include <string>
#include <vector>

#include "answers/base/plan_run.h"

namespace drystage::report {

/// One thing that is loaded, as it is when setting out: what is taken on at the outset is in it.
struct LoadLine {
  engine::Family family{};
  int index = 0;  ///< into its list of the plan: containers, the vehicle's tanks, food, cabinets,
                  ///< banks or chargers; -1: food bought at the outset
  int bay = -1;   ///< index into its vehicle's bays; -1: in none
  std::string name{};
  std::string note{};                 ///< "drinking, opened last", "diesel", "chilled, in chest"
  std::optional<units::Kind> kind{};  ///< of the amount
  std::string unit{};                 ///< the same; empty where there is no amount
  double amount = 0;
  bool full = false;  ///< it holds no more
  double content_kg = 0;
  double empty_kg = 0;  ///< of the container or the thing itself; 0: part of the vehicle's
};

/// What one vehicle carries when setting out, and what it comes to.
struct VehicleLoad {
  int vehicle = -1;  ///< -1: in no vehicle, for the plan has none
  std::vector<LoadLine> lines{};
  std::vector<std::string> people{};
  double vehicle_kg = 0;
  double gear_kg = 0;
  double people_kg = 0;

  // What rests on its axles then; nothing where they are not known.
  std::optional<double> front_kg{};
  std::optional<double> rear_kg{};
  double on_ball_kg = 0;  ///< what a trailer presses on its ball

  /// What the lines in a bay come to.
  [[nodiscard]] double bay_kg(int bay) const;
  /// What the lines come to, and all together.
  [[nodiscard]] double lines_kg() const;
  [[nodiscard]] double total_kg() const;
};

/// Every vehicle's load: all the stores and things of the course that weigh something, so that the
/// engine and this list cannot differ. Levels are those of the engine at the first step. In a
/// vehicle with bays the lines are in the order of these, what is in none last.
std::vector<VehicleLoad> loads_at_outset(const answers::PlanRun& planned);

}  // namespace drystage::report
