#pragma once

#include <cstddef>
#include <optional>
#include <set>
#include <vector>

#include "answers/offers/decision.h"
#include "answers/size/judge.h"

namespace drystage::answers {

/// The choice with the next more of a store, or of a piece of equipment; null if there is none.
const Choice* more_of(const Decision& decision, const Choice& than);

/// Takes more of that which may mend the margin that is broken most often on drawn trips, of those
/// decisions that are not left out. Answers which; nothing where there is no more.
std::optional<std::size_t> take_likelier(const std::vector<Decision>& decisions,
                                         const Judgement& judgement, ChoiceSet& set,
                                         const std::set<std::size_t>& left_out);

struct Likeliest {
  ChoiceSet set;
  bool holds = false;
};

/// Where nothing has the confidence that is asked for: takes more of one thing after the other than
/// a set has, as long as that helps one trip in 500. So it is known what more load can do. The set
/// itself where its trips are not drawn, or the judge is stopped. It may hold all the same where
/// cans are drawn: with other cans, others are lost.
Likeliest likeliest(const SizeJudge& judge, const std::vector<Decision>& decisions, ChoiceSet set);

}  // namespace drystage::answers
