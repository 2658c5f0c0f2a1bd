#include "answers/size/laws.h"

#include <algorithm>
#include <iterator>

#include "answers/size/placing.h"
#include "plan/own.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

using engine::Family;

/// Whether an item of dry food may be eaten before something that lies in a cabinet: what keeps for
/// ever is eaten in the order of the plan, once all that does not has been.
bool eaten_before_cold(const plan::Plan& plan, const Decision& food) {
  const auto is_cold = [](const plan::FoodItem& other) { return other.cabinet >= 0; };
  const auto item = std::ranges::find(plan.food, food.item, &plan::FoodItem::name);
  if (item == plan.food.end() || std::ranges::none_of(plan.food, is_cold)) return false;
  return item->keeps.has_value() || std::any_of(item, plan.food.end(), is_cold);
}

/// Whether vehicles that burn a fuel have cans of it in common. What one of them uses another may
/// lack then, and what it uses depends on its load.
bool has_shared_can(const plan::Plan& plan, plan::FuelKind fuel) {
  return std::ranges::any_of(plan.vehicles, [fuel](const plan::Vehicle& vehicle) {
    return vehicle.fuel == fuel && std::ranges::any_of(vehicle.tanks, [](const plan::Tank& tank) {
             return !tank.also_for.empty();
           });
  });
}

/// Whether a stop takes an amount of it that is for all together, or a place gives only so much.
bool is_scarce_on_the_way(const plan::Plan& plan, plan::Commodity commodity) {
  const bool by_amount = std::ranges::any_of(plan.itinerary, [&](const plan::ItineraryItem& item) {
    const auto* resupply = std::get_if<plan::Resupply>(&item);
    return resupply != nullptr &&
           std::ranges::any_of(resupply->orders, [&](const plan::Order& order) {
             return order.commodity == commodity && order.take == plan::Take::amount;
           });
  });
  return by_amount || std::ranges::any_of(plan.places, [&](const plan::Place& place) {
           return std::ranges::any_of(place.supplies, [&](const plan::Supply& supply) {
             return supply.commodity == commodity && supply.most.has_value();
           });
         });
}

}  // namespace

SizeLaws::SizeLaws(const SizeJudge& judge, const std::vector<Decision>& decisions)
    : judge_(judge), decisions_(decisions) {
  const plan::Plan& plan = judge.plan();
  for (std::size_t d = 0; d < decisions.size(); ++d) {
    (decisions[d].sort == Decision::Sort::store ? stores_ : equipment_).push_back(d);
  }
  std::ranges::copy_if(
      plan.power.chargers, std::back_inserter(generators_),
      [](const plan::Charger& each) { return each.kind == plan::ChargerKind::generator; });
  food_reaches_cold_ = std::ranges::any_of(stores_, [&](std::size_t d) {
    return decisions[d].reserve.family == Family::food && eaten_before_cold(plan, decisions[d]);
  });
  const auto is_brackish = [](const auto& water) {
    return water.quality == plan::WaterQuality::brackish;
  };
  brackish_ = std::ranges::any_of(plan.water.containers, is_brackish) ||
              std::ranges::any_of(plan.places, [&](const plan::Place& place) {
                return std::ranges::any_of(place.supplies, is_brackish);
              });
}

// --- scopes ---

double SizeLaws::equipment_kg(const ChoiceSet& set, int vehicle) const {
  double sum = 0;
  for (const std::size_t d : equipment_) sum += set[d]->load_kg[at(vehicle)];
  return sum;
}

Scope SizeLaws::as_heavy(const ChoiceSet& set, int vehicle) const {
  return {
      .of = Scope::Of::as_heavy, .vehicle = vehicle, .equipment_kg = equipment_kg(set, vehicle)};
}

Scope SizeLaws::same(const ChoiceSet& set) const {
  Scope out{.of = Scope::Of::same_equipment};
  for (const std::size_t d : equipment_) out.equipment.push_back(set[d]);
  return out;
}

