#include "support/trip.h"

#include <algorithm>
#include <iterator>
#include <stdexcept>
#include <utility>

#include "engine/weather_warnings.h"

namespace drystage::support {
namespace {

template <class Things>
int index_of(const Things& things, const std::string& name) {
  for (std::size_t i = 0; i < things.size(); ++i) {
    if (things[i].name == name) return static_cast<int>(i);
  }
  throw std::out_of_range("nothing is called " + name);
}

}  // namespace

int reserve_index(const engine::CourseBase& course, const std::string& name) {
  return index_of(course.reserves, name);
}

int store_index(const engine::CourseBase& course, const std::string& name) {
  return index_of(course.stores, name);
}

const engine::ReserveDay& Trip::reserve(std::size_t day, const std::string& name) const {
  return record.reserve(day, static_cast<std::size_t>(reserve_index(course, name)));
}

const engine::StoreDay& Trip::store(std::size_t day, const std::string& name) const {
  return record.store(day, static_cast<std::size_t>(store_index(course, name)));
}

const answers::ReserveOutlook& Trip::outlook(const std::string& name) const {
  return verdict.reserves[static_cast<std::size_t>(reserve_index(course, name))];
}

std::vector<engine::Event> Trip::told(engine::EventKind kind) const {
  std::vector<engine::Event> out;
  for (const std::vector<engine::Event>& events :
       {course.timeline->events, engine::weather_warnings(plan, *course.timeline), course.events,
        record.events}) {
    std::ranges::copy_if(events, std::back_inserter(out),
                         [kind](const engine::Event& event) { return event.kind == kind; });
  }
  return out;
}

double Trip::sum(double engine::ReserveDay::*column, const std::string& name) const {
  double sum = 0;
  for (std::size_t d = 0; d < days(); ++d) sum += reserve(d, name).*column;
  return sum;
}

Trip travel(const plan::Plan& plan, double most_step_h) {
  auto timeline = std::make_shared<const engine::Timeline>(engine::lay_timeline(plan, most_step_h));
  if (!timeline->problems.empty()) throw std::runtime_error(timeline->problems.front().what);
  return {answers::run_plan(plan, std::move(timeline))};
}

Trip travel(const PlanText& text, double most_step_h) { return travel(text.plan(), most_step_h); }

}  // namespace drystage::support
