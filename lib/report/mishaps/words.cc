#include "report/mishaps/words.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <boost/date_time/gregorian/gregorian_types.hpp>
#include <string_view>
#include <tuple>
#include <utility>

#include "plan/mishaps.h"
#include "report/text/amounts.h"
#include "report/text/layout.h"
#include "report/text/page.h"
#include "report/text/words.h"
#include "units/day.h"
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

bool runs_dry(Outcome outcome) {
  return outcome == Outcome::runs_out || outcome == Outcome::runs_out_vital;
}

/// Greater is worse: what is wanted and not there, else how far below the margin, for the size of
/// the reserve; of what is alike, what is dry longer, and what turning back does not mend.
auto harm(const answers::PlanRun& planned, const Finding& finding) {
  double lacking = 0;
  if (finding.reserve >= 0) {
    const engine::ReserveInfo& info = reserve_of(planned, finding.reserve);
    lacking = (runs_dry(finding.outcome) ? finding.short_of : finding.stood_in - finding.slack) /
              (info.capacity > 0 ? info.capacity : 10);
  }
  const int beyond_mending = !finding.retreat_saves ? 1 : *finding.retreat_saves ? 0 : 2;
  return std::tuple(finding.outcome, lacking, finding.dry_for_h, beyond_mending);
}

std::string hours(double h) {
  if (h >= 2 * day_h) {
    return units::format_number(rounded(h / day_h, 1, Toward::up), units::decimals(1)) + " days";
  }
  const int digits = h < 10 ? 1 : 0;
  return units::format_number(rounded(h, digits, Toward::up), units::decimals(digits)) + " h";
}

std::string place_words(const Finding& finding) {
  if (finding.where.empty()) return {};
  return (finding.in_bush ? ", in the " : ", at ") + name_words(finding.where);
}

std::string margin_words(const engine::ReserveInfo& info, const Finding& finding,
                         units::System system) {
  if (finding.stood_in > 0) {
    return fmt::format("the drinking containers run empty. {} of utility water are drunk",
                       difference_words(info, finding.stood_in, system));
  }
  const bool above = info.sense == engine::Sense::keep_above;
  return fmt::format("{} {} {} {} its margin", name_words(reserve_words(info)),
                     above ? "falls" : "rises", difference_words(info, -finding.slack, system),
                     above ? "below" : "above");
}

std::string runs_out_words(const engine::ReserveInfo& info) {
  return name_words(reserve_words(info)) +
         (info.sense == engine::Sense::keep_above ? " runs out" : " is gone");
}

std::string dry_words(const answers::PlanRun& planned, const Finding& finding,
                      units::System system) {
  const engine::ReserveInfo& info = reserve_of(planned, finding.reserve);
  std::string text = runs_out_words(info);
  if (finding.dry_day >= 0) {
    text += " on " + strike_words(planned, finding.dry_day, finding.dry_hour);
  }
  text += place_words(finding);
  std::string how_much;
  if (finding.short_of > 0)
    how_much = "short by " + difference_words(info, finding.short_of, system);
  // Where the fuel ends, they stay; how long is not the fuel's affair.
  const bool time_matters = info.endurance != engine::Endurance::km;
  if (time_matters && finding.dry_for_h > 0) {
    units::add_to(how_much, "for " + hours(finding.dry_for_h), ", ");
  }
  return how_much.empty() ? text : text + ". " + capital(how_much);
}

/// What comes of each failure at worst: an Outcome, or -1 where it was not tried at any moment.
std::vector<int> worst_outcomes(const answers::Sweep& sweep) {
  std::vector<int> out(sweep.failures.size(), -1);
  for (const Finding& finding : sweep.findings) {
    int& of_it = out[at(finding.failure)];
    of_it = std::max(of_it, static_cast<int>(finding.outcome));
  }
  return out;
}

}  // namespace

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
  // Of a plan that fails anyway, what is no worse than the plan itself counts as holding.
  const bool fails = sweep.plan_itself.outcome != Outcome::holds;
  HarmlessFailures hold{.what = cut_short ? "Held as far as they were tried"
                                : fails   ? "No worse than the plan itself"
                                          : "Hold on every day",
                        .names = {}};
  HarmlessFailures untried{.what = cut_short ? "NOT TRIED YET" : "Cannot strike on these days",
                           .names = {}};
  const std::vector<int> worst = worst_outcomes(sweep);
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

