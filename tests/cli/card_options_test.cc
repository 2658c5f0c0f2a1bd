// What `drystage card` takes on the command line, what it refuses, and what it says.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

#include "cli/poppler.h"
#include "cli/process.h"
#include "cli/workspace.h"
#include "support/plan_text.h"

namespace drystage::testing {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;
using ::testing::UnorderedElementsAre;

constexpr int holds = 0;
constexpr int does_not_hold = 1;
constexpr int wrong = 2;
constexpr int file_trouble = 3;

/// Five days at one place, on water that is enough.
support::PlanText small_trip() {
  support::PlanText plan;
  plan.margins = {"drinking_water: 5 L"};
  plan.containers = {"{name: can, holds: 40 L, filled: 40 L, for: drinking}"};
  return plan;
}

class CardOptions : public ::testing::Test {
 protected:
  [[nodiscard]] Outcome card(const std::vector<std::string>& options) const {
    std::vector<std::string> words{"card", plan_};
    words.insert(words.end(), options.begin(), options.end());
    return drystage(words, {.folder = workspace_.folder()});
  }

  void expect_refused(const std::vector<std::string>& options, const std::string& reason) const {
    const Outcome outcome = card(options);
    EXPECT_EQ(outcome.status, wrong);
    EXPECT_EQ(outcome.out, "");
    EXPECT_THAT(outcome.err, HasSubstr(reason));
    EXPECT_THAT(workspace_.names(), ElementsAre("trip.yaml"));
  }

