#include "load.h"

#include <fmt/core.h>

#include <algorithm>
#include <cstdio>
#include <string>

#include "engine/remarks.h"
#include "output.h"
#include "plan/read.h"
#include "progress.h"

namespace drystage::cli {
namespace {

void print(const plan::Reading& reading, const CommonOptions& options) {
  std::string text;
  for (const plan::Diagnostic& diagnostic : reading.diagnostics) {
    text += plan::render(diagnostic, options.plan_path, reading.source, options.color_errors);
  }
  const auto errors =
      std::ranges::count(reading.diagnostics, plan::Severity::error, &plan::Diagnostic::severity);
  if (errors > 0) {
    text += fmt::format("{}: {} {}; nothing was run\n", options.plan_path, errors,
                        errors == 1 ? "error" : "errors");
  }
  std::fputs(text.c_str(), stderr);
}

}  // namespace

std::optional<Loaded> load(const CommonOptions& options) {
  plan::Reading reading = plan::read_file(options.plan_path, options.overrides);
  if (reading.io_error) throw FileError(options.plan_path + ": " + *reading.io_error);
  std::shared_ptr<const engine::Timeline> timeline;
  if (reading.plan) {
    const WaitingLine waiting("Laying out");
    timeline = std::make_shared<const engine::Timeline>(engine::lay_timeline(*reading.plan));
    const std::vector<plan::Diagnostic> found =
        timeline->problems.empty() ? engine::remarks(*reading.plan, *timeline) : timeline->problems;
    reading.diagnostics.insert(reading.diagnostics.end(), found.begin(), found.end());
  }
  print(reading, options);
  if (!reading.plan || !timeline->problems.empty()) return std::nullopt;
  Loaded loaded{.plan = std::move(*reading.plan),
                .timeline = std::move(timeline),
                .warnings = {},
                .source = std::move(reading.source)};
  for (plan::Diagnostic& warning : reading.diagnostics) {
    loaded.warnings.push_back(std::move(warning.what));
  }
  return loaded;
}

}  // namespace drystage::cli
