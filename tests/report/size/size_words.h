#pragma once

#include <gtest/gtest.h>

#include <string>

#include "cli/workspace.h"
#include "support/answer.h"
#include "support/size_answer.h"

// The page that `drystage size` prints, as it stands and as words.
namespace drystage::support {

inline std::string text_of(const report::SizeAnswer& answer) {
  return report::size_text(answer, {});
}

inline std::string words_of(const report::SizeAnswer& answer) { return unwrapped(text_of(answer)); }

inline std::string words_in(const report::SizeAnswer& answer, units::System system) {
  return unwrapped(report::size_text(answer, {.all = true, .system = system}));
}

inline std::string all_of(const report::SizeAnswer& answer) {
  return report::size_text(answer, {.all = true});
}

inline std::string all_words_of(const report::SizeAnswer& answer) {
  return unwrapped(all_of(answer));
}

inline void expect_fits_the_page(const report::SizeAnswer& answer) {
  for (const std::string& line : drystage::testing::lines(text_of(answer))) {
    EXPECT_LE(drystage::testing::terminal_columns(line), 80) << line;
  }
}

/// The line of the page that begins so, with its blanks as they are; empty when there is none.
inline std::string line_that_begins(const std::string& text, const std::string& beginning) {
  for (const std::string& line : drystage::testing::lines(text)) {
    if (line.starts_with(beginning)) return line;
  }
  return {};
}

}  // namespace drystage::support
