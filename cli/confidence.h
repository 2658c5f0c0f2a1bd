#pragma once

#include <optional>
#include <vector>

#include "answers/odds/needs_on_trips.h"
#include "answers/odds/trial.h"

namespace boost::program_options {
class variables_map;
}

namespace drystage::cli {

/// How sure somebody wants to be, with which trips; nothing where that is not asked. Throws
/// UsageError.
std::optional<answers::Confidence> confidence_of(
    const boost::program_options::variables_map& values);

/// answers::raise_to_confidence, with a line on the terminal that shows how far it is.
answers::NeedsOnTrips raised(answers::Needs& needs, std::vector<answers::Leaving>& leavings,
                             const answers::PlanRun& planned, const answers::Confidence& asked);

}  // namespace drystage::cli
