#pragma once

#include <string>
#include <vector>

#include "answers/base/plan_run.h"
#include "units/format.h"

namespace drystage::report {

/// An event in plain words, without day and hour.
std::string event_words(const plan::Plan& plan, const engine::CourseBase& course,
                        const engine::Event& event, units::System system);

/// So much of what an order is for: "72 L", "12 meals".
std::string taken_words(const plan::Plan& plan, const engine::OrderInfo& order, double taken,
                        units::System system);

/// The short name of an event for machines: "shut", "spoiled".
std::string event_name(engine::EventKind kind);

/// All events of a run in time order: those known before, warnings of the weather among them, and
/// those found while stepping.
std::vector<engine::Event> all_events(const answers::PlanRun& planned);

}  // namespace drystage::report
