#pragma once

#include <optional>

#include "answers/odds/trial.h"

namespace boost::program_options {
class variables_map;
}

namespace drystage::cli {

/// How sure somebody wants to be, with which trips; nothing where that is not asked. Throws
/// UsageError.
std::optional<answers::Confidence> confidence_of(
    const boost::program_options::variables_map& values);

}  // namespace drystage::cli
