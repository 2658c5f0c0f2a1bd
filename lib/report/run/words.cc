#include "report/run/words.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <string_view>

#include "engine/reserves/tyres.h"
#include "report/text/amounts.h"
#include "report/text/breach_words.h"
#include "report/text/layout.h"
#include "report/text/page.h"
#include "report/text/words.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using answers::Outcome;
using answers::SpellFinding;

/// "4.5 °C", or "4.5 to 6 °C" where the climates of the way differ.
std::string hotter_words(const SpellFinding& finding, units::System system) {
  const auto shown = [system](double hotter_k) {
    return units::format(hotter_k, units::Kind::temperature_difference, system,
                         units::significant(3));
  };
  const std::string least = shown(finding.least_hotter_k);
  std::string most = shown(finding.most_hotter_k);
  if (least == most) return most;
  return least.substr(0, least.find(' ')) + " to " + most;
}

/// "hot week (+4.5 °C)", "dull week (70 % of the sun)": of the climates of the way the dullest.
std::string named(const SpellFinding& finding, units::System system) {
  if (finding.spell == plan::Spell::dull) {
    return fmt::format("dull week ({} % of the sun)", std::lround(100 * finding.least_sun));
  }
  return fmt::format("hot week (+{}{})", hotter_words(finding, system),
                     finding.usual_spread ? ", usual spread" : "");
}

std::string what_breaks(const answers::PlanRun& planned, const SpellFinding& finding) {
  return finding.load >= 0 ? planned.plan.power.loads[at(finding.load)].name
                           : reserve_words(reserve_of(planned, finding.reserve));
}

/// "drinking water falls below its margin, to 12 L on day 4."
std::string below_margin_words(const engine::ReserveInfo& info, double level, int day,
                               units::System system) {
  const bool above = info.sense == engine::Sense::keep_above;
  return fmt::format("{} {} its margin, to {} on day {}.", reserve_words(info),
                     above ? "falls below" : "rises above",
                     amount_toward(info, level, system, above ? Toward::down : Toward::up),
                     day + 1);
}

/// Of a plan that fails anyway: what is worst in the week, as a run in that week has it.
std::string in_the_week_words(const answers::PlanRun& planned, const answers::Verdict& verdict,
                              units::System system) {
  if (verdict.holds) return "it holds, since people take more at what they pass.";
  const auto words = [&](const answers::Verdict& of) {
    const answers::Breach& worst = of.breaches.front();
    const bool margin =
        worst.harm == answers::Harm::margin || worst.harm == answers::Harm::margin_vital;
    if (!margin) return breach_note(planned, worst, system) + ".";
    const auto r = at(worst.reserve);
    return below_margin_words(planned.course.reserves[r], of.reserves[r].lowest,
                              of.reserves[r].lowest_day, system);
  };
  const std::string then = words(verdict);
  return then == words(planned.verdict) ? "the same." : then;
}

}  // namespace

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