bool SizeLaws::within(const Scope& scope, const ChoiceSet& set) const {
  switch (scope.of) {
    case Scope::Of::any_equipment:
      return true;
    case Scope::Of::as_heavy:
      return equipment_kg(set, scope.vehicle) >= scope.equipment_kg;
    case Scope::Of::same_equipment:
      break;
  }
  for (std::size_t e = 0; e < equipment_.size(); ++e) {
    if (set[equipment_[e]] != scope.equipment[e]) return false;
  }
  return true;
}

/// For which equipment it holds that a reserve lacks something.
Scope SizeLaws::scope_of(const Judgement& judgement, const ChoiceSet& set,
                         engine::ReserveId reserve) const {
  if (const int vehicle = vehicle_of(reserve); vehicle >= 0) {
    // How much a generator uses depends on what it charges, and what food weighs on what is left.
    const bool by_equipment =
        !generators_.empty() || judgement.something_spoiled() ||
        has_shared_can(judge_.plan(), judge_.plan().vehicles[at(vehicle)].fuel) ||
        load_may_help_l(judgement, set, vehicle) > 0;
    return by_equipment ? same(set) : as_heavy(set, vehicle);
  }
  const bool by_equipment = bank_of(reserve) >= 0 || is_kept_cold(reserve) ||
                            (reserve.family == Family::food && judgement.something_spoiled());
  return by_equipment ? same(set) : Scope{};
}

// --- what belongs to what ---

int SizeLaws::bank_of(engine::ReserveId reserve) const {
  if (reserve.family == Family::battery) return reserve.of;
  if (reserve.family != Family::cold) return -1;
  return judge_.plan().cold[at(reserve.of)].bank;
}

/// Whether a consumable is lost where a cabinet is too warm for it.
bool SizeLaws::is_kept_cold(engine::ReserveId reserve) const {
  if (reserve.family != Family::consumable) return false;
  const plan::Consumable& of = judge_.plan().consumables[at(reserve.of)];
  return of.keeps && std::ranges::any_of(of.stores, [](const plan::ConsumableStore& store) {
           return store.cabinet >= 0;
         });
}

/// Whether how cold a cabinet is may depend on what is in store: a generator's fuel, or food that
/// is eaten before what lies in the cold.
bool SizeLaws::cold_depends_on_stores() const { return !generators_.empty() || food_reaches_cold_; }

int SizeLaws::vehicle_of(engine::ReserveId reserve) {
  return reserve.family == Family::fuel ? reserve.of : -1;
}

std::vector<std::size_t> SizeLaws::serving(engine::ReserveId reserve) const {
  std::vector<std::size_t> out;
  for (std::size_t s = 0; s < stores_.size(); ++s) {
    if (decisions_[stores_[s]].reserve == reserve) out.push_back(s);
  }
  return out;
}

/// Whether a bank's charge may have been less for want of fuel.
bool SizeLaws::starved(const Judgement& judgement, int bank) const {
  return std::ranges::any_of(generators_, [&](const plan::Charger& generator) {
    const engine::ReserveId fuel = generator.burns < 0
                                       ? engine::ReserveId{Family::fuel, generator.vehicle}
                                       : engine::ReserveId{Family::consumable, generator.burns};
    return generator.bank == bank && judgement.ran_dry(fuel);
  });
}

bool SizeLaws::any_starved(const Judgement& judgement) const {
  return std::ranges::any_of(generators_, [&](const plan::Charger& generator) {
    return starved(judgement, generator.bank);
  });
}

/// Whether what one vehicle takes at a stop another may not have.
bool SizeLaws::is_shared(int vehicle) const {
  const plan::Plan& plan = judge_.plan();
  const plan::FuelKind fuel = plan.vehicles[at(vehicle)].fuel;
  if (std::ranges::count(plan.vehicles, fuel, &plan::Vehicle::fuel) < 2) return false;
  if (has_shared_can(plan, fuel)) return true;
  const plan::Commodity commodity =
      fuel == plan::FuelKind::diesel ? plan::Commodity::diesel : plan::Commodity::petrol;
  return is_taken_on_the_way(plan, commodity);
}

