// What drawn trips prove. A trip that breaks a margin with a set breaks it with some other sets as
// well, by the laws in size/laws.h: only such trips are counted here. Where those alone are too
// many, none of these sets has the confidence that is asked for.

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>

#include "answers/size/laws.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

using engine::Family;
using plan::Source;

/// Deviations of what is in the cans of a set, all together: smaller ones, each filled by itself,
/// cannot bring back more.
constexpr double fill_deviations = 3;

/// What two proofs say together of one store.
Proof::Like both(Proof::Like one, Proof::Like other) {
  if (one == Proof::Like::any || one == other) return other;
  return other == Proof::Like::any ? one : Proof::Like::same;
}

bool draws_cans(const plan::Plan& plan) {
  return plan.uncertainty.draws(Source::containers) || plan.uncertainty.draws(Source::fills);
}

bool any_in_cabinet(const plan::Plan& plan) {
  return std::ranges::any_of(plan.food,
                             [](const plan::FoodItem& item) { return item.cabinet >= 0; });
}

}  // namespace

bool SizeLaws::Counts::counts(const Trial& trial, std::uint64_t trip, std::size_t reserve) const {
  const Trial::OfReserve& its = trial.of(trip, reserve);
  if (!is_sure || !its.broken || its.slack >= slack_below) return false;
  if (not_stuck && trial.was_stuck(trip)) return false;
  if (not_lost && trial.has_lost(trip)) return false;
  return not_dry < 0 || !trial.of(trip, at(not_dry)).dry;
}

SizeLaws::Counts SizeLaws::counts_of(const Judgement& judgement, const ChoiceSet& set,
                                     std::size_t reserve) const {
  const engine::ReserveId id = judgement.planned.course.reserves[reserve].id;
  Counts out;
  if (is_divided(id)) return out;
  switch (id.family) {
    case Family::fuel: {
      // Trips may use more than the plan does.
      constexpr double at_most_times = 2;
      const double help_l = at_most_times * (load_may_help_l(judgement, set, id.of, true) +
                                             spoilt_may_help_l(judgement, id.of));
      out.is_sure = generators_.empty();
      if (help_l > 0) out.slack_below = -help_l;
      break;
    }
    case Family::drinking_water:
      // Who has run out drinks utility water, if there is any.
      out.is_sure = true;
      if (brackish_ || with_most_utility(set, id.of)) out.slack_below = 0;
      break;
    case Family::utility_water:
      out.is_sure = !brackish_;
      out.not_dry = judgement.reserve({Family::drinking_water, id.of});
      break;
    case Family::food:
      out.is_sure = generators_.empty() || !any_in_cabinet(judge_.plan());
      break;
    case Family::consumable:
      out.is_sure = !is_kept_cold(id) || !cold_depends_on_stores();
      break;
    case Family::cold:
    case Family::battery:
      out.is_sure = !cold_depends_on_stores();
      break;
    case Family::tyres:
      out.is_sure = true;
      out.not_stuck = false;
      break;
    case Family::other:
      break;
  }
  return out;
}

bool SizeLaws::breaks_too_often(const Judgement& judgement, const Counts& counts,
                                std::size_t reserve) {
  const Trial& trial = *judgement.trial;
  std::uint64_t count = 0;
  for (std::uint64_t trip = 0; trip < trial.trips(); ++trip) {
    count += counts.counts(trial, trip, reserve) ? 1U : 0U;
  }
  return trial.is_too_many(count);
}

bool SizeLaws::breaks_too_often(const Judgement& judgement, const ChoiceSet& set,
                                std::size_t reserve) const {
  return breaks_too_often(judgement, counts_of(judgement, set, reserve), reserve);
}

double SizeLaws::fills_differ_l(const Choice& choice) const {
  const plan::Uncertainty& drawn = judge_.plan().uncertainty;
  if (!drawn.draws(Source::fills)) return 0;
  double squares = 0;
  for (const SizedLine& line : choice.lines) squares += line.amount * line.each * line.each;
  return fill_deviations * drawn.fills_vessel * std::sqrt(squares);
}

/// How much fuel it may save a vehicle that all food in cabinets spoils at once, and is thrown
/// away, at the most.
double SizeLaws::spoilt_may_help_l(const Judgement& judgement, int vehicle) const {
  double cold_kg = 0;
  for (const plan::FoodItem& item : judge_.plan().food) {
    if (item.cabinet >= 0) cold_kg += item.mass_kg;
  }
  const auto& compiled =
      std::get<engine::reserves::Fuel::Compiled>(judgement.planned.course.families);
  double per_kg_l = 0;
  for (const models::FuelDemand& piece : compiled.vehicles[at(vehicle)].pieces) {
    per_kg_l += std::max(0.0, piece.per_kg_l);
  }
  return cold_kg * per_kg_l;
}

bool SizeLaws::needs_more_for_chance(const Judgement& judgement, const ChoiceSet& set,
                                     std::size_t store) const {
  const Decision& decision = decisions_[stores_[store]];
  const engine::ReserveId id = decision.reserve;
  const int reserve = judgement.reserve(id);
  if (reserve < 0) return false;
  const int vehicle = vehicle_of(id);
  if (vehicle >= 0 && (loads_several_vehicles() || is_shared(vehicle))) return false;
  if (id.family == Family::food && serving(id).size() != 1) return false;
  Counts counts = counts_of(judgement, set, at(reserve));
  const auto& choices = decision.choices;
  const double smallest = std::ranges::min_element(choices, {}, &Choice::largest)->largest;
  if (smallest < set[stores_[store]]->largest && draws_cans(judge_.plan())) {
    // As much in smaller cans may do: less is lost with one, and they differ less together.
    const double differ_l = fills_differ_l(*set[stores_[store]]);
    if (differ_l > 0) counts.slack_below = std::min(counts.slack_below, -differ_l);
    counts.not_lost = true;
  }
  return breaks_too_often(judgement, counts, at(reserve));
}

