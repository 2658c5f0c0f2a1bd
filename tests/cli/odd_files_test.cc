// Names of files that are no text, characters that no text may hold, and machines that lack
// something.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

#include "cli/process.h"
#include "cli/workspace.h"
#include "cli/xml.h"
#include "support/answer.h"
#include "support/plan_text.h"

namespace drystage::testing::odd_files_test {
namespace {

using ::testing::AnyOf;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;

constexpr int wrong = 2;
constexpr int no_file = 3;

std::string plan_text() {
  support::PlanText plan;
  plan.containers = {"{name: can, holds: 40 L, filled: 40 L, for: drinking}"};
  return plan.text();
}

/// What a terminal would obey, or what is no UTF-8.
void expect_plain(const std::string& text) {
  EXPECT_THAT(text, Not(HasSubstr("\x1b")));
  EXPECT_THAT(text, Not(HasSubstr("\xff")));
  EXPECT_THAT(text, Not(HasSubstr("\u202e")));
}

class OddFiles : public ::testing::Test {
 protected:
  Workspace workspace_;
};

TEST_F(OddFiles, NamesAreShownAsSafelyAsNamesInThePlan) {
  for (const std::string name : {"trip\xff.yaml", "trip\x1b[31m.yaml", "a\u202e<b>&\"c.yaml"}) {
    const std::string plan = workspace_.write(name, plan_text());
    const std::string faulty = workspace_.write("bad " + name, plan_text() + "watr: 3\n");
    for (const char* command : {"check", "run", "needs", "mishaps"}) {
      const Outcome outcome = drystage({command, plan});
      EXPECT_LE(outcome.status, 1) << command << outcome.err;
      expect_plain(outcome.out + outcome.err);
    }
    const Outcome said = drystage({"check", faulty});
    EXPECT_EQ(said.status, wrong);
    EXPECT_THAT(said.err, HasSubstr("watr"));
    expect_plain(said.err);
    const Outcome missing = drystage({"run", workspace_.path("no " + name)});
    EXPECT_EQ(missing.status, no_file);
    EXPECT_THAT(missing.err, HasSubstr("No such file"));
    expect_plain(missing.err);
    for (const std::string form : {"svg", "pdf", "html", "png"}) {
      const Outcome card = drystage({"card", plan, "--output", workspace_.path("card." + form)});
      EXPECT_LE(card.status, 1) << form << card.err;
      expect_plain(card.out + card.err);
    }
    EXPECT_EQ(xml_faults(workspace_.path("card.svg")), "") << name;
    expect_plain(read_file(workspace_.path("card.html")));
  }
}

TEST_F(OddFiles, WhatNoTextMayHoldIsRefusedHoweverItIsWritten) {
  for (const std::string bad :
       {"\\u202e", "\\u2028", "\\u2066", "\\uffff", "\\ufffe", "\\ufdd0", "\\U0001fffe", "\\e",
        "\u202e", "\u2028", "\u2066", "\uFFFF", "\uFFFE", "\uFDD0", "\U0001FFFE"}) {
    std::string text = plan_text();
    const std::string title = "title: A test";
    text.replace(text.find(title), title.size(), "title: \"a" + bad + "b\"");
    const std::string plan = workspace_.write("plan.yaml", text);
    for (const char* command : {"check", "run"}) {
      const Outcome outcome = drystage({command, plan});
      EXPECT_EQ(outcome.status, wrong) << bad << outcome.err;
      EXPECT_THAT(outcome.err, HasSubstr("plan.yaml:2:")) << bad;
      expect_plain(outcome.err);
    }
    const Outcome set = drystage(
        {"run", workspace_.write("right.yaml", plan_text()), "--set", "trip.title=a" + bad});
    EXPECT_THAT(set.status, AnyOf(0, wrong)) << bad << set.err;
    expect_plain(set.out + set.err);
  }
}

TEST_F(OddFiles, WhatNoTextMayHoldIsNamedWhereItIsWrittenByAnEscape) {
  const auto error_of = [&](const std::string& title) {
    std::string text = plan_text();
    const std::string was = "title: A test";
    text.replace(text.find(was), was.size(), "title: " + title);
    return support::unwrapped(drystage({"check", workspace_.write("plan.yaml", text)}).err);
  };
  EXPECT_THAT(error_of(R"("a\u202eb")"),
              HasSubstr("has a character that changes the direction of text (U+202E)"));
  EXPECT_THAT(error_of(R"("a\u2028b")"), HasSubstr("ends a line or a paragraph (U+2028)"));
  EXPECT_THAT(error_of(R"("a\eb")"), HasSubstr("a control character (U+001B)"));
  EXPECT_THAT(error_of(R"("a\ufffeb")"), HasSubstr("stands for no character (U+FFFE)"));
  EXPECT_THAT(error_of(R"("a\nb")"), HasSubstr("has more than one line"));
  EXPECT_THAT(error_of(R"("")"), HasSubstr("the text is empty"));
}

TEST_F(OddFiles, WithoutFontsNoCardIsWritten) {
  const std::string plan = workspace_.write("plan.yaml", plan_text());
  const std::string none = workspace_.write(
      "fonts.conf", "<?xml version=\"1.0\"?><fontconfig><dir>" + workspace_.path("none") +
                        "</dir><cachedir>" + workspace_.path("cache") + "</cachedir></fontconfig>");
  for (const std::string form : {"pdf", "svg", "png"}) {
    const std::string card = workspace_.path("card." + form);
    const Outcome outcome =
        drystage({"card", plan, "--output", card}, {.set = {{"FONTCONFIG_FILE", none}}});
    EXPECT_EQ(outcome.status, no_file) << outcome.err;
    EXPECT_THAT(outcome.err, HasSubstr("fonts-noto-core"));
    EXPECT_FALSE(std::filesystem::exists(card));
  }
  // The page for a telephone brings its letters from there.
  const std::string page = workspace_.path("card.html");
  EXPECT_LE(drystage({"card", plan, "--output", page}, {.set = {{"FONTCONFIG_FILE", none}}}).status,
            1);
}

TEST_F(OddFiles, CharactersThatNoFontHasAreToldOf) {
  // A script that nobody has designed a font for lies in a plane of its own (private use).
  std::string text = plan_text();
  text.replace(text.find("name: can"), 9, "name: \"\U0010FF00\U0010FF01 can\"");
  const std::string plan = workspace_.write("plan.yaml", text);
  const Outcome outcome =
      drystage({"card", plan, "--with", "all", "--output", workspace_.path("card.pdf")});
  EXPECT_LE(outcome.status, 1) << outcome.err;
  EXPECT_THAT(outcome.err, HasSubstr("no font here has all characters of"));
  const Outcome plain = drystage({"card", workspace_.write("right.yaml", plan_text()), "--with",
                                  "all", "--output", workspace_.path("card.pdf")});
  EXPECT_THAT(plain.err, Not(HasSubstr("no font here")));
}

TEST_F(OddFiles, WhereNoFileMayGrowNothingIsLeftBehind) {
  const std::string plan = workspace_.write("plan.yaml", plan_text());
  const std::filesystem::path out = workspace_.path("out");
  std::filesystem::create_directory(out);
  // Two blocks of 512 bytes.
  const Outcome outcome =
      program("sh", {"-c", "ulimit -f 2; exec \"$0\" \"$@\"", tested_program(), "run", plan,
                     "--format", "json", "--output", (out / "run.json").string()});
  EXPECT_EQ(outcome.status, no_file) << outcome.err;
  EXPECT_THAT(outcome.err, HasSubstr("File too large"));
  EXPECT_TRUE(std::filesystem::is_empty(out));
}

}  // namespace
}  // namespace drystage::testing::odd_files_test