/// Whether vehicles keep their own of what a reserve is, and what one of them takes at a stop
/// another may not have.
bool SizeLaws::is_divided(engine::ReserveId reserve) const {
  const bool drinking = reserve.family == Family::drinking_water;
  const bool food = reserve.family == Family::food;
  if (!drinking && !food && reserve.family != Family::utility_water) return false;
  const plan::Plan& plan = judge_.plan();
  const plan::Stock stock = food ? plan::Stock::food : plan::Stock::water;
  const plan::Commodity commodity = food       ? plan::Commodity::food
                                    : drinking ? plan::Commodity::drinking_water
                                               : plan::Commodity::utility_water;
  return plan::owners(plan, stock).size() > 1 && is_scarce_on_the_way(plan, commodity);
}

/// Whether there is a store of which one choice is lighter in one vehicle and another in another.
bool SizeLaws::loads_several_vehicles() const {
  return std::ranges::any_of(stores_, [&](std::size_t d) {
    const std::vector<Choice>& choices = decisions_[d].choices;
    int vary = 0;
    for (std::size_t v = 0; v < choices.front().load_kg.size(); ++v) {
      const auto differs = [&](const Choice& each) {
        return each.load_kg[v] != choices.front().load_kg[v];
      };
      if (std::ranges::any_of(choices, differs)) ++vary;
    }
    return vary > 1;
  });
}

/// How much fuel more load than was run may save a vehicle on its way downhill, at the most: of
/// stores, or of equipment too.
double SizeLaws::load_may_help_l(const Judgement& judgement, const ChoiceSet& set, int vehicle,
                                 bool and_equipment) const {
  using engine::reserves::Fuel;
  const auto v = static_cast<std::size_t>(vehicle);
  const auto& compiled = std::get<Fuel::Compiled>(judgement.planned.course.families);
  double per_kg_l = 0;
  for (const models::FuelDemand& piece : compiled.vehicles[v].pieces) {
    per_kg_l += std::max(0.0, piece.descent_per_kg_l - piece.per_kg_l);
  }
  if (per_kg_l <= 0) return 0;
  double more_kg = 0;
  for (std::size_t d = 0; d < decisions_.size(); ++d) {
    if (decisions_[d].sort == Decision::Sort::equipment && !and_equipment) continue;
    double most_kg = 0;
    for (const Choice& each : decisions_[d].choices) most_kg = std::max(most_kg, each.load_kg[v]);
    more_kg += most_kg - set[d]->load_kg[v];
  }
  // What is heavier than the limit will not do anyhow.
  const double limit_kg = judgement.planned.course.vehicle_limit_kg[v];
  if (judge_.limited()) {
    more_kg = std::min(more_kg, std::max(0.0, limit_kg - judgement.planned.record.heaviest[v].kg));
  }
  constexpr double there_and_back = 2;
  return there_and_back * per_kg_l * more_kg;
}

/// A set with as little load in a vehicle as can be, but for one store.
ChoiceSet SizeLaws::with_least_load(const ChoiceSet& set, int vehicle, std::size_t but) const {
  ChoiceSet out = set;
  for (std::size_t s = 0; s < stores_.size(); ++s) {
    if (s == but) continue;
    out[stores_[s]] = &*std::ranges::min_element(
        decisions_[stores_[s]].choices, {},
        [vehicle](const Choice& choice) { return choice.load_kg[at(vehicle)]; });
  }
  return out;
}

