#include "report/size/first_words.h"

#include <fmt/core.h>

#include <algorithm>

#include "report/mishaps/findings.h"
#include "report/size/words.h"
#include "report/text/words.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using answers::Failing;
using answers::NearestMiss;

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

std::string found_words(const SizeAnswer& answer, units::System system) {
  const answers::SizedPlan& set = *answer.sizing.found;
  const std::string mass = mass_words(set.totals.kg, system, Toward::up);
  const std::string which = answer.options.least == answers::Least::cost ? "cheapest" : "lightest";
  const std::string what =
      fmt::format("the {} set {} that keeps every margin{}", which,
                  answer.sizing.stopped || answer.sizing.given_up ? "found so far" : "on offer",
                  survives_words(answer));
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

std::string miss_words(const SizeAnswer& answer, units::System system) {
  const NearestMiss& miss = *answer.sizing.miss;
  const Failing& first = miss.failing.front();
  const answers::PlanRun& planned = miss.set.planned;
  std::string text =
      answer.sizing.given_up ? "NOT KNOWN, the search was given up: " : "NOT ENOUGH ON OFFER: ";
  if (first.reason == Failing::Reason::mishap) {
    text += "the set that comes nearest does not survive every mishap: ";
  } else {
    text += "with the set that comes nearest, ";
  }
  text += failing_words(planned, first, system, Manner::sentence);
  if (first.reason == Failing::Reason::margin && first.breach && miss.lacks > 0) {
    const auto& info = planned.course.reserves[at(first.breach->reserve)];
    text += fmt::format("; at its tightest it {} {}",
                        info.sense == engine::Sense::keep_above ? "lacks" : "is too warm by",
                        difference_words(info, miss.lacks, system));
  }
  return text + ".";
}

}  // namespace

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
