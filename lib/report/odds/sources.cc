#include <fmt/core.h>

#include <algorithm>

#include "plan/keys.h"
#include "plan/uncertainty_sources.h"
#include "plan/uncertainty_values.h"
#include "report/odds/report.h"
#include "report/text/layout.h"
#include "report/text/words.h"
#include "units/list.h"

namespace drystage::report {
namespace {

constexpr std::string_view section = "uncertainty.";

/// The value in this plan, as it would be written; the usual one in words where it depends on the
/// thing.
std::string value_words(plan::Key key, const plan::Uncertainty& asked) {
  for (const plan::UncertaintyValue& value : plan::uncertainty_values) {
    if (value.path != key->path) continue;
    const auto number = value.of(asked);
    return number ? plan::in_its_unit(key.ranges().front(), *number) : std::string(key->absent);
  }
  return std::string(key->absent);
}

}  // namespace

std::string sources_text(const plan::Plan& plan) {
  std::string out = paragraph(
      "What is drawn for each trip: its value in this plan, the usual one, and where that is "
      "from. All are keys under uncertainty: in the plan.");
  std::string spreads;
  for (const plan::Climate& climate : plan.climates) {
    for (const auto& month : climate.months) {
      if (!month) continue;
      const std::string of =
          month->spread_c
              ? plan::in_its_unit(plan::Key("climate.spread").ranges().front(), *month->spread_c)
              : "the usual " + std::string(plan::default_of("climate.spread"));
      const std::string words = name_words(climate.name) + " " + of;
      if (spreads.find(words) == std::string::npos) units::add_to(spreads, words);
    }
  }
  out += paragraph("Days are warmer or colder by the climate's `spread`: " + spreads + ".");
  std::string left_out;
  for (const plan::Source source : plan.uncertainty.left_out) {
    units::add_to(left_out, plan::text_of(plan::source_words, source));
  }
  if (!left_out.empty()) out += paragraph("Left out here, so as planned: " + left_out + ".");
  const auto is_left_out = [&](std::string_view path) {
    const std::string_view of =
        path.substr(section.size(), path.find('.', section.size()) - section.size());
    return std::ranges::any_of(plan.uncertainty.left_out, [&](plan::Source source) {
      return plan::text_of(plan::source_words, source) == of;
    });
  };
  constexpr int name = 24;
  for (const plan::UncertaintySource& source : plan::uncertainty_sources) {
    for (const auto& some : plan::declarations) {
      const auto found = std::ranges::find(some, source.path, &plan::Declaration::path);
      if (found == some.end()) continue;
      const plan::Key key(*found);
      const std::string value = value_words(key, plan.uncertainty);
      const std::string usual =
          value == found->absent ? "" : fmt::format(" (usually {})", found->absent);
      out += "\n" + wrap_after(left(source.path.substr(section.size()), name),
                               fmt::format("{}{}{}: {}. From: {}.",
                                           is_left_out(source.path) ? "left out, not drawn; " : "",
                                           value, usual, found->meaning, source.source),
                               page_columns());
    }
  }
  return out + "\n" + caution_lines({});
}

}  // namespace drystage::report
