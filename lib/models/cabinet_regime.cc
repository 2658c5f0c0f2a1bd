#include "models/cabinet_regime.h"

#include <algorithm>
#include <cmath>

namespace drystage::models::cabinet_regime {

namespace {

constexpr double kj_per_wh = 3.6;
constexpr double least_chilled_kj_per_k = 0.1;
constexpr double least_slab_kg = 1e-10;
constexpr double least_conductance = 1e-12;

/// A conductance in kJ/(h K).
double hourly(double w_per_k) {
  const double conductance = kj_per_wh * w_per_k;
  return conductance > least_conductance ? conductance : 0.0;
}

void choose_chilled(const Scene& scene, const CabinetState& state, Piece& now, double load) {
  if (!scene.running || state.chilled_c < scene.set_point_c) {
    now.chilled = Chilled::off;
  } else if (state.chilled_c > scene.set_point_c || load > scene.can_chilled) {
    now.chilled = Chilled::full;
    now.from_chilled = scene.can_chilled;
  } else if (load >= 0.0) {
    now.chilled = Chilled::holding;
    now.from_chilled = load;
    now.from_chilled_per_slab_k = now.between;
  }
}

/// Gives the slab what compressor time the chilled part leaves over, if its thermostat asks.
void serve_slab(const Scene& scene, const CabinetState& state, Piece& now, double gain) {
  if (!scene.slab_has_thermostat || now.chilled == Chilled::full ||
      state.slab_kj_kg < scene.slab_set_kj_kg) {
    return;
  }
  const bool shared = now.chilled == Chilled::holding;
  const double ratio = scene.can_slab / scene.can_chilled;
  const double room = shared ? scene.can_slab - ratio * now.from_chilled : scene.can_slab;
  if (state.slab_kj_kg == scene.slab_set_kj_kg && gain <= room) {
    if (gain >= 0.0) {
      now.slab = Slab::held;
      now.from_slab = gain;
      now.from_slab_per_chilled_k = now.between;
    }
    return;
  }
  now.slab_served = true;
  now.from_slab = room;
  now.from_slab_per_slab_k = shared ? -ratio * now.between : 0.0;
}

/// Which side of its melting the slab is on, and on the border, which way it is going.
void choose_slab(const Scene& scene, const CabinetState& state, Piece& now, double flow) {
  const double h = state.slab_kj_kg;
  if (h < scene.frozen_end_kj_kg || (h == scene.frozen_end_kj_kg && flow <= 0.0)) {
    now.slab = Slab::frozen;
  } else if (h > scene.thawed_end_kj_kg || (h == scene.thawed_end_kj_kg && flow >= 0.0) ||
             scene.food.latent_kj_kg <= 0.0) {
    now.slab = Slab::thawed;
  } else {
    now.slab = Slab::melting;
  }
}

/// Both nodes moving and exchanging heat. The rates matrix has real eigenvalues (it is similar to
/// a symmetric one); written so that nothing cancels, whatever the sizes.
void set_both_going(Piece& now, double chilled_capacity, double chilled_speed, double slab_speed) {
  const double a11 = (now.chilled_wall + now.between) / chilled_capacity;
  const double a22 = (now.slab_wall + now.between) / now.slab_kj_per_k;
  const double a12 = now.between / chilled_capacity;
  const double a21 = now.between / now.slab_kj_per_k;
  const double half = 0.5 * (a11 - a22);
  const double spread = std::sqrt(half * half + a12 * a21);
  const double fast = 0.5 * (a11 + a22) + spread;
  const double determinant =
      (now.chilled_wall * now.slab_wall + now.between * (now.chilled_wall + now.slab_wall)) /
      (chilled_capacity * now.slab_kj_per_k);
  const double slow = determinant / fast;
  const double large = 1.0 + std::abs(half) / spread;
  const double small = (a12 / spread) * (a21 / (spread + std::abs(half)));
  const double chilled_slow = half >= 0.0 ? small : large;
  const double chilled_fast = half >= 0.0 ? large : small;
  const double to_chilled = a12 / spread * slab_speed;
  const double to_slab = a21 / spread * chilled_speed;
  now.chilled_c.k1 = slow;
  now.chilled_c.k2 = fast;
  now.chilled_c.speed1 = 0.5 * (chilled_slow * chilled_speed + to_chilled);
  now.chilled_c.speed2 = 0.5 * (chilled_fast * chilled_speed - to_chilled);
  now.slab_c.k1 = slow;
  now.slab_c.k2 = fast;
  now.slab_c.speed1 = 0.5 * (chilled_fast * slab_speed + to_slab);
  now.slab_c.speed2 = 0.5 * (chilled_slow * slab_speed - to_slab);
}

void set_slab_going(const Scene& scene, const CabinetState& state, Piece& now, double chilled_speed,
                    double flow) {
  const bool chilled_moves = now.chilled != Chilled::holding;
  if (now.slab == Slab::melting || now.slab == Slab::held) {
    if (chilled_moves) {
      now.chilled_c.speed1 = chilled_speed;
      now.chilled_c.k1 = (now.chilled_wall + now.between) / scene.chilled_kj_per_k;
    }
    now.melt_kj.start = state.slab_kg * (state.slab_kj_kg - scene.frozen_end_kj_kg);
    now.melt_kj.slope = flow;
    now.melt_kj.k1 = now.chilled_c.k1;
    now.melt_kj.bend = now.between * now.chilled_c.speed1;
    return;
  }
  now.slab_kj_per_k = state.slab_kg * (now.slab == Slab::thawed ? scene.food.above_kj_kg_k
                                                                : scene.food.below_kj_kg_k);
  const double slab_speed = flow / now.slab_kj_per_k;
  if (!chilled_moves) {
    now.slab_c.speed1 = slab_speed;
    now.slab_c.k1 = (now.slab_wall + now.between + now.from_slab_per_slab_k) / now.slab_kj_per_k;
  } else if (now.between == 0.0) {
    now.chilled_c.speed1 = chilled_speed;
    now.chilled_c.k1 = now.chilled_wall / scene.chilled_kj_per_k;
    now.slab_c.speed1 = slab_speed;
    now.slab_c.k1 = now.slab_wall / now.slab_kj_per_k;
  } else {
    set_both_going(now, scene.chilled_kj_per_k, chilled_speed, slab_speed);
  }
}

}  // namespace

FoodThermal slab_food(const CabinetParams& params) {
  return params.kind == CabinetKind::ice_box ? ice_thermal() : params.slab;
}

bool has_slab(CabinetKind kind, const FoodThermal& food, double slab_kg) {
  return kind != CabinetKind::single && slab_kg > least_slab_kg && food.above_kj_kg_k > 0.0 &&
         food.below_kj_kg_k > 0.0;
}

double chilled_capacity(const CabinetState& state) {
  return std::max(state.chilled_kj_per_k, least_chilled_kj_per_k);
}

Scene set_scene(const CabinetParams& params, const CabinetState& state, double ambient_c,
                bool available) {
  Scene scene;
  scene.kind = params.kind;
  scene.food = slab_food(params);
  scene.ambient_c = ambient_c;
  scene.chilled_kj_per_k = chilled_capacity(state);
  scene.frozen_end_kj_kg = frozen_end_kj_kg(scene.food);
  scene.thawed_end_kj_kg = thawed_end_kj_kg(scene.food);
  scene.wall = hourly(params.leak_w_per_k);
  scene.lid = hourly(params.lid_w_per_k);
  scene.barrier = hourly(params.barrier_w_per_k);
  scene.slab_share = std::clamp(params.slab_share, 0.0, 1.0);
  scene.set_point_c = params.set_point_c;
  if (!available || params.kind == CabinetKind::ice_box) {
    return scene;
  }
  const Compressor& compressor = params.compressor;
  scene.running_w = compressor.running_w;
  scene.can_chilled = kj_per_wh * cooling_capacity_w(compressor, ambient_c, params.set_point_c);
  scene.running = scene.can_chilled > 0.0;
  if (scene.running && params.kind == CabinetKind::freezer) {
    scene.slab_set_c = params.frozen_set_point_c;
    scene.slab_set_kj_kg = food_enthalpy_kj_kg(scene.food, scene.slab_set_c);
    // Never more than at the chilled set point, so that the two nodes always settle.
    scene.can_slab = std::min(
        scene.can_chilled, kj_per_wh * cooling_capacity_w(compressor, ambient_c, scene.slab_set_c));
    scene.slab_has_thermostat = scene.can_slab > 0.0;
  }
  return scene;
}

Piece choose_piece(const Scene& scene, const CabinetState& state) {
  Piece now;
  const bool slab = has_slab(scene.kind, scene.food, state.slab_kg);
  now.chilled_c.start = state.chilled_c;
  if (slab) {
    now.slab_c.start = food_temperature_c(scene.food, state.slab_kj_kg);
    now.between = scene.barrier;
    // The evaporator stands between the slab and the wall while the compressor is to be had.
    if (!(scene.running && scene.kind == CabinetKind::frozen_below)) {
      now.slab_wall = scene.wall * scene.slab_share;
    }
  }
  now.chilled_wall = scene.wall - now.slab_wall + scene.lid;
  const double load = now.chilled_wall * (scene.ambient_c - state.chilled_c) +
                      now.between * (now.slab_c.start - state.chilled_c);
  choose_chilled(scene, state, now, load);
  const double chilled_speed = (load - now.from_chilled) / scene.chilled_kj_per_k;
  if (!slab) {
    if (now.chilled != Chilled::holding) {
      now.chilled_c.speed1 = chilled_speed;
      now.chilled_c.k1 = now.chilled_wall / scene.chilled_kj_per_k;
    }
    return now;
  }
  const double gain = now.slab_wall * (scene.ambient_c - now.slab_c.start) +
                      now.between * (state.chilled_c - now.slab_c.start);
  serve_slab(scene, state, now, gain);
  if (now.slab != Slab::held) {
    choose_slab(scene, state, now, gain - now.from_slab);
  }
  set_slab_going(scene, state, now, chilled_speed, gain - now.from_slab);
  return now;
}

}  // namespace drystage::models::cabinet_regime