/// A set with as much utility water as there is to be had; nothing if it has that already.
std::optional<ChoiceSet> SizeLaws::with_most_utility(const ChoiceSet& set, int owner) const {
  for (const std::size_t s : serving({Family::utility_water, owner})) {
    const Decision& decision = decisions_[stores_[s]];
    const Choice& most = *std::ranges::max_element(decision.choices, {}, &Choice::amount);
    if (most.amount <= set[stores_[s]]->amount) return std::nullopt;
    ChoiceSet out = set;
    out[stores_[s]] = &most;
    return out;
  }
  return std::nullopt;
}

// --- proofs ---

void SizeLaws::mark_store(Proof& proof, engine::ReserveId reserve, Proof::Like like) const {
  for (const std::size_t s : serving(reserve)) proof.like[s] = like;
}

/// No more of a vehicle's fuel, with the others like that, does.
void SizeLaws::mark_fuel(Proof& proof, int vehicle, Proof::Like others) const {
  for (std::size_t s = 0; s < stores_.size(); ++s) {
    const int other = decisions_[stores_[s]].vehicle;
    proof.like[s] = other == vehicle ? Proof::Like::no_more : others;
    if (other >= 0 && other != vehicle && is_shared(other)) proof.like[s] = Proof::Like::same;
  }
}

void SizeLaws::mark(Proof& proof, const Judgement& judgement, const ChoiceSet& set,
                    engine::ReserveId reserve, double lacking, bool dry) const {
  using Like = Proof::Like;
  if (const int vehicle = vehicle_of(reserve); vehicle >= 0) {
    const double help_l = load_may_help_l(judgement, set, vehicle);
    const bool sure =
        (help_l <= 0 || lacking > help_l) &&
        (generators_.empty() || !(any_starved(judgement) || judgement.something_spoiled()));
    mark_fuel(proof, vehicle, sure ? Like::no_less : Like::same);
    return;
  }
  if (const int bank = bank_of(reserve); bank >= 0) {
    // For want of fuel, or by what was eaten, or it would have been known of the equipment alone.
    if (starved(judgement, bank)) proof.like.assign(stores_.size(), Like::same);
    for (std::size_t s = 0; s < stores_.size(); ++s) {
      if (decisions_[stores_[s]].reserve.family == Family::food) proof.like[s] = Like::same;
    }
    return;
  }
  if (is_divided(reserve)) {
    proof.like.assign(stores_.size(), Like::same);
    return;
  }
  if (reserve.family == Family::food && judgement.something_spoiled() && any_starved(judgement)) {
    proof.like.assign(stores_.size(), Like::same);
    return;
  }
  if (is_kept_cold(reserve) && cold_depends_on_stores()) {
    proof.like.assign(stores_.size(), Like::same);
    return;
  }
  mark_store(proof, reserve,
             reserve.family == Family::utility_water && brackish_ ? Like::same : Like::no_more);
  if (reserve.family == Family::drinking_water && dry) {
    mark_store(proof, {Family::utility_water, reserve.of}, brackish_ ? Like::same : Like::no_more);
  }
  if (reserve.family == Family::utility_water &&
      judgement.ran_dry({Family::drinking_water, reserve.of})) {
    mark_store(proof, {Family::drinking_water, reserve.of}, Like::no_more);
  }
}

