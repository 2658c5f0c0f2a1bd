#pragma once

#include <cstddef>
#include <string>

#include "answers/base/plan_run.h"
#include "units/format.h"

namespace drystage::report {

/// The longest line that goes as one text message: 160 characters of the GSM alphabet (3GPP TS
/// 23.038), of which every sign used here is one.
inline constexpr std::size_t most_message_signs = 160;

/// What to send home by text message or radio: day, place, for how long what life depends on
/// lasts, the next camp, and when to raise the alarm if nothing is heard; `alarm_now`: at once. At
/// most `most_message_signs`; names are cut, or left out where they have other signs than ASCII.
std::string message_words(const answers::PlanRun& rest, units::System system,
                          bool alarm_now = false);

/// When the alarm is to be raised if nothing is heard: a day after the trip ends, but a day before
/// what life depends on, and lasts for days, would run out where they are now. Never earlier than
/// tomorrow at the same hour. Hours since the trip's first midnight. (A day's grace for a delay,
/// and a day for a search to begin: common practice.)
double alarm_h(const answers::PlanRun& rest);

}  // namespace drystage::report
