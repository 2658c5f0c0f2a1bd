#include "answers/offers/vessels.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <numeric>
#include <optional>
#include <utility>

#include "engine/usual_sizes.h"
#include "plan/values.h"
#include "units/format.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

int usual_most() { return static_cast<int>(plan::default_number("size.fuel_cans.most").value()); }

// A fitted tank that is not full is filled further in such steps.
constexpr double fill_step_l = 10;

/// One way for a fitted vessel to be.
struct Fitting {
  double holds = 0;
  double filled = 0;
  double empty_kg = 0;
  double cost = 0;
  double space_l = 0;
  bool as_planned = true;
};

std::vector<Fitting> fittings_of(const Vessel& vessel) {
  const Fitting planned{
      .holds = vessel.holds, .filled = vessel.filled, .empty_kg = vessel.empty_kg};
  if (vessel.kept) return {planned};
  if (vessel.sizes.empty()) {
    if (is_full(vessel.filled, vessel.holds)) return {planned};
    std::vector<Fitting> out{planned};
    while (out.back().filled < vessel.holds) {
      Fitting fuller = planned;
      fuller.filled = std::min(vessel.holds, out.back().filled + fill_step_l);
      fuller.as_planned = false;
      out.push_back(fuller);
    }
    return out;
  }
  std::vector<Fitting> out;
  for (const plan::VesselOffer& size : vessel.sizes) {
    const bool same = size.holds == vessel.holds && !size.empty_kg;
    out.push_back(
        {.holds = size.holds,
         .filled = same && is_full(vessel.filled, vessel.holds) ? vessel.filled : size.holds,
         .empty_kg = same ? vessel.empty_kg : size.empty_kg.value_or(0),
         .cost = size.cost.value_or(0),
         .space_l = size.space_l.value_or(0),
         .as_planned = same && is_full(vessel.filled, vessel.holds)});
  }
  return out;
}

/// One way to fill a pool: how each vessel that stays in any case is fitted, and so many cans of
/// each type.
struct Set {
  std::vector<int> taken{};  ///< by line: which fitting, then how many
  double amount = 0;
  std::vector<double> load_kg;  ///< by vehicle
  double cost = 0;
  double space_l = 0;
  int cans = 0;
  int vessels = 0;
  double largest = 0;

  [[nodiscard]] double kg() const { return std::accumulate(load_kg.begin(), load_kg.end(), 0.0); }
};

/// What sets are made of. Its lines: the vessels that stay in any case, then the types.
struct VesselOffers {
  Pool pool;
  std::vector<std::size_t> staying;            ///< indices into the pool's vessels
  std::vector<std::vector<Fitting>> fittings;  ///< of each of those

  explicit VesselOffers(Pool of) : pool(std::move(of)) {
    for (std::size_t v = 0; v < pool.vessels.size(); ++v) {
      const Vessel& vessel = pool.vessels[v];
      if (vessel.can && !vessel.kept && vessel.sizes.empty()) continue;
      staying.push_back(v);
      fittings.push_back(fittings_of(vessel));
    }
  }

  [[nodiscard]] Set nothing() const {
    return {.load_kg = std::vector<double>(std::max<std::size_t>(pool.vehicles, 1), 0)};
  }

  static void load(Set& set, int vehicle, double kg) {
    const auto index = static_cast<std::size_t>(std::max(vehicle, 0));
    set.load_kg[std::min(index, set.load_kg.size() - 1)] += kg;
  }

  /// Takes the next staying vessel in one of its fittings.
  void fit(Set& set, int fitting) const {
    const std::size_t line = set.taken.size();
    const Vessel& vessel = pool.vessels[staying[line]];
    const Fitting& fitted = fittings[line][at(fitting)];
    set.taken.push_back(fitting);
    set.amount += std::max(0.0, fitted.filled - vessel.unusable);
    set.largest = std::max(set.largest, fitted.filled);
    ++set.vessels;
    set.cost += fitted.cost;
    set.space_l += fitted.space_l;
    load(set, vessel.vehicle, fitted.empty_kg + fitted.filled * pool.unit_kg);
  }

