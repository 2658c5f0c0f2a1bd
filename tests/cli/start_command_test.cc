// A first plan as a user makes it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

#include "cli/process.h"
#include "cli/workspace.h"
#include "start/questions.h"
#include "support/answer.h"

namespace drystage::testing {
namespace {

using support::unwrapped;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

TEST(StartCommand, WritesAPlanThatIsRightAndHoldsAtOnce) {
  const Workspace space;
  const std::string path = space.path("trip.yaml");
  const Outcome started = drystage({"start", "--defaults", "--output", path});
  EXPECT_EQ(started.status, 0);
  EXPECT_EQ(started.out, "");
  EXPECT_EQ(started.err, "Wrote " + path + ". Now try: drystage run " + path + "\n");
  const Outcome checked = drystage({"check", path});
  EXPECT_EQ(checked.status, 0);
  EXPECT_EQ(checked.out, path + ": right: 7 days\n");
  EXPECT_EQ(checked.err, "");
  EXPECT_EQ(drystage({"run", path}).status, 0);
}

TEST(StartCommand, TakesTheDefaultsWithoutATerminalAndSaysSo) {
  const Outcome started = drystage({"start"});
  EXPECT_EQ(started.status, 0);
  EXPECT_EQ(started.err,
            "drystage: no terminal to ask in: defaults stand for all that no option says\n");
  EXPECT_EQ(started.out, drystage({"start", "--defaults"}).out);
}

TEST(StartCommand, TakesAnswersAsOptions) {
  const Outcome started = drystage({"start", "--defaults", "--latitude", "27° S", "--start",
                                    "2027-07-01", "--tank", "20 US gal"});
  EXPECT_EQ(started.status, 0);
  EXPECT_THAT(started.out, HasSubstr("july: {max: 20 °C"));
  EXPECT_THAT(started.out, HasSubstr("holds: 20 US gal"));
}

TEST(StartCommand, RefusesWrongAnswersAndWritesNothing) {
  const Workspace space;
  const std::string path = space.path("trip.yaml");
  const Outcome bare = drystage({"start", "--tank", "80", "--output", path});
  EXPECT_EQ(bare.status, 2);
  EXPECT_THAT(bare.err, HasSubstr("tank: 80 has no unit"));
  const Outcome clash =
      drystage({"start", "--days", "2", "--distance", "2000 km", "--output", path});
  EXPECT_EQ(clash.status, 2);
  EXPECT_THAT(clash.err, HasSubstr("the drives alone take"));
  EXPECT_THAT(space.names(), IsEmpty());
}

TEST(StartCommand, WritesOverAFileOnlyIfItIsTold) {
  const Workspace space;
  const std::string path = space.write("trip.yaml", "mine\n");
  const Outcome refused = drystage({"start", "--defaults", "--output", path});
  EXPECT_EQ(refused.status, 3);
  EXPECT_THAT(refused.err, HasSubstr("--force writes over it"));
  EXPECT_EQ(read_file(path), "mine\n");
  EXPECT_EQ(drystage({"start", "--defaults", "--force", "--output", path}).status, 0);
  EXPECT_THAT(read_file(path), HasSubstr("drystage: 1"));
}

TEST(StartCommand, AsksInATerminal) {
  const Workspace space;
  const std::string path = space.path("trip.yaml");
  const Outcome asked =
      drystage({"start", "--output", path}, {.typed = "nobody\n3\n" + std::string(40, '\n')});
  EXPECT_EQ(asked.status, 0);
  EXPECT_EQ(asked.out, "");
  EXPECT_THAT(asked.err, HasSubstr("How many people go? [2] "));
  EXPECT_THAT(asked.err, HasSubstr("\"nobody\" has no number"));
  EXPECT_THAT(read_file(path), HasSubstr("person 3"));
}

TEST(StartCommand, EndsWithNothingWrittenAtTheEndOfWhatIsTyped) {
  const Workspace space;
  const std::string path = space.path("trip.yaml");
  const std::string end = "\x04";
  const Outcome ended = drystage({"start", "--output", path}, {.typed = "2\n" + end});
  EXPECT_EQ(ended.status, 1);
  EXPECT_THAT(ended.err, HasSubstr("ended; nothing was written"));
  EXPECT_THAT(space.names(), IsEmpty());
}

TEST(StartCommand, AsksBeforeItWritesOverAFile) {
  const Workspace space;
  const std::string path = space.write("trip.yaml", "mine\n");
  const Outcome kept = drystage({"start", "--output", path}, {.typed = "no\n"});
  EXPECT_EQ(kept.status, 3);
  EXPECT_EQ(read_file(path), "mine\n");
  const Outcome written =
      drystage({"start", "--output", path}, {.typed = "yes\n" + std::string(40, '\n')});
  EXPECT_EQ(written.status, 0);
  EXPECT_THAT(read_file(path), HasSubstr("drystage: 1"));
}

TEST(StartCommand, AsksNothingWhereTheFileCannotBe) {
  const Workspace space;
  const Outcome refused =
      drystage({"start", "--output", space.path("none/trip.yaml")}, {.typed = "2\n"});
  EXPECT_EQ(refused.status, 3);
  EXPECT_THAT(refused.err, HasSubstr("there is no folder"));
  EXPECT_THAT(refused.err, Not(HasSubstr("How many people")));
}

TEST(StartCommand, AddsEveryKeyAsRemarksThatChangeNothing) {
  const Workspace space;
  const std::string path = space.path("trip.yaml");
  ASSERT_EQ(drystage({"start", "--defaults", "--full", "--output", path}).status, 0);
  const std::string text = read_file(path);
  EXPECT_THAT(text, ::testing::StartsWith(drystage({"start", "--defaults"}).out));
  EXPECT_THAT(text, HasSubstr("#   stuck:"));
  EXPECT_EQ(drystage({"check", path}).status, 0);
}

TEST(StartCommand, TakesAKitOver) {
  const Workspace space;
  const Surroundings there{.folder = space.folder()};
  std::filesystem::create_directory(space.path("trips"));
  const std::string kit =
      "vehicles:\n  - name: van\n    fuel: petrol\n    mass: {empty: 2 t, limit: 3 t}\n"
      "    tanks: [{name: tank, holds: 120 L, filled: 120 L}]\n"
      "    observed: [{surface: sealed, uses: 12 L/100km}]\n";
  EXPECT_NE(space.write("van.yaml", kit), "");
  const Outcome started = drystage(
      {"start", "--defaults", "--full", "--kit", "van.yaml", "--output", "trips/a.yaml"}, there);
  EXPECT_EQ(started.status, 0) << started.err;
  const std::string text = read_file(space.path("trips/a.yaml"));
  EXPECT_THAT(text,
              HasSubstr("include: \"../van.yaml\"    # has vehicles; what stands here wins\n"));
  EXPECT_THAT(text, Not(HasSubstr("\nvehicles:")));
  EXPECT_THAT(text, HasSubstr("# vehicles:"));
  const Outcome checked = drystage({"check", "trips/a.yaml"}, there);
  EXPECT_EQ(checked.out, "trips/a.yaml: right: 7 days\n");
  EXPECT_EQ(checked.err, "");
  EXPECT_EQ(drystage({"run", "trips/a.yaml"}, there).status, 0);
}

TEST(StartCommand, RefusesAKitThatIsWrongOrAnswersTwice) {
  const Workspace space;
  const Surroundings there{.folder = space.folder()};
  const auto refused = [&](const std::vector<std::string>& more) {
    std::vector<std::string> words{"start", "--defaults", "--force", "--kit", "kit.yaml"};
    words.insert(words.end(), more.begin(), more.end());
    const Outcome outcome = drystage(words, there);
    EXPECT_EQ(outcome.out, "");
    EXPECT_NE(outcome.status, 0);
    return outcome.err;
  };
  EXPECT_THAT(refused({}), HasSubstr("kit.yaml: No such file or directory"));
  EXPECT_NE(space.write("kit.yaml", "food: [{item: rice, kept: dry, meals: 90}]\n"), "");
  EXPECT_THAT(refused({"--food", "9"}), HasSubstr("--food: kit.yaml has food already"));
  EXPECT_THAT(refused({"--output", "./kit.yaml"}), HasSubstr("that is the kit itself"));
  EXPECT_NE(space.write("kit.yaml", "food: [{item: rice, kept: dry, meals: 9 L}]\n"), "");
  EXPECT_THAT(refused({}), HasSubstr("kit.yaml:1:39: error: meals:"));
  EXPECT_NE(space.write("kit.yaml", drystage({"start", "--defaults"}).out), "");
  EXPECT_THAT(refused({}), HasSubstr("that is a whole plan"));
}

TEST(StartCommand, TakesNoPlanAndNoContradiction) {
  EXPECT_EQ(drystage({"start", "trip.yaml"}).status, 2);
  EXPECT_EQ(drystage({"start", "--ask", "--defaults"}).status, 2);
  EXPECT_THAT(drystage({"start", "--poeple", "2"}).err, HasSubstr("did you mean '--people'"));
}

TEST(StartCommand, HelpHasEveryQuestionWithItsDefault) {
  const std::string help = unwrapped(drystage({"start", "--help"}).out);
  for (const start::Question& question : start::questions) {
    EXPECT_THAT(help, HasSubstr("--" + std::string(question.option()) + " ANSWER"));
    EXPECT_THAT(help, HasSubstr(std::string(question.asked.meaning)));
    EXPECT_THAT(help, HasSubstr("[" + std::string(question.asked.absent) + "]"));
  }
}

}  // namespace
}  // namespace drystage::testing
