#pragma once

#include <iosfwd>
#include <optional>
#include <vector>

#include "options.h"
#include "plan/read.h"
#include "reading_options.h"

namespace drystage::cli {

/// Asks what is found tonight, one question after another, in the order in which one walks round
/// the vehicle, with what is expected beside each. Enter leaves a thing out. A wrong answer is
/// explained and asked again. Nothing where the input ends first.
std::optional<std::vector<GivenReading>> ask_reading(const plan::ReadPlan& before,
                                                     const CommonOptions& options, std::istream& in,
                                                     std::ostream& out);

}  // namespace drystage::cli