Scope SizeLaws::scope_of_chance(const Judgement& judgement, const ChoiceSet& set,
                                engine::ReserveId reserve) const {
  const bool cold = reserve.family == Family::cold || reserve.family == Family::battery;
  // What does not spoil as planned may do so on a trip.
  const bool spoils = reserve.family == Family::food && any_in_cabinet(judge_.plan());
  if (cold || spoils) return same(set);
  // What more load may save is not counted.
  const int vehicle = vehicle_of(reserve);
  if (vehicle >= 0) {
    return generators_.empty() && !is_shared(vehicle) ? as_heavy(set, vehicle) : same(set);
  }
  return scope_of(judgement, set, reserve);
}

Scope SizeLaws::scope_of_both(const Scope& one, const Scope& other, const ChoiceSet& set) const {
  if (one.of == Scope::Of::any_equipment) return other;
  if (other.of == Scope::Of::any_equipment) return one;
  const bool alike = one.of == Scope::Of::as_heavy && other.of == Scope::Of::as_heavy &&
                     one.vehicle == other.vehicle;
  return alike ? one : same(set);
}

Proof SizeLaws::proof_of_chance(const Judgement& judgement, const ChoiceSet& set,
                                std::size_t reserve) const {
  const engine::ReserveId id = judgement.planned.course.reserves[reserve].id;
  Proof out{.scope = scope_of_chance(judgement, set, id),
            .like = std::vector<Proof::Like>(stores_.size(), Proof::Like::any),
            .stores = {},
            .by_loss = draws_cans(judge_.plan())};
  for (const std::size_t d : stores_) out.stores.push_back(set[d]);
  const bool dry = counts_of(judgement, set, reserve).slack_below > 0;
  mark(out, judgement, set, id, std::numeric_limits<double>::infinity(), dry);
  for (std::size_t s = 0; s < stores_.size() && id.family != Family::tyres; ++s) {
    // Who has fewer spare wheels is stuck on other trips.
    if (decisions_[stores_[s]].reserve.family != Family::tyres) continue;
    out.like[s] = both(out.like[s], Proof::Like::no_less);
  }
  return out;
}

std::vector<Proof> SizeLaws::proofs_of_chance(const Judgement& judgement,
                                              const ChoiceSet& set) const {
  const Trial& trial = *judgement.trial;
  // More are never of weight: those that break most often.
  constexpr std::size_t most_reserves = 8;
  std::vector<std::size_t> reserves;
  for (std::size_t r = 0; r < judgement.planned.course.reserves.size(); ++r) {
    if (trial.broken(r) > 0) reserves.push_back(r);
  }
  std::ranges::stable_sort(reserves, std::ranges::greater{},
                           [&](std::size_t r) { return trial.broken(r); });
  if (reserves.size() > most_reserves) reserves.resize(most_reserves);
  // How many trips break just these margins surely, by the bits of those.
  std::vector<std::uint64_t> trips(std::size_t{1} << reserves.size(), 0);
  std::vector<Counts> counts;
  counts.reserve(reserves.size());
  for (const std::size_t r : reserves) counts.push_back(counts_of(judgement, set, r));
  for (std::uint64_t trip = 0; trip < trial.trips(); ++trip) {
    std::size_t bits = 0;
    for (std::size_t i = 0; i < reserves.size(); ++i) {
      if (counts[i].counts(trial, trip, reserves[i])) bits |= std::size_t{1} << i;
    }
    ++trips[bits];
  }
  // The fewest reserves that together break too often prove most.
  std::vector<std::size_t> together(trips.size() - 1);
  for (std::size_t i = 0; i < together.size(); ++i) together[i] = i + 1;
  std::ranges::stable_sort(together, {}, [](std::size_t bits) { return std::popcount(bits); });
  std::vector<std::size_t> proved;
  std::vector<Proof> out;
  for (const std::size_t bits : together) {
    const auto has_one = [bits](std::size_t fewer) { return (fewer & bits) == fewer; };
    if (std::ranges::any_of(proved, has_one)) continue;
    std::uint64_t count = 0;
    for (std::size_t each = 0; each < trips.size(); ++each) {
      if ((each & bits) != 0) count += trips[each];
    }
    if (!trial.is_too_many(count)) continue;
    proved.push_back(bits);
    std::optional<Proof> all;
    for (std::size_t i = 0; i < reserves.size(); ++i) {
      if ((bits >> i & 1U) == 0) continue;
      const Proof one = proof_of_chance(judgement, set, reserves[i]);
      if (!all) {
        all = one;
        continue;
      }
      all->scope = scope_of_both(all->scope, one.scope, set);
      for (std::size_t s = 0; s < stores_.size(); ++s) {
        all->like[s] = both(all->like[s], one.like[s]);
      }
    }
    out.push_back(std::move(*all));
  }
  return out;
}

}  // namespace drystage::answers
