#pragma once

#include <string>

#include "report/run/report.h"
#include "support/plan_text.h"

namespace drystage::support {

/// All that `drystage run` has to say of a plan, without warnings. Throws when the plan cannot be
/// laid out.
report::RunAnswer answer(const plan::Plan& plan);
report::RunAnswer answer(const PlanText& text);

/// What `drystage run` prints of a plan: metric, in 80 columns, without colour.
std::string run_text(const plan::Plan& plan);
std::string run_text(const PlanText& text);

/// The same words with every run of blanks and line ends made one blank.
std::string unwrapped(const std::string& text);

/// How often a piece occurs in a text.
int times(const std::string& text, const std::string& piece);

}  // namespace drystage::support
