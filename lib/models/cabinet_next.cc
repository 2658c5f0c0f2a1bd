#include "models/cabinet_regime.h"

namespace drystage::models::cabinet_regime {

namespace {

void sooner(Next& next, double at_h, Happening what) {
  if (at_h < next.at_h) {
    next = {.at_h = at_h, .what = what};
  }
}

void tips_outside(const Relaxation& q, const Reach& span, double low, double high, double end,
                  Next& next) {
  if (span.low <= low) {
    sooner(next, first_at_or_below(q, low, end), Happening::balance_tips);
  }
  if (span.high >= high) {
    sooner(next, first_at_or_above(q, high, end), Happening::balance_tips);
  }
}

void look_at_chilled(const Scene& scene, const CabinetState& state, const Piece& now, double end,
                     Next& next) {
  const Relaxation& q = now.chilled_c;
  const Reach span = outer_reach(q, end);
  if (now.chilled == Chilled::full && span.low <= scene.set_point_c) {
    sooner(next, first_at_or_below(q, scene.set_point_c, end), Happening::chilled_at_set_point);
  } else if (scene.running && now.chilled == Chilled::off && span.high >= scene.set_point_c) {
    sooner(next, first_at_or_above(q, scene.set_point_c, end), Happening::chilled_at_set_point);
  }
  if (span.high >= scene.limit_c) {
    sooner(next, first_at_or_above(q, scene.limit_c, end), Happening::chilled_at_limit);
  }
  if (now.slab == Slab::held && now.between > 0.0) {
    // The slab is held as long as the heat coming in lies between nothing and what can be pumped.
    const double none_c = state.chilled_c - now.from_slab / now.between;
    tips_outside(q, span, none_c, none_c + scene.can_slab / now.between, end, next);
  }
}

void look_at_slab(const Scene& scene, const Piece& now, double end, Next& next) {
  const Relaxation& q = now.slab_c;
  const Reach span = outer_reach(q, end);
  if (now.slab == Slab::frozen && span.high >= scene.food.freezing_c) {
    sooner(next, first_at_or_above(q, scene.food.freezing_c, end), Happening::slab_begins_to_melt);
  } else if (now.slab == Slab::thawed && span.low <= scene.food.freezing_c) {
    sooner(next, first_at_or_below(q, scene.food.freezing_c, end),
           Happening::slab_begins_to_freeze);
  }
  if (scene.slab_has_thermostat) {
    const double set_c = scene.slab_set_c;
    if (now.slab_served && span.low <= set_c) {
      sooner(next, first_at_or_below(q, set_c, end), Happening::slab_at_set_point);
    } else if (!now.slab_served && now.chilled != Chilled::full && span.high >= set_c) {
      sooner(next, first_at_or_above(q, set_c, end), Happening::slab_at_set_point);
    }
  }
  if (now.chilled == Chilled::holding && now.between > 0.0) {
    const double none_c = now.slab_c.start - now.from_chilled / now.between;
    tips_outside(q, span, none_c, none_c + scene.can_chilled / now.between, end, next);
  }
}

void look_at_melting(const Scene& scene, const CabinetState& state, const Piece& now, double end,
                     Next& next) {
  const Relaxation& q = now.melt_kj;
  const Reach span = outer_reach(q, end);
  const double whole_kj = state.slab_kg * scene.food.latent_kj_kg;
  if (span.high >= whole_kj) {
    sooner(next, first_at_or_above(q, whole_kj, end), Happening::slab_thawed);
  }
  if (scene.kind == CabinetKind::ice_box) {
    // Water that has run off cannot freeze again: the ice cools as soon as it stops melting.
    const double turn = q.turn();
    if (turn < end && q.slope > 0.0) {
      sooner(next, turn, Happening::balance_tips);
    }
  } else if (span.low <= 0.0) {
    sooner(next, first_at_or_below(q, 0.0, end), Happening::slab_frozen);
  }
}

}  // namespace

Next next_happening(const Scene& scene, const CabinetState& state, const Piece& now, double end_h) {
  Next next;
  if (now.chilled != Chilled::holding) {
    look_at_chilled(scene, state, now, end_h, next);
  }
  if (now.slab == Slab::frozen || now.slab == Slab::thawed) {
    look_at_slab(scene, now, end_h, next);
  } else if (now.slab == Slab::melting) {
    look_at_melting(scene, state, now, end_h, next);
  }
  return next;
}

}  // namespace drystage::models::cabinet_regime
