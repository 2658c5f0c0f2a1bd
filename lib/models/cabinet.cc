#include "models/cabinet.h"

#include <algorithm>

#include "models/cabinet_holding.h"
#include "models/cabinet_regime.h"
#include "models/relaxation.h"
#include "models/spoilage.h"

namespace drystage::models {

namespace {

using namespace cabinet_regime;

constexpr double first_nudge_h = 1e-12;
constexpr double short_h = 1e-6;
constexpr int most_pieces = 256;
constexpr double longest_hold_over_h = 87660.0;

/// Walks a cabinet through time, one regime after another.
class Walk {
 public:
  Walk(const Scene& scene, CabinetState& state) : scene_(scene), state_(state) {
    flows_.max_chilled_c = state.chilled_c;
  }

  /// Goes on for `dt_h`, or until the chilled node reaches the limit; returns the hours gone.
  double go(double dt_h) {
    double nudge_h = first_nudge_h;
    for (int piece = 1; elapsed_h_ < dt_h && !reached_limit_; ++piece) {
      drain();
      const Piece now = choose_piece(scene_, state_);
      const double left_h = dt_h - elapsed_h_;
      Next next;
      if (piece < most_pieces) {
        next = next_happening(scene_, state_, now, left_h);
        if (next.at_h < short_h && !changes_anything(next.what)) {
          // There already, to rounding: go a moment on, so that the regime to follow shows; a
          // longer one each time, so that it does even where everything moves slowly.
          next = {.at_h = std::max(next.at_h, nudge_h), .what = Happening::nothing};
          nudge_h *= 2.0;
        }
      }
      const bool to_thaw = kj_kg_to_thaw() > 0.0;
      pass(now, std::min(next.at_h, left_h));
      elapsed_h_ = next.at_h < left_h ? elapsed_h_ + next.at_h : dt_h;
      if (next.at_h <= left_h) {
        settle(next.what);
      }
      if (to_thaw && kj_kg_to_thaw() <= 0.0 && flows_.hour_thawed < 0.0) {
        flows_.hour_thawed = elapsed_h_;
      }
    }
    drain();
    return elapsed_h_;
  }

  [[nodiscard]] const CabinetFlows& flows() const { return flows_; }
  [[nodiscard]] bool reached_limit() const { return reached_limit_; }

 private:
  /// How far the slab is from all thawed; 0 or less when it is, or there is none.
  [[nodiscard]] double kj_kg_to_thaw() const {
    return has_slab(scene_.kind, scene_.food, state_.slab_kg)
               ? scene_.thawed_end_kj_kg - state_.slab_kj_kg
               : 0.0;
  }

  /// In an ice box, lets out the water. It leaves at 0 °C, where its enthalpy is nothing.
  void drain() {
    if (scene_.kind != CabinetKind::ice_box ||
        !has_slab(scene_.kind, scene_.food, state_.slab_kg) ||
        state_.slab_kj_kg <= scene_.frozen_end_kj_kg) {
      return;
    }
    const bool all = state_.slab_kj_kg >= scene_.thawed_end_kj_kg;
    const double water_kg =
        all ? state_.slab_kg : state_.slab_kg * thawed_fraction(scene_.food, state_.slab_kj_kg);
    flows_.melted_kg += water_kg;
    state_.slab_kg = all ? 0.0 : state_.slab_kg - water_kg;
    state_.slab_kj_kg = scene_.frozen_end_kj_kg;
  }

  /// Moves the state and the account on by t hours of this regime.
  void pass(const Piece& now, double t) {
    Approaches after(t);
    Relaxation::Moved chilled;
    Relaxation::Moved slab;
    if (now.chilled != Chilled::holding) {
      chilled = now.chilled_c.moved(after);
      const Reach span = reach(now.chilled_c, after);
      flows_.max_chilled_c = std::max(flows_.max_chilled_c, span.high);
      flows_.hours_above_5c += hours_above(now.chilled_c, span, warm_c, t);
      flows_.hours_above_32c += hours_above(now.chilled_c, span, great_heat_c, t);
      state_.chilled_c = now.chilled_c.start + chilled.by;
    } else if (state_.chilled_c > warm_c) {
      flows_.hours_above_5c += t;
      flows_.hours_above_32c += state_.chilled_c > great_heat_c ? t : 0.0;
    }
    if (now.slab == Slab::frozen || now.slab == Slab::thawed) {
      slab = now.slab_c.moved(after);
      state_.slab_kj_kg += slab.by * now.slab_kj_per_k / state_.slab_kg;
    } else if (now.slab == Slab::melting) {
      state_.slab_kj_kg = scene_.frozen_end_kj_kg + now.melt_kj.at(after) / state_.slab_kg;
    }
    flows_.leak_in_kj +=
        now.chilled_wall * ((scene_.ambient_c - now.chilled_c.start) * t - chilled.swept) +
        now.slab_wall * ((scene_.ambient_c - now.slab_c.start) * t - slab.swept);
    if (scene_.running) {
      account_for_pump(now, t, chilled.swept, slab.swept);
    }
  }

  static double hours_above(const Relaxation& q, const Reach& span, double limit_c, double t) {
    if (span.high <= limit_c) {
      return 0.0;
    }
    return span.low > limit_c ? t : time_above(q, limit_c, t);
  }

  void account_for_pump(const Piece& now, double t, double chilled_swept, double slab_swept) {
    const double chilled_kj = now.from_chilled * t + now.from_chilled_per_slab_k * slab_swept;
    double on_h = chilled_kj / scene_.can_chilled;
    flows_.pumped_kj += chilled_kj;
    if (scene_.slab_has_thermostat) {
      const double slab_kj = now.from_slab * t + now.from_slab_per_slab_k * slab_swept +
                             now.from_slab_per_chilled_k * chilled_swept;
      on_h += slab_kj / scene_.can_slab;
      flows_.pumped_kj += slab_kj;
    }
    flows_.compressor_on_h += on_h;
    flows_.electric_wh += on_h * scene_.running_w;
  }