Tally tally(const answers::Sweep& sweep) {
  const std::vector<int> worst = worst_outcomes(sweep);
  const auto count = [&worst](Outcome outcome) {
    return static_cast<std::size_t>(std::ranges::count(worst, static_cast<int>(outcome)));
  };
  return {.tried = worst.size() - static_cast<std::size_t>(std::ranges::count(worst, -1)),
          .vital = count(Outcome::runs_out_vital),
          .dry = count(Outcome::runs_out),
          .margin = count(Outcome::eats_margin)};
}

std::vector<const Finding*> worst_moments(const MishapsAnswer& answer) {
  std::vector<const Finding*> of_failure(answer.sweep.failures.size(), nullptr);
  for (const Finding& finding : answer.sweep.findings) {
    if (finding.outcome == Outcome::holds) continue;
    const Finding*& worst = of_failure[at(finding.failure)];
    if (worst == nullptr || harm(answer.planned, finding) > harm(answer.planned, *worst)) {
      worst = &finding;
    }
  }
  std::erase(of_failure, nullptr);
  std::ranges::stable_sort(of_failure, [&answer](const Finding* a, const Finding* b) {
    return harm(answer.planned, *a) > harm(answer.planned, *b);
  });
  return of_failure;
}

std::string strike_words(const answers::PlanRun& planned, int day, double hour) {
  return when_words(planned, day, hour, Toward::down);
}

std::string finding_words(const answers::PlanRun& planned, const Finding& finding,
                          units::System system) {
  if (finding.reserve < 0) return "every reserve holds.";
  if (!runs_dry(finding.outcome)) {
    return margin_words(reserve_of(planned, finding.reserve), finding, system) + ".";
  }
  std::string text = dry_words(planned, finding, system) + ".";
  if (finding.retreat_saves) {
    text += *finding.retreat_saves ? " Turning back at once saves it."
                                   : " Turning back at once does not save it.";
  }
  return text;
}

std::vector<std::string> overload_sentences(const MishapsAnswer& answer, units::System system) {
  std::vector<const answers::Finding*> worst(answer.sweep.failures.size(), nullptr);
  for (const answers::Finding& finding : answer.sweep.findings) {
    const answers::Finding*& its = worst[at(finding.failure)];
    if (finding.over_scale >= 0 && (its == nullptr || finding.over_kg > its->over_kg)) {
      its = &finding;
    }
  }
  std::vector<std::string> out;
  for (const answers::Breach& breach : answer.planned.verdict.breaches) {
    if (breach.scale < 0) continue;
    out.push_back(fmt::format(
        "Too heavy without any mishap: {} by {}.",
        scale_words(answer.planned.plan, answer.planned.course.scales[at(breach.scale)]),
        mass_words(breach.left - breach.margin, system, Toward::up)));
  }
  for (const answers::Finding* finding : worst) {
    if (finding == nullptr) continue;
    out.push_back(fmt::format(
        "Too heavy after {}, on day {}: {} by {}.",
        name_words(failure_name(answer.sweep, finding->failure)), finding->day + 1,
        scale_words(answer.planned.plan, answer.planned.course.scales[at(finding->over_scale)]),
        mass_words(finding->over_kg, system, Toward::up)));
  }
  return out;
}

std::string short_words(const answers::PlanRun& planned, const Finding& finding) {
  const std::string text = runs_out_words(reserve_of(planned, finding.reserve));
  return finding.dry_day < 0 ? text : fmt::format("{} on day {}", text, finding.dry_day + 1);
}

std::string_view kind_name(plan::MishapKind kind) {
  const auto* const word =
      std::ranges::find(plan::mishap_words, kind, &plan::Word<plan::MishapKind>::value);
  return word != plan::mishap_words.end() ? word->text : std::string_view{};
}

std::string_view outcome_name(Outcome outcome) {
  constexpr std::array<std::string_view, 4> names{"holds", "eats_margin", "runs_out",
                                                  "runs_out_vital"};
  return names.at(static_cast<std::size_t>(outcome));
}

}  // namespace drystage::report
