#include "report/size_words.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "engine/course.h"
#include "report/breach_words.h"
#include "report/mishap_findings.h"
#include "report/words.h"

namespace drystage::report {
namespace {

using answers::Failing;

constexpr double too_small = 1e-6;

std::string shown(double canonical, units::Kind kind, units::System system, Toward toward) {
  const double number = units::display(kind, system).number(canonical);
  const bool small = std::abs(number) < 9.95 && std::abs(number) > too_small;
  const int digits = small ? 1 : 0;
  return units::format_number(rounded(number, digits, toward), units::decimals(digits));
}

std::string with_unit(const std::string& number, units::Kind kind, units::System system) {
  return number + " " + std::string(units::display(kind, system).unit);
}

std::string mishap_words(const answers::Trial& trial, const Failing& failing,
                         units::System system) {
  const answers::Finding& finding = failing.finding;
  std::string text = fmt::format("{}, on day {}: {}", name_words(failing.mishap), finding.day + 1,
                                 short_words(trial, finding));
  if (finding.short_of > 0) {
    const auto& info = trial.course.reserves[static_cast<std::size_t>(finding.reserve)];
    text += ", " + difference_words(info, finding.short_of, system) + " short";
  }
  return text;
}

}  // namespace

std::string mass_number(double kg, units::System system, Toward toward) {
  return shown(kg, units::Kind::mass, system, toward);
}

std::string mass_words(double kg, units::System system, Toward toward) {
  return with_unit(mass_number(kg, system, toward), units::Kind::mass, system);
}

std::string volume_number(double volume_l, units::System system, Toward toward) {
  return shown(volume_l, units::Kind::volume, system, toward);
}

std::string volume_words(double volume_l, units::System system, Toward toward) {
  return with_unit(volume_number(volume_l, system, toward), units::Kind::volume, system);
}

std::string cost_number(double cost) {
  const int digits = same(cost, std::round(cost)) ? 0 : 2;
  return units::format_number(rounded(cost, digits, Toward::up), units::decimals(digits));
}

std::string amount_words(const answers::SizedLine& line, double amount, const std::string& detail,
                         units::System system) {
  const bool counted = !line.many.empty();
  if (!counted && amount <= 0) return "none";
  const std::string text = quantity_words(amount, counted ? "" : line.unit, system);
  return detail.empty() ? text : text + " " + detail;
}

std::string quantity_words(double quantity, std::string_view unit, units::System system) {
  constexpr int digits = 3;
  const auto number = [](double shown) {
    return units::format_number(shown, units::significant(digits));
  };
  if (unit == "L") {
    const double volume = units::display(units::Kind::volume, system).number(quantity);
    return with_unit(number(volume), units::Kind::volume, system);
  }
  if (unit == "days" && same(quantity, 1)) return "1 day";
  return unit.empty() ? number(quantity) : number(quantity) + " " + std::string(unit);
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

std::string failing_words(const answers::Trial& trial, const Failing& failing, units::System system,
                          Manner manner) {
  const char* const is = manner == Manner::sentence ? " is" : "";
  const auto subject = static_cast<std::size_t>(std::max(failing.subject, 0));
  switch (failing.reason) {
    case Failing::Reason::margin:
      return breach_note(trial, failing.breach.value_or(answers::Breach{}), system) +
             (failing.unconfirmed ? " (without what nobody has confirmed)" : "");
    case Failing::Reason::overload:
      return fmt::format("{}{} {} over its limit", name_words(trial.plan.vehicles[subject].name),
                         is, mass_words(failing.over, system, Toward::up));
    case Failing::Reason::packing:
      return fmt::format("{}{} {} overfull", name_words(trial.plan.cold[subject].name), is,
                         volume_words(failing.over, system, Toward::up));
    case Failing::Reason::space:
      return fmt::format("the set{} {} over its limit of space", is,
                         volume_words(failing.over, system, Toward::up));
    case Failing::Reason::budget:
      return fmt::format("the set{} {} over the budget", is, cost_number(failing.over));
    case Failing::Reason::mishap:
      return mishap_words(trial, failing, system);
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

bool same(double a, double b) { return std::abs(a - b) <= too_small; }

double mass_limit(const plan::Plan& plan, std::size_t vehicle) {
  double limit = plan.vehicles[vehicle].limit_kg.value_or(engine::without_limit);
  const auto& limits = plan.size.limits.mass_kg;
  if (vehicle < limits.size() && limits[vehicle]) limit = std::min(limit, *limits[vehicle]);
  return limit;
}

}  // namespace drystage::report