  /// Whether settle(what) would move the state.
  [[nodiscard]] bool changes_anything(Happening what) const {
    const double chilled_c = state_.chilled_c;
    const double slab_kj_kg = state_.slab_kj_kg;
    switch (what) {
      case Happening::chilled_at_set_point:
        return chilled_c != scene_.set_point_c;
      case Happening::slab_begins_to_melt:
      case Happening::slab_frozen:
        return slab_kj_kg != scene_.frozen_end_kj_kg;
      case Happening::slab_begins_to_freeze:
      case Happening::slab_thawed:
        return slab_kj_kg != scene_.thawed_end_kj_kg;
      case Happening::slab_at_set_point:
        return slab_kj_kg != scene_.slab_set_kj_kg;
      case Happening::chilled_at_limit:
        return true;
      case Happening::nothing:
      case Happening::balance_tips:
        break;
    }
    return false;
  }

  /// Puts the state exactly on the border it has come to.
  void settle(Happening what) {
    switch (what) {
      case Happening::chilled_at_set_point:
        state_.chilled_c = scene_.set_point_c;
        break;
      case Happening::slab_begins_to_melt:
      case Happening::slab_frozen:
        state_.slab_kj_kg = scene_.frozen_end_kj_kg;
        break;
      case Happening::slab_begins_to_freeze:
      case Happening::slab_thawed:
        state_.slab_kj_kg = scene_.thawed_end_kj_kg;
        break;
      case Happening::slab_at_set_point:
        state_.slab_kj_kg = scene_.slab_set_kj_kg;
        break;
      case Happening::chilled_at_limit:
        reached_limit_ = true;
        break;
      case Happening::nothing:
      case Happening::balance_tips:
        break;
    }
  }

  const Scene& scene_;
  CabinetState& state_;
  CabinetFlows flows_;
  double elapsed_h_ = 0.0;
  bool reached_limit_ = false;
};

}  // namespace

double cabinet_enthalpy_kj(const CabinetParams& params, const CabinetState& state) {
  double sum = chilled_capacity(state) * state.chilled_c;
  if (has_slab(params.kind, slab_food(params), state.slab_kg)) {
    sum += state.slab_kg * state.slab_kj_kg;
  }
  return sum;
}

CabinetFlows cabinet_regime::walk_cabinet(const CabinetParams& params, CabinetState& state,
                                          double ambient_c, double dt_h,
                                          bool compressor_available) {
  const Scene scene = set_scene(params, state, ambient_c, compressor_available);
  Walk walk(scene, state);
  walk.go(dt_h);
  return walk.flows();
}

CabinetFlows step_cabinet(const CabinetParams& params, CabinetState& state, double ambient_c,
                          double dt_h, bool compressor_available) {
  CabinetFlows flows;
  if (compressor_available && step_holding(params, state, ambient_c, dt_h, flows)) return flows;
  return cabinet_regime::walk_cabinet(params, state, ambient_c, dt_h, compressor_available);
}

double hold_over_h(const CabinetParams& params, const CabinetState& state, double ambient_c,
                   double limit_c) {
  if (state.chilled_c > limit_c) {
    return 0.0;
  }
  CabinetState later = state;
  Scene scene = set_scene(params, later, ambient_c, false);
  scene.limit_c = limit_c;
  Walk walk(scene, later);
  const double gone_h = walk.go(longest_hold_over_h);
  return walk.reached_limit() ? gone_h : never;
}

SteadyDuty steady_cabinet(const CabinetParams& params, double ambient_c) {
  const double wall = std::max(params.leak_w_per_k, 0.0);
  const double lid = std::max(params.lid_w_per_k, 0.0);
  const double warm_by_k = ambient_c - params.set_point_c;
  if (params.kind == CabinetKind::ice_box || params.compressor.running_w <= 0.0) {
    return {.duty = 0.0, .mean_w = 0.0, .holds = (wall + lid) * warm_by_k <= 0.0};
  }
  if (params.kind != CabinetKind::freezer) {
    return steady_duty(params.compressor, (wall + lid) * warm_by_k, ambient_c, params.set_point_c);
  }
  const double slab_wall = wall * std::clamp(params.slab_share, 0.0, 1.0);
  const double chilled_wall = wall - slab_wall + lid;
  const double barrier = std::max(params.barrier_w_per_k, 0.0);
  const double frozen_c = params.frozen_set_point_c;
  double chilled_c = params.set_point_c;
  double chilled_load_w = chilled_wall * warm_by_k + barrier * (frozen_c - chilled_c);
  if (chilled_load_w < 0.0) {
    chilled_c = (chilled_wall * ambient_c + barrier * frozen_c) / (chilled_wall + barrier);
    chilled_load_w = 0.0;
  }
  const double slab_load_w = slab_wall * (ambient_c - frozen_c) + barrier * (chilled_c - frozen_c);
  // The same capacities as in the step.
  const double can_chilled_w = cooling_capacity_w(params.compressor, ambient_c, params.set_point_c);
  const double can_slab_w =
      std::min(can_chilled_w, cooling_capacity_w(params.compressor, ambient_c, frozen_c));
  const double duty = chilled_load_w / can_chilled_w + std::max(slab_load_w, 0.0) / can_slab_w;
  return {.duty = std::min(duty, 1.0),
          .mean_w = std::min(duty, 1.0) * params.compressor.running_w,
          .holds = duty <= 1.0};
}

}  // namespace drystage::models