Proof SizeLaws::proof(const Judgement& judgement, const ChoiceSet& set) const {
  Proof out{.scope = same(set),
            .like = std::vector<Proof::Like>(stores_.size(), Proof::Like::any),
            .stores = {}};
  for (const std::size_t d : stores_) out.stores.push_back(set[d]);
  bool part_over = false;
  for (std::size_t v = 0; v < judgement.over_kg.size(); ++v) {
    if (judgement.over_kg[v] <= 0) continue;
    // Of an axle or a bay nothing is proved for other loads, which may lie elsewhere, unless it is
    // over wherever they do.
    if (v >= judgement.planned.plan.vehicles.size()) {
      part_over = true;
      if (!is_over_wherever_put(judgement.planned, v)) continue;
      out.like.assign(stores_.size(), Proof::Like::no_less);
      return out;
    }
    out.scope = as_heavy(set, static_cast<int>(v));
    out.like.assign(stores_.size(), Proof::Like::no_less);
    return out;
  }
  const std::vector<engine::ReserveInfo>& reserves = judgement.planned.course.reserves;
  for (std::size_t r = 0; r < reserves.size(); ++r) {
    const int reserve = static_cast<int>(r);
    if (!judgement.breaks(reserve)) continue;
    const double lacking = judgement.at_least_lacking(reserve);
    out.scope = scope_of(judgement, set, reserves[r].id);
    mark(out, judgement, set, reserves[r].id, lacking, lacking <= 0);
    return out;
  }
  if (part_over) {
    out.like.assign(stores_.size(), Proof::Like::same);
    return out;
  }
  const auto kind_of = [&](const Finding& finding) {
    return judgement.failures[at(finding.failure)].kind;
  };
  for (const Finding& finding : judgement.fatal) {
    // What comes of a puncture depends on the spare wheels too.
    const plan::MishapKind kind = kind_of(finding);
    if (kind == plan::MishapKind::vehicle || kind == plan::MishapKind::puncture) continue;
    const engine::ReserveId id = reserves[at(finding.reserve)].id;
    out.scope = scope_of(judgement, set, id);
    out.by_loss = kind == plan::MishapKind::container;
    mark(out, judgement, set, id, finding.short_of, true);
    return out;
  }
  out.like.assign(stores_.size(), Proof::Like::same);
  return out;
}

std::vector<Proof> SizeLaws::proofs(const Judgement& judgement, const ChoiceSet& set) const {
  std::vector<Proof> out;
  if (judgement.trial) out = proofs_of_chance(judgement, set);
  if (out.empty()) out.push_back(proof(judgement, set));
  return out;
}

std::set<int> SizeLaws::failing_banks(const Judgement& judgement, const ChoiceSet& set) const {
  std::set<int> out;
  for (std::size_t r = 0; r < judgement.planned.course.reserves.size(); ++r) {
    const int bank = bank_of(judgement.planned.course.reserves[r].id);
    if (bank < 0 || food_reaches_cold_) continue;
    const bool fails = judgement.breaks(static_cast<int>(r)) && !starved(judgement, bank);
    if (fails || (judgement.trial && breaks_too_often(judgement, set, r))) out.insert(bank);
  }
  return out;
}

bool SizeLaws::fails_beyond_help(const Judgement& judgement, const ChoiceSet& set) const {
  const std::vector<engine::ReserveInfo>& reserves = judgement.planned.course.reserves;
  for (std::size_t r = 0; r < reserves.size(); ++r) {
    const engine::ReserveId id = reserves[r].id;
    const int reserve = static_cast<int>(r);
    if (vehicle_of(id) >= 0 || bank_of(id) >= 0 || id.family == Family::cold) continue;
    if (is_kept_cold(id) || is_divided(id) || !serving(id).empty()) continue;
    const bool food_is_cold = id.family == Family::food &&
                              scope_of_chance(judgement, set, id).of == Scope::Of::same_equipment;
    if (judgement.trial && !food_is_cold && breaks_too_often(judgement, set, r)) return true;
    if (!judgement.breaks(reserve) || judgement.at_least_lacking(reserve) <= 0) continue;
    if ((id.family == Family::utility_water &&
         judgement.ran_dry({Family::drinking_water, id.of})) ||
        (id.family == Family::food && judgement.something_spoiled())) {
      continue;
    }
    return true;
  }
  return false;
}

bool SizeLaws::is_decided(engine::ReserveId reserve) const {
  const int bank = bank_of(reserve);
  return !serving(reserve).empty() || std::ranges::any_of(equipment_, [&](std::size_t d) {
    return bank >= 0 && decisions_[d].bank == bank && decisions_[d].choices.size() > 1;
  });
}

}  // namespace drystage::answers
