#pragma once

#include <optional>
#include <vector>

#include "answers/base/plan_run.h"
#include "answers/mishaps/finding.h"

namespace drystage::answers {

/// Named days from a day of the trip (0-based) on, with nothing said of their weather yet.
plan::NamedDays days_from(int day, int days, const plan::Plan& plan);

/// The days of a spell that begins on a day of the trip (0-based).
plan::NamedDays spell_from(plan::Spell spell, int day, const plan::Plan& plan);

/// What one spell does where it hurts most.
struct SpellFinding {
  plan::Spell spell{};
  int first_day = 0;  ///< on which it begins, 0-based
  int last_day = 0;   ///< of the spell, or of the trip
  // Its size, over these days and the climates met on them:
  double least_hotter_k = 0;
  double most_hotter_k = 0;
  double least_sun = 1;  ///< over the usual
  double most_sun = 1;
  bool usual_spread = false;  ///< the plan gives no spread for some of them
  // What comes of it. Whatever is no worse than in the plan itself is not the spell's doing.
  Outcome outcome = Outcome::holds;
  int reserve = -1;     ///< the one that fares worst; where all hold, that which the spell is about
  int load = -1;        ///< never to be shed, and there is no charge for it
  double stood_in = 0;  ///< utility water drunk, where the drinking containers run empty
  int day = 0;          ///< of the outcome: when it runs out; else when the reserve is lowest
  double hour = 0;      ///< where it runs out
  double lowest = 0;    ///< worst level of the reserve from the spell's beginning on
  double short_of = 0;  ///< wanted and not there
  bool lowers = false;  ///< that level is worse than the plan's own
  /// Of a plan that does not hold: the verdict of the plan run in this spell (see in_spell).
  std::optional<Verdict> verdict{};

  /// Whether drinking water, fuel or a load that is never shed runs out. Drinking water has run out
  /// where utility water must be drunk.
  [[nodiscard]] bool breaks() const {
    return load >= 0 || stood_in > 0 || outcome == Outcome::runs_out_vital;
  }
};

/// A hot and a dull spell, each where it hurts most.
struct Spells {
  std::vector<SpellFinding> found;  ///< hot, then dull
  int every_days = 1;               ///< spells were tried from every so manieth day on, and from
                                    ///< all days about the worst of these

  /// Whether one of them breaks what life depends on.
  [[nodiscard]] bool break_something() const;
  [[nodiscard]] const SpellFinding* of(plan::Spell spell) const;
};

/// Runs the plan through a hot and through a dull spell (engine/spell.h) that begins on any day of
/// the trip. People take at stops what they take in mishaps (see `sweep_mishaps`). In long trips
/// only some days are tried.
Spells try_spells(const PlanRun& planned);

/// The plan in a spell, run where `try_spells` found it to hurt most.
PlanRun in_spell(const PlanRun& planned, const SpellFinding& finding);

}  // namespace drystage::answers