  /// Takes one more can of the type that was begun last: one of the plan's as long as there is one.
  void add_can(Set& set) const {
    const CanType& type = pool.types[set.taken.size() - 1 - staying.size()];
    const auto nth = static_cast<std::size_t>(set.taken.back());
    const Vessel* own = nth < type.existing.size() ? &pool.vessels[type.existing[nth]] : nullptr;
    ++set.taken.back();
    ++set.cans;
    ++set.vessels;
    set.largest = std::max(set.largest, type.filled);
    set.amount += type.filled - (own != nullptr ? own->unusable : 0);
    set.cost += type.cost;
    set.space_l += type.space_l;
    load(set, own != nullptr ? own->vehicle : type.vehicle,
         type.filled * pool.unit_kg + (own != nullptr ? own->empty_kg : type.empty_kg));
  }

  [[nodiscard]] Set set_of(const std::vector<int>& taken) const {
    Set set = nothing();
    for (std::size_t line = 0; line < taken.size(); ++line) {
      if (line < staying.size()) {
        fit(set, taken[line]);
        continue;
      }
      set.taken.push_back(0);
      for (int n = 0; n < taken[line]; ++n) add_can(set);
    }
    return set;
  }
};

/// Whether a set is at least as good as another in all that counts.
bool beats(const Set& a, const Set& b, bool cans_may_be_lost) {
  if (cans_may_be_lost && a.largest > b.largest) return false;
  if (a.amount < b.amount - 1e-9 || a.cost > b.cost || a.space_l > b.space_l) return false;
  for (std::size_t v = 0; v < a.load_kg.size(); ++v) {
    if (a.load_kg[v] > b.load_kg[v] + 1e-9) return false;
  }
  return true;
}

/// Leaves out every set that another beats. Of two that are as good the one with fewer pieces
/// stays, then the first.
std::vector<Set> unbeaten(std::vector<Set> sets, bool cans_may_be_lost) {
  std::ranges::stable_sort(sets, [](const Set& a, const Set& b) {
    return std::pair(a.kg(), a.cans) < std::pair(b.kg(), b.cans);
  });
  // A set that beats another is no heavier in all, so it stands before it.
  std::vector<Set> out;
  for (Set& set : sets) {
    if (std::ranges::none_of(
            out, [&](const Set& other) { return beats(other, set, cans_may_be_lost); })) {
      out.push_back(std::move(set));
    }
  }
  return out;
}

std::vector<Set> all_sets(const VesselOffers& shop, bool cans_may_be_lost) {
  std::vector<Set> sets{shop.nothing()};
  for (const std::vector<Fitting>& fittings : shop.fittings) {
    std::vector<Set> more;
    for (const Set& set : sets) {
      for (std::size_t f = 0; f < fittings.size(); ++f) {
        more.push_back(set);
        shop.fit(more.back(), static_cast<int>(f));
      }
    }
    sets = unbeaten(std::move(more), cans_may_be_lost);
  }
  for (const CanType& type : shop.pool.types) {
    std::vector<Set> more;
    for (Set& set : sets) {
      set.taken.push_back(0);
      more.push_back(set);
      const int most =
          type.most.value_or(std::max(usual_most(), static_cast<int>(type.existing.size())));
      for (int n = 1; n <= most; ++n) {
        shop.add_can(set);
        more.push_back(set);
      }
    }
    sets = unbeaten(std::move(more), cans_may_be_lost);
  }
  return sets;
}

std::string amount_words(const Pool& pool, double amount) {
  return units::format_number(amount, units::significant(3)) + " " + pool.unit;
}

std::string filling(const Pool& pool, double filled, double holds) {
  return filled >= holds ? "full" : "with " + amount_words(pool, filled);
}

SizedLine fitted_line(const VesselOffers& shop, std::size_t line, int fitting) {
  const Vessel& vessel = shop.pool.vessels[shop.staying[line]];
  const Fitting& fitted = shop.fittings[line][at(fitting)];
  return {.one = vessel.title,
          .plan_amount = vessel.holds,
          .amount = fitted.holds,
          .unit = shop.pool.unit,
          .plan_detail = filling(shop.pool, vessel.filled, vessel.holds),
          .detail = filling(shop.pool, fitted.filled, fitted.holds),
          .plan_kg = vessel.empty_kg + vessel.filled * shop.pool.unit_kg,
          .kg = fitted.empty_kg + fitted.filled * shop.pool.unit_kg,
          .cost = fitted.cost,
          .space_l = fitted.space_l,
          .kept = shop.fittings[line].size() == 1 && vessel.sizes.empty()};
}

