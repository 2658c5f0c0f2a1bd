#pragma once

#include <string>

#include "start/answers.h"

namespace drystage::start {

/// The answers as a plan, with so many nights at the camp. It says what was asked and nothing that
/// is the program's own default. Sections that the kit has are left out; the plan includes it.
std::string write_plan(const Answers& answers, int nights, const Kit& kit = {});

}  // namespace drystage::start
