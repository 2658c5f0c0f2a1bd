#pragma once

#include <string>

#include "answers/resume/resume.h"
#include "units/format.h"

namespace drystage::report {

/// What a reading says that using it cannot explain, as a sentence.
std::string doubt_words(const answers::PlanRun& rest, const answers::Doubt& doubt,
                        units::System system);

/// Where turning back leads from now: "Marrabel (210 km)"; of several reserves to several places.
/// Empty where no sure supply lies behind.
std::string back_to_words(const answers::Resumed& resumed, units::System system);

/// The one thing that helps most, in sentences.
std::string help_words(const answers::Resumed& resumed, units::System system);

}  // namespace drystage::report