std::string part_words(const answers::PlanRun& planned, std::size_t vehicle, units::System system) {
  const auto& scales = planned.course.scales;
  const engine::Scale* nearest = nullptr;
  double kg = 0;
  for (std::size_t s = planned.plan.vehicles.size(); s < scales.size(); ++s) {
    if (at(scales[s].vehicle) != vehicle) continue;
    const double its_kg = planned.record.heaviest[s].kg;
    if (nearest != nullptr && its_kg / scales[s].limit_kg <= kg / nearest->limit_kg) continue;
    nearest = &scales[s];
    kg = its_kg;
  }
  if (nearest == nullptr) return {};
  return fmt::format("{}: {}, {} of {}.",
                     kg > nearest->limit_kg ? "Over its limit" : "Nearest its limit",
                     engine::scale_name(planned.plan, *nearest), mass_words(kg, system, Toward::up),
                     mass_words(nearest->limit_kg, system, Toward::down));
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

std::string tyre_words(const answers::PlanRun& planned) {
  const engine::Timeline& timeline = *planned.course.timeline;
  std::string text;
  for (std::size_t r = 0; r < planned.course.reserves.size(); ++r) {
    const engine::ReserveInfo& info = planned.course.reserves[r];
    if (info.id.family != engine::Family::tyres) continue;
    double expected = 0;
    for (const engine::TimeStep& step : timeline.steps) {
      if (step.drive < 0) continue;
      const models::Punctures here =
          engine::reserves::punctures_on(*planned.plan.vehicles[at(info.id.of)].tyres,
                                         timeline.pieces[at(step.drive)].surface, step.distance_km);
      expected += here.holes + here.cuts;
    }
    const std::string count = units::format_number(expected, units::significant(2));
    const int day = planned.verdict.reserves[r].tightest_day;
    const engine::ReserveDay& tightest = planned.record.reserve(at(day), r);
    units::add_to(text,
                  fmt::format("{}: about {} {} to be expected; spares and repairs for {:.0f}, "
                              "{:.0f} must be there.",
                              info.owner, count, count == "1" ? "puncture" : "punctures",
                              tightest.left, tightest.margin),
                  " ");
  }
  if (text.empty()) return text;
  return text + " No repair of a side wall holds. Check pressures and tread daily.";
}

std::string spell_name(plan::Spell spell) {
  const auto* word = std::ranges::find(plan::spell_words, spell, &plan::Word<plan::Spell>::value);
  return std::string(word->text);
}

std::string spell_breaks_words(const answers::PlanRun& planned, const answers::Spells& spells) {
  std::string out;
  for (const SpellFinding& finding : spells.found) {
    if (!finding.breaks()) continue;
    const bool drunk = finding.load < 0 && finding.stood_in > 0;
    const std::string does =
        drunk ? "empties the drinking containers" : "breaks " + what_breaks(planned, finding);
    units::add_to(out, fmt::format("a {} week {} on day {}", spell_name(finding.spell), does,
                                   finding.day + 1));
  }
  return out;
}

std::string spell_words(const answers::PlanRun& planned, const SpellFinding& finding,
                        units::System system) {
  const std::string a_week = "A " + named(finding, system);
  if (finding.verdict) return a_week + ": " + in_the_week_words(planned, *finding.verdict, system);
  const std::string on_day = fmt::format("on day {}", finding.day + 1);
  if (finding.load >= 0) {
    return fmt::format("{}: no charge left for {} {}.", a_week, what_breaks(planned, finding),
                       on_day);
  }
  if (finding.reserve < 0) return {};
  const engine::ReserveInfo& info = reserve_of(planned, finding.reserve);
  if (finding.stood_in > 0) {
    return fmt::format(
        "{}: the drinking containers run empty {}. Then {} of utility water are drunk.", a_week,
        on_day, difference_words(info, finding.stood_in, system));
  }
  const std::string what = reserve_words(info);
  if (finding.outcome >= Outcome::runs_out) {
    return fmt::format("{}: {} runs out {}, short by {}.", a_week, what, on_day,
                       difference_words(info, finding.short_of, system));
  }
  const bool above = info.sense == engine::Sense::keep_above;
  const std::string level =
      amount_toward(info, finding.lowest, system, above ? Toward::down : Toward::up);
  if (finding.outcome == Outcome::eats_margin) {
    return a_week + ": " + below_margin_words(info, finding.lowest, finding.day, system);
  }
  if (!finding.lowers) return {};
  return fmt::format("{}: {} lasts, {} to {} {}.", a_week, what, above ? "down" : "up", level,
                     on_day);
}

std::string weeks_told(const answers::PlanRun& planned, const answers::Spells& spells) {
  std::string out;
  for (const SpellFinding& finding : spells.found) {
    if (spell_words(planned, finding, units::System::metric).empty()) continue;
    units::add_to(out, spell_name(finding.spell) + " week");
  }
  return out;
}

std::string spell_lines(const answers::PlanRun& planned, const answers::Spells& spells,
                        units::System system) {
  std::string out;
  for (const SpellFinding& finding : spells.found) {
    out += paragraph(spell_words(planned, finding, system));
  }
  if (!out.empty() && spells.every_days > 1) {
    out += fmt::format("(Tried with such weeks that begin every {} days, and about the worst.)\n",
                       spells.every_days);
  }
  return out;
}

std::string shown_spell_words(const SpellFinding& finding, units::System system) {
  const std::string days =
      finding.first_day == finding.last_day
          ? fmt::format("day {}", finding.first_day + 1)
          : fmt::format("days {} to {}", finding.first_day + 1, finding.last_day + 1);
  return fmt::format("Weather shown: a {} on {}, where it hurts most.", named(finding, system),
                     days);
}

std::string in_spell_words(std::string verdict, const SpellFinding& finding) {
  const std::string where =
      finding.spell == plan::Spell::hot ? " IN A HOT WEEK" : " IN A DULL WEEK";
  for (const std::string_view word : {"DOES NOT HOLD", "HOLDS"}) {
    if (!verdict.starts_with(word)) continue;
    verdict.insert(word.size(), where);
    break;
  }
  return verdict;
}

}  // namespace drystage::report
