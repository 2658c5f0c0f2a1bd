#include "support/mishaps.h"

#include "support/trip.h"

namespace drystage::support {

report::MishapsAnswer mishaps_answer(int days, const std::vector<std::string>& names) {
  PlanText plan;
  plan.containers = {"{name: tub, holds: 900 L, filled: 900 L, for: drinking}"};
  plan.margins = {"drinking_water: 10 L"};
  plan.cold = {"{name: chest, volume: 40 L, ice: 1 kg, heat_leak: 3 W/K}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: " + std::to_string(days) + "}"};
  report::MishapsAnswer answer;
  answer.planned = travel(plan);
  for (const std::string& name : names) {
    answer.sweep.failures.push_back({.kind = plan::MishapKind::container, .name = name});
  }
  return answer;
}

answers::Finding holding(int failure, int day) {
  answers::Finding finding;
  finding.failure = failure;
  finding.day = day;
  finding.hour = 6;
  return finding;
}

answers::Finding nibbling(const report::MishapsAnswer& answer, int failure, int day,
                          const std::string& reserve, double below) {
  answers::Finding finding = holding(failure, day);
  finding.outcome = answers::Outcome::eats_margin;
  finding.reserve = reserve_index(answer.planned.course, reserve);
  finding.slack = -below;
  return finding;
}

answers::Finding dry(const report::MishapsAnswer& answer, int failure, int day,
                     const std::string& reserve, answers::Outcome outcome) {
  answers::Finding finding = nibbling(answer, failure, day, reserve, 10);
  finding.outcome = outcome;
  finding.short_of = 4;
  finding.dry_day = day;
  finding.dry_hour = 9;
  finding.where = "Base";
  finding.dry_for_h = 9;
  return finding;
}

report::MishapsAnswer calm_mishaps() {
  report::MishapsAnswer answer = mishaps_answer(14, {"can 1 lost", "well dry"});
  for (const int failure : {0, 1}) {
    for (int day = 0; day < 14; ++day) {
      answer.sweep.findings.push_back(holding(failure, day));
    }
  }
  answer.sweep.asked = answer.sweep.findings.size();
  return answer;
}

report::MishapsAnswer fatal_mishap() {
  report::MishapsAnswer answer = calm_mishaps();
  answer.sweep.findings[4] = dry(answer, 0, 4, "drinking_water");
  return answer;
}

}  // namespace drystage::support