  Workspace workspace_;
  std::string plan_ = workspace_.write("trip.yaml", small_trip().text());
};

TEST_F(CardOptions, HelpNamesThemInEightyColumns) {
  const Outcome outcome = drystage({"card", "--help"});
  EXPECT_EQ(outcome.status, holds);
  for (const char* word :
       {"--output", "--paper", "--units", "--set", "--jobs", "--color", "--with",
        "packing, charts, dips", ".pdf", ".svg", ".png", ".html", "a4", "letter"}) {
    EXPECT_THAT(outcome.out, HasSubstr(word));
  }
  for (const std::string& line : lines(outcome.out)) EXPECT_LE(terminal_columns(line), 80) << line;
}

TEST_F(CardOptions, TheUsageNamesTheCommand) {
  const std::string usage = drystage({"--help"}).out;
  EXPECT_THAT(usage, HasSubstr("\n  card "));
  for (const std::string& line : lines(usage)) EXPECT_LE(terminal_columns(line), 80) << line;
}

TEST_F(CardOptions, ACardNeedsAFile) {
  expect_refused({},
                 "a card goes into a file: add --output trip.pdf, or another name that ends in "
                 ".pdf, .svg, .png or .html");
  expect_refused({"--output="}, "--output");
}

TEST_F(CardOptions, TheFilesNameMustSayItsForm) {
  for (const char* name : {"-", "card", "card.gif", "card.pdf.txt", ".pdf", "pdf", "card.",
                           "card.pdf/", "card.htm", "card.pdf "}) {
    expect_refused({"--output", name}, std::string("--output ") + name +
                                           ": expected a file whose name ends in .pdf, .svg, .png "
                                           "or .html");
  }
}

TEST_F(CardOptions, PaperIsA4OrLetter) {
  expect_refused({"--output", "card.pdf", "--paper", "a5"},
                 "--paper a5: expected one of a4, letter");
  expect_refused({"--output", "card.pdf", "--units", "cubits"},
                 "--units cubits: expected one of metric, us, imperial");
  expect_refused({"--output", "card.pdf", "--jobs", "0"}, "expected a number of threads");
}

TEST_F(CardOptions, PartsComeAfterTheSheet) {
  const auto pages_with = [&](const std::vector<std::string>& with) {
    std::vector<std::string> options{"--output", "card.pdf"};
    options.insert(options.end(), with.begin(), with.end());
    const Outcome outcome = card(options);
    EXPECT_EQ(outcome.status, holds) << outcome.err;
    return pdf_text(workspace_.path("card.pdf"));
  };
  const std::vector<std::pair<std::string, std::string>> parts{
      {"packing", "Packing list"},
      {"charts", "The levels, to plot readings in"},
      {"notes", "Notes"},
      {"home", "To leave at home"}};
  const std::string plain = pages_with({});
  const std::string all = pages_with({"--with", "all"});
  const std::string two = pages_with({"--with", "packing", "--with", "charts,home"});
  for (const auto& [word, title] : parts) {
    EXPECT_THAT(plain, Not(HasSubstr(title)));
    EXPECT_THAT(all, HasSubstr(title));
    EXPECT_THAT(pages_with({"--with", word}), HasSubstr(title));
    if (word != "notes") EXPECT_THAT(two, HasSubstr(title));
  }
  EXPECT_THAT(pages_with({"--with", "dips", "--units", "us"}), HasSubstr("To convert"));
}

TEST_F(CardOptions, APartThatThereIsNotIsRefusedWithTheNearest) {
  expect_refused({"--output", "card.pdf", "--with", "home,paking"},
                 "--with paking: no such part of the card; did you mean \"packing\"? Parts are "
                 "packing, charts, dips, notes or home; all is all of them");
  expect_refused({"--output", "card.pdf", "--with", ""}, "--with : no such part of the card.");
}

TEST_F(CardOptions, WhatItHasNoUseForIsRefused) {
  for (const char* option : {"--format", "--wide", "--two", "--write", "--chart"}) {
    expect_refused({"--output", "card.pdf", option}, std::string("no option '") + option + "'");
  }
  for (const char* command : {"run", "check", "size", "needs", "mishaps"}) {
    const Outcome outcome = drystage({command, plan_, "--paper", "a4"});
    EXPECT_EQ(outcome.status, wrong);
    EXPECT_THAT(outcome.err, HasSubstr("no option '--paper'"));
  }
}

TEST_F(CardOptions, OverThePlanIsRefused) {
  const std::string text = small_trip().text();
  const std::string plan = workspace_.write("plan.html", text);
  std::filesystem::create_hard_link(plan, workspace_.path("twin.pdf"));
  for (const char* output : {"plan.html", "./plan.html", "twin.pdf"}) {
    const Outcome outcome =
        drystage({"card", plan, "--output", output}, {.folder = workspace_.folder()});
    EXPECT_EQ(outcome.status, wrong);
    EXPECT_THAT(outcome.err,
                HasSubstr(std::string("--output ") + output + ": that is the plan itself"));
    EXPECT_EQ(read_file(plan), text);
  }
}

TEST_F(CardOptions, EveryFormHasItsOwnBeginning) {
  const std::vector<std::pair<const char*, const char*>> forms{{"card.pdf", "%PDF-"},
                                                               {"card.PDF", "%PDF-"},
                                                               {"card.svg", "<?xml "},
                                                               {"a.b.Svg", "<?xml "},
                                                               {"card.png", "\x89PNG\r\n\x1a\n"},
                                                               {"card.pNG", "\x89PNG\r\n\x1a\n"},
                                                               {"card.html", "<!DOCTYPE html>"},
                                                               {"card.HTML", "<!DOCTYPE html>"}};
  for (const auto& [name, beginning] : forms) {
    const Outcome outcome = card({"--output", name});
    EXPECT_EQ(outcome.status, holds) << name << outcome.err;
    EXPECT_EQ(outcome.err, "") << name;
    EXPECT_THAT(outcome.out, StartsWith(std::string(name) + ": "));
    EXPECT_THAT(read_file(workspace_.path(name)), StartsWith(beginning)) << name;
  }
  EXPECT_THAT(workspace_.names(),
              UnorderedElementsAre("trip.yaml", "card.pdf", "card.PDF", "card.svg", "a.b.Svg",
                                   "card.png", "card.pNG", "card.html", "card.HTML"));
}

TEST_F(CardOptions, SaysWhetherThePlanHolds) {
  const Outcome holding = card({"--output", "card.pdf"});
  EXPECT_EQ(holding.status, holds);
  EXPECT_THAT(holding.out, ::testing::MatchesRegex("card\\.pdf: 2 pages; the plan holds\n"));
  const Outcome failing =
      card({"--output", "card.pdf", "--set", "water.containers[0].filled=15 L"});
  EXPECT_EQ(failing.status, does_not_hold);
  EXPECT_THAT(failing.out, HasSubstr("pages; the plan does not hold\n"));
}

TEST_F(CardOptions, SaysThatAPlanHoldsOnlyIfWhatNobodyHasConfirmedIsThere) {
  support::PlanText plan = small_trip();
  plan.containers = {"{name: can, holds: 40 L, filled: 15 L, for: drinking}"};
  plan.places = {support::PlanText::place("Base", "air"),
                 support::PlanText::place("Well", "air", "drinking_water: {confirmed: no}")};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2200 kg}, tanks: [{name: main, holds: 90 L, "
      "filled: 90 L}]}"};
  plan.itinerary = {"{at: Base}", "drive: {to: Well, distance: 20 km, surfaces: sealed}",
                    "resupply: {drinking_water: fill}", "stay: {nights: 5}"};
  const std::string path = workspace_.write("hope.yaml", plan.text());
  const Outcome outcome =
      drystage({"card", path, "--output", "hope.pdf"}, {.folder = workspace_.folder()});
  EXPECT_EQ(outcome.status, holds) << outcome.err;
  EXPECT_THAT(outcome.out,
              HasSubstr("; the plan holds only if what nobody has confirmed is there\n"));
}

TEST_F(CardOptions, AFileThatCannotBeWrittenLeavesNothing) {
  const std::string kept = workspace_.write("file.pdf", "kept");
  for (const char* output : {"missing/card.pdf", "file.pdf/card.html"}) {
    const Outcome outcome = card({"--output", output});
    EXPECT_EQ(outcome.status, file_trouble);
    EXPECT_EQ(outcome.out, "");
    EXPECT_THAT(outcome.err, HasSubstr(output));
  }
  EXPECT_EQ(read_file(kept), "kept");
  EXPECT_THAT(workspace_.names(), ElementsAre("file.pdf", "trip.yaml"));
}

TEST_F(CardOptions, AWrongPlanLeavesTheOldCardAsItWas) {
  const std::string old = workspace_.write("card.pdf", "last week's card");
  const Outcome outcome = card({"--output", old, "--set", "margins.drinking_water=many"});
  EXPECT_EQ(outcome.status, wrong);
  EXPECT_EQ(outcome.out, "");
  EXPECT_EQ(drystage({"card", workspace_.path("none.yaml"), "--output", old}).status, file_trouble);
  EXPECT_EQ(read_file(old), "last week's card");
}

TEST_F(CardOptions, OnlyOnePlanIsTaken) {
  EXPECT_EQ(drystage({"card", "--output", "card.pdf"}).status, wrong);
  expect_refused({plan_, "--output", "card.pdf"}, "expected one plan file, not 2");
}

// A picture of dots has an end to its length; a card of a year does not fit.
TEST_F(CardOptions, ACardTooLongForAPictureIsRefusedWithWhatToDo) {
  support::PlanText plan = small_trip();
  plan.itinerary = {"{at: Base}", "stay: {nights: 360}"};
  const std::string path = workspace_.write("trip.yaml", plan.text());
  const Outcome outcome = drystage({"card", path, "--with", "all", "--output", "year.png"},
                                   {.folder = workspace_.folder()});
  EXPECT_EQ(outcome.status, wrong);
  EXPECT_EQ(outcome.out, "");
  EXPECT_THAT(outcome.err, HasSubstr("year.png: "));
  EXPECT_THAT(outcome.err, HasSubstr(".pdf"));
  EXPECT_THAT(workspace_.names(), ElementsAre("trip.yaml"));
}

}  // namespace
}  // namespace drystage::testing
