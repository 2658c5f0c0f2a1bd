#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "answers/odds/odds.h"
#include "answers/odds/trial.h"
#include "drawing/page.h"
#include "plan/mishaps.h"
#include "plan/override.h"
#include "plan/weather.h"
#include "reading_options.h"
#include "report/card/parts.h"
#include "start/answers.h"
#include "units/format.h"
#include "usage_error.h"

namespace boost::program_options {
class options_description;
}

namespace drystage::cli {

enum class Format { table, csv, json };

/// What every command that takes a plan understands.
struct CommonOptions {
  std::string plan_path;       ///< what the plan is called where it came from standard input
  bool plan_is_typed = false;  ///< it comes from standard input
  std::vector<plan::Override> overrides;
  std::string argument;  ///< of commands that take no plan: the word after the command
  std::string output;    ///< empty: standard output
  bool force = false;    ///< write over a file that is there, whatever it is
  Format format = Format::table;
  units::System system = units::System::metric;
  bool color = false;         ///< on standard output
  bool color_errors = false;  ///< on standard error
  bool all = false;           ///< all there is, not what fits a screen
  bool wide = false;
  bool help = false;
  std::optional<std::size_t> jobs{};  ///< threads; none: as many as there are
  // Of mishaps alone:
  bool two = false;                           ///< every pair too
  std::vector<plan::MishapKind> only{};       ///< each once; empty: all
  std::optional<std::pair<int, int>> days{};  ///< first and last, counted from 1
  // Of odds alone:
  answers::OddsOptions odds{};
  std::optional<std::uint64_t> trip{};  ///< the one to be shown
  std::optional<double> at_most{};      ///< chance that is accepted, 0 to 1
  bool show_sources = false;            ///< what is drawn, instead of drawing
  // Of run alone:
  std::optional<plan::Spell> weather{};  ///< what the table shows; none: what the plan says
  // Of size alone:
  bool least_cost = false;  ///< else least mass
  /// Kinds of mishap of which no single one may run dry what life depends on, each once; empty:
  /// all.
  std::optional<std::vector<plan::MishapKind>> survive{};
  std::vector<std::string> keep{};  ///< as given: names, maybe with commas between
  bool confirmed_only = false;
  std::optional<answers::Confidence> confidence{};
  std::string write{};  ///< where the sized plan goes; empty: nowhere
  // Of those that draw; a file that is drawn has a name that picture_form knows.
  std::string chart{};                 ///< where the chart goes; empty: nowhere
  drawing::Paper paper = drawing::a4;  ///< of the card
  report::CardParts with{};            ///< what goes with the card
  // Of start alone:
  start::Given given{};   ///< answers, by the question's option
  bool defaults = false;  ///< ask nothing
  bool ask = false;       ///< ask, even where there is no terminal; of resume too
  bool full = false;      ///< every key of a plan as well
  std::string kit{};      ///< what the plan is to include; empty: nothing
  // Of resume alone:
  std::vector<GivenReading> readings{};  ///< what was found, in the order in which it was given
  std::vector<GivenChange> changes{};    ///< what is otherwise from then on
  bool write_plan = false;               ///< the reading goes into the plan's own file
  bool finish = false;                   ///< the trip is over: what it taught
  bool as_planned = false;               ///< the plan's rates of use, not one's own
};

/// Which options a command takes beside those that all take.
struct Takes {
  bool plan = true;                ///< and what may be said about it: --set, --color
  const char* argument = nullptr;  ///< what may stand in a plan's place
  bool formats = false;
  bool wide = false;
  bool weather = false;     ///< which weather to show
  bool mishaps = false;     ///< which mishaps to try, and when
  bool odds = false;        ///< how many trips, and what of them
  bool confidence = false;  ///< on how many of the trips that are drawn margins are kept
  bool jobs = false;        ///< how many threads
  bool size = false;        ///< what the least set is to be good for, and where it goes
  bool chart = false;       ///< where a chart goes
  bool card = false;        ///< its paper, units and parts; the output must be a picture
  bool start = false;       ///< answers to the questions of a first plan
  bool reading = false;     ///< what was found on the way
};

/// Whether two paths stand for one file, be it there or not.
bool same_file(const std::string& a, const std::string& b);

/// What stands between the commas of a list, in order: at least one text, which may be empty.
std::vector<std::string> between_commas(std::string_view list);

/// The options as Boost describes them.
boost::program_options::options_description describe(const Takes& takes);

/// Reads the words after the command. Throws UsageError.
CommonOptions parse(const std::vector<std::string>& words, const Takes& takes);

}  // namespace drystage::cli
