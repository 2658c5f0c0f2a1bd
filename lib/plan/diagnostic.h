#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "plan/mark.h"

namespace drystage::plan {

enum class Severity { error, warning };

/// One thing that is wrong with, or odd about, a plan. The texts have no full stop at the end;
/// `expected` and `hint` may be empty.
struct Diagnostic {
  Severity severity = Severity::error;
  std::string where_text{};  ///< "--set people[0].mass=-3 kg" when the value came from there
  Mark mark{};               ///< in the file; line 0 when it came from the command line
  std::string what;
  std::string expected{};
  std::string hint{};
};

/// True if one of them is an error.
bool has_error(const std::vector<Diagnostic>& diagnostics);

/// The diagnostic as text for a terminal, ended by a newline: "file:line:column: error: ...", then
/// the line it is about with two lines around it and a caret under the offending word, then
/// "expected: ..." and "hint: ...". `source` is the text the mark counts in (ReadPlan::source).
/// Control characters of the source are not passed on. Prose is wrapped at 80 columns and long
/// lines are cut around the caret.
std::string render(const Diagnostic& diagnostic, std::string_view file_name,
                   std::string_view source, bool color);

}  // namespace drystage::plan
