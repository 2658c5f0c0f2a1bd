#pragma once

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "plan/read.h"

namespace drystage::plan {

/// The plan that has every key, as text.
inline std::string whole_plan() {
  std::ifstream file(DRYSTAGE_TEST_DATA "/plan/plans/whole.yaml", std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// The same with one piece of its text, which must be there once, replaced.
inline std::string whole_plan_with(std::string_view piece, std::string_view replacement) {
  std::string text = whole_plan();
  const std::size_t at = text.find(piece);
  EXPECT_NE(at, std::string::npos) << "not in the plan: " << piece;
  if (at == std::string::npos) return text;
  EXPECT_EQ(text.find(piece, at + 1), std::string::npos) << "more than once: " << piece;
  return text.replace(at, piece.size(), replacement);
}

/// The same with another section `size`, which is its last.
inline ReadPlan with_size(std::string_view section) {
  std::string text = whole_plan();
  text.erase(text.find("\nsize:") + 1);
  return read_text(text.append(section));
}

/// Everything a reading found, for failure messages.
inline std::string all_of(const ReadPlan& reading) {
  std::string text;
  for (const Diagnostic& d : reading.diagnostics) {
    text += render(d, reading, "plan.yaml", false);
  }
  return text;
}

inline std::vector<Diagnostic> of_severity(const ReadPlan& reading, Severity severity) {
  std::vector<Diagnostic> found;
  for (const Diagnostic& d : reading.diagnostics) {
    if (d.severity == severity) found.push_back(d);
  }
  return found;
}

/// The one error for which a text is refused, which tells its line. Throws, with all that was
/// found, where there are none or several.
inline Diagnostic only_error(const ReadPlan& reading) {
  EXPECT_FALSE(reading.plan.has_value());
  const auto errors = of_severity(reading, Severity::error);
  if (errors.size() != 1) throw std::runtime_error("not one error:\n" + all_of(reading));
  EXPECT_GT(errors[0].mark.line, 0);
  return errors[0];
}

}  // namespace drystage::plan
