#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

#include "answers/mishaps/sweep_plan.h"

namespace drystage::support {

/// What is left between two runs that come to the same: rounding.
inline constexpr double rounding = 1e-6;

/// How far a reserve may be from what another plan makes of it; infinite: it is not compared.
using Allowance = std::function<double(const engine::ReserveInfo&)>;
double exactly(const engine::ReserveInfo& info);

/// A plan with all that a sweep takes for granted written out, and run. Its mishaps are the usual
/// ones, but that a heat wave lasts three days.
struct Planned {
  explicit Planned(plan::Plan given);

  [[nodiscard]] answers::SweepPlan sweep(plan::MishapKind kind) const {
    return {run, {.only = {kind}, .days = {}}};
  }

  answers::PlanRun run;
};

/// One mishap at one moment, as the sweep carries it out.
struct Suffered {
  Suffered(const answers::SweepPlan& sweep, const answers::Strike& strike);

  const answers::Mishap& mishap;
  answers::LaidTrip laid;
  engine::TimeStep first;  ///< before which it strikes
  std::size_t day;
  bool morning;  ///< it strikes as the day begins
  engine::Record record;
  answers::Finding found;
};

/// A finding in words and figures to the last digit, to be compared whole.
std::string told(const answers::Finding& finding);
std::vector<std::string> told(const std::vector<answers::Finding>& findings);

/// Expects of every reserve of another plan, from the day on which a mishap strikes to the last one
/// of that plan, that it goes there as it does after the mishap.
void expect_same(const Suffered& suffered, const answers::PlanRun& other,
                 const Allowance& allowance);

/// What the other plan comes to from the moment of the mishap on, judged anew: the outcome; slack
/// and want of the reserve that the finding names. Of a day that has begun, the other plan's row
/// tells of the morning too: there the mishap's own is taken.
answers::Finding judged(const Suffered& suffered, const answers::PlanRun& other,
                        std::span<const answers::Fate> planned);

/// Writes what happens into a plan; false where that cannot be done.
using Write = std::function<bool(plan::Plan&, const Suffered&)>;

/// Compares every strike of one kind for which `write` can write a plan, its days and its finding;
/// answers how many.
int compare(const Planned& planned, plan::MishapKind kind, const Write& write,
            const Allowance& allowance = exactly);

}  // namespace drystage::support
