#include "answers/size/search.h"

#include <algorithm>
#include <functional>
#include <iterator>
#include <limits>
#include <set>
#include <utility>

#include "answers/size/best_first.h"
#include "answers/size/laws.h"
#include "answers/size/likelier.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

using Mishaps = SizeJudge::Mishaps;

/// What may be chosen for each store, the least first.
using Shelves = std::vector<std::vector<const Choice*>>;

/// Where a proof speaks of all that may be chosen of every store but one, takes out what it speaks
/// of there. Answers whether anything has gone.
bool narrow(const Proof& proof, Shelves& shelves) {
  if (std::ranges::any_of(shelves, [](const auto& shelf) { return shelf.empty(); })) return false;
  std::optional<std::size_t> open;
  for (std::size_t s = 0; s < shelves.size(); ++s) {
    const bool all = std::ranges::all_of(
        shelves[s], [&](const Choice* choice) { return proof.speaks_of(s, *choice); });
    if (all) continue;
    if (open) return false;
    open = s;
  }
  if (!open) {
    for (std::vector<const Choice*>& shelf : shelves) shelf.clear();
    return !shelves.empty();
  }
  return std::erase_if(shelves[*open],
                       [&](const Choice* choice) { return proof.speaks_of(*open, *choice); }) > 0;
}

class Search {
 public:
  Search(const SizeJudge& judge, const std::vector<Decision>& decisions,
         const std::function<void(std::size_t, std::size_t)>& progress, Known known)
      : judge_(judge),
        decisions_(decisions),
        least_(judge.options().least),
        progress_(progress),
        laws_(judge, decisions),
        kits_(known.kits ? *std::move(known.kits) : Kits(decisions, least_)),
        floors_(std::move(known.floors)),
        proofs_(std::move(known.proofs)),
        proved_before_(proofs_.size()),
        at_most_(known.at_most) {}

  SearchResult run() {
    while (!over() && !nothing_helps_ && try_kits()) {
    }
    const bool cut_short = given_up();
    if (cut_short && !best_) take_more_of_what_fails();
    if (!best_ && nearest_ && judge_.limited()) {
      const Likeliest found = likeliest(judge_, decisions_, *nearest_);
      (found.holds ? best_ : nearest_) = found.set;
    }
    return {
        .best = best_,
        .nearest = best_ ? std::nullopt : nearest_,
        .cut_short = cut_short,
        .known = {
            .kits = std::move(kits_), .floors = std::move(floors_), .proofs = std::move(proofs_)}};
  }

 private:
  [[nodiscard]] bool given_up() const {
    return judge_.runs() >= most_runs || judge_.trials() >= most_trials ||
           looked_at_ >= most_looked_at;
  }
  [[nodiscard]] bool over() const { return judge_.stopped() || given_up(); }

  /// Whether what comes to so much cannot be the best any more.
  [[nodiscard]] bool too_much(Objective sum) const {
    return (best_ && !(sum < best_value_)) || (at_most_ && *at_most_ < sum);
  }

  [[nodiscard]] Objective value(const Choice& choice) const {
    return objective(choice.totals, least_);
  }

  // --- equipment ---

  /// Goes through the combinations of kits, the least first, until one of them proves hopeless and
  /// is taken out, and answers whether that was so.
  bool try_kits() {
    std::optional<BestFirst> combinations = kits_.in_order();
    while (combinations) {
      const auto next = combinations->next();
      if (!next || over() || nothing_helps_) return false;
      if (too_much(next->sum + least_of_stores(nullptr))) return false;
      const ChoiceSet set = kits_.set_of(next->places);
      if (!tried_.insert(set).second) continue;
      if (progress_) progress_(judge_.runs(), 0);
      with_equipment(set, next->sum);
      bool dropped = false;
      for (const int bank : std::exchange(hopeless_, {})) {
        if (!kits_.has(bank)) nothing_helps_ = true;
        dropped = kits_.drop(set, bank) || dropped;
      }
      if (dropped) return true;
    }
    return false;
  }

  // --- stores ---

  /// What there must be of a store; with no set, whatever the equipment.
  [[nodiscard]] double needed(std::size_t store, const ChoiceSet* set) const {
    double most = -std::numeric_limits<double>::infinity();
    for (const Floor& floor : floors_) {
      if (floor.store != store) continue;
      const bool applies = set != nullptr ? laws_.within(floor.scope, *set)
                                          : floor.scope.of == Scope::Of::any_equipment;
      if (applies) most = std::max(most, floor.amount);
    }
    return most;
  }

