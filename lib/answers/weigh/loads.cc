#include "answers/weigh/loads.h"

#include <algorithm>
#include <utility>

#include "units/index.h"

namespace drystage::answers {

Trace trace_of(const PlanRun& planned) {
  using engine::Engine;
  const engine::Course& course = planned.course;
  Trace out;
  out.stores = course.stores.size();
  engine::Record record = engine::blank_record(course);
  Engine::Standing standing = Engine::begin(course, record);
  const auto add = [&](const engine::TimeStep& step, double hour) {
    out.moments.push_back({.day = step.day,
                           .hour = hour,
                           .company = standing.run.company(),
                           .past = step.index < course.judged_from()});
    for (std::size_t s = 0; s < out.stores; ++s) {
      out.levels.push_back(standing.run.level(static_cast<int>(s)));
    }
  };
  for (const engine::TimeStep& step : course.timeline->steps) {
    const int company = standing.run.company();
    const bool is_read = standing.run.is_read_before(step.index);
    Engine::begin_step(course, standing);
    const bool changed = step.stop >= 0 || is_read || company != standing.run.company();
    const bool new_day = out.moments.empty() || out.moments.back().day != step.day;
    if (new_day || changed) add(step, step.from_h);
    Engine::end_step(course, standing);
    if (step.dt_h > 0) add(step, step.from_h + step.dt_h);
  }
  return out;
}

Loads::Loads(const PlanRun& planned, const Trace& trace, int vehicle)
    : vehicle_(vehicle), things_(engine::carried_in(planned.plan, planned.course, vehicle)) {
  const auto& companies = planned.course.timeline->companies;
  for (std::size_t m = 0; m < trace.moments.size(); ++m) {
    const engine::Company& company = companies[at(trace.moments[m].company)];
    if (company.vehicles[at(vehicle)] != 0) moments_.push_back(m);
  }
  for (const engine::Carried& thing : things_) {
    double most_kg = 0;
    for (const std::size_t m : moments_) {
      const WeighedMoment& moment = trace.moments[m];
      const double own_kg = thing.here[at(moment.company)] != 0 ? thing.own_kg : 0;
      const bool holds = thing.sort == engine::Carried::Sort::store;
      const double content_kg = holds ? thing.kg_per_level * trace.level(m, thing.index) : 0;
      kg_.push_back(own_kg + content_kg);
      if (!moment.past) most_kg = std::max(most_kg, kg_.back());
    }
    most_kg_.push_back(most_kg);
  }
}

double scale_kg(const engine::Scale& scale, const Trace& trace, std::size_t moment) {
  double kg = scale.fixed_kg[at(trace.moments[moment].company)];
  for (const engine::Scale::Part& part : scale.parts) {
    kg += part.kg_per_level * trace.level(moment, part.store);
  }
  return kg;
}

}  // namespace drystage::answers
