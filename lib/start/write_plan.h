#pragma once

#include <string>

#include "start/answers.h"

namespace drystage::start {

/// The answers as a plan, with so many nights at the camp. It says what was asked and nothing that
/// is the program's own default. Each section is a function of its own, so that one can be left
/// out.
std::string write_plan(const Answers& answers, int nights);

}  // namespace drystage::start
