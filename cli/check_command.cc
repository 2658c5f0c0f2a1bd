#include <fmt/core.h>

#include "commands.h"
#include "load.h"
#include "output.h"

namespace drystage::cli {

ExitStatus check_command(const CommonOptions& options) {
  const std::optional<Loaded> loaded = load(options);
  if (!loaded) return wrong;
  const std::string odd = loaded->warnings.empty() ? ""
                          : loaded->warnings.size() == 1
                              ? ", with 1 warning"
                              : fmt::format(", with {} warnings", loaded->warnings.size());
  const std::size_t days = loaded->timeline->days.size();
  write_result(
      fmt::format("{}: right{}: {} {}\n", options.plan_path, odd, days, days == 1 ? "day" : "days"),
      options.output);
  return holds;
}

}  // namespace drystage::cli
