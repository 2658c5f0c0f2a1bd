#pragma once

#include "models/cabinet_types.h"
#include "models/relaxation.h"

/// The inside of step_cabinet: which regime a cabinet is in, its closed form, and what ends it.
/// Heats are in kJ/h, conductances in kJ/(h K).
namespace drystage::models::cabinet_regime {

inline constexpr double warm_c =
    5.0;  ///< Above it chilled food does not keep as long as it is said to.

/// What stays the same for a whole step.
struct Scene {
  CabinetKind kind = CabinetKind::single;
  FoodThermal food;
  double ambient_c = 0.0;
  double limit_c = never;         ///< The walk ends when the chilled node reaches it.
  double chilled_kj_per_k = 0.0;  ///< Heat capacity of the chilled node.
  double frozen_end_kj_kg = 0.0;
  double thawed_end_kj_kg = 0.0;
  double wall = 0.0;
  double lid = 0.0;  ///< Into the chilled node alone.
  double barrier = 0.0;
  double slab_share = 0.0;
  double set_point_c = 0.0;
  bool running = false;  ///< A compressor is to be had.
  double running_w = 0.0;
  double can_chilled = 0.0;  ///< The most it takes out of the chilled node ...
  bool slab_has_thermostat = false;
  double slab_set_c = 0.0;
  double slab_set_kj_kg = 0.0;
  double can_slab = 0.0;  ///< ... and out of the slab.
};

enum class Chilled { off, holding, full };
enum class Slab { none, frozen, melting, thawed, held };

/// One stretch of time in one regime.
struct Piece {
  Chilled chilled = Chilled::off;
  Slab slab = Slab::none;
  bool slab_served = false;
  double between = 0.0;  ///< Conductances as they act in this piece.
  double slab_wall = 0.0;
  double chilled_wall = 0.0;
  double slab_kj_per_k = 0.0;
  Relaxation chilled_c;  ///< Moves unless holding.
  Relaxation slab_c;     ///< Moves when frozen or thawed.
  Relaxation melt_kj;    ///< Moves when melting: heat above the frozen end.
  // Heat pumped: a steady part, and so much more per kelvin the slab or the chilled node has risen.
  double from_chilled = 0.0;
  double from_chilled_per_slab_k = 0.0;
  double from_slab = 0.0;
  double from_slab_per_slab_k = 0.0;
  double from_slab_per_chilled_k = 0.0;
};

enum class Happening {
  nothing,
  chilled_at_set_point,
  chilled_at_limit,
  slab_begins_to_melt,
  slab_begins_to_freeze,
  slab_thawed,
  slab_frozen,
  slab_at_set_point,
  balance_tips,  ///< A load passes what the compressor can do, or changes sign.
};

/// The first thing to end a piece, and the hours until then.
struct Next {
  double at_h = never;
  Happening what = Happening::nothing;
};

[[nodiscard]] FoodThermal slab_food(const CabinetParams& params);
[[nodiscard]] bool has_slab(CabinetKind kind, const FoodThermal& food, double slab_kg);
[[nodiscard]] double chilled_capacity(const CabinetState& state);

[[nodiscard]] Scene set_scene(const CabinetParams& params, const CabinetState& state,
                              double ambient_c, bool available);
[[nodiscard]] Piece choose_piece(const Scene& scene, const CabinetState& state);
/// Looks `end_h` hours ahead at most.
[[nodiscard]] Next next_happening(const Scene& scene, const CabinetState& state, const Piece& now,
                                  double end_h);

/// Moves a cabinet on through whatever regimes come; what step_cabinet promises.
CabinetFlows walk_cabinet(const CabinetParams& params, CabinetState& state, double ambient_c,
                          double dt_h, bool compressor_available);

}  // namespace drystage::models::cabinet_regime
