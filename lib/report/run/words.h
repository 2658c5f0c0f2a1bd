#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "answers/base/plan_run.h"
#include "answers/mishaps/spell.h"
#include "units/format.h"

namespace drystage::report {

// The sentences that `run` says of a plan, each without line breaks. `without_unconfirmed` is the
// verdict with every supply shut that nobody has confirmed, where the plan leans on such.

/// Whether a plan holds, and not only if what nobody has confirmed is there.
bool surely_holds(const answers::PlanRun& planned,
                  const std::optional<answers::Verdict>& without_unconfirmed);

/// What comes first: "HOLDS: every reserve keeps its margin on all 9 days." or "DOES NOT HOLD: ..."
/// with what is worst of all that fails, when, and by how much. Where a spell breaks what life
/// depends on, it holds IN USUAL WEATHER alone, and the spell is named.
std::string verdict_words(const answers::PlanRun& planned,
                          const std::optional<answers::Verdict>& without_unconfirmed,
                          units::System system,
                          const std::optional<answers::Spells>& spells = std::nullopt);

/// What depends on supplies that nobody has confirmed: "Not confirmed: water at Bir Aslam. Without,
/// ..." Empty when the plan leans on none.
std::string without_unconfirmed_words(const answers::PlanRun& planned,
                                      const std::optional<answers::Verdict>& without_unconfirmed,
                                      units::System system);

/// When a vehicle is heaviest, and its limit: "truck is heaviest on day 1: 3105 kg, limit 3500 kg."
/// Empty where it has no limit.
std::string heaviest_words(const answers::PlanRun& planned, std::size_t vehicle,
                           units::System system);

/// That a vehicle's use of fuel has not been measured; empty where it has.
std::string by_the_model_words(const plan::Vehicle& vehicle);

}  // namespace drystage::report
