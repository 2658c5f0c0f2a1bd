#pragma once

#include <string>
#include <vector>

#include "answers/base/plan_run.h"
#include "support/plan_text.h"

namespace drystage::support {

/// A plan that has been run, and short ways to ask what came of it.
struct Trip : answers::PlanRun {
  [[nodiscard]] std::size_t days() const { return record.days(); }

  /// A day (from 0) of the reserve or the store of this name; throws when there is none.
  [[nodiscard]] const engine::ReserveDay& reserve(std::size_t day, const std::string& name) const;
  [[nodiscard]] const engine::StoreDay& store(std::size_t day, const std::string& name) const;
  [[nodiscard]] const answers::ReserveOutlook& outlook(const std::string& name) const;

  /// All that was told of one kind, by the timeline, the course and the run.
  [[nodiscard]] std::vector<engine::Event> told(engine::EventKind kind) const;

  /// The sum over days of one column of a reserve's ledger.
  [[nodiscard]] double sum(double engine::ReserveDay::*column, const std::string& name) const;
};

int reserve_index(const engine::CourseBase& course, const std::string& name);
int store_index(const engine::CourseBase& course, const std::string& name);

/// Lays a plan out and runs it; throws when the timeline has problems.
Trip travel(const plan::Plan& plan, double most_step_h = 1.0);
Trip travel(const PlanText& text, double most_step_h = 1.0);

/// Hours since the start of the trip.
inline double trip_hour(const engine::Event& event) { return 24.0 * event.day + event.hour; }

}  // namespace drystage::support