SizedLine type_line(const VesselOffers& shop, std::size_t t, int count) {
  const CanType& type = shop.pool.types[t];
  const auto called = [&](const std::string& can) {
    return fmt::format("{} {} of {}{}", amount_words(shop.pool, type.holds), can,
                       shop.pool.contents, type.where);
  };
  SizedLine line{.one = called(shop.pool.can),
                 .many = called(shop.pool.can + "s"),
                 .plan_amount = static_cast<double>(type.existing.size()),
                 .amount = static_cast<double>(count),
                 .unit = shop.pool.unit,
                 .of = shop.pool.contents,
                 .each = type.filled,
                 .holds = type.holds,
                 .cost = type.cost * count,
                 .space_l = type.space_l * count};
  for (int n = 0; n < count; ++n) {
    const auto nth = static_cast<std::size_t>(n);
    const bool own = nth < type.existing.size();
    line.kg += type.filled * shop.pool.unit_kg +
               (own ? shop.pool.vessels[type.existing[nth]].empty_kg : type.empty_kg);
  }
  double filled = 0;
  for (const std::size_t v : type.existing) {
    line.plan_kg += shop.pool.vessels[v].empty_kg + shop.pool.vessels[v].filled * shop.pool.unit_kg;
    filled += shop.pool.vessels[v].filled;
  }
  // Cans are full without a word of it, unless those of the plan are not.
  if (filled < line.plan_amount * type.filled) {
    line.plan_detail = "with " + amount_words(shop.pool, filled);
    if (count > 0) line.detail = "full";
  }
  return line;
}

/// Of a type, the plan's own cans are used first, and filled; those too many go, from the last on.
void remake_type(const VesselOffers& shop, const CanType& type, std::size_t count, Remake& out) {
  std::string like;
  for (std::size_t n = 0; n < type.existing.size(); ++n) {
    const Vessel& own = shop.pool.vessels[type.existing[n]];
    if (n >= count) {
      out.removed.push_back(own.name);
      continue;
    }
    like = own.name;
    if (own.filled >= type.filled) continue;
    out.refits.push_back(
        {.name = own.name, .holds = own.holds, .filled = type.filled, .empty_kg = own.empty_kg});
  }
  for (std::size_t n = type.existing.size(); n < count; ++n) {
    out.added.push_back({.holds = type.holds,
                         .filled = type.filled,
                         .empty_kg = type.empty_kg,
                         .vehicle = type.vehicle,
                         .like = like});
  }
}

Remake remake_for(const VesselOffers& shop, const std::vector<int>& taken) {
  Remake out;
  for (std::size_t line = 0; line < taken.size(); ++line) {
    const auto number = static_cast<std::size_t>(taken[line]);
    if (line >= shop.staying.size()) {
      remake_type(shop, shop.pool.types[line - shop.staying.size()], number, out);
      continue;
    }
    const Fitting& fitted = shop.fittings[line][number];
    if (fitted.as_planned) continue;
    out.refits.push_back({.name = shop.pool.vessels[shop.staying[line]].name,
                          .holds = fitted.holds,
                          .filled = fitted.filled,
                          .empty_kg = fitted.empty_kg});
  }
  return out;
}

Choice choice_of(const std::shared_ptr<const VesselOffers>& shop, const Set& set) {
  Choice out{.taken = set.taken,
             .amount = set.amount,
             .largest = set.largest,
             .load_kg = set.load_kg,
             .totals = {.kg = set.kg(), .cost = set.cost, .space_l = set.space_l}};
  for (std::size_t line = 0; line < set.taken.size(); ++line) {
    out.lines.push_back(line < shop->staying.size()
                            ? fitted_line(*shop, line, set.taken[line])
                            : type_line(*shop, line - shop->staying.size(), set.taken[line]));
  }
  out.apply = [shop, remake = remake_for(*shop, set.taken)](plan::Plan& plan) {
    shop->pool.remake(plan, remake);
  };
  return out;
}

/// The fitting with the next less in it; nothing if there is none.
std::optional<int> next_less(const std::vector<Fitting>& fittings, int fitting) {
  const auto filled = [&](int f) { return fittings[at(f)].filled; };
  std::optional<int> best;
  for (int f = 0; f < static_cast<int>(fittings.size()); ++f) {
    if (filled(f) >= filled(fitting)) continue;
    if (!best || filled(f) > filled(*best)) best = f;
  }
  return best;
}

