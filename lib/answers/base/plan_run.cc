#include "answers/base/plan_run.h"

#include <utility>

#include "engine/readings.h"

namespace drystage::answers {

PlanRun run_plan(plan::Plan plan, std::shared_ptr<const engine::Timeline> timeline,
                 const engine::Course* like, double more_margin_days, Rates rates) {
  PlanRun planned;
  planned.rates = rates;
  planned.plan = std::move(plan);
  engine::CourseOptions options{.more_margin_days = more_margin_days};
  if (like != nullptr) {
    options.learned = like->learned;
  } else if (!engine::all_readings(planned.plan).empty()) {
    planned.learned = learn_from_readings(planned.plan, timeline);
    options.learned = planned.learned.factors;
    if (rates == Rates::as_planned) options.learned.back() = {};
  }
  planned.course = engine::compile(planned.plan, std::move(timeline), like, std::move(options));
  planned.record = engine::Engine::run(planned.course);
  planned.verdict = verdict(planned.course, planned.record);
  return planned;
}

std::optional<Verdict> without_unconfirmed(const PlanRun& planned) {
  engine::Course course = planned.course;
  bool leans = false;
  for (engine::OrderInfo& order : course.orders) {
    if (!order.open || order.supply.confirmed) continue;
    order.open = false;
    leans = true;
  }
  if (!leans) return std::nullopt;
  return verdict(course, engine::Engine::run(course));
}

}  // namespace drystage::answers
