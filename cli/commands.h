#pragma once

#include <array>
#include <string>
#include <vector>

#include "exit_status.h"
#include "options.h"

namespace drystage::cli {

/// Does the plan hold? Day table and verdict.
ExitStatus run_command(const CommonOptions& options);

/// Is the file right? Every error at once, each with its line.
ExitStatus check_command(const CommonOptions& options);

/// What must be left each morning, and where is the last place to turn back?
ExitStatus needs_command(const CommonOptions& options);

/// What if any one thing breaks? Every single mishap, at every day.
ExitStatus mishaps_command(const CommonOptions& options);

/// What must be loaded? The least set on offer that keeps every margin.
ExitStatus size_command(const CommonOptions& options);

/// What is carried in the hand? A sheet to print, with boxes to write in.
ExitStatus card_command(const CommonOptions& options);

/// How is a plan written? A schema for editors.
ExitStatus schema_command(const CommonOptions& options);

/// A command: its name, the question it answers, what it takes and what it does.
struct Command {
  const char* name;
  const char* question;
  Takes takes;
  ExitStatus (*go)(const CommonOptions& options);
};

inline constexpr std::array<Command, 7> commands{{
    {"run",
     "Does the plan hold? The verdict, then a row for each day",
     {.formats = true, .wide = true, .weather = true, .chart = true},
     run_command},
    {"check", "Is the file right? Every error at once, each with its line", {}, check_command},
    {"size",
     "What must I load? The least on offer with which everything lasts",
     {.formats = true, .wide = true, .jobs = true, .size = true, .chart = true},
     size_command},
    {"needs",
     "What must be left each morning, and where is the last place to turn back?",
     {.formats = true, .wide = true, .jobs = true},
     needs_command},
    {"mishaps",
     "What if any one thing breaks? Every single mishap, at every day",
     {.formats = true, .wide = true, .mishaps = true, .jobs = true, .chart = true},
     mishaps_command},
    {"card",
     "What do I carry in my hand? A sheet to print, with boxes to write in",
     {.jobs = true, .card = true},
     card_command},
    {"schema",
     "How is a plan written? A JSON Schema, for editors that complete and underline",
     {.plan = false},
     schema_command},
}};

}  // namespace drystage::cli
