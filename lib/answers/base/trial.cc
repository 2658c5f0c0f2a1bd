#include "answers/base/trial.h"

#include <utility>

namespace drystage::answers {

Trial try_plan(plan::Plan plan, std::shared_ptr<const engine::Timeline> timeline,
               const engine::Course* like, double more_margin_days) {
  Trial trial;
  trial.plan = std::move(plan);
  trial.course = engine::compile(trial.plan, std::move(timeline), like, more_margin_days);
  trial.record = engine::Engine::run(trial.course);
  trial.verdict = verdict(trial.course, trial.record);
  return trial;
}

std::optional<Verdict> without_unconfirmed(const Trial& trial) {
  engine::Course course = trial.course;
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
