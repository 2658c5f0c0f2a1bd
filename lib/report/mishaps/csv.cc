#include "report/text/csv.h"

#include <string_view>

#include "report/mishaps/findings.h"
#include "report/mishaps/report.h"
#include "report/text/words.h"
#include "units/index.h"

namespace drystage::report {
namespace {

using answers::Finding;

constexpr std::string_view mishaps_header =
    "failure,kind,day,date,hour,outcome,reserve,unit,slack,dry_day,dry_date,dry_hour,where,short,"
    "dry_for_h,retreat_saves\r\n";

std::string moment_cells(const answers::PlanRun& planned, int day, double hour) {
  return "," + std::to_string(day + 1) + "," + iso_date(date_of(planned, day)) + "," + number(hour);
}

std::string row(const MishapsAnswer& answer, const Finding& finding) {
  const answers::PlanRun& planned = answer.planned;
  const answers::Failure& failure = answer.sweep.failures[at(finding.failure)];
  std::string out = cell(failure.name) + "," + cell(kind_name(failure.kind));
  out += moment_cells(planned, finding.day, finding.hour);
  out += "," + cell(outcome_name(finding.outcome));
  if (finding.reserve >= 0) {
    const auto& info = planned.course.reserves[at(finding.reserve)];
    out += "," + cell(info.name) + "," + cell(info.unit) + "," + number(finding.slack);
  } else {
    out += ",,,";
  }
  if (finding.dry_day >= 0) {
    out += moment_cells(planned, finding.dry_day, finding.dry_hour) + "," + cell(finding.where) +
           "," + number(finding.short_of) + "," + number(finding.dry_for_h);
  } else {
    out += ",,,,,,";
  }
  out += ",";
  if (finding.retreat_saves) out += *finding.retreat_saves ? "yes" : "no";
  return out + "\r\n";
}

}  // namespace

std::string mishaps_csv(const MishapsAnswer& answer) {
  std::string out(mishaps_header);
  for (const Finding& finding : answer.sweep.findings) out += row(answer, finding);
  return out;
}

}  // namespace drystage::report
