#include "report/run/words.h"

#include <fmt/core.h>

#include "report/run/spell_words.h"
#include "report/text/breach_words.h"
#include "report/text/capital.h"
#include "report/text/page.h"
#include "report/text/words.h"

namespace drystage::report {

bool surely_holds(const answers::PlanRun& planned,
                  const std::optional<answers::Verdict>& without_unconfirmed) {
  return planned.verdict.holds && (!without_unconfirmed || without_unconfirmed->holds);
}

std::string verdict_words(const answers::PlanRun& planned,
                          const std::optional<answers::Verdict>& without_unconfirmed,
                          units::System system, const std::optional<answers::Spells>& spells) {
  if (!planned.verdict.holds) {
    return "DOES NOT HOLD: " +
           breach_words(planned, planned.verdict, planned.verdict.breaches.front(), system) + ".";
  }
  if (spells && spells->break_something()) {
    const std::string breaks = spell_breaks_words(planned, *spells) + ".";
    if (surely_holds(planned, without_unconfirmed)) return "HOLDS IN USUAL WEATHER: " + breaks;
    return "HOLDS IN USUAL WEATHER, AND ONLY IF what nobody has confirmed is there. " +
           capital(breaks);
  }
  const std::size_t days = planned.record.days();
  return std::string(surely_holds(planned, without_unconfirmed)
                         ? "HOLDS:"
                         : "HOLDS ONLY IF what nobody has confirmed is there: then") +
         " every reserve keeps its margin " +
         (days == 1 ? std::string("all day.") : fmt::format("on all {} days.", days));
}

std::string without_unconfirmed_words(const answers::PlanRun& planned,
                                      const std::optional<answers::Verdict>& without_unconfirmed,
                                      units::System system) {
  if (!without_unconfirmed) return {};
  const std::string names = unconfirmed_words(planned);
  const answers::Verdict& without = *without_unconfirmed;
  const auto same_as_with = [&] {
    if (planned.verdict.holds) return false;
    const answers::Breach& with = planned.verdict.breaches.front();
    const answers::Breach& then = without.breaches.front();
    return with.harm == then.harm && with.day == then.day && with.reserve == then.reserve;
  };
  const std::string then = without.holds ? "every reserve still keeps its margin"
                           : same_as_with()
                               ? "the same fails"
                               : breach_words(planned, without, without.breaches.front(), system);
  return fmt::format("Not confirmed: {}. Without, {}.", names, then);
}

std::string heaviest_words(const answers::PlanRun& planned, std::size_t vehicle,
                           units::System system) {
  const plan::Vehicle& it = planned.plan.vehicles[vehicle];
  if (!it.limit_kg) return {};
  const auto kg = [system](double mass_kg) {
    return units::format(mass_kg, units::Kind::mass, system, units::decimals(0));
  };
  const engine::Heaviest& most = planned.record.heaviest[vehicle];
  return fmt::format("{} is heaviest on day {}: {}, {} {}.", it.name, most.day + 1, kg(most.kg),
                     most.kg > *it.limit_kg ? "OVER its limit of" : "limit", kg(*it.limit_kg));
}

std::string by_the_model_words(const plan::Vehicle& vehicle) {
  if (!vehicle.observed.empty()) return {};
  std::string idle;
  if (vehicle.idle_l_h == plan::usual_idle_l_h()) {
    idle = fmt::format(" Idling is {}, the usual value.",
                       units::format(vehicle.idle_l_h, units::Kind::fuel_rate));
  }
  return fmt::format("Fuel of {} is by the model alone: a figure of your own is better.{}",
                     vehicle.name, idle);
}

}  // namespace drystage::report
