#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "answers/size/placing.h"
#include "report/odds/words.h"
#include "report/size/report.h"
#include "report/size/trade_off.h"
#include "report/size/words.h"
#include "report/text/amounts.h"
#include "report/text/breach_words.h"
#include "report/text/page.h"
#include "report/text/words.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using answers::Failing;
using answers::NearestMiss;

/// The plan as it stands.
std::string own_line(const SizeAnswer& answer, units::System system) {
  const answers::Verdict& verdict = answer.planned.verdict;
  std::string text = "The plan ";
  if (answer.sizing.found || answer.sizing.miss) {
    text += fmt::format("has {} of the same things, and ",
                        mass_words(answer.sizing.plan_totals.kg, system, Toward::up));
  }
  text += verdict.holds ? "holds" : "does not hold. ";
  if (verdict.holds) {
    if (answer.options.survive) text += ". drystage mishaps shows what mishaps do to it";
    if (answer.sizing.plan_odds) {
      text += fmt::format(". It keeps {} on {}", margins_words(answer),
                          kept_words(answer.sizing.plan_odds->kept));
    }
  } else {
    text += capital(breach_note(answer.planned, verdict.breaches.front(), system));
  }
  return paragraph(text + ".");
}

/// What depends on supplies that nobody has confirmed.
std::string unconfirmed_line(const SizeAnswer& answer, units::System system) {
  if (!answer.without_unconfirmed) return {};
  const answers::Verdict& without = *answer.without_unconfirmed;
  const std::string names = unconfirmed_words(answer.sizing.found->planned);
  if (without.holds) {
    return paragraph(fmt::format("Not confirmed: {}. Without, every margin is still kept.", names));
  }
  return paragraph(
      fmt::format("Not confirmed: {}. Without, {}. --confirmed-only finds what is enough then.",
                  names, breach_note(answer.planned, without.breaches.front(), system)));
}

/// Where one vehicle is too heavy and another is not.
std::string room_elsewhere(const SizeAnswer& answer, units::System system) {
  const NearestMiss& miss = *answer.sizing.miss;
  const bool overload = std::ranges::any_of(miss.failing, [](const Failing& failing) {
    return failing.reason == Failing::Reason::overload;
  });
  std::string text;
  for (std::size_t v = 0; overload && v < answer.planned.plan.vehicles.size(); ++v) {
    const bool too_heavy = std::ranges::any_of(miss.failing, [&](const Failing& failing) {
      if (failing.reason != Failing::Reason::overload) return false;
      return at(answer.planned.course.scales[at(failing.subject)].vehicle) == v;
    });
    if (too_heavy) continue;
    const double room_kg =
        mass_limit(answer.planned.plan, v) - miss.set.planned.record.heaviest[v].kg;
    if (!std::isfinite(room_kg) || room_kg < 1) continue;
    const std::string& name = answer.planned.plan.vehicles[v].name;
    text += paragraph(fmt::format("{} could take {} more: cans on offer with \"in: {}\" go there.",
                                  name, mass_words(room_kg, system, Toward::down), name));
  }
  return text;
}

/// What else the nearest set lacks, and whether more is to be had.
std::string miss_lines(const SizeAnswer& answer, units::System system) {
  const NearestMiss& miss = *answer.sizing.miss;
  std::string text;
  for (std::size_t i = 1; i < miss.failing.size(); ++i) {
    text += (i == 1 ? "" : "; ") +
            failing_words(miss.set.planned, miss.failing[i], system, Manner::note);
  }
  if (!text.empty()) text = paragraph("Besides: " + text + ".");
  text += room_elsewhere(answer, system);
  if (answer.sizing.given_up) return text;
  if (miss.failing.front().reason == Failing::Reason::chance) return text;
  return text + paragraph(miss.most_of_all
                              ? "There is no more on offer of anything that would help: offer "
                                "more of it under size:, or plan another way."
                              : "More is on offer, but then something else is passed: a limit of "
                                "mass, space or cost.");
}

