#include "engine/changing_course.h"

#include <algorithm>
#include <utility>

namespace drystage::engine {

using reserves::Power;

ChangingCourse::ChangingCourse(std::shared_ptr<const plan::Plan> plan,
                               std::shared_ptr<const Course> planned, ReadyDays& days,
                               const ChangingCourse* like)
    : plan_(std::move(plan)),
      planned_(std::move(planned)),
      timeline_(std::make_shared<Timeline>(*planned_->timeline)),
      course_(*planned_) {
  course_.timeline = timeline_;
  auto& power = std::get<Power::Compiled>(course_.families);
  power.tables = std::make_shared<Power::Tables>(*power.tables);
  Power::Tables& tables = *power.tables;
  tables.inputs.timeline = nullptr;  // no longer what a course laid out alike would have
  if (like != nullptr && like->planned_->timeline == planned_->timeline) {
    ready_ = like->ready_;
    skies_ = like->skies_;
    const auto& its = std::get<Power::Compiled>(like->course_.families);
    tables.light = its.tables->light;
    tables.light_from = its.tables->light_from;
    return;
  }
  ready_ = std::make_shared<const ReadyConditions>(*plan_, *timeline_, timeline_->conditions, days);
  skies_ = std::make_shared<const Skies>(*plan_, *timeline_);
  tables.light = Power::light_on_panels(*plan_, *planned_);
  tables.light_from = planned_->first_step;
}

bool ChangingCourse::needs_autonomy(Keep keep) const {
  if (keep == Keep::ledgers) return true;
  const auto& power = std::get<Power::Compiled>(course_.families);
  return std::ranges::any_of(power.banks, [&](const Power::Bank& bank) {
    return course_.reserves[static_cast<std::size_t>(bank.reserve)].margin.days != 0;
  });
}

Course& ChangingCourse::draw(const Drawn& drawn, double batteries, const Days& days, Keep keep) {
  const auto& whole = std::get<Power::Compiled>(planned_->families);
  auto& power = std::get<Power::Compiled>(course_.families);
  power.tables->autonomy = needs_autonomy(keep);
  if (!is_as_planned(drawn)) {
    skies_->draw(drawn, drawn_);
    const int until = std::min(days.until, static_cast<int>(timeline_->days.size()));
    fill_drawn_days(timeline_->conditions, *plan_, *timeline_, *ready_, drawn, drawn_, days.from,
                    until);
    Engine::refill(course_, *plan_, days.from, until);
    as_planned_ = false;
  } else if (!as_planned_) {
    timeline_->conditions = planned_->timeline->conditions;
    const std::shared_ptr<Power::Tables> tables = power.tables;
    course_.families = planned_->families;
    power.tables = tables;
    const auto light = tables->light;
    const std::size_t light_from = tables->light_from;
    *tables = *whole.tables;
    tables->light = light;
    tables->light_from = light_from;
    as_planned_ = true;
  }
  Power::wear(power, course_, whole, *planned_, *plan_, batteries);
  return course_;
}

}  // namespace drystage::engine
