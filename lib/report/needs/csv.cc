#include "report/text/csv.h"

#include <string_view>

#include "report/needs/report.h"
#include "report/needs/words.h"
#include "report/text/words.h"
#include "units/index.h"

namespace drystage::report {
namespace {

constexpr std::string_view needs_header =
    "day,date,reserve,unit,must_have,has,to_spare,met,fits,until_day,until_hour,until_place\r\n";

std::string yes_no(bool value) { return value ? "yes" : "no"; }

std::string row(const NeedsAnswer& answer, std::size_t day, std::size_t i) {
  const answers::PlanRun& planned = answer.planned;
  const engine::ReserveInfo& info = planned.course.reserves[at(answer.needs.reserves[i])];
  const answers::Need& need = answer.needs.need(day, i);
  std::string out = std::to_string(day + 1);
  out += "," + iso_date(planned.course.timeline->days[day].schedule.date);
  out += "," + cell(info.name) + "," + cell(info.unit);
  for (const double value : {need.must_have, need.has, need.slack()}) out += "," + number(value);
  out += "," + yes_no(!need.lacks()) + "," + yes_no(need.fits);
  out += "," + std::to_string(need.until_day + 1) + "," + number(need.until_h) + ",";
  if (need.until_place >= 0) {
    out += cell(planned.plan.places[at(need.until_place)].name);
  }
  return out + "\r\n";
}

}  // namespace

std::string needs_csv(const NeedsAnswer& answer) {
  std::string out(needs_header);
  for (std::size_t day = 0; day < answer.planned.record.days(); ++day) {
    for (std::size_t i = 0; i < answer.needs.reserves.size(); ++i) out += row(answer, day, i);
  }
  return out;
}

}  // namespace drystage::report
