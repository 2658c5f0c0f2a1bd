#include "report/size/words.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "engine/course.h"
#include "report/mishaps/findings.h"
#include "report/text/breach_words.h"
#include "report/text/words.h"
#include "units/index.h"

namespace drystage::report {
namespace {

using answers::Failing;

std::string mishap_words(const answers::PlanRun& planned, const Failing& failing,
                         units::System system) {
  const answers::Finding& finding = failing.finding;
  std::string text = fmt::format("{}, on day {}: {}", name_words(failing.mishap), finding.day + 1,
                                 short_words(planned, finding));
  if (finding.short_of > 0) {
    const auto& info = planned.course.reserves[at(finding.reserve)];
    text += ", " + difference_words(info, finding.short_of, system) + " short";
  }
  return text;
}

}  // namespace

std::string amount_words(const answers::SizedLine& line, double amount, const std::string& detail,
                         units::System system) {
  const bool counted = !line.many.empty();
  if (!counted && amount <= 0) return "none";
  const std::string text = quantity_words(amount, counted ? "" : line.unit, system);
  return detail.empty() ? text : text + " " + detail;
}

bool changed(const answers::SizedLine& line) {
  return !same(line.amount, line.plan_amount) || line.detail != line.plan_detail;
}

std::string mass_change_words(double more_kg, units::System system) {
  if (same(more_kg, 0)) return {};
  const bool heavier = more_kg > 0;
  return mass_words(std::abs(more_kg), system, heavier ? Toward::up : Toward::down) +
         (heavier ? " more" : " less");
}

std::string change_words(const answers::SizedLine& line, bool enough, units::System system) {
  if (!changed(line)) return {};
  const double more_kg = line.kg - line.plan_kg;
  const double more = line.amount - line.plan_amount;
  if (!line.many.empty() && !same(more, 0)) {
    const std::string count = units::format_number(std::abs(more), units::significant(3));
    const std::string mass =
        mass_words(std::abs(more_kg), system, more > 0 ? Toward::up : Toward::down);
    if (enough) {
      return fmt::format("the plan has {} too {} ({})", count, more > 0 ? "few" : "many", mass);
    }
    return fmt::format("{} {} than the plan has ({})", count, more > 0 ? "more" : "fewer", mass);
  }
  const std::string mass = mass_change_words(more_kg, system);
  return "in place of " + amount_words(line, line.plan_amount, line.plan_detail, system) +
         (mass.empty() ? "" : ", " + mass);
}

std::string failing_words(const answers::PlanRun& planned, const Failing& failing,
                          units::System system, Manner manner) {
  const char* const is = manner == Manner::sentence ? " is" : "";
  const auto subject = static_cast<std::size_t>(std::max(failing.subject, 0));
  switch (failing.reason) {
    case Failing::Reason::margin:
      return breach_note(planned, failing.breach.value_or(answers::Breach{}), system) +
             (failing.unconfirmed ? " (without what nobody has confirmed)" : "");
    case Failing::Reason::overload:
      return fmt::format("{}{} {} over its limit", name_words(planned.plan.vehicles[subject].name),
                         is, mass_words(failing.over, system, Toward::up));
    case Failing::Reason::packing:
      return fmt::format("{}{} {} overfull", name_words(planned.plan.cold[subject].name), is,
                         volume_words(failing.over, system, Toward::up));
    case Failing::Reason::space:
      return fmt::format("the set{} {} over its limit of space", is,
                         volume_words(failing.over, system, Toward::up));
    case Failing::Reason::budget:
      return fmt::format("the set{} {} over the budget", is, cost_number(failing.over));
    case Failing::Reason::mishap:
      return mishap_words(planned, failing, system);
  }
  return {};
}

std::string_view reason_name(Failing::Reason reason) {
  switch (reason) {
    case Failing::Reason::margin:
      return "margin";
    case Failing::Reason::overload:
      return "overload";
    case Failing::Reason::packing:
      return "packing";
    case Failing::Reason::space:
      return "space";
    case Failing::Reason::budget:
      return "budget";
    case Failing::Reason::mishap:
      return "mishap";
  }
  return {};
}

double mass_limit(const plan::Plan& plan, std::size_t vehicle) {
  double limit = plan.vehicles[vehicle].limit_kg.value_or(engine::without_limit);
  const auto& limits = plan.size.limits.mass_kg;
  if (vehicle < limits.size() && limits[vehicle]) limit = std::min(limit, *limits[vehicle]);
  return limit;
}

}  // namespace drystage::report
