#pragma once

#include <string>

#include "plan/read.h"

namespace drystage::plan {

/// The text of a plan with all that it includes written into it: it says the same and includes
/// nothing. What the plan alone says keeps its text. Sections of which an included file says
/// something are written anew, without comments. Throws std::logic_error if that cannot be done.
std::string stand_alone(const ReadPlan& reading);

}  // namespace drystage::plan
