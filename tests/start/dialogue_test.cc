// The questions in a terminal: asked again until they are right.
#include "start/dialogue.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

#include "start/first_plan.h"

namespace drystage::start {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

struct Talk {
  std::optional<std::string> plan;
  std::string said;
};

Talk talk(const std::string& typed, const Given& given = {}) {
  std::istringstream in(typed);
  std::ostringstream out;
  Talk made;
  made.plan = ask(given, in, out);
  made.said = out.str();
  return made;
}

const std::string enough_lines(60, '\n');

/// All that stands between two texts.
std::string between(const std::string& text, const std::string& from, const std::string& to) {
  const std::size_t begin = text.find(from);
  return text.substr(begin, text.find(to, begin) - begin);
}

TEST(Dialogue, EnterTakesEveryDefault) {
  const Talk all = talk(enough_lines);
  EXPECT_EQ(all.plan, first_plan(*take_defaults({}).answers).text);
  EXPECT_THAT(all.said, HasSubstr("How many people go? [2] "));
  EXPECT_THAT(all.said, HasSubstr("What does it burn? diesel or petrol [diesel] "));
}

TEST(Dialogue, AsksAgainAfterAWrongAnswerAndSaysWhy) {
  const Talk all = talk("two\n3\n" + enough_lines);
  EXPECT_THAT(between(all.said, "How many people", "How many days"),
              HasSubstr("\"two\" has no number"));
  EXPECT_THAT(*all.plan, HasSubstr("person 3"));
  EXPECT_THAT(*all.plan, Not(HasSubstr("person 4")));
}

TEST(Dialogue, AsksAgainAtOnceWhatDoesNotGoWithAnswersBefore) {
  const Talk all = talk("\n\n\n60° S\n\nhot desert\n\n50 km\n60 km\n20 km\n" + enough_lines);
  EXPECT_THAT(all.said, HasSubstr("What kind of country is it? boreal [boreal] "));
  EXPECT_THAT(all.said, HasSubstr("hot desert is not usual at 60° S"));
  EXPECT_THAT(all.said, HasSubstr("60 km of track is more than the whole way, 50 km"));
  EXPECT_THAT(*all.plan, HasSubstr("{sealed: 30 km, track: 20 km}"));
}

TEST(Dialogue, AsksAllAgainWithTheAnswersWhereTheWholeIsImpossible) {
  const Talk all =
      talk("1\n2\n\n\n\n\n2000 km\n0 km\n" + std::string(18, '\n') + "\n15\n" + enough_lines);
  EXPECT_THAT(all.said, HasSubstr("These answers do not go together:\n  days: the drives alone"));
  EXPECT_THAT(all.said, HasSubstr("How many people go? [1] "));
  EXPECT_THAT(all.said, HasSubstr("How many days in all? [2] "));
  EXPECT_THAT(*all.plan, HasSubstr("15 days of hot desert"));
}

TEST(Dialogue, DoesNotAskWhatIsGivenOrDoesNotArise) {
  const Talk all = talk(enough_lines, {{"people", "5"}, {"battery", "0 Ah"}});
  EXPECT_THAT(all.said, Not(HasSubstr("How many people")));
  EXPECT_THAT(all.said, Not(HasSubstr("solar panel")));
  EXPECT_THAT(*all.plan, HasSubstr("person 5"));
}

TEST(Dialogue, AsksWhatIsGivenWrong) {
  const Talk all = talk("4\n" + enough_lines, {{"people", "many"}});
  EXPECT_THAT(all.said, HasSubstr("\"many\" has no number"));
  EXPECT_THAT(*all.plan, HasSubstr("person 4"));
}

TEST(Dialogue, EndsWithoutAPlanWhereTheInputEnds) {
  EXPECT_FALSE(talk("").plan);
  EXPECT_FALSE(talk("2\n7\n").plan);
  EXPECT_FALSE(talk("many").plan);
}

TEST(Dialogue, TakesOnlyYesForYes) {
  const auto answer = [](const std::string& typed) {
    std::istringstream in(typed);
    std::ostringstream out;
    return ask_yes("Sure?", in, out);
  };
  EXPECT_TRUE(answer("yes\n"));
  EXPECT_TRUE(answer("perhaps\nyes\n"));
  EXPECT_FALSE(answer("\n"));
  EXPECT_FALSE(answer("no\n"));
  EXPECT_FALSE(answer("perhaps"));
}

}  // namespace
}  // namespace drystage::start