  [[nodiscard]] std::vector<const Choice*> enough(std::size_t store, const ChoiceSet* set) const {
    const double amount = needed(store, set);
    std::vector<const Choice*> out;
    for (const Choice& choice : decisions_[laws_.stores()[store]].choices) {
      if (choice.amount >= amount) out.push_back(&choice);
    }
    return out;
  }

  /// No set of stores that holds has less.
  [[nodiscard]] Objective least_of_stores(const ChoiceSet* set) const {
    Objective sum;
    for (std::size_t s = 0; s < laws_.stores().size(); ++s) {
      const std::vector<const Choice*> choices = enough(s, set);
      if (!choices.empty()) sum = sum + value(*choices.front());
    }
    return sum;
  }

  /// Takes the lightest way to have what is needed of everything; of what cannot be had so, the
  /// most, and answers false then.
  [[nodiscard]] bool take_lightest(ChoiceSet& set) const {
    bool possible = true;
    for (std::size_t s = 0; s < laws_.stores().size(); ++s) {
      const std::size_t d = laws_.stores()[s];
      const std::vector<const Choice*> choices = enough(s, &set);
      if (choices.empty()) {
        set[d] = &*std::ranges::max_element(decisions_[d].choices, {}, &Choice::amount);
        possible = false;
        continue;
      }
      const auto load_kg = [&](const Choice* choice) {
        const int vehicle = decisions_[d].vehicle;
        return vehicle >= 0 ? choice->load_kg[at(vehicle)] : choice->totals.kg;
      };
      set[d] = *std::ranges::min_element(choices, {}, [&](const Choice* choice) {
        return std::pair(load_kg(choice), choice->amount);
      });
    }
    return possible;
  }

  [[nodiscard]] bool exhausted() const {
    for (std::size_t s = 0; s < laws_.stores().size(); ++s) {
      if (enough(s, nullptr).empty()) return true;
    }
    return false;
  }

  [[nodiscard]] std::vector<const Choice*> stores_of(const ChoiceSet& set) const {
    std::vector<const Choice*> out;
    for (const std::size_t d : laws_.stores()) out.push_back(set[d]);
    return out;
  }

  /// What has been proved that holds for a set's equipment, in this search or before.
  [[nodiscard]] std::vector<const Proof*> proofs_for(const ChoiceSet& set, bool before) const {
    std::vector<const Proof*> out;
    for (std::size_t p = before ? 0 : proved_before_; p < proofs_.size(); ++p) {
      if (laws_.within(proofs_[p].scope, set)) out.push_back(&proofs_[p]);
    }
    return out;
  }

  [[nodiscard]] bool covered(const ChoiceSet& set, const std::vector<const Proof*>& proofs) const {
    const std::vector<const Choice*> stores = stores_of(set);
    return std::ranges::any_of(proofs, [&](const Proof* proof) { return proof->covers(stores); });
  }

  void note_nearest(const Judgement& judgement, const ChoiceSet& set) {
    const double miss = judgement.shortfall();
    if (nearest_ && miss >= nearest_miss_) return;
    nearest_ = set;
    nearest_miss_ = miss;
  }

  /// A set judged; where its trips were drawn just now they are not drawn again.
  Judgement judged(const ChoiceSet& set) {
    if (last_trial_ && last_trial_->first == set) return last_trial_->second;
    Judgement out = judge_.judge(set);
    if (out.trial) last_trial_ = {set, out};
    return out;
  }

  /// What is left of the stores to choose from with this equipment.
  [[nodiscard]] Shelves shelves_for(const ChoiceSet& set) const {
    Shelves shelves;
    for (std::size_t s = 0; s < laws_.stores().size(); ++s) shelves.push_back(enough(s, &set));
    const std::vector<const Proof*> proofs = proofs_for(set, true);
    for (bool narrowed = true; narrowed;) {
      narrowed = false;
      for (const Proof* proof : proofs) narrowed = narrow(*proof, shelves) || narrowed;
    }
    drop_unaffordable(shelves, set);
    return shelves;
  }

