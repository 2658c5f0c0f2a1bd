#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <stdexcept>

#include "answers/base/plan_run.h"
#include "answers/size/size.h"
#include "commands.h"
#include "draw.h"
#include "interrupt.h"
#include "load.h"
#include "output.h"
#include "own_file.h"
#include "plan/items.h"
#include "plan/read.h"
#include "plan/rewrite.h"
#include "plan/stand_alone.h"
#include "plan/words.h"
#include "report/size/report.h"
#include "threads.h"
#include "units/text.h"
#include "watched.h"

namespace drystage::cli {
namespace {

std::string text_of(const report::SizeAnswer& answer, const CommonOptions& options) {
  switch (options.format) {
    case Format::csv:
      return report::size_csv(answer);
    case Format::json:
      return report::size_json(answer);
    case Format::table:
      break;
  }
  return report::size_text(
      answer,
      {.color = options.color, .all = options.all, .wide = options.wide, .system = options.system});
}

/// The thing that a name stands for. Throws UsageError when there is none, or several.
const plan::Item& item_called(const std::vector<plan::Item>& items, const std::string& name) {
  const std::vector<plan::Item> called = plan::items_called(items, name);
  if (called.size() == 1) return *std::ranges::find(items, called.front());
  if (called.empty()) {
    const std::vector<std::string> names = plan::shortest_names(items);
    const std::string guess = plan::did_you_mean(name, names);
    throw UsageError(fmt::format("--keep {}: the plan has no such thing{}{} It has {}", name,
                                 guess.empty() ? "." : "; ", guess, plan::one_of(names)));
  }
  std::vector<std::string> full;
  full.reserve(called.size());
  for (const plan::Item& item : called) full.push_back(item.full_name);
  throw UsageError(
      fmt::format("--keep {}: several things are called so; write {}", name, plan::one_of(full)));
}

/// Adds what `--keep` names, with commas between or not, to what the plan keeps.
void keep(const CommonOptions& options, plan::Plan& plan) {
  const std::vector<plan::Item> items = plan::items_of(plan);
  const auto add = [&](const std::string& name) {
    const plan::Item& item = item_called(items, name);
    auto& kept = plan.size.keep;
    if (std::ranges::find(kept, item) == kept.end()) kept.push_back(item);
  };
  for (const std::string& given : options.keep) {
    // A name may have a comma in it.
    if (!plan::items_called(items, given).empty()) {
      add(given);
      continue;
    }
    for (const std::string& name : between_commas(given)) add(units::tidy_blanks(name));
  }
}

answers::SizeOptions size_options(const CommonOptions& options, const plan::Plan& plan) {
  if (options.least_cost && !plan::has_costs(plan.size)) {
    throw UsageError("--least cost: nothing on offer under size: has a cost");
  }
  return {.least = options.least_cost ? answers::Least::cost : answers::Least::mass,
          .survive = options.survive,
          .confirmed_only = options.confirmed_only,
          .confidence = options.confidence};
}

void search(report::SizeAnswer& answer, const CommonOptions& options) {
  const Interrupt interrupt;
  answer.sizing = watched("Sizing", [&](const answers::Watch& watch) {
    return answers::size_plan(answer.planned, answer.options, watch);
  });
  const bool whole = answer.sizing.found && !answer.sizing.stopped;
  // CSV has no room for the trade-off. What more margin weighs is another question than how likely
  // it is that margins are kept.
  const bool shown =
      !options.confidence && (options.format != Format::csv || !options.chart.empty());
  if (!whole || !shown || Interrupt::flag()->load()) return;
  answer.trade_off = watched("Trade-off", [&](const answers::Watch& watch) {
    return answers::trade_off(answer.planned, answer.options, answer.sizing, watch);
  });
}

/// Reads and runs a text that is to be written as a sized plan. Throws std::logic_error when it is
/// not the set that was found, or does not hold.
void check_written(const std::string& text, const report::SizeAnswer& answer) {
  const plan::ReadPlan reading = plan::read_text(text);
  if (!reading.plan) throw std::logic_error("the sized plan cannot be read again");
  const auto timeline =
      std::make_shared<const engine::Timeline>(engine::lay_timeline(*reading.plan));
  if (!timeline->problems.empty()) {
    throw std::logic_error("the sized plan cannot be laid out again");
  }
  const answers::PlanRun planned = answers::run_plan(*reading.plan, timeline);
  const auto without = answers::without_unconfirmed(planned);
  if (!planned.verdict.holds || (answer.options.confirmed_only && without && !without->holds)) {
    throw std::logic_error("the sized plan does not hold when it is read again");
  }
  constexpr double rounding_kg = 0.5;
  const auto& heaviest = answer.sizing.found->planned.record.heaviest;
  for (std::size_t v = 0; v < heaviest.size(); ++v) {
    if (std::abs(planned.record.heaviest.at(v).kg - heaviest[v].kg) > rounding_kg) {
      throw std::logic_error("the sized plan has another mass when it is read again");
    }
  }
}

/// Writes the plan with the set in it, when that was asked for and there is one.
void write_plan(const Loaded& loaded, const CommonOptions& options, report::SizeAnswer& answer) {
  if (options.write.empty()) return;
  if (!answer.sizing.found || answer.sizing.stopped) {
    std::fputs(("drystage: nothing was written to " + units::shown(options.write) + "\n").c_str(),
               stderr);
    return;
  }
  plan::Plan after = answer.sizing.found->plan;
  after.size = loaded.plan.size;  // what --keep adds is of this search alone
  const std::string text =
      with_sized_plan_mark(plan::rewrite(plan::stand_alone(loaded.reading), loaded.plan, after));
  check_written(text, answer);
  try {
    write_result(text, options.write);
  } catch (const FileError& error) {
    // The search may have been long: what it found is told all the same.
    answer.not_written = units::shown(error.what());
    return;
  }
  answer.written = units::shown(options.write);
}

/// Draws the trade-off, when that was asked for and there is one.
void draw_trade_off(const Loaded& loaded, const CommonOptions& options,
                    report::SizeAnswer& answer) {
  if (options.chart.empty()) return;
  if (answer.trade_off.empty() || report::partial(answer)) {
    const char* why = answer.sizing.found || answer.sizing.stopped
                          ? "the search was stopped before it was done"
                          : "no set on offer is enough";
    std::fputs(
        ("drystage: nothing was written to " + units::shown(options.chart) + ": " + why + "\n")
            .c_str(),
        stderr);
    return;
  }
  answer.warnings = loaded.warnings;
  write_chart(options.chart, answer, options.system);
}

}  // namespace

ExitStatus size_command(const CommonOptions& options) {
  const std::optional<Loaded> loaded = load(options);
  if (!loaded) return wrong;
  if (!loaded->plan.readings.empty()) {
    throw UsageError(
        "size asks what to load before setting out, and this plan has readings: drystage resume "
        "says what to take at the next stop");
  }
  plan::Plan plan = loaded->plan;
  keep(options, plan);
  report::SizeAnswer answer;
  answer.options = size_options(options, plan);
  const Threads threads(options);
  answer.planned = answers::run_plan(plan, loaded->timeline);
  search(answer, options);
  if (answer.sizing.found) {
    answer.without_unconfirmed = answers::without_unconfirmed(answer.sizing.found->planned);
  }
  if (!options.output.empty() || options.format == Format::json) answer.warnings = loaded->warnings;
  write_plan(*loaded, options, answer);
  write_result(text_of(answer, options), options.output);
  if (!answer.not_written.empty()) {
    throw FileError("the sized plan was not written: " + answer.not_written);
  }
  draw_trade_off(*loaded, options, answer);
  return answer.sizing.found && !report::partial(answer) ? holds : fails;
}

}  // namespace drystage::cli
