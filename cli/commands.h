#pragma once

#include <array>
#include <string>
#include <vector>

#include "exit_status.h"
#include "options.h"

namespace drystage::cli {

/// What does a first plan look like? A few questions, and a plan from the answers.
ExitStatus start_command(const CommonOptions& options);

/// Does the plan hold? Day table and verdict.
ExitStatus run_command(const CommonOptions& options);

/// Is the file right? Every error at once, each with its line.
ExitStatus check_command(const CommonOptions& options);

/// What must be left each morning, and where is the last place to turn back?
ExitStatus needs_command(const CommonOptions& options);

/// What if any one thing breaks? Every single failure, at every day.
ExitStatus mishaps_command(const CommonOptions& options);

/// What must be loaded? The least set on offer that keeps every margin.
ExitStatus size_command(const CommonOptions& options);

/// How likely is trouble? Many trips that differ as real ones do.
ExitStatus odds_command(const CommonOptions& options);

/// What does it weigh, on which axle, on which day?
ExitStatus weigh_command(const CommonOptions& options);

/// From tonight's readings: does the rest still hold?
ExitStatus resume_command(const CommonOptions& options);

/// What is carried in the hand? A sheet to print, with boxes to write in.
ExitStatus card_command(const CommonOptions& options);

/// How do I use it? The commands, one of them, or a topic.
ExitStatus help_command(const CommonOptions& options);

/// How does my shell complete what I type? A script for it.
ExitStatus completion_command(const CommonOptions& options);

/// How is a plan written? A schema for editors.
ExitStatus schema_command(const CommonOptions& options);

/// A command. Help, manual page and completion come from here.
struct Command {
  const char* name;
  const char* question;  ///< that it answers, and how
  const char* about;     ///< what it prints and how it ends
  const char* examples;  ///< one to a line
  Takes takes;
  ExitStatus (*go)(const CommonOptions& options);
};

inline constexpr std::array<Command, 13> commands{{
    {"start",
     "How do I begin? A first plan from a few questions",
     "In a terminal it asks what no option says; Enter takes the default. A wrong answer is "
     "explained and asked again. Without a terminal it takes the defaults, and says so. The plan "
     "runs at once: a camp, some nights there, and back. Its weather is usual for that kind of "
     "country, not a station's. Control-C and Control-D end it with nothing written.",
     "drystage start --output trip.yaml\n"
     "drystage start --people 3 --days 10 --latitude 38 --country mediterranean",
     {.plan = false, .start = true},
     start_command},
    {"run",
     "Does the plan hold? The verdict, then a row for each day",
     "First the verdict, what else fails, and the smallest fix found. Then what a hot and a dull "
     "week do, how heavy each vehicle is, and a row for each day: the lowest level of each "
     "reserve, and how long that lasts. ! stands before what is below its margin. Then what "
     "happens on the way. It exits with 0 when the plan holds, else with 1.",
     "drystage run trip.yaml\n"
     "drystage run trip.yaml --weather hot\n"
     "drystage run trip.yaml --set \"people[0].mass=90 kg\" --chart trip.svg",
     {.formats = true, .wide = true, .weather = true, .chart = true},
     run_command},
    {"check",
     "Is the file right? Every error at once, each with its line",
     "Nothing is run. Every error has its line, the lines around it, and what was expected. What "
     "is possible but odd is a warning; the file is right all the same.",
     "drystage check trip.yaml",
     {},
     check_command},
    {"size",
     "What must I load? The least on offer with which everything lasts",
     "It tries cans, containers and days of dry food in the usual sizes, or what the plan offers "
     "under size:. Every set is judged by running the plan with it. Below each thing: what the "
     "plan has too much or too little, and what fails with one fewer. With --confidence every "
     "margin must be kept on so many of the trips that drystage odds draws as well: the lower end "
     "of the interval must reach it. It exits with 1 when nothing on offer is enough, and when it "
     "was stopped. Control-C stops it and shows what is known so far.",
     "drystage size trip.yaml\n"
     "drystage size trip.yaml --confidence 95%\n"
     "drystage size trip.yaml --survive mishap --write loaded.yaml",
     {.formats = true, .wide = true, .confidence = true, .jobs = true, .size = true, .chart = true},
     size_command},
    {"needs",
     "What must be left each morning, and where is the last place to turn back?",
     "For each morning and reserve: must have, has, to spare. Must have is the least that reaches "
     "the next confirmed supply with the margin intact. Then the last time and place from which "
     "the last supply behind is still in reach. With --confidence must have is enough on so many "
     "of the trips that drystage odds draws as well. It exits with 1 when some morning has too "
     "little.",
     "drystage needs trip.yaml\n"
     "drystage needs trip.yaml --all\n"
     "drystage needs trip.yaml --confidence 95%",
     {.formats = true, .wide = true, .confidence = true, .jobs = true},
     needs_command},
    {"mishaps",
     "What if any one thing breaks? Every single mishap, on every day",
     "Every mishap that can strike is tried, on every day on which it can, each by running the "
     "plan to its end. The verdict is about drinking water and fuel. Then the worst of them, and "
     "a row of signs for each. It exits with 0 only if no single one runs drinking water or fuel "
     "dry. Control-C stops it and shows what is known so far.",
     "drystage mishaps trip.yaml\n"
     "drystage mishaps trip.yaml --only container,stuck --days 3-6\n"
     "drystage mishaps trip.yaml --two",
     {.formats = true, .wide = true, .mishaps = true, .jobs = true, .chart = true},
     mishaps_command},
    {"odds",
     "How likely is trouble? Many trips that differ as real ones do",
     "Weather, people, ground, equipment and what happens are drawn for each trip, and the plan is "
     "run with them. How often does a reserve fall below its margin, how often does it run out, "
     "and "
     "on which day? What makes trips differ, and what would help most? Every chance has its "
     "interval. What is drawn stands under uncertainty: in the plan. With --at-most it exits with "
     "1 "
     "when a margin of drinking water or fuel may be broken more often. Control-C stops it and "
     "shows what is known so far.",
     "drystage odds trip.yaml\n"
     "drystage odds trip.yaml --trips 100000 --at-most 5%\n"
     "drystage odds trip.yaml --worst 5\n"
     "drystage odds trip.yaml --trip 4711",
     {.formats = true, .wide = true, .odds = true, .jobs = true, .chart = true},
     odds_command},
    {"weigh",
     "What does it weigh, on which axle, on which day?",
     "Whether every limit of mass is kept, hour by hour: of each vehicle, its axles, wheels, roof, "
     "bays, tow ball and trailer. Where one is passed: the least to move, and where to. Then the "
     "most and the least of each, what room is left, and a row for each day. It exits with 1 when "
     "a limit is passed.",
     "drystage weigh trip.yaml\n"
     "drystage weigh trip.yaml --all --units imperial --chart trip.svg",
     {.formats = true, .wide = true, .chart = true},
     weigh_command},
    {"resume",
     "From tonight's readings: does the rest of the trip still hold?",
     "Dip the tanks, count the cans, and say what is there. It compares that with the plan, learns "
     "your own rates of use, and runs the rest of the trip at them. Then: what must be there "
     "tomorrow at midnight, until when you can turn back, and the one thing that helps most. In a "
     "terminal, with nothing said, it asks. It exits with 0 when the rest holds, else with 1.",
     "drystage resume trip.yaml --evening 6 --drinking 85L --fuel 139L\n"
     "drystage resume trip.yaml --evening 6 --tank \"main tank=23cm\" --write\n"
     "drystage resume trip.yaml",
     {.formats = true, .wide = true, .jobs = true, .reading = true},
     resume_command},
    {"card",
     "What do I carry in my hand? A sheet to print, with boxes to write in",
     "One sheet. The front has for each day what the plan expects that night, what must be there, "
     "and a box for tonight's reading. The back has the way out, and what to do first. The file's "
     "ending says in which form it is written. An .html is a page for a telephone: it compares "
     "readings with what must be there. With --confidence what must be there is enough on so many "
     "of the trips that drystage odds draws as well.",
     "drystage card trip.yaml --output trip.pdf\n"
     "drystage card trip.yaml --confidence 95% --output trip.pdf\n"
     "drystage card trip.yaml --with packing,home --paper letter --output trip.pdf",
     {.confidence = true, .jobs = true, .card = true},
     card_command},
    {"schema",
     "How is a plan written? A JSON Schema, for editors that complete and underline",
     "Draft 7. What is right is never underlined. Names that nothing has, and amounts that are "
     "not possible, are seen by check alone.",
     "drystage schema --output plan.schema.json",
     {.plan = false},
     schema_command},
    {"completion",
     "How does my shell complete what I type? A script for it",
     "Load it in the file with which your shell starts.",
     "source <(drystage completion bash)\n"
     "drystage completion fish > ~/.config/fish/completions/drystage.fish",
     {.plan = false, .argument = "bash|zsh|fish"},
     completion_command},
    {"help",
     "How do I use it? The commands, one of them, or a topic",
     "Topics: words, margins, cautions, exit. man is this manual's page, for man(1).",
     "drystage help run\n"
     "drystage help margins",
     {.plan = false, .argument = "COMMAND|TOPIC"},
     help_command},
}};

}  // namespace drystage::cli