std::optional<Choice> one_fewer(const std::shared_ptr<const VesselOffers>& shop,
                                const Choice& choice, std::size_t line) {
  std::vector<int> taken = choice.taken;
  if (line >= shop->staying.size()) {
    if (taken[line] == 0) return std::nullopt;
    --taken[line];
    if (shop->pool.needs_one && shop->set_of(taken).vessels == 0) return std::nullopt;
  } else {
    const std::optional<int> less = next_less(shop->fittings[line], taken[line]);
    if (!less) return std::nullopt;
    taken[line] = *less;
  }
  return choice_of(shop, shop->set_of(taken));
}

}  // namespace

bool is_full(double filled, double holds) {
  constexpr double most_room = 0.15;  // common practice: a twentieth for heat, a tenth for frost
  return filled >= (1 - most_room) * holds;
}

void add_own_types(Pool& pool) {
  for (std::size_t v = 0; v < pool.vessels.size(); ++v) {
    const Vessel& vessel = pool.vessels[v];
    if (!vessel.can || vessel.kept || !vessel.sizes.empty()) continue;
    auto type = std::ranges::find_if(pool.types, [&](const CanType& each) {
      return each.holds == vessel.holds && each.vehicle == vessel.vehicle;
    });
    if (type == pool.types.end()) {
      const auto like = std::ranges::find(pool.types, vessel.holds, &CanType::holds);
      const bool elsewhere = like != pool.types.end();
      const auto alike = [&](const Vessel& other) {
        return other.can && !other.kept && other.sizes.empty() && other.holds == vessel.holds &&
               other.vehicle == vessel.vehicle;
      };
      pool.types.push_back({.holds = vessel.holds,
                            .filled = vessel.holds,
                            .empty_kg = vessel.empty_kg,
                            .cost = elsewhere ? like->cost : 0,
                            .space_l = elsewhere ? like->space_l : pool.unit_l * vessel.holds,
                            .most = static_cast<int>(std::ranges::count_if(pool.vessels, alike)),
                            .vehicle = vessel.vehicle,
                            .where = {}});
      type = pool.types.end() - 1;
    }
    type->existing.push_back(v);
  }
  // The room that the plan's cans leave is left in others too.
  double share = 1;
  for (const Vessel& vessel : pool.vessels) {
    const bool full = vessel.can && is_full(vessel.filled, vessel.holds);
    if (full) share = std::min(share, vessel.filled / vessel.holds);
  }
  for (CanType& type : pool.types) {
    double fullest = 0;
    for (const std::size_t v : type.existing) {
      const double filled = pool.vessels[v].filled;
      if (is_full(filled, type.holds)) fullest = std::max(fullest, filled);
    }
    if (fullest > 0) type.filled = fullest;
  }
  for (CanType& type : pool.types) {
    if (!type.existing.empty()) continue;
    const double filled = type.holds * share;
    type.filled = pool.in_tenths ? std::floor(filled * 10 + 1e-6) / 10 : filled;
  }
}

Decision decide(Pool pool, Least least, bool cans_may_be_lost) {
  const auto shop = std::make_shared<const VesselOffers>(std::move(pool));
  Decision out{
      .sort = Decision::Sort::store, .reserve = shop->pool.reserve, .vehicle = shop->pool.vehicle};
  for (const Set& set : all_sets(*shop, cans_may_be_lost)) {
    if (set.vessels == 0 && shop->pool.needs_one) continue;
    out.choices.push_back(choice_of(shop, set));
  }
  sort_choices(out.choices, least);
  for (const Vessel& vessel : shop->pool.vessels) {
    out.planned.kg += vessel.empty_kg + vessel.filled * shop->pool.unit_kg;
  }
  for (const CanType& type : shop->pool.types) {
    const auto own = static_cast<double>(type.existing.size());
    out.planned.cost += own * type.cost;
    out.planned.space_l += own * type.space_l;
  }
  out.one_fewer = [shop](const Choice& choice, std::size_t line) {
    return one_fewer(shop, choice, line);
  };
  return out;
}

}  // namespace drystage::answers
