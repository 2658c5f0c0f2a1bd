#include "report/mishaps/words.h"

#include <fmt/core.h>

#include <algorithm>
#include <string_view>
#include <utility>

#include "report/mishaps/findings.h"
#include "report/text/words.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using answers::Finding;
using answers::Outcome;

std::string of_mishaps(std::size_t count) { return counted(count, "mishap", "mishaps"); }

/// Not everything that can be worked out from the plan was to be tried.
bool narrow(const MishapsAnswer& answer) {
  return !answer.narrowed.only.empty() || answer.narrowed.days ||
         !answer.planned.plan.mishaps.left_out.empty();
}

std::string even_without(const MishapsAnswer& answer, units::System system) {
  return "even without a mishap " + finding_words(answer.planned, answer.sweep.plan_itself, system);
}

/// What two mishaps at once do, where every two were tried.
std::string two_words(const MishapsAnswer& answer) {
  if (!answer.pairs || answer.pairs->partial()) return {};
  const bool vital = std::ranges::any_of(answer.pairs->pairs, [](const auto& pair) {
    return pair.worst.outcome == Outcome::runs_out_vital;
  });
  return vital ? ", but not every two" : ", and any two";
}

}  // namespace

std::string counted(std::size_t count, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

const std::string& failure_name(const answers::Sweep& sweep, int failure) {
  return sweep.failures[at(failure)].name;
}

std::string mishap_kinds(const std::vector<plan::MishapKind>& of) {
  std::string text;
  for (const plan::MishapKind kind : of) units::add_to(text, kind_name(kind));
  return text;
}

std::string mishaps_partial_words(const MishapsAnswer& answer) {
  const answers::Sweep& sweep = answer.sweep;
  if (sweep.partial()) {
    std::string text = fmt::format("PARTIAL: stopped after {} of {}", sweep.findings.size(),
                                   counted(sweep.asked, "run", "runs"));
    return text + (answer.two ? "; no pairs were tried." : ".");
  }
  if (answer.two && !answer.pairs) return "PARTIAL: stopped before any pair was tried.";
  if (answer.pairs && answer.pairs->partial()) {
    return fmt::format(
        "PARTIAL: every single mishap was tried, but only {} of {} with every second one.",
        answer.pairs->done, answer.pairs->asked);
  }
  return {};
}

std::string mishaps_verdict_words(const MishapsAnswer& answer, units::System system) {
  const answers::Sweep& sweep = answer.sweep;
  if (sweep.plan_itself.outcome == Outcome::runs_out_vital) {
    return "DOES NOT SURVIVE: " + even_without(answer, system);
  }
  const Tally counts = tally(sweep);
  if (counts.tried == 0) {
    return sweep.partial() ? "NOT KNOWN: nothing has been tried yet."
                           : "NOTHING WAS TRIED: no mishap that was asked for, and that the plan "
                             "does not leave "
                             "out, can strike then.";
  }
  const std::string vital = vital_words(answer.planned.plan);
  if (counts.vital > 0) {
    return fmt::format("DOES NOT SURVIVE every mishap: {} of {} {} {} dry.", counts.vital,
                       of_mishaps(counts.tried), counts.vital == 1 ? "runs" : "run", vital);
  }
  if (sweep.partial()) {
    return fmt::format("NOT KNOWN: so far nothing runs {} dry.", vital);
  }
  return fmt::format("SURVIVES any one mishap{}{}: {} {} dry.",
                     narrow(answer) ? " of those tried" : "", two_words(answer),
                     counts.tried == 1 ? std::string("the only one there is does not run")
                                       : fmt::format("none of {} runs", counts.tried),
                     vital);
}

std::string mishaps_scope_words(const MishapsAnswer& answer) {
  const answers::Sweep& sweep = answer.sweep;
  const Tally counts = tally(sweep);
  std::string text;
  const bool fails_itself = sweep.plan_itself.outcome == Outcome::runs_out_vital;
  if (fails_itself && counts.vital > 0) {
    text += fmt::format("{} {} worse than that. ",
                        counted(counts.vital, "mishap makes", "mishaps make"),
                        vital_words(answer.planned.plan));
  }
  if (counts.dry > 0) {
    text += counts.vital > 0 ? counted(counts.dry, "more runs", "more run")
                             : counted(counts.dry, "runs", "run");
    text += " something else dry. ";
  }
  if (counts.margin > 0) {
    text += fmt::format("{} only below a margin. ", counted(counts.margin, "goes", "go"));
  }
  text += fmt::format("Tried: {}, each alone, at {}", of_mishaps(counts.tried),
                      counted(sweep.findings.size(), "moment", "moments"));
  const answers::SweepOptions& narrowed = answer.narrowed;
  if (!narrowed.only.empty()) text += "; only " + mishap_kinds(narrowed.only);
  if (narrowed.days) {
    const auto [first, last] = *narrowed.days;
    text += first == last ? fmt::format("; only on day {}", first + 1)
                          : fmt::format("; only on days {} to {}", first + 1, last + 1);
  }
  const auto& left_out = answer.planned.plan.mishaps.left_out;
  if (!left_out.empty()) text += "; left out by the plan: " + mishap_kinds(left_out);
  return text + ".";
}

std::string mishaps_plan_itself_words(const MishapsAnswer& answer, units::System system) {
  const Outcome outcome = answer.sweep.plan_itself.outcome;
  if (outcome == Outcome::holds) return {};
  std::string text;
  if (outcome != Outcome::runs_out_vital) {
    text = even_without(answer, system);
    text.front() = 'E';
    text += " ";
  }
  return text + "Below, what is no worse than the plan itself counts as holding.";
}

std::vector<HarmlessFailures> harmless_failures(const MishapsAnswer& answer) {
  const answers::Sweep& sweep = answer.sweep;
  const bool cut_short = sweep.partial();
  HarmlessFailures hold{.what = cut_short ? "Held as far as they were tried" : "Hold on every day",
                        .names = {}};
  HarmlessFailures untried{.what = cut_short ? "NOT TRIED YET" : "Cannot strike on these days",
                           .names = {}};
  std::vector<int> worst(sweep.failures.size(), -1);
  for (const Finding& finding : sweep.findings) {
    int& of_it = worst[at(finding.failure)];
    of_it = std::max(of_it, static_cast<int>(finding.outcome));
  }
  for (std::size_t f = 0; f < worst.size(); ++f) {
    if (worst[f] == static_cast<int>(Outcome::holds)) hold.names.push_back(sweep.failures[f].name);
    if (worst[f] < 0) untried.names.push_back(sweep.failures[f].name);
  }
  std::vector<HarmlessFailures> out;
  for (HarmlessFailures* group : {&hold, &untried}) {
    if (!group->names.empty()) out.push_back(std::move(*group));
  }
  return out;
}

std::string mishaps_blank_words(const MishapsAnswer& answer) {
  std::string blank = "cannot strike then";
  if (answer.narrowed.days) blank += ", or not on the days asked for";
  if (answer.sweep.partial()) blank += ", or NOT TRIED YET";
  return blank;
}

}  // namespace drystage::report
