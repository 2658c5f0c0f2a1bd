#include "support/size_answer.h"

#include <fmt/core.h>

#include "support/trip.h"

namespace drystage::support {
namespace {

using answers::Failing;
using answers::SizedLine;

answers::SizedPlan set_of(const report::SizeAnswer& answer, std::vector<SizedLine> lines) {
  answers::SizedPlan set{
      .plan = answer.planned.plan, .planned = answer.planned, .lines = {}, .totals = {}};
  set.totals = totals_of(lines);
  set.lines = std::move(lines);
  return set;
}

SizedLine cans(double amount) { return cans_of("drinking water", "container", 6, amount, 21.2); }

}  // namespace

SizedLine cans_of(const std::string& stuff, const std::string& can, double plan_amount,
                  double amount, double each_kg) {
  SizedLine line;
  line.one = "20 L " + can + " of " + stuff;
  line.many = "20 L " + can + "s of " + stuff;
  line.of = stuff;
  line.each = 20;
  line.unit = "L";
  line.plan_amount = plan_amount;
  line.amount = amount;
  line.plan_kg = plan_amount * each_kg;
  line.kg = amount * each_kg;
  return line;
}

SizedLine holding(SizedLine cans, double holds_l) {
  cans.one = fmt::format("{:g}{}", holds_l, cans.one.substr(2));
  cans.many = fmt::format("{:g}{}", holds_l, cans.many.substr(2));
  cans.each = holds_l;
  return cans;
}

SizedLine days_of(const std::string& food, double plan_amount, double amount, double each_kg) {
  SizedLine line = cans_of(food, "", plan_amount, amount, each_kg);
  line.one = "day of " + food + " (6 meals)";
  line.many = "days of " + food + " (6 meals)";
  line.each = 1;
  line.unit = "days";
  return line;
}

SizedLine sized(const std::string& name, const std::string& unit, double plan_amount, double amount,
                double plan_kg, double kg) {
  SizedLine line;
  line.one = name;
  line.unit = unit;
  line.plan_amount = plan_amount;
  line.amount = amount;
  line.plan_kg = plan_kg;
  line.kg = kg;
  return line;
}

Failing below(const report::SizeAnswer& answer, const std::string& reserve, int day, double by) {
  Failing failing;
  failing.breach = answers::Breach{.day = day,
                                   .hour = 6,
                                   .reserve = reserve_index(answer.planned.course, reserve),
                                   .left = 25 - by,
                                   .margin = 25,
                                   .short_of = 0};
  return failing;
}

Failing struck(const report::SizeAnswer& answer, const std::string& mishap, int day) {
  Failing failing;
  failing.reason = Failing::Reason::mishap;
  failing.mishap = mishap;
  failing.finding.day = day;
  failing.finding.hour = 6;
  failing.finding.outcome = answers::Outcome::runs_out_vital;
  failing.finding.reserve = reserve_index(answer.planned.course, "drinking_water");
  failing.finding.short_of = 4;
  failing.finding.dry_day = day + 1;
  failing.finding.dry_hour = 9;
  failing.finding.where = "Base";
  failing.finding.dry_for_h = 9;
  return failing;
}

Failing beyond(Failing::Reason reason, double over, int subject) {
  Failing failing;
  failing.reason = reason;
  failing.over = over;
  failing.subject = subject;
  return failing;
}

answers::Totals totals_of(const std::vector<SizedLine>& lines) {
  answers::Totals totals;
  for (const SizedLine& line : lines) {
    if (line.kept) continue;
    totals.kg += line.kg;
    totals.cost += line.cost;
    totals.space_l += line.space_l;
  }
  return totals;
}

report::SizeAnswer unsized() {
  PlanText plan;
  plan.containers = {"{name: tub, holds: 900 L, filled: 900 L, for: drinking}"};
  plan.margins = {"drinking_water: 10 L", "fuel: 10 L"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2200 kg, limit: 3500 kg}, tanks: "
      "[{name: main tank, holds: 90 L, filled: 90 L}]}"};
  plan.cold = {"{name: chest, volume: 40 L, ice: 1 kg, heat_leak: 3 W/K}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 14}"};
  report::SizeAnswer answer;
  answer.planned = travel(plan);
  answer.sizing.plan_totals.kg = 240.2;
  return answer;
}

report::SizeAnswer sized_answer() {
  report::SizeAnswer answer = unsized();
  SizedLine water = cans(8);
  water.fewer = "7";
  water.one_fewer = below(answer, "drinking_water", 10, 2.4);
  SizedLine diesel = cans_of("diesel for truck", "can", 4, 1, 21.3);
  diesel.fewer = "none";
  diesel.one_fewer = below(answer, "fuel:truck", 13, 7);
  SizedLine battery = sized("camp battery", "Ah", 100, 100, 29, 12);
  battery.plan_detail = "agm";
  battery.detail = "lfp";
  battery.cost = 900;
  answer.sizing.found = set_of(answer, {water, diesel, battery});
  return answer;
}

report::SizeAnswer traded() {
  report::SizeAnswer answer = sized_answer();
  for (int more = -1; more <= 2; ++more) {
    answers::TradeOff row;
    row.more_days = more;
    if (more < 2) {
      row.sizing = answer.sizing;
      std::vector<SizedLine> lines = answer.sizing.found->lines;
      lines[0] = cans(8 + more);
      row.sizing.found = set_of(answer, lines);
    }
    answer.trade_off.push_back(row);
  }
  return answer;
}

report::SizeAnswer missed() {
  report::SizeAnswer answer = unsized();
  answer.sizing.miss = answers::NearestMiss{.set = set_of(answer, {cans(8)}),
                                            .failing = {below(answer, "drinking_water", 10, 2.4)},
                                            .lacks = 11.3,
                                            .most_of_all = true};
  return answer;
}

}  // namespace drystage::support
