#include "answers/size/likelier.h"

#include <algorithm>
#include <utility>

#include "units/index.h"

namespace drystage::answers {

const Choice* more_of(const Decision& decision, const Choice& than) {
  const Choice* next = nullptr;
  for (const Choice& choice : decision.choices) {
    if (choice.amount <= than.amount) continue;
    if (next == nullptr || choice.amount < next->amount) next = &choice;
  }
  return next;
}

namespace {

/// On how many trips a margin is broken that a decision may mend. Equipment may mend those of its
/// bank, of what that keeps cold, and of food.
std::uint64_t mendable(const Decision& decision, const Judgement& judgement) {
  if (decision.sort == Decision::Sort::store) {
    const int reserve = judgement.reserve(decision.reserve);
    return reserve < 0 ? 0 : judgement.trial->broken(at(reserve));
  }
  std::uint64_t most = 0;
  for (std::size_t r = 0; r < judgement.trial->reserves(); ++r) {
    const engine::Family family = judgement.planned.course.reserves[r].id.family;
    const bool depends = family == engine::Family::battery || family == engine::Family::cold ||
                         family == engine::Family::food;
    if (depends) most = std::max(most, judgement.trial->broken(r));
  }
  return most;
}

}  // namespace

std::optional<std::size_t> take_likelier(const std::vector<Decision>& decisions,
                                         const Judgement& judgement, ChoiceSet& set,
                                         const std::set<std::size_t>& left_out) {
  std::optional<std::size_t> which;
  std::uint64_t most = 0;
  for (std::size_t d = 0; d < decisions.size(); ++d) {
    if (left_out.contains(d) || more_of(decisions[d], *set[d]) == nullptr) continue;
    const std::uint64_t broken = mendable(decisions[d], judgement);
    if (broken <= most) continue;
    most = broken;
    which = d;
  }
  if (which) set[*which] = more_of(decisions[*which], *set[*which]);
  return which;
}

Likeliest likeliest(const SizeJudge& judge, const std::vector<Decision>& decisions, ChoiceSet set) {
  constexpr std::uint64_t one_in = 500;
  if (!judge.options().confidence || judge.stopped()) return {.set = std::move(set)};
  Judgement judgement = judge.judge(set, SizeJudge::Mishaps::all);
  std::set<std::size_t> no_help;
  while (judgement.trial && !judgement.trial->is_enough()) {
    ChoiceSet more = set;
    const std::optional<std::size_t> which = take_likelier(decisions, judgement, more, no_help);
    if (!which || judge.stopped()) break;
    Judgement then = judge.judge(more, SizeJudge::Mishaps::all);
    if (judge.stopped()) break;
    const std::uint64_t worth_it = 1 + judgement.trial->trips() / one_in;
    if (!then.trial || then.trial->broken() + worth_it > judgement.trial->broken()) {
      no_help.insert(*which);
      continue;
    }
    set = std::move(more);
    judgement = std::move(then);
  }
  return {.set = std::move(set), .holds = judgement.trial && judgement.trial->is_enough()};
}

}  // namespace drystage::answers
