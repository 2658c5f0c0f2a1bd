#include "load.h"

#include <fmt/core.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <string>
#include <utility>

#include "engine/remarks.h"
#include "output.h"
#include "own_file.h"
#include "progress.h"
#include "units/text.h"

namespace drystage::cli {
namespace {

/// So that no result is written over what the plan was read from.
void spare_included(const plan::ReadPlan& reading, const CommonOptions& options) {
  const std::array<std::pair<const char*, const std::string&>, 3> results{
      {{"output", options.output}, {"write", options.write}, {"chart", options.chart}}};
  for (const auto& [option, path] : results) {
    for (const plan::SourceFile& file : reading.included) {
      if (path.empty() || !same_file(path, file.name)) continue;
      throw UsageError(
          fmt::format("--{} {}: the plan includes that file", option, units::shown(path)));
    }
  }
}

/// All of standard input, which can be read once only; of more than a plan may have, a little more.
const std::string& typed_text() {
  static const std::string text = [] {
    std::string all;
    std::array<char, 16384> part;
    while (all.size() <= plan::most_source_bytes) {
      const ssize_t got = ::read(STDIN_FILENO, part.data(), part.size());
      if (got < 0 && errno == EINTR) continue;
      if (got < 0) throw FileError(fmt::format("standard input: {}", std::strerror(errno)));
      if (got == 0) break;
      all.append(part.data(), static_cast<std::size_t>(got));
    }
    return all;
  }();
  return text;
}

}  // namespace

plan::ReadPlan read_plan(const CommonOptions& options,
                         const std::vector<plan::Override>& overrides) {
  if (!options.plan_is_typed) return plan::read_file(options.plan_path, overrides);
  return plan::read_text(typed_text(), overrides, options.plan_path);
}

plan::ReadPlan read_kit(const CommonOptions& options) {
  if (!options.plan_is_typed) return plan::read_kit(options.plan_path, options.overrides);
  return plan::read_kit_text(typed_text(), options.overrides, options.plan_path);
}

void tell(const plan::ReadPlan& reading, const CommonOptions& options) {
  if (reading.io_error) {
    throw FileError(units::shown(options.plan_path) + ": " + *reading.io_error);
  }
  spare_included(reading, options);
  std::string text;
  for (const plan::Diagnostic& diagnostic : reading.diagnostics) {
    text += plan::render(diagnostic, reading, options.plan_path, options.color_errors);
  }
  const auto errors =
      std::ranges::count(reading.diagnostics, plan::Severity::error, &plan::Diagnostic::severity);
  if (errors > 0) {
    text += fmt::format("{}: {} {}; nothing was run\n", units::shown(options.plan_path), errors,
                        errors == 1 ? "error" : "errors");
  }
  std::fputs(text.c_str(), stderr);
  if (errors == 0) spare_files_of_the_user(options);
}

std::optional<Loaded> load(const CommonOptions& options) {
  return load(read_plan(options, options.overrides), options);
}

std::optional<Loaded> load(plan::ReadPlan reading, const CommonOptions& options) {
  std::shared_ptr<const engine::Timeline> timeline;
  if (reading.plan) {
    const WaitingLine waiting("Laying out");
    timeline = std::make_shared<const engine::Timeline>(engine::lay_timeline(*reading.plan));
    const std::vector<plan::Diagnostic> found =
        timeline->problems.empty() ? engine::remarks(*reading.plan, *timeline) : timeline->problems;
    reading.diagnostics.insert(reading.diagnostics.end(), found.begin(), found.end());
  }
  tell(reading, options);
  if (reading.is_kit && !reading.plan && !options.plan_is_typed) {
    std::fputs(
        fmt::format("It has no itinerary. If it is a kit, a trip takes it over:\n"
                    "  include: {}\n",
                    units::shown(std::filesystem::path(options.plan_path).filename().string()))
            .c_str(),
        stderr);
  }
  if (!reading.plan || !timeline->problems.empty()) return std::nullopt;
  Loaded loaded{.plan = std::move(*reading.plan),
                .timeline = std::move(timeline),
                .warnings = {},
                .reading = {}};
  for (const plan::Diagnostic& warning : reading.diagnostics) {
    loaded.warnings.push_back(warning.what);
  }
  reading.plan.reset();
  loaded.reading = std::move(reading);
  return loaded;
}

}  // namespace drystage::cli
