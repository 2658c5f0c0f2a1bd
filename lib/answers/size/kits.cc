#include "answers/size/kits.h"

#include <algorithm>

namespace drystage::answers {

Kits::Kits(const std::vector<Decision>& decisions, Least least) : decisions_(decisions.size()) {
  for (std::size_t d = 0; d < decisions.size(); ++d) {
    if (decisions[d].sort != Decision::Sort::equipment) continue;
    auto of = std::ranges::find(banks_, decisions[d].bank, &Bank::bank);
    if (of == banks_.end()) {
      banks_.push_back({.bank = decisions[d].bank, .kits = {Kit{}}});
      of = banks_.end() - 1;
    }
    of->decisions.push_back(d);
    const bool any_fits = std::ranges::any_of(decisions[d].choices, &Choice::fits);
    std::vector<Kit> more;
    for (const Kit& kit : of->kits) {
      for (const Choice& choice : decisions[d].choices) {
        if (any_fits && !choice.fits) continue;
        more.push_back(kit);
        more.back().value = kit.value + objective(choice.totals, least);
        more.back().choices.push_back(&choice);
      }
    }
    of->kits = std::move(more);
  }
  for (Bank& each : banks_) {
    std::ranges::stable_sort(each.kits,
                             [](const Kit& a, const Kit& b) { return a.value < b.value; });
  }
}

std::optional<BestFirst> Kits::in_order() const {
  std::vector<std::vector<Objective>> lists;
  for (const Bank& each : banks_) {
    if (each.kits.empty()) return std::nullopt;
    std::vector<Objective>& list = lists.emplace_back();
    for (const Kit& kit : each.kits) list.push_back(kit.value);
  }
  return BestFirst(std::move(lists));
}

std::size_t Kits::combinations() const {
  std::size_t product = 1;
  for (const Bank& each : banks_) product *= each.kits.size();
  return product;
}

ChoiceSet Kits::set_of(const std::vector<std::size_t>& places) const {
  ChoiceSet set(decisions_, nullptr);
  for (std::size_t b = 0; b < banks_.size(); ++b) {
    const Kit& kit = banks_[b].kits[places[b]];
    for (std::size_t i = 0; i < kit.choices.size(); ++i) {
      set[banks_[b].decisions[i]] = kit.choices[i];
    }
  }
  return set;
}

bool Kits::has(int bank) const {
  return std::ranges::find(banks_, bank, &Bank::bank) != banks_.end();
}

bool Kits::drop(const ChoiceSet& set, int bank) {
  const auto of = std::ranges::find(banks_, bank, &Bank::bank);
  if (of == banks_.end()) return false;
  return std::erase_if(of->kits, [&](const Kit& kit) {
           for (std::size_t i = 0; i < kit.choices.size(); ++i) {
             if (kit.choices[i] != set[of->decisions[i]]) return false;
           }
           return true;
         }) > 0;
}

}  // namespace drystage::answers
