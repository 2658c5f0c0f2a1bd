#pragma once

#include <string>
#include <vector>

#include "answers/base/trial.h"
#include "units/format.h"

namespace drystage::report {

/// An event in plain words, without day and hour.
std::string event_words(const plan::Plan& plan, const engine::CourseBase& course,
                        const engine::Event& event, units::System system);

/// The short name of an event for machines: "shut", "spoiled".
std::string event_name(engine::EventKind kind);

/// All events of a run in time order: those known before and those found while stepping.
std::vector<engine::Event> all_events(const engine::CourseBase& course,
                                      const engine::Record& record);

}  // namespace drystage::report
