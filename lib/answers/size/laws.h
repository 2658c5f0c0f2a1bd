#pragma once

#include <cstddef>
#include <cstdint>
#include <limits>
#include <optional>
#include <set>
#include <vector>

#include "answers/offers/decision.h"
#include "answers/size/judge.h"
#include "answers/size/proof.h"

namespace drystage::answers {

/// What follows from a run for other sets, by these laws of the engine, each with what it does not
/// hold for. tests/answers/size/laws_test.cc tries them on random plans, and
/// optimality_test.cc has a plan for every exception that would lead the search astray.
///
///  1. A reserve of amounts that breaks its margin, or is dry after a mishap, with so much of it
///     does so with less. Not: fuel that vehicles share at a stop, or that one takes over from
///     another; the loss of a can, of smaller cans; utility water, and drinking water of it, where
///     there is brackish water: a larger container may be spoiled by it, and a smaller one not.
///  2. Beside its own, only the load of a vehicle touches the fuel of that vehicle, and more load
///     never helps. Not: downhill, where a heavier vehicle coasts further; cans that vehicles have
///     in common.
///  3. Water, food and consumables do not depend on the load. (Of what fills, what is in it weighs
///  as much whichever stores it is in.)
///  4. Charge and cold depend on the equipment of their bank, and on nothing else unless a
///  generator
///     runs out of fuel, or what is decided of the food is eaten before something that lies in a
///     cabinet. Food, and by its mass the fuel, depend on them where some of it is lost.
///  5. Utility water is drunk only where drinking water has run out.
///  6. More load makes a vehicle heavier.
///  7. A consumable depends on no other reserve. Not: one that is lost when its cabinet is too
///  warm, which fares as that cold does.
///  8. All this is so of each trip that is drawn, and so of how many of them break a margin. Not:
///     where cans are drawn as well, for smaller ones of as much in all; nor on a trip on which
///     somebody is stuck for want of a spare wheel, for more of these.
///
/// No law says that more battery or more panel is better, because none holds: a bank that stays
/// above the level at which loads are shed may end up lower than one that does not.
class SizeLaws {
 public:
  /// Both must outlive it.
  SizeLaws(const SizeJudge& judge, const std::vector<Decision>& decisions);

  [[nodiscard]] const std::vector<std::size_t>& stores() const { return stores_; }
  [[nodiscard]] const std::vector<std::size_t>& equipment() const { return equipment_; }

  [[nodiscard]] bool within(const Scope& scope, const ChoiceSet& set) const;

  /// Of which stores there must be more than was run. They must have been the lightest way to have
  /// at least what every set that holds has, with that equipment. Runs more where that decides.
  [[nodiscard]] std::vector<Floor> floors(const Judgement& judgement, const ChoiceSet& set) const;

  /// What a set that does not hold proves: at least one, and each speaks of that set.
  [[nodiscard]] std::vector<Proof> proofs(const Judgement& judgement, const ChoiceSet& set) const;

  /// Banks that fail, or whose cabinets do, whatever is in store.
  [[nodiscard]] std::set<int> failing_banks(const Judgement& judgement, const ChoiceSet& set) const;

  /// Whether a reserve fails about which there is nothing to decide, whatever else is decided.
  [[nodiscard]] bool fails_beyond_help(const Judgement& judgement, const ChoiceSet& set) const;

  /// Whether anything on offer serves a reserve, or decides about its bank.
  [[nodiscard]] bool is_decided(engine::ReserveId reserve) const;

 private:
  [[nodiscard]] Scope as_heavy(const ChoiceSet& set, int vehicle) const;
  [[nodiscard]] Scope same(const ChoiceSet& set) const;
  [[nodiscard]] double equipment_kg(const ChoiceSet& set, int vehicle) const;
  [[nodiscard]] Scope scope_of(const Judgement& judgement, const ChoiceSet& set,
                               engine::ReserveId reserve) const;

  [[nodiscard]] Proof proof(const Judgement& judgement, const ChoiceSet& set) const;

  // What drawn trips prove (size/laws_of_chance.cc).

