// What helps when a consumable runs low: starting with everything full, or another store like
// those that the plan has.

#include <fmt/core.h>

#include <algorithm>

#include "engine/reserves/consumables.h"
#include "plan/commodity.h"
#include "units/index.h"

namespace drystage::engine::reserves {
namespace {

std::string amount_words(const plan::Consumable& consumable, double amount) {
  return fmt::format("{:g} {}", amount, consumable.unit);
}

Remedy start_full(const plan::Consumable& consumable, int index, double room) {
  return {.name = {consumable.fills ? fmt::format("starting with {} empty ({} more room)",
                                                  consumable.name, amount_words(consumable, room))
                                    : fmt::format("starting with all {} full ({} more)",
                                                  consumable.name, amount_words(consumable, room))},
          .size = consumable.fills ? 0 : room * consumable.unit_kg,
          .adds = room,
          .apply = [index](plan::Plan& changed) {
            plan::Consumable& of = changed.consumables[at(index)];
            for (plan::ConsumableStore& store : of.stores) {
              store.filled = of.fills ? 0 : store.holds;
            }
          }};
}

/// So many more stores like one of a plan's. It outlives that plan.
Remedy more_stores(int index, const plan::ConsumableStore& like, const std::string& size,
                   const std::string& of, double unit_kg, int count) {
  return {.name = {fmt::format("more {} container of {}", size, of),
                   fmt::format("more {} containers of {}", size, of), count},
          .size = count * (like.holds * unit_kg + like.empty_kg),
          .adds = count * like.holds,
          .apply = [index, like, count](plan::Plan& changed) {
            for (int n = 1; n <= count; ++n) {
              plan::ConsumableStore more = like;
              more.name = fmt::format("added {} {}", like.name, n);
              more.filled = changed.consumables[at(index)].fills ? 0 : more.holds;
              more.mark = {};
              changed.consumables[at(index)].stores.push_back(more);
            }
          }};
}

}  // namespace

std::vector<Remedy> Consumables::remedies(const Compiled& compiled, const plan::Plan& plan,
                                          int reserve, double lacking) {
  std::vector<Remedy> out;
  const auto stock = std::ranges::find(compiled.stocks, reserve, &Stock::reserve);
  if (stock == compiled.stocks.end()) return out;
  const int index = static_cast<int>(stock - compiled.stocks.begin());
  const plan::Consumable& consumable = plan.consumables[at(index)];
  double room = 0;
  for (const plan::ConsumableStore& store : consumable.stores) {
    room += consumable.fills ? store.filled : store.holds - store.filled;
  }
  if (room > 0) out.push_back(start_full(consumable, index, room));
  for (auto like = consumable.stores.begin(); like != consumable.stores.end(); ++like) {
    const auto same = [&](const plan::ConsumableStore& other) {
      return other.holds == like->holds;
    };
    if (std::any_of(consumable.stores.begin(), like, same)) continue;
    const std::string size = amount_words(consumable, like->holds);
    const auto more = [index, store = *like, size, name = consumable.name,
                       unit_kg = consumable.fills ? 0 : consumable.unit_kg](int count) {
      return more_stores(index, store, size, name, unit_kg, count);
    };
    const std::string kind = fmt::format("stores of {} of {}", size, consumable.name);
    for (int n = 1; n <= pieces_for(lacking, like->holds); ++n) {
      out.push_back(in_steps(kind, more, n));
    }
  }
  return out;
}

}  // namespace drystage::engine::reserves
