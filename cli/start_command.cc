#include <fmt/core.h>
#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <iostream>
#include <optional>

#include "commands.h"
#include "load.h"
#include "output.h"
#include "start/dialogue.h"
#include "start/every_key.h"
#include "start/first_plan.h"
#include "start/kit.h"
#include "units/text.h"

namespace drystage::cli {
namespace {

/// The plan, without asking anything. Throws UsageError where the answers are wrong.
std::string plan_of(const start::Given& given, const start::Kit& kit) {
  const auto joined = [](const std::vector<std::string>& remarks) {
    std::string text;
    for (const std::string& remark : remarks)
      text += (text.empty() ? "" : "\n  ") + units::shown(remark);
    return text;
  };
  const start::Taken taken = start::take_defaults(given, kit);
  if (!taken.answers) throw UsageLines(joined(taken.remarks));
  if (!taken.remarks.empty()) std::fputs((joined(taken.remarks) + '\n').c_str(), stderr);
  start::FirstPlan plan = start::first_plan(*taken.answers, kit);
  if (!plan.problems.empty()) {
    throw UsageLines("these answers do not go together:\n  " + joined(plan.problems));
  }
  return std::move(plan.text);
}

bool is_in_the_way(const CommonOptions& options) {
  std::error_code unknown_file;
  return !options.force && std::filesystem::is_regular_file(options.output, unknown_file);
}

/// So that nobody answers all and then has it nowhere.
void need_folder_of(const std::string& path) {
  const std::filesystem::path folder = std::filesystem::path(path).parent_path();
  std::error_code unknown_file;
  if (!folder.empty() && !std::filesystem::is_directory(folder, unknown_file)) {
    throw FileError(path + ": there is no folder " + folder.string());
  }
}

/// The kit, or nothing where it has errors, which are told. Throws UsageError where it is none.
std::optional<start::Kit> kit_for(const CommonOptions& options) {
  if (options.kit.empty()) return start::Kit{};
  const bool to_file = !options.output.empty() && options.output != "-";
  if (to_file && same_file(options.output, options.kit)) {
    throw UsageError(fmt::format("--output {}: that is the kit itself", options.output));
  }
  CommonOptions of_kit = options;
  of_kit.plan_path = options.kit;
  of_kit.force = true;  // whether the plan may be written over is asked by itself
  const plan::ReadPlan reading = plan::read_kit(options.kit);
  tell(reading, of_kit);
  if (plan::has_error(reading.diagnostics)) return std::nullopt;
  if (!reading.is_kit) {
    throw UsageError(fmt::format(
        "--kit {}: that is a whole plan; expected a file with some of its sections alone",
        options.kit));
  }
  const start::Kit kit =
      start::kit_of(reading, options.kit, to_file ? options.output : "trip.yaml");
  for (const start::Question& question : start::questions) {
    if (options.given.contains(std::string(question.option())) && kit.has(question.section)) {
      throw UsageError(
          fmt::format("--{}: {} has {} already", question.option(), options.kit, question.section));
    }
  }
  return kit;
}

}  // namespace

ExitStatus start_command(const CommonOptions& options) {
  const bool asks = options.ask || (!options.defaults && isatty(STDIN_FILENO) == 1);
  need_folder_of(options.output);
  const auto kit = kit_for(options);
  if (!kit) return wrong;
  if (is_in_the_way(options) &&
      !(asks && start::ask_yes(
                    fmt::format("{} already exists. Write over it?", units::shown(options.output)),
                    std::cin, std::cerr))) {
    throw FileError(options.output + ": already exists; --force writes over it");
  }
  std::string text;
  if (asks) {
    const auto plan = start::ask(options.given, std::cin, std::cerr, *kit);
    if (!plan) {
      std::fputs("drystage: ended; nothing was written\n", stderr);
      return fails;
    }
    text = *plan;
  } else {
    if (!options.defaults) {
      std::fputs("drystage: no terminal to ask in: defaults stand for all that no option says\n",
                 stderr);
    }
    text = plan_of(options.given, *kit);
  }
  if (options.full) text += start::every_key();
  write_result(text, options.output);
  if (!options.output.empty() && options.output != "-") {
    std::fputs(
        fmt::format("Wrote {0}. Now try: drystage run {0}\n", units::shown(options.output)).c_str(),
        stderr);
  }
  return holds;
}

}  // namespace drystage::cli
