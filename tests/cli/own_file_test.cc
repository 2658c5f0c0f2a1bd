// What may be written over, and a plan that comes from standard input.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <nlohmann/json.hpp>

#include "cli/process.h"
#include "cli/workspace.h"
#include "support/plan_text.h"

namespace drystage::testing::own_file_test {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::StartsWith;

constexpr int wrong = 2;
constexpr int left = 3;

std::string plan_text() {
  support::PlanText plan;
  plan.containers = {"{name: can, holds: 40 L, filled: 40 L, for: drinking}"};
  plan.margins = {"drinking_water: 1 day"};
  return plan.text();
}

class OwnFile : public ::testing::Test {
 protected:
  [[nodiscard]] Outcome ask(std::vector<std::string> words) const {
    words.insert(words.begin() + 1, plan_);
    return drystage(words, {.folder = workspace_.folder()});
  }

  void expect_left(const std::vector<std::string>& words, const std::string& name,
                   const std::string& why) const {
    const std::string before = read_file(workspace_.path(name));
    const Outcome outcome = ask(words);
    EXPECT_EQ(outcome.status, left) << words.front() << outcome.out;
    EXPECT_THAT(outcome.err, AllOf(HasSubstr(name), HasSubstr(why), HasSubstr("--force")));
    EXPECT_EQ(outcome.out, "");
    EXPECT_EQ(read_file(workspace_.path(name)), before);
  }

