#pragma once

#include <array>
#include <vector>

#include "engine/timeline.h"
#include "plan/plan.h"

namespace drystage::engine {

/// What a party must drink on a day, hour by hour, in one climate and with one activity.
struct PartyDay {
  int day = 0;
  int climate = 0;
  int activity = 0;
  std::array<double, 24> drink_l_h{};
};

/// Tells, as events of the timeline, what the weather of its days from one on (0-based) means for
/// people and cans beyond what the models reckon with: heat for which the sweat model is not proven
/// or to which somebody is not used, a need above the published daily ceiling, frost.
void warn_of_weather(const plan::Plan& plan, const std::vector<PartyDay>& needs, int from_day,
                     Timeline& timeline);

}  // namespace drystage::engine
