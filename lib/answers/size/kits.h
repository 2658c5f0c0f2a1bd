#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "answers/offers/decision.h"
#include "answers/size/best_first.h"
#include "answers/size/judge.h"

namespace drystage::answers {

/// The equipment on offer, bank by bank: a kit is everything that works with one bank, in one
/// combination, since what becomes of a bank depends on all of that together and on little else.
class Kits {
 public:
  /// The decisions must outlive it. Cabinets too small for what is to go into them are left out,
  /// unless all are.
  Kits(const std::vector<Decision>& decisions, Least least);

  /// Combinations of a kit for each bank, the least first; nothing where a bank has none left.
  [[nodiscard]] std::optional<BestFirst> in_order() const;

  /// How many combinations there are.
  [[nodiscard]] std::size_t combinations() const;

  /// The set that a combination makes, with nothing for the stores.
  [[nodiscard]] ChoiceSet set_of(const std::vector<std::size_t>& places) const;

  /// Whether there is anything to decide about a bank.
  [[nodiscard]] bool has(int bank) const;

  /// Takes out the kit that a set has for a bank; answers whether it was there.
  bool drop(const ChoiceSet& set, int bank);

 private:
  struct Kit {
    Objective value;
    std::vector<const Choice*> choices{};  ///< in the order of the bank's decisions
  };
  struct Bank {
    int bank = 0;
    std::vector<std::size_t> decisions{};  ///< indices
    std::vector<Kit> kits{};               ///< the least first
  };

  std::size_t decisions_;
  std::vector<Bank> banks_;
};

}  // namespace drystage::answers
