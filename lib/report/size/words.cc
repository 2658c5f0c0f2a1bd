#include "report/size/words.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "answers/odds/trip_tally.h"
#include "engine/course.h"
#include "plan/limits.h"
#include "report/mishaps/words.h"
#include "report/odds/words.h"
#include "report/text/breach_words.h"
#include "report/text/words.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using answers::Failing;
using answers::NearestMiss;

std::string asked_words(double chance) { return fmt::format("{:g} %", 100 * chance); }

/// The margins that are broken on most trips: "Broken most often: fuel of truck on 2.1 %, drinking
/// water on 1.2 % of trips."
std::string most_often_words(const answers::SizedPlan& set) {
  constexpr std::size_t most = 3;
  constexpr double least_told = 0.001;
  std::string text;
  for (std::size_t i = 0; i < std::min(most, set.odds->reserves.size()); ++i) {
    const auto& [reserve, broken] = set.odds->reserves[i];
    if (broken.chance < least_told) break;
    units::add_to(text, reserve_words(reserve_of(set.planned, reserve)) + " on " +
                            percent_words(broken.chance));
  }
  return text.empty() ? text : "Broken most often: " + text + " of trips.";
}

std::string mishap_words(const answers::PlanRun& planned, const Failing& failing,
                         units::System system) {
  const answers::Finding& finding = failing.finding;
  std::string text = fmt::format("{}, on day {}: {}", name_words(failing.mishap), finding.day + 1,
                                 short_words(planned, finding));
  if (finding.short_of > 0) {
    const auto& info = reserve_of(planned, finding.reserve);
    text += ", " + difference_words(info, finding.short_of, system) + " short";
  }
  return text;
}

/// "margins are kept on 91.2 % of trips (89.9 to 92.4 %), that of fuel of truck is broken on 7.5 %"
std::string chance_words(const answers::PlanRun& planned, const Failing& failing) {
  std::string text = "margins are kept on " + kept_words(failing.kept);
  if (failing.reserve >= 0) {
    text += fmt::format(", that of {} is broken on {}",
                        reserve_words(reserve_of(planned, failing.reserve)),
                        percent_words(failing.broken.chance));
  }
  return text;
}

/// What the set is proof against, beside its margins.
std::string survives_words(const SizeAnswer& answer) {
  if (!answer.options.survive || answer.sizing.tried.empty()) return {};
  std::string kinds;
  for (const plan::MishapKind kind : *answer.options.survive) {
    if (std::ranges::find(answer.sizing.tried, kind) == answer.sizing.tried.end()) continue;
    units::add_to(kinds, kind_name(kind));
  }
  if (!kinds.empty()) kinds = " of these (" + kinds + ")";
  if (kinds.empty() && !answer.planned.plan.mishaps.left_out.empty()) {
    kinds = " of those that the plan does not leave out";
  }
  return fmt::format(", and with which no single mishap{} runs {} dry", kinds,
                     vital_words(answer.planned.plan));
}

/// Whether the set is what the plan has.
bool as_planned(const answers::SizedPlan& set) { return std::ranges::none_of(set.lines, changed); }

/// How often it does so.
std::string confidence_words(const SizeAnswer& answer) {
  if (!answer.options.confidence) return {};
  return fmt::format(" as planned, and on {} of drawn trips{}",
                     asked_words(answer.options.confidence->chance),
                     answer.options.confidence->vital ? " those that life depends on" : "");
}

std::string found_words(const SizeAnswer& answer, units::System system) {
  const answers::SizedPlan& set = *answer.sizing.found;
  const std::string mass = mass_words(set.totals.kg, system, Toward::up);
  const std::string which = answer.options.least == answers::Least::cost ? "cheapest" : "lightest";
  const std::string what =
      fmt::format("the {} set {} that keeps every margin{}{}", which,
                  answer.sizing.stopped || answer.sizing.given_up ? "found so far" : "on offer",
                  confidence_words(answer), survives_words(answer));
  const std::string as_it_is = as_planned(set) ? ", as the plan has it" : "";
  const std::string cost = answer.sizing.costs_given
                               ? fmt::format(", at a cost of {}", cost_number(set.totals.cost))
                               : std::string();
  if (size_hopes(answer)) {
    return fmt::format("HOLDS ONLY IF what nobody has confirmed is there. Then load {}{}{}: {}.",
                       mass, cost, as_it_is, what);
  }
  return fmt::format("LOAD {}{}{}: {}.", mass, cost, as_it_is, what);
}

/// Of a confidence that nothing on offer reaches: how near the best comes.
std::string unlikely_words(const SizeAnswer& answer, const Failing& failing) {
  return fmt::format(
      "{}: {} is out of reach. The best found keeps {} on {}.",
      answer.sizing.given_up ? "NOT KNOWN, the search was given up" : "NOT ENOUGH ON OFFER",
      asked_words(answer.options.confidence->chance), margins_words(answer),
      kept_words(failing.kept));
}