  Workspace workspace_;
  std::string plan_ = workspace_.write("trip.yaml", plan_text());
};

TEST_F(OwnFile, APlanThatIsTypedFromItsFileIsNotWrittenOver) {
  for (const char* options :
       {"run - --force --output trip.yaml", "size - --force --write trip.yaml"}) {
    const Outcome outcome = program("sh", {"-c", tested_program() + " " + options + " < trip.yaml"},
                                    {.folder = workspace_.folder()});
    EXPECT_EQ(outcome.status, wrong) << options;
    EXPECT_THAT(outcome.err, HasSubstr("that is the plan itself"));
    EXPECT_EQ(read_file(plan_), plan_text());
  }
}

TEST_F(OwnFile, EveryAnswerMayBeWrittenOverByAnother) {
  const std::string file = workspace_.path("answer");
  for (const char* format : {"table", "csv", "json"}) {
    for (const std::vector<std::string>& words :
         {std::vector<std::string>{"run"},
          {"needs"},
          {"mishaps"},
          {"weigh"},
          {"size"},
          {"odds", "--trips", "20"},
          {"odds", "--trip", "3"},
          {"resume", "--evening", "1", "--drinking", "35L"},
          {"resume", "--evening", "1", "--drinking", "35L", "--finish"}}) {
      std::vector<std::string> all = words;
      all.insert(all.end(), {"--format", format, "--output", file});
      EXPECT_LE(ask(all).status, 1) << words.front() << format;
    }
  }
  EXPECT_LE(ask({"odds", "--show-sources", "--output", file}).status, 1);
  EXPECT_LE(ask({"run", "--output", file}).status, 1);
  EXPECT_EQ(drystage({"schema", "--output", file}).status, 0);
  for (const char* shell : {"bash", "zsh", "fish"}) {
    EXPECT_EQ(drystage({"completion", shell, "--output", file}).status, 0);
  }
  EXPECT_LE(ask({"run", "--output", file}).status, 1);
}

TEST_F(OwnFile, PicturesMayBeDrawnAgain) {
  for (const std::string form : {"pdf", "svg", "png", "html"}) {
    for (int times = 0; times < 2; ++times) {
      EXPECT_LE(ask({"card", "--output", "card." + form}).status, 1) << form;
      EXPECT_LE(ask({"run", "--chart", "run." + form}).status, 1) << form;
    }
  }
}

TEST_F(OwnFile, WhatDrystageDidNotWriteIsLeft) {
  const std::string not_ours = "that file is there, and drystage did not write what it holds";
  (void)workspace_.write("notes.txt", "Remember the spare keys.\n");
  (void)workspace_.write("photo.png", "\x89PNG\r\n\x1a\n and a picture");
  (void)workspace_.write("other.yaml", plan_text());
  (void)workspace_.write("paper.pdf", "%PDF-1.5\nof somebody else\n");
  (void)workspace_.write("table.csv", "day,date,weather\r\n1,2,3\r\n");
  expect_left({"run", "--output", "notes.txt"}, "notes.txt", not_ours);
  expect_left({"run", "--format", "json", "--output", "other.yaml"}, "other.yaml", not_ours);
  expect_left({"run", "--chart", "photo.png"}, "photo.png", not_ours);
  expect_left({"card", "--output", "paper.pdf"}, "paper.pdf", not_ours);
  expect_left({"run", "--format", "csv", "--output", "table.csv"}, "table.csv", not_ours);
  expect_left({"size", "--write", "other.yaml"}, "other.yaml", not_ours);
  EXPECT_EQ(ask({"run", "--force", "--output", "notes.txt"}).status, 0);
  EXPECT_THAT(read_file(workspace_.path("notes.txt")), StartsWith("HOLDS"));
}

TEST_F(OwnFile, ASizedPlanIsReplacedByASizedPlanAlone) {
  for (int times = 0; times < 2; ++times) {
    EXPECT_EQ(ask({"size", "--write", "sized.yaml"}).status, 0);
  }
  EXPECT_THAT(read_file(workspace_.path("sized.yaml")), StartsWith("# Written by drystage size"));
  expect_left({"run", "--output", "sized.yaml"}, "sized.yaml", "did not write what it holds");
  // A sized plan that is sized again has the remark once.
  EXPECT_EQ(drystage({"size", workspace_.path("sized.yaml"), "--write", workspace_.path("b.yaml")})
                .status,
            0);
  const std::string again = read_file(workspace_.path("b.yaml"));
  EXPECT_EQ(again.find("# Written by drystage size"), again.rfind("# Written by drystage size"));
  // Who has changed it, be it by a reading alone, has made it their own.
  EXPECT_LE(drystage({"resume", workspace_.path("sized.yaml"), "--evening", "1", "--drinking",
                      "20L", "--write"})
                .status,
            1);
  expect_left({"size", "--write", "sized.yaml"}, "sized.yaml", "did not write what it holds");
  EXPECT_EQ(ask({"size", "--write", "sized.yaml", "--force"}).status, 0);
  EXPECT_EQ(ask({"size", "--write", "sized.yaml"}).status, 0);
}

TEST_F(OwnFile, WhatMayOnlyBeReadIsLeft) {
  const std::filesystem::path file = workspace_.path("answer.txt");
  EXPECT_EQ(ask({"run", "--output", "answer.txt"}).status, 0);
  std::filesystem::permissions(file, std::filesystem::perms::owner_read);
  expect_left({"run", "--output", "answer.txt"}, "answer.txt", "may only be read");
  EXPECT_EQ(ask({"run", "--output", "answer.txt", "--force"}).status, 0);
  EXPECT_EQ(std::filesystem::status(file).permissions(), std::filesystem::perms::owner_read);
  std::filesystem::permissions(plan_, std::filesystem::perms::owner_read);
  expect_left({"resume", "--evening", "1", "--drinking", "35L", "--write"}, "trip.yaml",
              "may only be read");
}

TEST_F(OwnFile, ALinkStaysALinkAndWhatItLeadsToIsWritten) {
  std::filesystem::create_directory(workspace_.path("far"));
  std::filesystem::create_symlink("far/one.txt", workspace_.path("link.txt"));
  std::filesystem::create_symlink("link.txt", workspace_.path("link to link.txt"));
  for (int times = 0; times < 2; ++times) {
    EXPECT_EQ(ask({"run", "--output", "link to link.txt"}).status, 0);
    EXPECT_TRUE(std::filesystem::is_symlink(workspace_.path("link.txt")));
    EXPECT_TRUE(std::filesystem::is_symlink(workspace_.path("link to link.txt")));
    EXPECT_THAT(read_file(workspace_.path("far/one.txt")), StartsWith("HOLDS"));
  }
  std::filesystem::create_symlink("round.txt", workspace_.path("round.txt"));
  EXPECT_EQ(ask({"run", "--output", "round.txt"}).status, left);
}

TEST_F(OwnFile, ASizedPlanThatCannotBeWrittenIsToldOf) {
  const Outcome outcome = ask({"size", "--write", "/dev/full", "--output", "answer.txt"});
  EXPECT_EQ(outcome.status, left);
  EXPECT_THAT(outcome.err, HasSubstr("the sized plan was not written: /dev/full: No space left"));
  EXPECT_THAT(read_file(workspace_.path("answer.txt")),
              AllOf(StartsWith("LOAD"),
                    HasSubstr("NOT WRITTEN: the sized plan. /dev/full: No space left on device.")));
  const Outcome json = ask({"size", "--write", "/dev/full", "--format", "json"});
  EXPECT_THAT(nlohmann::json::parse(json.out).at("not_written").get<std::string>(),
              HasSubstr("No space left"));
}

TEST_F(OwnFile, LineEndsInNamesAreNoLineEndsOfMessages) {
  for (const std::vector<std::string>& words : {std::vector<std::string>{"run", "no\nplan.yaml"},
                                                {"run", plan_, "--output", "no\nfolder/x"},
                                                {"run", plan_, "--chart", "a\nb.jpg"},
                                                {"card", plan_, "--output", "a\nb"},
                                                {"size", plan_, "--keep", "a\nb"},
                                                {"odds", plan_, "--trips", "a\nb"},
                                                {"start", "--defaults", "--output", "no\nfolder/x"},
                                                {"start", "--defaults", "--kit", "no\nkit.yaml"}}) {
    const Outcome outcome = drystage(words, {.folder = workspace_.folder()});
    EXPECT_GE(outcome.status, wrong) << words.back();
    EXPECT_EQ(lines(outcome.err).size(), 1U) << outcome.err;
  }
}

/// A program run with a text on its standard input.
Outcome piped(const std::string& text_file, const std::string& words, const std::string& folder) {
  return program("sh", {"-c", "\"$0\" " + words + " < '" + text_file + "'", tested_program()},
                 {.folder = folder});
}

TEST_F(OwnFile, APlanMayComeFromStandardInput) {
  const std::string folder = workspace_.folder();
  for (const std::string command : {"run", "check", "needs", "weigh", "size", "mishaps",
                                    "odds --trips 20", "resume --evening 1 --drinking 35L"}) {
    const std::string name = command.substr(0, command.find(' '));
    const std::string rest = command.substr(name.size());
    const Outcome from_file = piped("/dev/null", name + " trip.yaml" + rest, folder);
    const Outcome typed = piped(plan_, name + " -" + rest, folder);
    EXPECT_EQ(typed.status, from_file.status) << command << typed.err;
    if (name != "check") EXPECT_EQ(typed.out, from_file.out) << command;
  }
  EXPECT_EQ(piped(plan_, "check -", folder).out, "standard input: right: 5 days\n");
  EXPECT_EQ(piped(plan_, "card - --output card.html", folder).status, 0);
  EXPECT_EQ(piped(plan_, "size - --write sized.yaml", folder).status, 0);
}

TEST_F(OwnFile, ErrorsInAPlanFromStandardInputNameIt) {
  const std::string folder = workspace_.folder();
  const std::string bad = workspace_.write("bad.yaml", plan_text() + "watr: 3\n");
  EXPECT_THAT(piped(bad, "run -", folder).err, StartsWith("standard input:"));
  EXPECT_THAT(piped("/dev/null", "run -", folder).err, HasSubstr("the plan is empty"));
  // What it includes lies in the working folder.
  (void)workspace_.write("kit.yaml",
                         "consumables: [{name: gas, unit: kg, margin: 0 kg, stores: "
                         "[{name: bottle, holds: 3 kg, filled: 3 kg}]}]\n");
  const std::string with = workspace_.write("with.yaml", "include: kit.yaml\n" + plan_text());
  std::filesystem::create_directory(workspace_.path("sub"));
  EXPECT_THAT(piped(with, "run -", workspace_.path("sub")).err,
              HasSubstr("there is no file kit.yaml"));
}

TEST_F(OwnFile, APlanFromStandardInputHasNoFileToWriteInto) {
  const Outcome write =
      piped(plan_, "resume - --evening 1 --drinking 35L --write", workspace_.folder());
  EXPECT_EQ(write.status, wrong);
  EXPECT_THAT(write.err, HasSubstr("there is no file to write it into"));
  const Outcome ask = piped(plan_, "resume - --ask", workspace_.folder());
  EXPECT_EQ(ask.status, wrong);
  EXPECT_THAT(ask.err, HasSubstr("no answers can"));
}

}  // namespace
}  // namespace drystage::testing::own_file_test