  /// On which trips a reserve breaks its margin with other sets as well.
  struct Counts {
    bool is_sure = false;  ///< else on none
    double slack_below = std::numeric_limits<double>::infinity();
    bool not_stuck = true;  ///< with more spare wheels nobody might be
    bool not_lost = false;
    int not_dry = -1;  ///< reserve that must not have run out
    [[nodiscard]] bool counts(const Trial& trial, std::uint64_t trip, std::size_t reserve) const;
  };
  [[nodiscard]] Counts counts_of(const Judgement& judgement, const ChoiceSet& set,
                                 std::size_t reserve) const;
  [[nodiscard]] static bool breaks_too_often(const Judgement& judgement, const Counts& counts,
                                             std::size_t reserve);
  [[nodiscard]] bool breaks_too_often(const Judgement& judgement, const ChoiceSet& set,
                                      std::size_t reserve) const;
  [[nodiscard]] bool needs_more_for_chance(const Judgement& judgement, const ChoiceSet& set,
                                           std::size_t store) const;
  [[nodiscard]] double fills_differ_l(const Choice& choice) const;
  [[nodiscard]] double spoilt_may_help_l(const Judgement& judgement, int vehicle) const;
  [[nodiscard]] std::vector<Proof> proofs_of_chance(const Judgement& judgement,
                                                    const ChoiceSet& set) const;
  [[nodiscard]] Proof proof_of_chance(const Judgement& judgement, const ChoiceSet& set,
                                      std::size_t reserve) const;
  [[nodiscard]] Scope scope_of_chance(const Judgement& judgement, const ChoiceSet& set,
                                      engine::ReserveId reserve) const;
  [[nodiscard]] Scope scope_of_both(const Scope& one, const Scope& other,
                                    const ChoiceSet& set) const;

  [[nodiscard]] std::vector<std::size_t> serving(engine::ReserveId reserve) const;
  void mark(Proof& proof, const Judgement& judgement, const ChoiceSet& set,
            engine::ReserveId reserve, double lacking, bool dry) const;
  void mark_store(Proof& proof, engine::ReserveId reserve, Proof::Like like) const;
  void mark_fuel(Proof& proof, int vehicle, Proof::Like others) const;

  [[nodiscard]] int bank_of(engine::ReserveId reserve) const;
  [[nodiscard]] bool is_kept_cold(engine::ReserveId reserve) const;
  [[nodiscard]] bool cold_depends_on_stores() const;
  static int vehicle_of(engine::ReserveId reserve);
  [[nodiscard]] bool starved(const Judgement& judgement, int bank) const;
  [[nodiscard]] bool any_starved(const Judgement& judgement) const;
  [[nodiscard]] bool is_shared(int vehicle) const;
  [[nodiscard]] bool is_divided(engine::ReserveId reserve) const;
  [[nodiscard]] bool loads_several_vehicles() const;
  [[nodiscard]] double load_may_help_l(const Judgement& judgement, const ChoiceSet& set,
                                       int vehicle, bool and_equipment = false) const;
  [[nodiscard]] ChoiceSet with_least_load(const ChoiceSet& set, int vehicle, std::size_t but) const;
  [[nodiscard]] std::optional<ChoiceSet> with_most_utility(const ChoiceSet& set, int owner) const;
  [[nodiscard]] bool needs_more(const Judgement& judgement, const ChoiceSet& set,
                                std::size_t store) const;
  [[nodiscard]] bool needs_more_fuel(const Judgement& judgement, const ChoiceSet& set, int vehicle,
                                     double lacking) const;
  [[nodiscard]] bool needs_more_to_survive(const Judgement& judgement, const ChoiceSet& set,
                                           std::size_t store) const;

  const SizeJudge& judge_;
  const std::vector<Decision>& decisions_;
  std::vector<std::size_t> stores_;     ///< indices of decisions
  std::vector<std::size_t> equipment_;  ///< the others
  std::vector<plan::Charger> generators_;
  bool food_reaches_cold_ = false;  ///< how much food is taken shifts what is eaten from cabinets
  bool brackish_ = false;           ///< there is brackish water somewhere
};

}  // namespace drystage::answers
