#include <fmt/format.h>

#include <algorithm>

#include "report/cautions.h"
#include "report/day_table.h"
#include "report/event_list.h"
#include "report/layout.h"
#include "report/page.h"
#include "report/run_report.h"
#include "report/words.h"

namespace drystage::report {
namespace {

std::string margin_words(const engine::ReserveInfo& info, double margin, units::System system) {
  std::string text = amount_with_unit(info, margin, system);
  if (info.margin.days > 0) {
    return fmt::format("{} ({} days)", text,
                       units::format_number(info.margin.days, units::significant(3)));
  }
  if (info.margin.km > 0) {
    return fmt::format("{} ({})", text,
                       units::format(info.margin.km, units::Kind::distance, system));
  }
  return text;
}

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
      margin_words(exact, breach.margin, system));
}

std::string verdict_line(const RunAnswer& answer, const TextOptions& options) {
  const answers::Trial& trial = answer.trial;
  const bool hopes = answer.without_unconfirmed && !answer.without_unconfirmed->holds;
  std::string text;
  if (trial.verdict.holds) {
    const std::size_t days = trial.record.days();
    text =
        std::string(hopes ? "HOLDS ONLY IF what nobody has confirmed is there: then" : "HOLDS:") +
        " every reserve keeps its margin " +
        (days == 1 ? std::string("all day.") : fmt::format("on all {} days.", days));
  } else {
    text =
        "DOES NOT HOLD: " + breach_words(trial, *trial.verdict.first_breach, options.system) + ".";
  }
  return headline(text, trial.verdict.holds && !hopes, options.color);
}

/// The reserves that fail beside the one that the verdict names.
std::string others_line(const answers::Trial& trial) {
  std::string names;
  for (std::size_t r = 0; r < trial.verdict.reserves.size(); ++r) {
    const answers::ReserveOutlook& outlook = trial.verdict.reserves[r];
    if (!outlook.first_breach_day) continue;
    if (trial.verdict.first_breach->reserve == static_cast<int>(r)) continue;
    names += (names.empty() ? "" : ", ") + reserve_words(trial.course.reserves[r]) +
             fmt::format(" (day {})", *outlook.first_breach_day + 1);
  }
  if (names.empty()) return {};
  return wrap("Below their margins too: " + names + ".", page_columns) + "\n";
}

/// What the figures rest on, and what the reader was warned of.
std::string notes(const RunAnswer& answer, units::System system) {
  std::string text;
  const auto kg = [system](double mass_kg) {
    return units::format(mass_kg, units::Kind::mass, system, units::decimals(0));
  };
  for (std::size_t v = 0; v < answer.trial.plan.vehicles.size(); ++v) {
    const plan::Vehicle& vehicle = answer.trial.plan.vehicles[v];
    std::string line;
    if (vehicle.limit_kg) {
      const engine::Heaviest& most = answer.trial.record.heaviest[v];
      line = fmt::format("{} is heaviest on day {}: {}, {} {}.", vehicle.name, most.day + 1,
                         kg(most.kg), most.kg > *vehicle.limit_kg ? "OVER its limit of" : "limit",
                         kg(*vehicle.limit_kg));
    }
    if (vehicle.observed.empty()) {
      line += (line.empty() ? "" : " ") +
              fmt::format("Fuel of {} is by the model alone: a figure of your own is better.",
                          vehicle.name);
    }
    if (!line.empty()) text += wrap(line, page_columns) + "\n";
  }
  return text + warning_lines(answer.warnings);
}

/// What hangs on supplies that nobody has confirmed.
std::string unconfirmed_line(const RunAnswer& answer, units::System system) {
  if (!answer.without_unconfirmed) return {};
  const std::string names = unconfirmed_words(answer.trial);
  const answers::Verdict& without = *answer.without_unconfirmed;
  const auto& with = answer.trial.verdict.first_breach;
  const bool same = with && without.first_breach && with->day == without.first_breach->day &&
                    with->reserve == without.first_breach->reserve;
  const std::string then = without.holds ? "every reserve still keeps its margin"
                           : same        ? "the first breach is the same"
                                  : breach_words(answer.trial, *without.first_breach, system);
  return wrap(fmt::format("Not confirmed: {}. Without, {}.", names, then), page_columns) + "\n";
}

std::string mend(const RunAnswer& answer, units::System system) {
  if (answer.trial.verdict.holds) return {};
  std::string text = "\n";
  if (!answer.mend) {
    return text +
           wrap(
               "No small mend was found among more water, fuel, food, panel or battery within the "
               "vehicles' limits, filling up on the way, and a night fewer or more: plan another "
               "way.",
               page_columns) +
           "\n";
  }
  const answers::Mend& mend = *answer.mend;
  text += mend.changes.size() == 1 ? "Smallest mend found: "
                                   : "Smallest mend found, all of these together:";
  if (mend.changes.size() == 1) {
    text += engine::words(mend.changes.front().name) + ".";
  } else {
    for (const answers::Change& change : mend.changes)
      text += "\n  - " + engine::words(change.name);
  }
  text += "\n";
  for (std::size_t v = 0; v < answer.trial.plan.vehicles.size(); ++v) {
    const plan::Vehicle& vehicle = answer.trial.plan.vehicles[v];
    const double before = answer.trial.record.heaviest[v].kg;
    const double after = mend.record.heaviest[v].kg;
    if (after <= before + 0.5) continue;
    text += fmt::format("{} would be at most {}", vehicle.name,
                        units::format(after, units::Kind::mass, system, units::decimals(0)));
    if (vehicle.limit_kg) {
      text += ", limit " +
              units::format(*vehicle.limit_kg, units::Kind::mass, system, units::decimals(0));
    }
    text += ".\n";
  }
  const auto failed = static_cast<std::size_t>(answer.trial.verdict.first_breach->reserve);
  const answers::ReserveOutlook& outlook = mend.verdict.reserves[failed];
  const engine::ReserveInfo& info = mend.course.reserves[failed];
  const engine::ReserveDay& day =
      mend.record.reserve(static_cast<std::size_t>(outlook.tightest_day), failed);
  text += wrap(fmt::format("It would leave {} of {} at the tightest, on day {}, where the margin "
                           "is {}, and every other reserve above its own.",
                           amount_with_unit(info, day.left, system), reserve_words(info),
                           outlook.tightest_day + 1, margin_words(info, day.margin, system)),
               page_columns);
  return text + "\n";
}

}  // namespace

std::string run_text(const RunAnswer& answer, const TextOptions& options) {
  std::string text = verdict_line(answer, options) + "\n";
  if (!answer.trial.verdict.holds) text += others_line(answer.trial);
  text += unconfirmed_line(answer, options.system);
  text += title_line(answer.trial);
  text += notes(answer, options.system) + "\n";
  text += day_table(answer.trial, options);
  const std::string events = event_list(answer.trial, options.system);
  if (!events.empty()) text += "\nEvents\n" + events;
  text += mend(answer, options.system);
  return text + "\n" + wrap(cautions, page_columns) + "\n";
}

}  // namespace drystage::report