  [[nodiscard]] std::optional<BestFirst> in_order(const Shelves& shelves) const {
    std::vector<std::vector<Objective>> lists;
    for (const std::vector<const Choice*>& shelf : shelves) {
      if (shelf.empty()) return std::nullopt;
      std::vector<Objective>& list = lists.emplace_back();
      for (const Choice* choice : shelf) list.push_back(value(*choice));
    }
    return BestFirst(std::move(lists));
  }

  /// Takes out what passes the limits of space and cost even beside the least of all else.
  void drop_unaffordable(Shelves& shelves, const ChoiceSet& set) const {
    Totals least;
    for (const std::size_t d : laws_.equipment()) {
      least.cost += set[d]->totals.cost;
      least.space_l += set[d]->totals.space_l;
    }
    const auto least_of = [](const std::vector<const Choice*>& shelf, double Totals::*what) {
      double value = std::numeric_limits<double>::infinity();
      for (const Choice* choice : shelf) value = std::min(value, choice->totals.*what);
      return value;
    };
    for (const std::vector<const Choice*>& shelf : shelves) {
      least.cost += least_of(shelf, &Totals::cost);
      least.space_l += least_of(shelf, &Totals::space_l);
    }
    for (std::vector<const Choice*>& shelf : shelves) {
      const Totals own{.cost = least_of(shelf, &Totals::cost),
                       .space_l = least_of(shelf, &Totals::space_l)};
      std::erase_if(shelf, [&](const Choice* choice) {
        return !judge_.affordable(
            {.cost = least.cost - own.cost + choice->totals.cost,
             .space_l = least.space_l - own.space_l + choice->totals.space_l});
      });
    }
  }

  /// The next set of stores that may hold, and may be the best; nothing when there is none. It is
  /// put into `set`.
  std::optional<Objective> next_open(BestFirst& sets, const Shelves& shelves, ChoiceSet& set,
                                     Objective equipment_value) const {
    const std::vector<const Proof*> proofs = proofs_for(set, true);
    while (const auto next = sets.next()) {
      ++looked_at_;
      const Objective sum = equipment_value + next->sum;
      if (over() || too_much(sum)) return std::nullopt;
      for (std::size_t s = 0; s < shelves.size(); ++s) {
        set[laws_.stores()[s]] = shelves[s][next->places[s]];
      }
      if (judge_.affordable(totals_of(set)) && !covered(set, proofs)) return sum;
    }
    return std::nullopt;
  }

  /// Whether what is known leaves any set of stores with this equipment that may be the best.
  [[nodiscard]] bool may_be_best(ChoiceSet set, Objective equipment_value) const {
    const Shelves shelves = shelves_for(set);
    std::optional<BestFirst> sets = in_order(shelves);
    return sets && next_open(*sets, shelves, set, equipment_value);
  }

  /// Takes the floors on that can be reached; answers whether there was any.
  bool take_on(std::vector<Floor> floors, const ChoiceSet& set) {
    std::erase_if(floors, [&](const Floor& floor) {
      const std::size_t d = laws_.stores()[floor.store];
      const Choice& most = *std::ranges::max_element(decisions_[d].choices, {}, &Choice::amount);
      const bool out_of_reach = floor.amount > most.amount;
      // Noted once, so that whoever looks for enough of it finds none.
      if (out_of_reach && needed(floor.store, &set) <= most.amount) floors_.push_back(floor);
      return out_of_reach;
    });
    std::ranges::copy(floors, std::back_inserter(floors_));
    return !floors.empty();
  }

  /// The least set with this equipment, if it is less than what there is.
  void with_equipment(ChoiceSet set, Objective equipment_value) {
    const bool first = !nearest_ && !best_;
    // From below: as long as a run proves that more is needed.
    while (!over() && (first || exhausted() || may_be_best(set, equipment_value))) {
      const bool possible = take_lightest(set);
      // What was proved before says nothing of how much more is needed of each store.
      const bool hopeless = covered(set, proofs_for(set, false));
      const Judgement judgement = hopeless ? judge_.judge(set, Mishaps::none) : judged(set);
      note_nearest(judgement, set);
      hopeless_ = laws_.failing_banks(judgement, set);
      const bool fails = !hopeless_.empty() || judgement.packed_too_full >= 0;
      // The first one is gone on with, to know what is needed whatever the equipment.
      if (fails && !first) return;
      if (take_on(laws_.floors(judgement, set), set)) continue;
      if (fails) return;
      // With equipment that will do it is seen best what is lacking.
      nothing_helps_ = laws_.fails_beyond_help(judgement, set) || exhausted();
      if (possible && !nothing_helps_) from_least(set, equipment_value);
      return;
    }
  }

