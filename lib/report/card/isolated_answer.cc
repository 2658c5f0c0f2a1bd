#include "report/card/isolated_answer.h"

#include <string>

#include "report/card/isolated.h"

namespace drystage::report {

CardAnswer with_isolated_names(CardAnswer answer) {
  plan::Plan& plan = answer.needs.trial.plan;
  for (plan::Place& place : plan.places) place.name = isolated(place.name);
  for (plan::Person& person : plan.people) person.name = isolated(person.name);
  for (plan::Vehicle& vehicle : plan.vehicles) vehicle.name = isolated(vehicle.name);
  for (engine::ReserveInfo& reserve : answer.needs.trial.course.reserves) {
    const std::size_t colon = reserve.name.find(':');
    if (colon == std::string::npos) continue;
    reserve.name = reserve.name.substr(0, colon + 1) + isolated(reserve.name.substr(colon + 1));
  }
  return answer;
}

}  // namespace drystage::report
