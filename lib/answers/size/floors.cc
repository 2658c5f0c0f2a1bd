// What there must be more of: the part of the laws that speaks of one store.

#include <algorithm>

#include "answers/size/laws.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

using engine::Family;

/// Just more than an amount: what lacks nothing and is short of it all the same needs that.
constexpr double barely = 1e-9;

}  // namespace

bool SizeLaws::needs_more_fuel(const Judgement& judgement, const ChoiceSet& set, int vehicle,
                               double lacking) const {
  if (is_shared(vehicle)) return false;
  if (!generators_.empty() && (any_starved(judgement) || judgement.something_spoiled()))
    return false;
  const double help_l = load_may_help_l(judgement, set, vehicle);
  return help_l <= 0 || lacking > help_l;
}

bool SizeLaws::needs_more(const Judgement& judgement, const ChoiceSet& set,
                          std::size_t store) const {
  const engine::ReserveId id = decisions_[stores_[store]].reserve;
  const int reserve = judgement.reserve(id);
  if (!judgement.breaks(reserve)) return false;
  const double lacking = judgement.at_least_lacking(reserve);
  if (const int vehicle = vehicle_of(id); vehicle >= 0) {
    if (!loads_several_vehicles()) return needs_more_fuel(judgement, set, vehicle, lacking);
    // Then nothing is lightest in every vehicle: what nothing is lighter than in this one tells.
    const Judgement lightest =
        judge_.judge(with_least_load(set, vehicle, store), SizeJudge::Mishaps::none);
    return lightest.breaks(reserve) &&
           needs_more_fuel(lightest, set, vehicle, lightest.at_least_lacking(reserve));
  }
  if (is_divided(id)) return false;
  if (id.family == Family::utility_water) {
    return !brackish_ && !judgement.ran_dry({Family::drinking_water, id.of});
  }
  if (id.family == Family::food) {
    // Where one of several items is the most there is of it, more of the others is needed.
    return !(judgement.something_spoiled() && any_starved(judgement)) && serving(id).size() == 1;
  }
  if (id.family == Family::consumable) return !is_kept_cold(id) || !cold_depends_on_stores();
  if (lacking > 0 || id.family == Family::tyres) return true;
  // What is drunk from the utility tanks when this has run out is not wanted in vain. Only if it
  // is, whatever they hold, is more of this needed.
  if (brackish_) return false;
  const auto full = with_most_utility(set, id.of);
  return !full || judge_.judge(*full, SizeJudge::Mishaps::none).breaks(reserve);
}

bool SizeLaws::needs_more_to_survive(const Judgement& judgement, const ChoiceSet& set,
                                     std::size_t store) const {
  const Decision& decision = decisions_[stores_[store]];
  const int reserve = judgement.reserve(decision.reserve);
  const int vehicle = vehicle_of(decision.reserve);
  const auto& choices = decision.choices;
  const double smallest = std::ranges::min_element(choices, {}, &Choice::largest)->largest;
  const bool smaller_cans = smallest < set[stores_[store]]->largest;
  const auto tells = [&](const Judgement& of, const Finding& finding) {
    const plan::MishapKind kind = of.failures[at(finding.failure)].kind;
    if (finding.reserve != reserve || kind == plan::MishapKind::vehicle) return false;
    // A spare wheel more may do as well.
    if (kind == plan::MishapKind::puncture) return false;
    if (kind == plan::MishapKind::container && smaller_cans) return false;
    return vehicle < 0 ||
           (!loads_several_vehicles() && needs_more_fuel(of, set, vehicle, finding.short_of));
  };
  const auto any_tells = [&](const Judgement& of) {
    return std::ranges::any_of(of.fatal, [&](const Finding& each) { return tells(of, each); });
  };
  if (!any_tells(judgement)) return false;
  if (is_kept_cold(decision.reserve) && cold_depends_on_stores()) return false;
  const Family family = decision.reserve.family;
  const bool water = family == Family::drinking_water || family == Family::utility_water;
  if ((brackish_ && water) || is_divided(decision.reserve)) return false;
  if (family != Family::drinking_water) return true;
  const auto full = with_most_utility(set, decision.reserve.of);
  return !full || any_tells(judge_.after_mishaps(*full));
}

std::vector<Floor> SizeLaws::floors(const Judgement& judgement, const ChoiceSet& set) const {
  std::vector<Floor> out;
  for (std::size_t s = 0; s < stores_.size(); ++s) {
    const engine::ReserveId reserve = decisions_[stores_[s]].reserve;
    const bool for_chance = judgement.trial && needs_more_for_chance(judgement, set, s);
    const bool more =
        for_chance || (judgement.keeps_margins() ? needs_more_to_survive(judgement, set, s)
                                                 : needs_more(judgement, set, s));
    if (!more) continue;
    out.push_back({.scope = for_chance ? scope_of_chance(judgement, set, reserve)
                                       : scope_of(judgement, set, reserve),
                   .store = s,
                   .amount = set[stores_[s]]->amount + barely,
                   .by_margin = for_chance || !judgement.keeps_margins()});
  }
  return out;
}

}  // namespace drystage::answers