  /// Goes through what is left of the stores, the least first. What is run and does not hold is
  /// covered by what it proves, so nothing is run twice.
  void from_least(ChoiceSet set, Objective equipment_value) {
    Shelves shelves = shelves_for(set);
    for (bool narrowed = true; narrowed;) {
      narrowed = false;
      std::optional<BestFirst> sets = in_order(shelves);
      while (sets && !narrowed) {
        const std::optional<Objective> sum = next_open(*sets, shelves, set, equipment_value);
        if (!sum) return;
        const Judgement judgement = judged(set);
        // Its mishaps may not all have been tried.
        if (judge_.stopped()) return;
        if (judgement.holds()) {
          best_ = set;
          best_value_ = *sum;
          return;
        }
        note_nearest(judgement, set);
        for (Proof& proof : laws_.proofs(judgement, set)) {
          proofs_.push_back(std::move(proof));
          narrowed = narrow(proofs_.back(), shelves) || narrowed;
        }
      }
    }
  }

  /// Takes more of the first reserve that fails, with one equipment after another, until a set
  /// holds. It need not be the least.
  void take_more_of_what_fails() {
    std::optional<BestFirst> combinations = kits_.in_order();
    constexpr int most_combinations = 200;
    for (int n = 0; combinations && n < most_combinations && !best_; ++n) {
      const auto next = combinations->next();
      if (!next) return;
      ChoiceSet set = kits_.set_of(next->places);
      (void)take_lightest(set);
      while (!judge_.stopped()) {
        const Judgement judgement = judge_.judge(set);
        if (judge_.stopped()) return;
        if (judgement.holds()) {
          best_ = set;
          return;
        }
        note_nearest(judgement, set);
        if (!judgement.within_limits() || !take_more(judgement, set)) break;
      }
    }
  }

  bool take_more(const Judgement& judgement, ChoiceSet& set) const {
    if (judgement.trial) return take_likelier(decisions_, judgement, set, {}).has_value();
    for (const std::size_t d : laws_.stores()) {
      const int reserve = judgement.reserve(decisions_[d].reserve);
      const bool fails = judgement.breaks(reserve) ||
                         std::ranges::any_of(judgement.fatal, [&](const Finding& finding) {
                           return finding.reserve == reserve;
                         });
      const Choice* more = fails ? more_of(decisions_[d], *set[d]) : nullptr;
      if (more == nullptr) continue;
      set[d] = more;
      return true;
    }
    return false;
  }

  const SizeJudge& judge_;
  const std::vector<Decision>& decisions_;
  Least least_;
  const std::function<void(std::size_t, std::size_t)>& progress_;
  SizeLaws laws_;
  Kits kits_;                  ///< those that are hopeless are taken out
  std::set<int> hopeless_;     ///< banks whose kit has just failed whatever is in store
  std::set<ChoiceSet> tried_;  ///< equipment, with nothing for the stores
  std::vector<Floor> floors_;
  std::vector<Proof> proofs_;
  std::size_t proved_before_;  ///< so many of them have been handed over
  std::optional<ChoiceSet> best_;
  Objective best_value_;
  std::optional<Objective> at_most_;
  std::optional<ChoiceSet> nearest_;
  double nearest_miss_ = 0;
  std::optional<std::pair<ChoiceSet, Judgement>> last_trial_;
  mutable std::size_t looked_at_ = 0;  ///< sets, run or not
  bool nothing_helps_ = false;         ///< no set whatever can hold
};

}  // namespace

Known Known::for_less_margin(std::optional<Objective> holds) const {
  Known out = *this;
  std::erase_if(out.floors, std::mem_fn(&Floor::by_margin));
  out.proofs.clear();
  out.at_most = holds;
  return out;
}

SearchResult search(const SizeJudge& judge, const std::vector<Decision>& decisions,
                    const std::function<void(std::size_t done, std::size_t total)>& progress,
                    Known known) {
  return Search(judge, decisions, progress, std::move(known)).run();
}

}  // namespace drystage::answers
