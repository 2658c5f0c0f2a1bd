#include <fmt/format.h>

#include <algorithm>

#include "report/cautions.h"
#include "report/layout.h"
#include "report/mishap_findings.h"
#include "report/mishap_matrix.h"
#include "report/mishaps_report.h"
#include "report/page.h"

namespace drystage::report {
namespace {

using answers::Finding;
using answers::Outcome;

constexpr std::size_t most_worst = 8;

std::string paragraph(const std::string& text) { return wrap(text, page_columns) + "\n"; }

std::string plural(std::size_t count, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

std::string failures(std::size_t count) { return plural(count, "failure", "failures"); }

const std::string& name_of(const answers::Sweep& sweep, int failure) {
  return sweep.failures[static_cast<std::size_t>(failure)].name;
}

std::string kinds(const std::vector<plan::MishapKind>& of) {
  std::string text;
  for (const plan::MishapKind kind : of) {
    text += text.empty() ? "" : ", ";
    text += kind_name(kind);
  }
  return text;
}

/// Not everything that can be worked out from the plan was to be tried.
bool narrow(const MishapsAnswer& answer) {
  return !answer.narrowed.only.empty() || answer.narrowed.days ||
         !answer.trial.plan.mishaps.left_out.empty();
}

/// How much of what was asked for is done, where it is not all.
std::string partial_words(const MishapsAnswer& answer) {
  const answers::Sweep& sweep = answer.sweep;
  if (sweep.partial()) {
    std::string text = fmt::format("PARTIAL: stopped after {} of {}", sweep.findings.size(),
                                   plural(sweep.asked, "run", "runs"));
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

std::string even_without(const MishapsAnswer& answer, units::System system) {
  return "even without a mishap " + finding_words(answer.trial, answer.sweep.plan_itself, system);
}

std::string verdict_words(const MishapsAnswer& answer, units::System system) {
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
  if (counts.vital > 0) {
    return fmt::format("DOES NOT SURVIVE every mishap: {} of {}{} drinking water or fuel dry.",
                       counts.vital, failures(counts.tried),
                       counts.vital == 1 ? " runs" : ", each by itself, run");
  }
  if (sweep.partial()) {
    return "NOT KNOWN: so far nothing runs drinking water or fuel dry.";
  }
  return fmt::format("SURVIVES any one mishap{}: {} drinking water or fuel dry.",
                     narrow(answer) ? " of those tried" : "",
                     counts.tried == 1 ? std::string("the only failure there is does not run")
                                       : fmt::format("none of {} failures runs", counts.tried));
}

/// What else the sweep found, and what it covered.
std::string scope(const MishapsAnswer& answer) {
  const answers::Sweep& sweep = answer.sweep;
  const Tally counts = tally(sweep);
  std::string text;
  if (counts.dry > 0) {
    text +=
        fmt::format("{} something else dry. ", plural(counts.dry, "failure runs", "failures run"));
  }
  if (counts.margin > 0) {
    text +=
        fmt::format("{} into a margin. ", plural(counts.margin, "failure eats", "failures eat"));
  }
  text += fmt::format("Tried: {} at {} in all", failures(counts.tried),
                      plural(sweep.findings.size(), "moment", "moments"));
  const answers::SweepOptions& narrowed = answer.narrowed;
  if (!narrowed.only.empty()) text += "; only " + kinds(narrowed.only);
  if (narrowed.days) {
    const auto [first, last] = *narrowed.days;
    text += first == last ? fmt::format("; only on day {}", first + 1)
                          : fmt::format("; only on days {} to {}", first + 1, last + 1);
  }
  const auto& left_out = answer.trial.plan.mishaps.left_out;
  if (!left_out.empty()) text += "; left out by the plan: " + kinds(left_out);
  return paragraph(text + ".");
}

/// Where the plan is not whole as it stands, mishaps are judged against that.
std::string plan_itself(const MishapsAnswer& answer, units::System system) {
  const Outcome outcome = answer.sweep.plan_itself.outcome;
  if (outcome == Outcome::holds) return {};
  std::string text;
  if (outcome != Outcome::runs_out_vital) {
    text = even_without(answer, system);
    text.front() = 'E';
    text += " ";
  }
  return paragraph(text + "Below, what is no worse than the plan itself counts as holding.");
}

std::string worst_list(const MishapsAnswer& answer, const TextOptions& options) {
  const units::System system = options.system;
  const std::vector<const Finding*> worst = worst_moments(answer);
  if (worst.empty()) return {};
  const std::size_t shown = options.wide ? worst.size() : std::min(worst.size(), most_worst);
  std::string text =
      worst.size() > shown
          ? fmt::format("\nThe worst {} of {}, each where it strikes worst\n", shown, worst.size())
          : "\nThe worst, each where it strikes worst\n";
  for (std::size_t i = 0; i < shown; ++i) {
    const Finding& finding = *worst[i];
    text +=
        wrap_after(fmt::format("{:2} ", i + 1),
                   fmt::format("{}, on {}: {}", name_words(name_of(answer.sweep, finding.failure)),
                               strike_words(answer.trial, finding.day, finding.hour),
                               finding_words(answer.trial, finding, system)),
                   page_columns);
  }
  return text;
}

std::string pair_words(const MishapsAnswer& answer, const answers::PairFinding& pair,
                       units::System system) {
  return fmt::format("{}, on {}, and {}, on {}: {} So in {} of {}.",
                     name_words(name_of(answer.sweep, pair.first)),
                     strike_words(answer.trial, pair.first_day, pair.first_hour),
                     name_words(name_of(answer.sweep, pair.second)),
                     strike_words(answer.trial, pair.worst.day, pair.worst.hour),
                     finding_words(answer.trial, pair.worst, system), pair.dry,
                     plural(pair.tried, "combination", "combinations"));
}

/// Pairs of two kinds, of which the first is the worst.
struct PairGroup {
  const answers::PairFinding* worst = nullptr;
  std::string kinds;
  std::size_t count = 0;
};

std::vector<PairGroup> pair_groups(const MishapsAnswer& answer) {
  const auto kind = [&](int failure) {
    return answer.sweep.failures[static_cast<std::size_t>(failure)].kind;
  };
  std::vector<PairGroup> out;
  for (const answers::PairFinding& pair : answer.pairs->pairs) {
    const plan::MishapKind first = std::min(kind(pair.first), kind(pair.second));
    const plan::MishapKind second = std::max(kind(pair.first), kind(pair.second));
    const std::string words = kinds({first}) + " and " + kinds({second});
    const auto known = std::ranges::find(out, words, &PairGroup::kinds);
    if (known == out.end()) {
      out.push_back({.worst = &pair, .kinds = words, .count = 1});
    } else {
      ++known->count;
    }
  }
  return out;
}

std::string pair_list(const MishapsAnswer& answer, const TextOptions& options) {
  if (!answer.pairs) return {};
  const answers::PairSweep& sweep = *answer.pairs;
  const std::string runs = plural(sweep.runs, "run", "runs");
  if (sweep.pairs.empty()) {
    return "\n" + paragraph("Pairs: in " + runs + ", none runs out where neither does alone.");
  }
  std::string text =
      "\n" + paragraph(fmt::format(
                 "Pairs that run out though neither does alone: {}, in {}.{}", sweep.pairs.size(),
                 runs, options.wide ? "" : " Of each two kinds the worst; --wide shows all."));
  const auto add = [&](const std::string& before, const answers::PairFinding& pair) {
    text += wrap_after("- ", before + pair_words(answer, pair, options.system), page_columns);
  };
  if (options.wide) {
    for (const answers::PairFinding& pair : sweep.pairs) add("", pair);
    return text;
  }
  for (const PairGroup& group : pair_groups(answer)) {
    const bool one = group.count == 1;
    add(one ? "" : fmt::format("{} pairs of {}, the worst: ", group.count, group.kinds),
        *group.worst);
  }
  return text;
}

std::string remarks(const answers::Sweep& sweep) {
  std::string text;
  for (const std::string& remark : sweep.remarks) {
    const bool ends = remark.ends_with('.') || remark.ends_with('!');
    text += wrap_after("- ", remark + (ends ? "" : "."), page_columns);
  }
  return text.empty() ? text : "\nHow it was reckoned\n" + text;
}

/// What two mishaps at once do, where every two were tried.
std::string two_words(const MishapsAnswer& answer) {
  if (!answer.pairs || answer.pairs->partial()) return {};
  const bool vital = std::ranges::any_of(answer.pairs->pairs, [](const auto& pair) {
    return pair.worst.outcome == Outcome::runs_out_vital;
  });
  return vital ? ", but not every two" : ", and any two";
}

std::string last_line(const MishapsAnswer& answer) {
  const answers::Sweep& sweep = answer.sweep;
  std::string text;
  if (survives_any_one(answer)) {
    text = fmt::format("This plan survives any one mishap{}{}: drinking water and fuel last.",
                       narrow(answer) ? " of those tried" : "", two_words(answer));
  } else if (sweep.plan_itself.outcome == Outcome::runs_out_vital) {
    text = "This plan does not survive: it runs out even without a mishap.";
  } else if (tally(sweep).vital > 0) {
    const Finding& worst = *worst_moments(answer).front();
    text = fmt::format("This plan does not survive every mishap. The worst: {}, on day {}; {}.",
                       name_words(name_of(sweep, worst.failure)), worst.day + 1,
                       short_words(answer.trial, worst));
  } else if (sweep.partial()) {
    text = "Whether this plan survives any one mishap is not known.";
  } else {
    text = "Nothing was tried, so nothing is known of mishaps.";
  }
  const std::string stopped = partial_words(answer);
  return stopped.empty() ? text : stopped + " " + text;
}

}  // namespace

bool partial(const MishapsAnswer& answer) {
  return answer.sweep.partial() || (answer.two && !answer.pairs) ||
         (answer.pairs && answer.pairs->partial());
}

bool survives_any_one(const MishapsAnswer& answer) {
  const answers::Sweep& sweep = answer.sweep;
  return !sweep.partial() && !sweep.findings.empty() && sweep.worst() != Outcome::runs_out_vital;
}

std::string mishaps_text(const MishapsAnswer& answer, const TextOptions& options) {
  const bool good = survives_any_one(answer);
  const std::string stopped = partial_words(answer);
  std::string text;
  if (!stopped.empty()) text += headline(stopped, false, options.color);
  text += headline(verdict_words(answer, options.system), good, options.color);
  text += title_line(answer.trial) + scope(answer) + plan_itself(answer, options.system);
  text += warning_lines(answer.warnings);
  text += worst_list(answer, options);
  const std::string matrix = mishap_matrix(answer, options);
  if (!matrix.empty()) text += "\n" + matrix;
  text += pair_list(answer, options) + remarks(answer.sweep);
  text += "\n" + headline(last_line(answer), good && !partial(answer), options.color);
  return text + "\n" + paragraph(std::string(cautions));
}

}  // namespace drystage::report
