#pragma once

#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "plan/diagnostic.h"
#include "plan/override.h"
#include "plan/plan.h"
#include "plan/source_file.h"
#include "plan/tree.h"

namespace drystage::plan {

/// What came of reading a plan.
struct ReadPlan {
  std::optional<Plan> plan;             ///< there if and only if no diagnostic is an error
  std::vector<Diagnostic> diagnostics;  ///< the command line's first, then by place in the files
  std::string source;                   ///< the plan's own text
  std::vector<SourceFile> included;     ///< what it includes: a mark's file counts these from 1
  std::optional<std::string> io_error;  ///< why the file itself could not be read
  std::optional<Node> merged;           ///< all that the files say, where one includes another
  std::vector<std::string> sections;    ///< its keys, with those that are included
  bool is_kit = false;                  ///< no plan of a trip, but what trips may include
};

/// Reads a plan from text, after changing what the overrides say. Any bytes may go in: what is
/// wrong comes back as diagnostics, all at once, and nothing is thrown. `file` is where the text
/// stands or is to stand: from there it may include others.
ReadPlan read_text(std::string source, std::span<const Override> overrides = {},
                   const std::filesystem::path& file = {});

/// The same from a file. If the file cannot be read, `io_error` is set and all else is empty.
ReadPlan read_file(const std::filesystem::path& path, std::span<const Override> overrides = {});

/// The same for a kit, a file that has sections of a plan, but neither an itinerary nor the start
/// of a trip. What else a plan must have, it need not. The plan that comes back has stand-ins for
/// that.
ReadPlan read_kit(const std::filesystem::path& path, std::span<const Override> overrides = {});

/// The same for the text of a kit; `file` is as for read_text.
ReadPlan read_kit_text(std::string source, std::span<const Override> overrides = {},
                       const std::filesystem::path& file = {});

/// A diagnostic of this reading as text, as `render` makes it, with its own file. `plan_name` is
/// the plan's.
std::string render(const Diagnostic& diagnostic, const ReadPlan& reading,
                   std::string_view plan_name, bool color);

}  // namespace drystage::plan
