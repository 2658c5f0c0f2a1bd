#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "plan/along.h"
#include "plan/gauge.h"
#include "plan/loading.h"
#include "plan/mark.h"

namespace drystage::plan {

enum class FuelKind { diesel, petrol };

/// Density of a fuel, for the mass of what is carried (common practice: the middle of EN 590, 0.820
/// to 0.845, and EN 228, 0.720 to 0.775; memory).
constexpr double fuel_kg_l(FuelKind fuel) { return fuel == FuelKind::diesel ? 0.835 : 0.745; }

/// What the wheels roll on: each takes more work than the one before, as in the rolling-resistance
/// tables of docs/models.md. Down to `gravel` it is hard ground; `rock` is a rocky track.
enum class Surface {
  sealed,
  worn_sealed,
  packed_gravel,
  gravel,
  loose_gravel,
  track,
  rock,
  sand,
  soft_sand
};
inline constexpr int surface_count = 9;

/// The word of the plan file for a surface: "soft sand".
std::string_view surface_word(Surface surface);

/// What everybody uses in common, unless a vehicle keeps its own.
enum class Stock { water, food };

/// A fuel tank or can. The unusable remainder stays in it for ever.
struct Tank {
  std::string name;
  double holds_l = 0;
  double filled_l = 0;
  double unusable_l = 0;
  double empty_kg = 0;  ///< a can's own mass; a fitted tank's is part of the vehicle
  Spot spot{};
  Gauge gauge{};
  std::vector<int> also_for{};  ///< other vehicles that a can may be poured into
  Mark mark{};
};

/// A tank or can of a vehicle.
struct TankReference {
  int vehicle = 0;  ///< index into Plan::vehicles
  int tank = 0;     ///< index into its tanks
  bool operator==(const TankReference&) const = default;
};

/// Consumption the user measured, idling and all. That of the hardest ground with a speed and a
/// mass calibrates the model, which then gives that figure at that speed and mass; any other is
/// used on its surface as it stands (engine/own_use.h).
struct ObservedUse {
  Surface surface = Surface::sealed;
  double uses_l_km = 0;
  std::optional<double> speed_km_h;
  std::optional<double> mass_kg;  ///< of all that moved: the trailer's too, where there was one
  bool with_trailer = false;      ///< measured with the trailer behind
  Mark mark{};
};

/// What a vehicle tows. Its wheels roll on the same ground.
struct Trailer {
  /// A thing in it that has a place, besides what `mass_kg` has.
  struct Gear {
    std::string name;
    double mass_kg = 0;
    double ahead_m = 0;  ///< of its axle; behind it: negative
    Mark mark{};
  };
  double mass_kg = 0;       ///< loaded, without its `gear`; no part of the vehicle's own mass
  double drag_area_m2 = 0;  ///< what it adds to the vehicle's
  std::optional<double> ball_kg{};     ///< what `mass_kg` presses on the ball with; none: usual
  std::optional<double> coupling_m{};  ///< how far the ball is behind the rear axle
  double drawbar_m = 0;                ///< from its axle to the ball
  std::optional<double> limit_kg{};    ///< the most it may weigh loaded
  std::vector<Gear> gear{};
  Mark mark{};

  /// All of it, kg.
  [[nodiscard]] double loaded_kg() const;
  /// What it presses on the ball with, kg; less than 0 where it lifts.
  [[nodiscard]] double on_ball_kg() const;
};

/// What a trailer presses on the ball with where nothing is said, as a share of its mass (common
/// practice: about a tenth).
inline constexpr double usual_ball_share = 0.1;

/// What a vehicle has against punctures. A repair is a plug, patch or tube: it mends a hole in the
/// tread, and never a cut side wall. A spare wheel is the answer to both.
struct TyreKit {
  int spare_wheels = 0;
  int repairs = 0;           ///< holes that can be mended on the way
  double wheel_kg = 0;       ///< of one spare wheel with its tyre; 0: part of the vehicle's mass
  Spot spot{};               ///< where the spare wheels are
  double beyond_repair = 0;  ///< share of all punctures that no repair mends, 0..1
  /// Punctures of the whole vehicle in 1000 km, by surface: figures of its own.
  std::array<std::optional<double>, surface_count> own_per_1000_km;
};

/// Use of an engine that idles, L/h, where the plan does not say it.
double usual_idle_l_h();

struct Vehicle {
  std::string name;
  FuelKind fuel = FuelKind::diesel;
  double empty_kg = 0;             ///< on the road, without people, fuel, water and food
  double gear_kg = 0;              ///< everything else that is loaded and does not change
  std::optional<double> limit_kg;  ///< legal or rated loaded mass
  std::vector<Tank> tanks;         ///< in order of use
  double drag_area_m2 = 0;
  double engine_efficiency = 0;  ///< 0: the usual one for the fuel (docs/models.md)
  double idle_l_h = 0;           ///< use per engine-hour on top of the work at the wheels
  std::optional<Trailer> trailer;
  std::vector<ObservedUse> observed;
  Along along{};                 ///< for how long it is with the party
  std::optional<TyreKit> tyres;  ///< none: punctures are not judged
  std::vector<Stock> own{};      ///< of this it has its own, for those who ride in it alone
  Chassis chassis{};
  std::vector<Bay> bays{};
  std::vector<Gear> gear{};  ///< besides `gear_kg`
  std::vector<Ticket> tickets{};
  LoadLimits limits{};
  Mark mark{};
};

}  // namespace drystage::plan
