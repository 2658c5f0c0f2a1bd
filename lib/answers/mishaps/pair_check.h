#pragma once

#include <optional>
#include <vector>

#include "answers/base/watch.h"
#include "answers/mishaps/heavy_fuel.h"

namespace drystage::answers {

/// The parts of a trip that a mishap reaches.
struct Reach {
  bool water = true;
  bool fuel = true;
  bool rest = true;  ///< every other family of reserves
};

/// The laid trip after a second mishap, made when it is asked for.
class Way {
 public:
  Way(const SweepPlan& sweep, const LaidTrip& before, const Mishap& mishap, std::size_t step)
      : sweep_(sweep), before_(before), mishap_(mishap), step_(step) {}

  const LaidTrip& laid();
  /// Its course as HeavyFuel has it.
  const engine::Course& loaded();

 private:
  const SweepPlan& sweep_;
  const LaidTrip& before_;
  const Mishap& mishap_;
  std::size_t step_;
  std::optional<LaidTrip> laid_{};
  std::optional<engine::Course> loaded_{};
};

/// Tells of two mishaps, where it can, that nothing runs dry that makes them worse than each is
/// alone: at little cost, for only what both of them reach has to be run.
///
/// Water fares the same whatever becomes of the rest, and the rest whatever becomes of water and
/// fuel. (With generators it does not, and nothing is told.) So what only one of the two reaches
/// fares as after that one alone, or no worse, since it is judged from the second on. Fuel knows
/// all else by its mass: it is taken to last where it does in vehicles that are as heavy as can be.
class PairCheck {
 public:
  /// The sweep must outlive it. `watch` may stop it: then it tells nothing.
  PairCheck(const SweepPlan& sweep, const Watch& watch);

  [[nodiscard]] const HeavyFuel& fuel() const { return fuel_; }

  /// What is known at a second mishap's moment: where the laid trip after the first stands, and
  /// where it does as HeavyFuel has it.
  struct Moment {
    Strike first;
    Strike second;
    const engine::Engine::Standing& now;
    const engine::Engine::Standing& heavy;
    Outcome alone{};  ///< the worse of what comes of each alone
  };
  [[nodiscard]] bool is_no_worse(const Moment& moment, Way& way, engine::Record& scratch) const;

 private:
  [[nodiscard]] bool fuel_lasts(const Moment& moment, Way& way, engine::Record& scratch) const;
  [[nodiscard]] bool plan_lasts(std::size_t step) const;
  [[nodiscard]] bool tells_of(const Strike& strike) const;
  [[nodiscard]] bool rest_counts(Outcome alone) const;

  const SweepPlan& sweep_;
  HeavyFuel fuel_;
  bool tells_ = true;
  std::vector<Reach> reach_{};  ///< by mishap
  /// By mishap, by ordinal: whether fuel lasts after it alone, of those that reach fuel.
  std::vector<std::vector<char>> fuel_lasts_;
};

}  // namespace drystage::answers
