#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "answers/offers/decision.h"
#include "answers/size/size.h"
#include "support/plan_text.h"
#include "support/random_plan.h"

namespace drystage::support {

/// A random plan with much of most things, so that what is on offer is often enough.
PlanText generous_plan(const Pick& pick);

/// What the reader makes of a plan's text with a `size:` section at its end.
plan::Plan plan_to_size(const PlanText& plan, const std::string& size);

/// Every way in which a decision can be made: those that others beat as well, which the search
/// leaves out.
std::vector<answers::Choice> every_choice(const answers::Decision& decision);

/// One choice for every decision, by the position of each.
using Chosen = std::vector<const answers::Choice*>;

/// The plan with a set in it, and nothing more to be chosen.
plan::Plan with_choices(const plan::Plan& plan, const Chosen& chosen);

/// Whether a set is enough, by running it and looking: margins, masses, space, cost, cabinets
/// packed too full, and mishaps where they are asked.
bool is_enough(const answers::PlanRun& planned, const answers::SizeOptions& options,
               const Chosen& chosen);

/// The least of all sets, found by trying one after another; nothing where none is enough.
struct LeastOfAll {
  std::vector<std::vector<answers::Choice>> choices;  ///< by decision: what is pointed at
  std::size_t sets = 0;                               ///< that there are
  std::optional<Chosen> set;
  answers::Objective value{};
};
LeastOfAll least_of_all(const answers::PlanRun& planned, const answers::SizeOptions& options);

/// How many sets there are; stops counting at a million.
std::size_t count_sets(const answers::PlanRun& planned);

/// A `size:` section of a few random offers for a plan, with about so many combinations at the
/// most.
std::string random_size(const plan::Plan& plan, const Pick& pick, std::size_t most_sets);

/// A set in words.
std::string told(const Chosen& chosen);
std::string told(const std::vector<answers::SizedLine>& lines);

}  // namespace drystage::support
