#include <fmt/core.h>

#include <algorithm>

#include "report/mishaps/report.h"
#include "report/mishaps/words.h"
#include "report/text/layout.h"
#include "report/text/page.h"
#include "report/text/words.h"
#include "units/index.h"

namespace drystage::report {
namespace {

using answers::Finding;
using answers::Outcome;

/// Of the worst, how many stand on one screen.
constexpr std::size_t most_worst = 3;

std::string worst_list(const MishapsAnswer& answer, const TextOptions& options) {
  const units::System system = options.system;
  const std::vector<const Finding*> worst = worst_moments(answer);
  if (worst.empty()) return {};
  const std::size_t shown = options.all ? worst.size() : std::min(worst.size(), most_worst);
  std::string text =
      worst.size() > shown
          ? fmt::format("\nThe worst {} of {}, each at its worst moment\n", shown, worst.size())
          : "\nThe worst, each at its worst moment\n";
  for (std::size_t i = 0; i < shown; ++i) {
    const Finding& finding = *worst[i];
    text += wrap_after(
        fmt::format("{:2} ", i + 1),
        fmt::format("{}, on {}. {}", name_words(failure_name(answer.sweep, finding.failure)),
                    strike_words(answer.planned, finding.day, finding.hour),
                    capital(finding_words(answer.planned, finding, system))),
        page_columns());
  }
  return text;
}

std::string overload_list(const MishapsAnswer& answer, const TextOptions& options) {
  const std::vector<std::string> all = overload_sentences(answer, options.system);
  constexpr std::size_t most_shown = 2;
  const std::size_t shown = options.all ? all.size() : std::min(all.size(), most_shown);
  std::string text;
  for (std::size_t i = 0; i < shown; ++i) text += paragraph(all[i]);
  if (shown < all.size()) {
    text += fmt::format("Too heavy after {} more: --all.\n",
                        counted(all.size() - shown, "mishap", "mishaps"));
  }
  return text;
}

std::string pair_words(const MishapsAnswer& answer, const answers::PairFinding& pair,
                       units::System system) {
  return fmt::format("{}, on {}, and {}, on {}. {} So in {} of {}.",
                     name_words(failure_name(answer.sweep, pair.first)),
                     strike_words(answer.planned, pair.first_day, pair.first_hour),
                     name_words(failure_name(answer.sweep, pair.second)),
                     strike_words(answer.planned, pair.worst.day, pair.worst.hour),
                     capital(finding_words(answer.planned, pair.worst, system)), pair.dry,
                     counted(pair.tried, "combination", "combinations"));
}

/// Pairs of two kinds, of which the first is the worst.
struct PairGroup {
  const answers::PairFinding* worst = nullptr;
  std::string kinds;
  std::size_t count = 0;
};

std::vector<PairGroup> pair_groups(const MishapsAnswer& answer) {
  const auto kind = [&](int failure) { return answer.sweep.failures[at(failure)].kind; };
  std::vector<PairGroup> out;
  for (const answers::PairFinding& pair : answer.pairs->pairs) {
    const plan::MishapKind first = std::min(kind(pair.first), kind(pair.second));
    const plan::MishapKind second = std::max(kind(pair.first), kind(pair.second));
    const std::string words = mishap_kinds({first}) + " and " + mishap_kinds({second});
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
  const std::string runs = counted(sweep.runs, "run", "runs");
  if (sweep.pairs.empty()) {
    return "\n" + paragraph("Pairs: in " + runs + ", none runs out where neither does alone.");
  }
  std::string text =
      "\n" + paragraph(fmt::format(
                 "Pairs that run out though neither does alone: {}, in {}.{}", sweep.pairs.size(),
                 runs, options.all ? "" : " Of each two kinds the worst; --all shows all."));
  const auto add = [&](const std::string& before, const answers::PairFinding& pair) {
    text += wrap_after("- ", before + pair_words(answer, pair, options.system), page_columns());
  };
  if (options.all) {
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
  const std::string stopped = mishaps_partial_words(answer);
  std::string text;
  if (!stopped.empty()) text += headline(stopped, false, options.color);
  text += headline(mishaps_verdict_words(answer, options.system), good, options.color);
  text += title_line(answer.planned) + paragraph(mishaps_scope_words(answer));
  const std::string unsure = unconfirmed_words(answer.planned);
  if (!unsure.empty()) text += paragraph("Counted on, though not confirmed: " + unsure + ".");
  const std::string itself = mishaps_plan_itself_words(answer, options.system);
  if (!itself.empty()) text += paragraph(itself);
  text += warning_lines(answer.warnings);
  text += worst_list(answer, options);
  text += overload_list(answer, options);
  const std::string matrix = mishap_matrix(answer, options);
  if (!matrix.empty()) text += "\n" + matrix;
  text += pair_list(answer, options) + remark_lines(answer.sweep.remarks);
  return text + "\n" + caution_lines(options);
}

}  // namespace drystage::report
