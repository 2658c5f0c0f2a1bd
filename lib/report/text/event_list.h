#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "answers/base/plan_run.h"
#include "engine/event.h"
#include "report/text/options.h"

namespace drystage::report {

/// An event, and what came after it of the same on that day or day after day.
struct ToldEvent {
  engine::Event first;  ///< of weather, with the worst amount
  int times = 1;
  int last_day = 0;
};

/// The events of a run in time order; what comes again is told once.
std::vector<ToldEvent> told_events(const answers::PlanRun& planned);

/// One of them in words, with how often or until when it comes again.
std::string told_words(const answers::PlanRun& planned, const ToldEvent& told,
                       units::System system);

/// The events of a run under a heading, one to a line with date and hour, within 80 columns. What
/// comes again the same day, or day after day, is told once, with how often or until when. On one
/// screen dangers have eight lines, and changes what is left of those and of `room`; what goes as
/// planned or is told elsewhere is left out. Empty when there is none.
std::string event_list(const answers::PlanRun& planned, const TextOptions& options,
                       std::ptrdiff_t room = 40);

}  // namespace drystage::report
