#pragma once

#include <string>
#include <vector>

#include "report/card/advice.h"
#include "support/plan_text.h"

namespace drystage::support {

/// What the card of a plan says to do first.
std::vector<report::Advice> first_steps_of(const PlanText& plan,
                                           units::System system = units::System::metric);

/// The steps of what is titled so, one to a line; says so where nothing is.
std::string steps_for(const std::vector<report::Advice>& all, const std::string& title);

}  // namespace drystage::support
