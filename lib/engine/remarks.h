#pragma once

#include <vector>

#include "engine/timeline.h"
#include "plan/diagnostic.h"
#include "plan/plan.h"

namespace drystage::engine {

/// Warnings about a plan that has been laid out without problems: of its calendar, its figures of
/// fuel, and drinking that was observed. Nothing else depends on them; they are for whoever checks
/// a plan.
std::vector<plan::Diagnostic> remarks(const plan::Plan& plan, const Timeline& timeline);

}  // namespace drystage::engine
