#pragma once

#include <cstddef>
#include <vector>

#include "answers/offers/decision.h"

namespace drystage::answers {

/// For which equipment something holds that a run has proved.
struct Scope {
  enum class Of { any_equipment, as_heavy, same_equipment };
  Of of = Of::any_equipment;
  int vehicle = -1;  ///< as_heavy: equipment in this vehicle of this mass and more
  double equipment_kg = 0;
  std::vector<const Choice*> equipment{};  ///< same_equipment
};

/// What a run that did not hold has proved of the stores: no set does that is like it so far.
struct Proof {
  enum class Like { any, no_more, no_less, same };
  Scope scope;
  std::vector<Like> like;             ///< by store: what another must be like
  std::vector<const Choice*> stores;  ///< those that were run
  bool by_loss = false;               ///< of a can: smaller ones may do with no more in all

  /// Whether a choice for one of the stores is as it must be for the proof to speak of it.
  [[nodiscard]] bool speaks_of(std::size_t store, const Choice& choice) const;
  /// Whether a set of stores is hopeless by it.
  [[nodiscard]] bool covers(const std::vector<const Choice*>& others) const;
};

/// So much of a store, at the least, is in every set that holds.
struct Floor {
  Scope scope;
  std::size_t store = 0;
  double amount = 0;
  bool by_margin = false;  ///< so long as margins are no less
};

}  // namespace drystage::answers
