#pragma once

#include <array>
#include <vector>

#include "engine/timeline.h"
#include "plan/plan.h"

namespace drystage::engine {

/// What a party must drink on a day, hour by hour, at one place and with one activity.
struct PartyDay {
  int day = 0;
  int place_day = 0;  ///< index into Timeline::place_days: the place and its weather
  int activity = 0;
  double loss_g_m2 = 0;  ///< of the day, beyond the temperate base; see water_loss.h
  std::array<double, 24> drink_l_h{};
};

/// Tells, as events of the timeline, what the weather of its days from one on (0-based) means for
/// people and cans beyond what the models reckon with: heat or hot wind for which the sweat model
/// is not proven, heat to which somebody is not used, a need above the published daily ceiling,
/// observed drinking that is far under the model, frost, and nights so high that people may fall
/// ill.
void warn_of_weather(const plan::Plan& plan, const std::vector<PartyDay>& needs, int from_day,
                     Timeline& timeline);

}  // namespace drystage::engine
