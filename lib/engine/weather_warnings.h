#pragma once

#include <vector>

#include "engine/event.h"
#include "engine/timeline.h"
#include "plan/plan.h"

namespace drystage::engine {

/// What the weather of a trip means for people and cans beyond what the models reckon with: heat or
/// hot wind for which the sweat model is not proven, heat to which somebody is not used, a need
/// above the published daily ceiling, observed drinking that is far under the model, frost, and
/// nights so high that people may fall ill. No run depends on them: they are for whoever reads the
/// days one by one.
std::vector<Event> weather_warnings(const plan::Plan& plan, const Timeline& timeline);

}  // namespace drystage::engine
