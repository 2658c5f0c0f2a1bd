#pragma once

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
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
inline Reading with_size(std::string_view section) {
  std::string text = whole_plan();
  text.erase(text.find("\nsize:") + 1);
  return read_text(text.append(section));
}

/// Everything a reading found, for failure messages.
inline std::string all_of(const Reading& reading) {
  std::string text;
  for (const Diagnostic& d : reading.diagnostics) {
    text += render(d, "plan.yaml", reading.source, false);
  }
  return text;
}

inline std::vector<Diagnostic> of_severity(const Reading& reading, Severity severity) {
  std::vector<Diagnostic> found;
  for (const Diagnostic& d : reading.diagnostics) {
    if (d.severity == severity) found.push_back(d);
  }
  return found;
}

}  // namespace drystage::plan
