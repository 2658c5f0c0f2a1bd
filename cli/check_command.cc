#include <fmt/core.h>

#include <utility>

#include "commands.h"
#include "load.h"
#include "output.h"
#include "units/list.h"
#include "units/text.h"

namespace drystage::cli {
namespace {

std::string with_warnings(std::size_t count) {
  if (count == 0) return {};
  return count == 1 ? ", with 1 warning" : fmt::format(", with {} warnings", count);
}

/// A file that trips include is checked by itself.
ExitStatus check_kit(const plan::ReadPlan& kit, const CommonOptions& options) {
  tell(kit, options);
  if (!kit.plan) return wrong;
  write_result(
      fmt::format("{}: right{}: a kit with {}\n", units::shown(options.plan_path),
                  with_warnings(kit.diagnostics.size()), units::listed(kit.sections, " and ")),
      options.output);
  return holds;
}

}  // namespace

ExitStatus check_command(const CommonOptions& options) {
  plan::ReadPlan reading = read_kit(options);
  if (reading.is_kit) return check_kit(reading, options);
  const std::optional<Loaded> loaded = load(std::move(reading), options);
  if (!loaded) return wrong;
  const std::size_t days = loaded->timeline->days.size();
  write_result(
      fmt::format("{}: right{}: {} {}\n", units::shown(options.plan_path),
                  with_warnings(loaded->warnings.size()), days, days == 1 ? "day" : "days"),
      options.output);
  return holds;
}

}  // namespace drystage::cli