/// How heavy each vehicle is at its heaviest, and whose fuel rests on the model alone.
std::string vehicle_lines(const SizeAnswer& answer, const answers::PlanRun& sized,
                          units::System system) {
  std::string text;
  for (std::size_t v = 0; v < sized.plan.vehicles.size(); ++v) {
    const plan::Vehicle& vehicle = sized.plan.vehicles[v];
    const std::string name = name_words(vehicle.name);
    const engine::Heaviest& most = sized.record.heaviest[v];
    const double limit = mass_limit(answer.planned.plan, v);
    std::string line =
        fmt::format("{} is heaviest on day {}: {} (as the plan stands {})", name, most.day + 1,
                    mass_words(most.kg, system, Toward::up),
                    mass_words(answer.planned.record.heaviest[v].kg, system, Toward::up));
    if (std::isfinite(limit)) {
      line += fmt::format(", {} {}.", most.kg > limit + 1e-6 ? "OVER its limit of" : "limit",
                          mass_words(limit, system, Toward::down));
    } else {
      line += "; the plan gives no limit.";
    }
    if (vehicle.observed.empty()) {
      line +=
          fmt::format(" Fuel of {} is by the model alone: a figure of your own is better.", name);
    }
    text += paragraph(line);
  }
  return text;
}

/// Which bay each thing goes into that the plan had not.
std::string place_lines(const SizeAnswer& answer, const answers::PlanRun& sized) {
  std::string text;
  for (const answers::Placed& one : answers::placed(answer.planned.plan, sized)) {
    const plan::Vehicle& vehicle = sized.plan.vehicles[at(one.vehicle)];
    units::add_to(text, fmt::format("{} in {}", name_words(one.name),
                                    name_words(vehicle.bays[at(one.bay)].name)));
    if (sized.plan.vehicles.size() > 1) text += " of " + name_words(vehicle.name);
  }
  return text.empty() ? text : paragraph("New, with its bay: " + text + ".");
}

/// Whether the plan is known to be enough for all that was asked. Supplies that nobody has
/// confirmed are counted on in the plan as they are in the set.
bool plan_is_enough(const SizeAnswer& answer) {
  const answers::SizeOptions& asked = answer.options;
  return answer.planned.verdict.holds && !asked.survive && !asked.confirmed_only &&
         !asked.confidence;
}

std::string difference_line(const SizeAnswer& answer, units::System system) {
  const double more = answer.sizing.found->totals.kg - answer.sizing.plan_totals.kg;
  if (same(more, 0)) return {};
  if (more < 0 && plan_is_enough(answer)) {
    return paragraph(
        fmt::format("The plan has {} too much.", mass_words(-more, system, Toward::down)));
  }
  return paragraph(fmt::format("That is {} than the plan has.", mass_change_words(more, system)));
}

std::string set_lines(const SizeAnswer& answer, const answers::SizedPlan& set,
                      const TextOptions& options) {
  std::string text = "\n" + size_table(answer, set, options);
  if (answer.sizing.found) text += difference_line(answer, options.system);
  if (options.all) {
    text += paragraph(
        "Cans start full, less the air space that the plan leaves. Masses are rounded up, savings "
        "down.");
  }
  return text + place_lines(answer, set.planned) +
         vehicle_lines(answer, set.planned, options.system);
}

}  // namespace

bool partial(const SizeAnswer& answer) {
  return answer.sizing.stopped ||
         std::ranges::any_of(answer.trade_off, [](const auto& row) { return row.sizing.stopped; });
}

std::string size_text(const SizeAnswer& answer, const TextOptions& options) {
  const answers::Sizing& sizing = answer.sizing;
  const units::System system = options.system;
  const std::string stopped = size_partial_words(answer);
  std::string text;
  if (!stopped.empty()) text += headline(stopped, false, options.color);
  text += headline(size_first_words(answer, system), sizing.found && !size_hopes(answer),
                   options.color);
  if (!sizing.found && sizing.miss) text += miss_lines(answer, system);
  text += paragraph(size_odds_words(answer, system));
  text += unconfirmed_line(answer, system) + title_line(answer.planned);
  text += own_line(answer, system) + warning_lines(answer.warnings);
  if (sizing.found) {
    text += set_lines(answer, *sizing.found, options);
  } else if (sizing.miss) {
    text += set_lines(answer, sizing.miss->set, options);
  }
  const std::string trade = size_trade_off(answer, options);
  if (!trade.empty()) text += "\n" + trade;
  text += remark_lines(sizing.remarks);
  if (!answer.written.empty()) text += "\n" + paragraph("Written to " + answer.written + ".");
  if (!answer.not_written.empty()) {
    text += "\n" + paragraph("NOT WRITTEN: the sized plan. " + answer.not_written + ".");
  }
  text += "\n";
  if (answer.options.confidence) text += paragraph(std::string(odds_cautions));
  return text + caution_lines(options);
}

}  // namespace drystage::report
