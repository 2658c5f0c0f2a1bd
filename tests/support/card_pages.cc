#include "support/card_pages.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string_view>

#include "report/card/isolated.h"
#include "report/card/writers.h"
#include "support/overlaps.h"

namespace drystage::support {

std::vector<NamedPaper> papers() { return {{"a4", drawing::a4}, {"letter", drawing::letter}}; }

std::vector<drawing::Page> part_pages(const Part& part, const report::CardAnswer& answer,
                                      const drawing::Paper& paper, units::System system) {
  const drawing::Typesetter typesetter;
  drawing::Flow flow(paper);
  // As the card has it.
  const report::CardAnswer shown = report::with_isolated_names(answer);
  part({flow, typesetter, shown, system});
  return flow.pages(typesetter, answer.needs.planned.plan.trip.title);
}

std::vector<drawing::Page> front_pages(const report::CardAnswer& answer,
                                       const drawing::Paper& paper, units::System system) {
  return part_pages(report::write_front, answer, paper, system);
}

std::vector<std::string> words_on(const std::vector<drawing::Page>& pages) {
  std::vector<std::string> out;
  for (const drawing::Page& page : pages) {
    for (const drawing::Mark& mark : page.marks) {
      if (const auto* text = std::get_if<drawing::Text>(&mark)) out.push_back(text->words);
    }
  }
  return out;
}

std::string all_words(const std::vector<drawing::Page>& pages, char after) {
  std::string out;
  for (const std::string& words : words_on(pages)) out += words + after;
  return out;
}

std::string with_plain_blanks(std::string text) {
  constexpr std::string_view no_break = "\u00a0";
  for (std::size_t at = 0; (at = text.find(no_break, at)) != std::string::npos;) {
    text.replace(at, no_break.size(), " ");
  }
  return text;
}

std::vector<std::string> card_faults(const std::vector<drawing::Page>& pages,
                                     const drawing::Paper& paper) {
  constexpr double sheet_least_pt = 7.5;
  return faults(pages, paper.margin_pt, sheet_least_pt);
}

void expect_faultless(const Part& part, const report::CardAnswer& answer) {
  for (const auto& [name, paper] : papers()) {
    for (const units::System system : {units::System::metric, units::System::imperial}) {
      EXPECT_THAT(card_faults(part_pages(part, answer, paper, system), paper), ::testing::IsEmpty())
          << name;
    }
  }
}

}  // namespace drystage::support
