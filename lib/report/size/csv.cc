#include "report/text/csv.h"

#include <string_view>

#include "report/mishaps/findings.h"
#include "report/size/report.h"
#include "report/size/words.h"
#include "report/text/words.h"

namespace drystage::report {
namespace {

using answers::Failing;
using answers::SizedLine;

constexpr std::string_view size_header =
    "set,name,counted,of,each,unit,plan_amount,plan_detail,plan_kg,amount,detail,kg,cost,space_l,"
    "kept,one_fewer,fails,fails_day,fails_date,fails_text\r\n";

std::string_view yes_or_no(bool yes) { return yes ? "yes" : "no"; }

/// The day, from 0, on which one fewer fails; none for what no day makes better or worse.
std::optional<int> failing_day(const Failing& failing) {
  if (failing.reason == Failing::Reason::margin && failing.breach) return failing.breach->day;
  if (failing.reason == Failing::Reason::mishap) {
    const answers::Finding& finding = failing.finding;
    return finding.dry_day >= 0 ? finding.dry_day : finding.day;
  }
  return std::nullopt;
}

std::string fails(const answers::PlanRun& planned, const std::optional<Failing>& failing) {
  if (!failing) return ",,,,";
  std::string out = "," + cell(reason_name(failing->reason)) + ",";
  const std::optional<int> day = failing_day(*failing);
  out += day ? std::to_string(*day + 1) + "," + iso_date(date_of(planned, *day)) : ",";
  return out + "," + cell(failing_words(planned, *failing, units::System::metric, Manner::note));
}

std::string row(const SizeAnswer& answer, std::string_view set, const SizedLine& line) {
  std::string out = cell(set) + "," + cell(line.one) + ",";
  const bool counted = !line.many.empty();
  out += yes_or_no(counted);
  out += "," + cell(line.of) + "," + (counted ? number(line.each) : std::string());
  out += "," + cell(line.unit);
  out += "," + number(line.plan_amount) + "," + cell(line.plan_detail) + "," + number(line.plan_kg);
  out += "," + number(line.amount) + "," + cell(line.detail) + "," + number(line.kg) + ",";
  if (answer.sizing.costs_given) out += number(line.cost);
  out += "," + number(line.space_l) + ",";
  out += yes_or_no(line.kept);
  out += "," + cell(line.fewer.value_or(""));
  return out + fails(answer.planned, line.one_fewer) + "\r\n";
}

}  // namespace

std::string size_csv(const SizeAnswer& answer) {
  const answers::Sizing& sizing = answer.sizing;
  std::string out(size_header);
  if (sizing.found) {
    for (const SizedLine& line : sizing.found->lines) out += row(answer, "load", line);
  } else if (sizing.miss) {
    // So that nobody takes for enough what is not.
    for (const SizedLine& line : sizing.miss->set.lines) out += row(answer, "not enough", line);
  }
  return out;
}

}  // namespace drystage::report
