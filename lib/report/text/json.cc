#include "report/text/json.h"

#include <cmath>

#include "report/text/words.h"
#include "units/index.h"

namespace drystage::report {

Json json_number(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }

Json json_place(const plan::Plan& plan, int place) {
  return place < 0 ? Json(nullptr) : Json(plan.places[at(place)].name);
}

Json json_moment(const answers::PlanRun& planned, int day, double hour) {
  return {{"day", day + 1}, {"date", iso_date(date_of(planned, day))}, {"hour", hour}};
}

Json json_trip(const answers::PlanRun& planned) {
  return {{"title", planned.plan.trip.title},
          {"start", iso_date(planned.plan.trip.start)},
          {"days", planned.record.days()}};
}

}  // namespace drystage::report
