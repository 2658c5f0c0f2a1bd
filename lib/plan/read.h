#pragma once

#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "plan/diagnostic.h"
#include "plan/override.h"
#include "plan/plan.h"

namespace drystage::plan {

/// What came of reading a plan.
struct Reading {
  std::optional<Plan> plan;             ///< there if and only if no diagnostic is an error
  std::vector<Diagnostic> diagnostics;  ///< the command line's first, then by place in the file
  std::string source;                   ///< the text that the marks count in
  std::optional<std::string> io_error;  ///< why the file itself could not be read
};

/// Reads a plan from text, after changing what the overrides say. Any bytes may go in: what is
/// wrong comes back as diagnostics, all at once, and nothing is thrown.
Reading read_text(std::string source, std::span<const Override> overrides = {});

/// The same from a file. If the file cannot be read, `io_error` is set and all else is empty.
Reading read_file(const std::filesystem::path& path, std::span<const Override> overrides = {});

}  // namespace drystage::plan