/// Of a confidence that is out of reach: what would help, and which limit forbids it.
std::string in_the_way_words(const SizeAnswer& answer, units::System system) {
  const NearestMiss& miss = *answer.sizing.miss;
  const answers::PlanRun& planned = miss.set.planned;
  return fmt::format("More {} would help, but then {}.",
                     miss.in_the_way->reserve < 0
                         ? "of the equipment on offer"
                         : reserve_words(reserve_of(planned, miss.in_the_way->reserve)),
                     failing_words(planned, miss.in_the_way->limit, system, Manner::sentence));
}

std::string miss_words(const SizeAnswer& answer, units::System system) {
  const NearestMiss& miss = *answer.sizing.miss;
  const Failing& first = miss.failing.front();
  const answers::PlanRun& planned = miss.set.planned;
  if (first.reason == Failing::Reason::chance) return unlikely_words(answer, first);
  std::string text =
      answer.sizing.given_up ? "NOT KNOWN, the search was given up: " : "NOT ENOUGH ON OFFER: ";
  if (first.reason == Failing::Reason::mishap) {
    text += "the set that comes nearest does not survive every mishap: ";
  } else {
    text += "with the set that comes nearest, ";
  }
  text += failing_words(planned, first, system, Manner::sentence);
  if (first.reason == Failing::Reason::margin && first.breach && miss.lacks > 0) {
    const auto& info = reserve_of(planned, first.breach->reserve);
    text += fmt::format("; at its tightest it {} {}",
                        info.sense == engine::Sense::keep_above ? "lacks" : "is too warm by",
                        difference_words(info, miss.lacks, system));
  }
  return text + ".";
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
      return fmt::format("{}{} {} over its limit",
                         scale_words(planned.plan, planned.course.scales[subject]), is,
                         mass_words(failing.over, system, Toward::up));
    case Failing::Reason::packing:
      return fmt::format("{}{} {} overfull", name_words(planned.plan.cold[subject].name), is,
                         volume_words(failing.over, system, Toward::up));
    case Failing::Reason::space:
      return fmt::format("the set{} {} over its limit of space", is,
                         volume_words(failing.over, system, Toward::up));
    case Failing::Reason::budget:
      return fmt::format("the set{} {} over the budget", is, cost_number(failing.over));
    case Failing::Reason::things:
      return fmt::format("the set{} {:g} over the {} things that a plan may have", is, failing.over,
                         plan::most_to_carry);
    case Failing::Reason::mishap:
      return mishap_words(planned, failing, system);
    case Failing::Reason::chance:
      return chance_words(planned, failing);
  }
  return {};
}

std::string_view reason_name(Failing::Reason reason) {
  constexpr std::array<std::string_view, 8> names{"margin", "overload", "packing", "space",
                                                  "budget", "mishap",   "chance",  "things"};
  return names.at(static_cast<std::size_t>(reason));
}

double mass_limit(const plan::Plan& plan, std::size_t vehicle) {
  double limit = plan.vehicles[vehicle].limit_kg.value_or(engine::without_limit);
  const auto& limits = plan.size.limits.mass_kg;
  if (vehicle < limits.size() && limits[vehicle]) limit = std::min(limit, *limits[vehicle]);
  return limit;
}

std::string margins_words(const SizeAnswer& answer) {
  const auto& asked = answer.options.confidence;
  return asked && asked->vital ? "every vital margin" : "every margin";
}

std::string size_odds_words(const SizeAnswer& answer, units::System system) {
  const answers::Sizing& sizing = answer.sizing;
  if (sizing.found && sizing.found->odds) {
    return fmt::format("With it {} is kept on {}; {} were drawn. {}", margins_words(answer),
                       kept_words(sizing.found->odds->kept), sizing.found->odds->trips,
                       most_often_words(*sizing.found));
  }
  const bool is_chance = !sizing.found && sizing.miss &&
                         sizing.miss->failing.front().reason == Failing::Reason::chance;
  if (!is_chance || !sizing.miss->set.odds) return {};
  const NearestMiss& miss = *sizing.miss;
  std::string text = most_often_words(miss.set) + " ";
  if (miss.beyond_load) {
    const int reserve = miss.set.odds->reserves.front().reserve;
    text += fmt::format("No load on offer mends {}: drystage odds tells what makes trips differ.",
                        reserve_words(reserve_of(miss.set.planned, reserve)));
    if (!answers::life_depends_on(miss.set.planned.course, at(reserve))) {
      text += " --vital leaves it out.";
    }
    if (miss.in_the_way) text += " " + in_the_way_words(answer, system);
  } else if (miss.in_the_way) {
    text += in_the_way_words(answer, system);
  } else {
    text += "One more of anything on offer, within the limits, changes little.";
  }
  return text;
}

bool size_hopes(const SizeAnswer& answer) {
  return answer.without_unconfirmed && !answer.without_unconfirmed->holds;
}

std::string size_first_words(const SizeAnswer& answer, units::System system) {
  if (answer.sizing.found) return found_words(answer, system);
  if (answer.sizing.miss) return miss_words(answer, system);
  return "NOT KNOWN: no set that is enough has been found yet.";
}

std::string size_partial_words(const SizeAnswer& answer) {
  if (answer.sizing.stopped) return "PARTIAL: stopped before the search was done.";
  if (partial(answer)) {
    return "PARTIAL: the set is found, but the trade-off was stopped before it was done.";
  }
  return {};
}

}  // namespace drystage::report
