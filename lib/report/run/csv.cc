#include "report/text/csv.h"

#include <string_view>

#include "report/run/report.h"
#include "report/text/words.h"

namespace drystage::report {
namespace {

constexpr std::string_view run_header =
    "day,date,reserve,unit,start,gained,used,lost,end,lowest,left,margin,short,endurance,"
    "endurance_unit,breached,drawn\r\n";

std::string row(const answers::PlanRun& planned, std::size_t d, std::size_t r) {
  const engine::ReserveInfo& info = planned.course.reserves[r];
  const engine::ReserveDay& day = planned.record.reserve(d, r);
  std::string out = std::to_string(d + 1);
  out += "," + iso_date(planned.course.timeline->days[d].schedule.date);
  out += "," + cell(info.name) + "," + cell(info.unit);
  const bool flows = info.sense == engine::Sense::keep_above;
  const auto flow = [flows](double value) { return "," + (flows ? number(value) : ""); };
  out += "," + number(day.start) + flow(day.gained) + flow(day.used) + flow(day.lost);
  for (const double value :
       {day.end, day.lowest, day.left, day.margin, day.short_of, day.endurance}) {
    out += "," + number(value);
  }
  out += "," + endurance_unit(info, units::System::metric);
  out += day.breach_h >= 0 ? ",yes," : ",no,";
  return out + (engine::is_bank(info) ? number(day.drawn) : "") + "\r\n";
}

}  // namespace

std::string run_csv(const RunAnswer& answer) {
  std::string out(run_header);
  for (std::size_t d = 0; d < answer.planned.record.days(); ++d) {
    for (std::size_t r = 0; r < answer.planned.course.reserves.size(); ++r) {
      out += row(answer.planned, d, r);
    }
  }
  return out;
}

}  // namespace drystage::report
