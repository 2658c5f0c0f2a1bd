#include <fmt/core.h>

#include <boost/program_options.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "options.h"
#include "picture.h"
#include "plan/words.h"
#include "units/list.h"

namespace drystage::cli {

namespace po = boost::program_options;

po::options_description describe(const Takes& takes) {
  po::options_description description("Options", 80, 42);
  auto add = description.add_options();
  if (takes.formats) {
    add("format", po::value<std::string>()->value_name("FORM"), "table, csv or json");
    add("units", po::value<std::string>()->value_name("UNITS"),
        "metric, us or imperial: what the table shows; csv and json are metric");
  }
  if (takes.card) {
    add("paper", po::value<std::string>()->value_name("SIZE")->default_value("a4"), "a4 or letter");
    add("units", po::value<std::string>()->value_name("UNITS"), "metric, us or imperial");
    add("with", po::value<std::vector<std::string>>()->value_name("PART,...")->composing(),
        ("add these parts after the sheet: " + plan::one_of(plan::texts(report::card_part_words)) +
         ", or all of them: all; may be repeated")
            .c_str());
  }
  if (takes.wide) {
    add("all", "show all there is, not only what fits a screen");
    add("wide", "the same, in tables as wide as they need");
  }
  if (takes.weather) {
    add("weather", po::value<std::string>()->value_name("WHICH"),
        "usual, hot or dull: run the plan as it is, or through a hot or a dull week where it hurts "
        "most");
  }
  std::string kinds;
  for (const std::string_view text : plan::texts(plan::mishap_words)) {
    units::add_to(kinds, text);
  }
  if (takes.mishaps) {
    add("two", "try every two of them together as well");
    add("only", po::value<std::vector<std::string>>()->value_name("KIND,...")->composing(),
        ("try these kinds alone: " + kinds + "; may be repeated").c_str());
    add("days", po::value<std::string>()->value_name("FIRST-LAST"),
        "let them strike on these days alone: 4, or 3-5");
  }
  if (takes.odds) {
    add("trips", po::value<std::string>()->value_name("N"), "run so many trips; without it 10000");
    add("until", po::value<std::string>()->value_name("SHARE"),
        "run more until the chance of a broken margin of drinking water or fuel is known so well, "
        "as in ±0.5%");
    add("seed", po::value<std::string>()->value_name("N"),
        "draw other trips; the same number draws the same ones; without it 1");
    add("at-most", po::value<std::string>()->value_name("SHARE"),
        "exit with 1 when a margin of drinking water or fuel may be broken more often, by the "
        "upper "
        "end of the interval, as in 5%");
    add("trip", po::value<std::string>()->value_name("N"),
        "show this trip as run shows a plan, the first is 0");
    add("worst", po::value<std::string>()->value_name("N"),
        "tell what happened on the worst trips");
    add("show-sources", "list all that is drawn, and where its usual value is from");
  }
  if (takes.size) {
    add("least", po::value<std::string>()->value_name("WHAT")->default_value("mass"),
        "find the set of least mass or cost");
    add("survive", po::value<std::vector<std::string>>()->value_name("KIND,...")->composing(),
        ("let no single mishap run drinking water or fuel dry: mishap for all, or these kinds "
         "alone: " +
         kinds + "; may be repeated")
            .c_str());
    add("keep", po::value<std::vector<std::string>>()->value_name("NAME,...")->composing(),
        "leave these things as they are; may be repeated");
    add("confirmed-only", "count on no supply that is not confirmed");
    add("write", po::value<std::string>()->value_name("FILE"),
        "write the sized plan there, whole or not at all");
  }
  if (takes.confidence) {
    add("confidence", po::value<std::string>()->value_name("SHARE"),
        takes.size ? "keep every margin on so many of the trips that odds draws as well, as in 95%"
                   : "must have is enough on so many of the trips that odds draws as well, as in "
                     "95%");
    if (takes.size) {
      add("vital", "with --confidence: count the margins that life depends on, and no others");
    }
    add("trips", po::value<std::string>()->value_name("N"),
        "with --confidence: draw so many trips; without it 2000, more from 99.3% on");
    add("seed", po::value<std::string>()->value_name("N"),
        "with --confidence: draw other trips; without it 1");
  }
  if (takes.jobs) {
    add("jobs", po::value<std::string>()->value_name("N"),
        "use so many threads; without it as many as there are");
  }
  if (takes.chart) {
    add("chart", po::value<std::string>()->value_name("FILE"),
        fmt::format("draw it there as well: {}; whole or not at all", picture_endings).c_str());
  }
  if (takes.start) {
    for (const start::Question& question : start::questions) {
      add(question.option().data(), po::value<std::string>()->value_name("ANSWER"),
          fmt::format("{} [{}]", start::wording(question), question.asked.absent).c_str());
    }
    add("defaults", "ask nothing: take the defaults, in brackets, of what no option says");
    add("ask", "ask on standard input, even where it is no terminal");
    add("kit", po::value<std::string>()->value_name("FILE"),
        "include this file, and ask for nothing that it has");
    add("full", "add every key of a plan, as remarks, with what it means");
  }
  if (takes.reading) {
    for (const ReadingOption& option : reading_options) {
      add(option.name, po::value<std::vector<std::string>>()->value_name(option.value)->composing(),
          option.about);
    }
    for (const ChangeOption& option : change_options) {
      add(option.name, po::value<std::vector<std::string>>()->value_name(option.value)->composing(),
          option.about);
    }
    add("as-planned", "go on at the plan's rates of use, not at your own");
    add("finish", "the trip is over: say what the readings taught, for the next plan");
    add("write",
        "write the reading into the plan's own file, its comments stay; with --finish write what "
        "the vehicles use as observed, there or in the kit");
    add("ask", "ask on standard input, even where it is no terminal");
  }
  add("output", po::value<std::string>()->value_name("FILE"),
      takes.card ? fmt::format("write there: {}; whole or not at all", picture_endings).c_str()
                 : "write there instead of to standard output; whole or not at all");
  add("force", "write over a file that is there, whatever it is");
  if (!takes.plan) {
    add("help", "show this");
    return description;
  }
  add("set", po::value<std::vector<std::string>>()->value_name("PATH=VALUE")->composing(),
      "change a value of the plan for this run; may be repeated");
  add("color", po::value<std::string>()->value_name("WHEN")->default_value("auto"),
      "auto, always or never");
  add("help", "show this");
  return description;
}

}  // namespace drystage::cli
