#include "report/run_words.h"

#include <fmt/core.h>

#include "report/page.h"
#include "report/spell_words.h"
#include "report/words.h"
#include "units/list.h"

namespace drystage::report {
namespace {

std::string breach_words(const answers::Trial& trial, const answers::Breach& breach,
                         units::System system) {
  const auto& info = trial.course.reserves[static_cast<std::size_t>(breach.reserve)];
  const bool above = info.sense == engine::Sense::keep_above;
  const std::string when = day_words(trial, breach.day) + ", at " + clock(breach.hour);
  if (breach.short_of > 0 && breach.left >= breach.margin) {
    return fmt::format("{} runs out on {}, {} short that day", reserve_words(info), when,
                       amount_with_unit(info, breach.short_of, system));
  }
  // Where rounding would make them look the same, a digit more.
  engine::ReserveInfo exact = info;
  while (amount(exact, breach.left, system) == amount(exact, breach.margin, system) &&
         exact.decimals < 3) {
    ++exact.decimals;
  }
  return fmt::format(
      "{} {} its margin on {}. At that day's tightest moment it {} {}; the margin "
      "is {}",
      reserve_words(info), above ? "falls below" : "rises above", when,
      above ? "is down to" : "is up to", amount_with_unit(exact, breach.left, system),
      margin_then_words(exact, breach.margin, system));
}

}  // namespace

bool surely_holds(const answers::Trial& trial,
                  const std::optional<answers::Verdict>& without_unconfirmed) {
  return trial.verdict.holds && (!without_unconfirmed || without_unconfirmed->holds);
}

std::string verdict_words(const answers::Trial& trial,
                          const std::optional<answers::Verdict>& without_unconfirmed,
                          units::System system, const std::optional<answers::Spells>& spells) {
  if (!trial.verdict.holds) {
    return "DOES NOT HOLD: " + breach_words(trial, *trial.verdict.first_breach, system) + ".";
  }
  if (spells && spells->break_something()) {
    return std::string("HOLDS IN USUAL WEATHER") +
           (surely_holds(trial, without_unconfirmed)
                ? ": "
                : ", AND ONLY IF what nobody has confirmed is there: ") +
           spell_breaks_words(trial, *spells) + ".";
  }
  const std::size_t days = trial.record.days();
  return std::string(surely_holds(trial, without_unconfirmed)
                         ? "HOLDS:"
                         : "HOLDS ONLY IF what nobody has confirmed is there: then") +
         " every reserve keeps its margin " +
         (days == 1 ? std::string("all day.") : fmt::format("on all {} days.", days));
}

std::string others_words(const answers::Trial& trial) {
  std::string names;
  for (std::size_t r = 0; r < trial.verdict.reserves.size(); ++r) {
    const answers::ReserveOutlook& outlook = trial.verdict.reserves[r];
    if (!outlook.first_breach_day) continue;
    if (trial.verdict.first_breach->reserve == static_cast<int>(r)) continue;
    units::add_to(names, reserve_words(trial.course.reserves[r]) +
                             fmt::format(" (day {})", *outlook.first_breach_day + 1));
  }
  return names.empty() ? names : "Below their margins too: " + names + ".";
}

std::string without_unconfirmed_words(const answers::Trial& trial,
                                      const std::optional<answers::Verdict>& without_unconfirmed,
                                      units::System system) {
  if (!without_unconfirmed) return {};
  const std::string names = unconfirmed_words(trial);
  const answers::Verdict& without = *without_unconfirmed;
  const auto& with = trial.verdict.first_breach;
  const bool same = with && without.first_breach && with->day == without.first_breach->day &&
                    with->reserve == without.first_breach->reserve;
  const std::string then = without.holds ? "every reserve still keeps its margin"
                           : same        ? "the first breach is the same"
                                         : breach_words(trial, *without.first_breach, system);
  return fmt::format("Not confirmed: {}. Without, {}.", names, then);
}

std::string heaviest_words(const answers::Trial& trial, std::size_t vehicle, units::System system) {
  const plan::Vehicle& it = trial.plan.vehicles[vehicle];
  if (!it.limit_kg) return {};
  const auto kg = [system](double mass_kg) {
    return units::format(mass_kg, units::Kind::mass, system, units::decimals(0));
  };
  const engine::Heaviest& most = trial.record.heaviest[vehicle];
  return fmt::format("{} is heaviest on day {}: {}, {} {}.", it.name, most.day + 1, kg(most.kg),
                     most.kg > *it.limit_kg ? "OVER its limit of" : "limit", kg(*it.limit_kg));
}

std::string by_the_model_words(const plan::Vehicle& vehicle) {
  if (!vehicle.observed.empty()) return {};
  std::string idle;
  if (vehicle.idle_l_h == plan::usual_idle_l_h) {
    idle = fmt::format(" Idling is {}, the usual value.",
                       units::format(vehicle.idle_l_h, units::Kind::fuel_rate));
  }
  return fmt::format("Fuel of {} is by the model alone: a figure of your own is better.{}",
                     vehicle.name, idle);
}

std::string margin_then_words(const engine::ReserveInfo& reserve, double margin,
                              units::System system) {
  std::string text = amount_with_unit(reserve, margin, system);
  if (reserve.margin.days > 0) {
    return fmt::format("{} ({} {})", text,
                       units::format_number(reserve.margin.days, units::significant(3)),
                       reserve.margin.days == 1 ? "day" : "days");
  }
  if (reserve.margin.km > 0) {
    return fmt::format("{} ({})", text,
                       units::format(reserve.margin.km, units::Kind::distance, system));
  }
  return text;
}

}  // namespace drystage::report
