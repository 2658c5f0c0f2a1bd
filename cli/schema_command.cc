#include "commands.h"
#include "output.h"
#include "plan/schema.h"

namespace drystage::cli {

ExitStatus schema_command(const CommonOptions& options) {
  write_result(plan::editor_schema(), options.output);
  return holds;
}

}  // namespace drystage::cli
