#pragma once

#include <algorithm>
#include <vector>

#include "plan/plan.h"

namespace drystage::engine {

/// A bank that has lost capacity.
struct WornBank {
  int bank = 0;     ///< index in the plan
  double left = 1;  ///< share of its capacity
  bool operator==(const WornBank&) const = default;
};

/// A vehicle that has had punctures.
struct Punctured {
  int vehicle = 0;  ///< index in the plan
  int times = 1;
  bool operator==(const Punctured&) const = default;
};

/// What has broken since the plan was made: indices in the plan.
struct Damage {
  std::vector<int> containers{};                         ///< lost with what is in them
  std::vector<plan::TankReference> tanks{};              ///< the same of vehicles' tanks and cans
  std::vector<plan::ConsumableStoreReference> stores{};  ///< and of consumables' stores
  std::vector<int> cabinets{};                           ///< whose compressors have stopped
  std::vector<int> chargers{};                           ///< that give nothing any more
  std::vector<WornBank> banks{};
  std::vector<int> vehicles{};  ///< left behind, in this order
  std::vector<Punctured> punctured{};
  bool operator==(const Damage&) const = default;

  void add(const Damage& more);
  /// The same of what it does not name yet.
  void add_new(Damage more);
  /// Whether a course has to be compiled with it.
  [[nodiscard]] bool is_compiled() const { return !banks.empty() || !vehicles.empty(); }
};

/// What a plan says was lost on the way. It is taken for lost from the outset; the readings say
/// what was left of the rest.
Damage lost_on_the_way(const plan::Plan& plan);

/// Whether a list of what has broken names a thing.
template <class Thing>
bool is_among(const std::vector<Thing>& broken, const Thing& thing) {
  return std::ranges::find(broken, thing) != broken.end();
}

/// The share of a bank's capacity that is left.
double capacity_left(const Damage& damage, int bank);

/// Who carries what a vehicle of the plan carried: the vehicle itself, or the one that took over
/// when it was left behind. That is one of the same fuel, if there is one.
int carrier(const plan::Plan& plan, const Damage& damage, int vehicle);

/// The bank that feeds what a bank of the plan fed. Where that stayed behind, it is another that
/// did not, if there is one.
int feeding_bank(const plan::Plan& plan, const Damage& damage, int bank);

/// Whether a charger still works: neither it, nor its bank, nor what drives it is gone.
bool works(const plan::Plan& plan, const Damage& damage, std::size_t charger);

}  // namespace drystage::engine
