// An answer is read as the plan reads the same thing, and must go with the others.
#include "start/answers.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

namespace drystage::start {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

const Question& question_of(std::string_view option) {
  for (const Question& question : questions) {
    if (question.option() == option) return question;
  }
  throw std::invalid_argument("no such question");
}

TEST(Questions, EveryDefaultIsRightAndUsual) {
  const Taken taken = take_defaults({});
  ASSERT_TRUE(taken.answers);
  EXPECT_THAT(taken.remarks, ElementsAre());
  EXPECT_EQ(taken.answers->size(), questions.size());
  for (const Question& question : questions) {
    EXPECT_EQ(taken.answers->at(question.option()).text, question.asked.absent);
  }
}

TEST(Questions, AreAskedAfterThoseThatTheyDependOn) {
  std::set<std::string_view> before{""};
  for (const Question& question : questions) {
    EXPECT_TRUE(before.contains(question.only_if)) << question.option();
    EXPECT_TRUE(before.insert(question.option()).second) << question.option();
  }
}

TEST(Answers, HaveAnyUnitThatFits) {
  EXPECT_NEAR(hear(question_of("tank"), "20 US gal").answer->number, 75.7, 0.01);
  EXPECT_NEAR(hear(question_of("uses"), "20 mpg (US)").answer->number, 0.1176, 0.0001);
  EXPECT_NEAR(hear(question_of("distance"), " 100  mi ").answer->number, 160.93, 0.01);
  EXPECT_EQ(hear(question_of("latitude"), "23°30' S").answer->number, -23.5);
  EXPECT_EQ(hear(question_of("days"), "9 days").answer->number, 9);
  EXPECT_EQ(hear(question_of("fuel"), "Petrol").answer->text, "petrol");
}

TEST(Answers, ThatAreWrongAreExplained) {
  const auto remark = [](std::string_view option, std::string_view text) {
    const Heard heard = hear(question_of(option), text);
    EXPECT_FALSE(heard.answer) << option;
    return heard.remarks.empty() ? std::string() : heard.remarks.front();
  };
  EXPECT_THAT(remark("tank", "80"), HasSubstr("write 80 L"));
  EXPECT_THAT(remark("tank", "20 gal"), HasSubstr("US gal"));
  EXPECT_THAT(remark("tank", "80 km"), HasSubstr("expected a volume"));
  EXPECT_THAT(remark("days", "2.5"), HasSubstr("not a whole number"));
  EXPECT_THAT(remark("days", "0"), HasSubstr("too low"));
  EXPECT_THAT(remark("start", "2027-02-30"), HasSubstr("does not exist"));
  EXPECT_THAT(remark("fuel", "deisel"), HasSubstr("did you mean \"diesel\""));
  EXPECT_THAT(remark("country", "swamp"), HasSubstr("boreal"));
  EXPECT_THAT(remark("latitude", "95 N"), HasSubstr("out of range"));
  EXPECT_THAT(remark("vehicle", ""), HasSubstr("the text is empty"));
}

TEST(Answers, ThatAreOddAreTakenWithAQuestion) {
  const Heard heavy = hear(question_of("mass"), "20000 kg");
  ASSERT_TRUE(heavy.answer);
  EXPECT_THAT(heavy.remarks, ElementsAre(HasSubstr("unusually high")));
}

TEST(Answers, MustGoTogether) {
  const auto clash = [](const Given& given) {
    const Taken taken = take_defaults(given);
    if (!taken.answers) return taken.remarks;
    return contradictions(*taken.answers);
  };
  EXPECT_THAT(clash({}), ElementsAre());
  EXPECT_THAT(clash({{"distance", "50 km"}, {"rough", "60 km"}}),
              ElementsAre("rough: 60 km of track is more than the whole way, 50 km"));
  EXPECT_THAT(clash({{"latitude", "60° S"}, {"country", "hot desert"}}),
              ElementsAre("country: hot desert is not usual at 60° S; expected boreal"));
  EXPECT_THAT(clash({{"mass", "2500 kg"}, {"limit", "5000 lb"}}),
              ElementsAre("limit: 5000 lb is not more than the empty mass, 2500 kg"));
  EXPECT_THAT(clash({{"latitude", "75° N"}}), ElementsAre(HasSubstr("expected 70° or less")));
  EXPECT_THAT(clash({{"battery", "0 Ah"}, {"panel", "100 W"}}),
              ElementsAre(HasSubstr("there is no battery to go with it")));
  EXPECT_THAT(clash({{"battery", "0 Ah"}}), ElementsAre());
}

TEST(Answers, DefaultsDependOnThoseBefore) {
  EXPECT_EQ(take_defaults({{"latitude", "60° N"}}).answers->at("country").text, "boreal");
  EXPECT_EQ(take_defaults({{"distance", "30 km"}}).answers->at("rough").text, "0 km");
  EXPECT_EQ(take_defaults({{"mass", "5 t"}}).answers->at("limit").text, "6500 kg");
  const Answers four = *take_defaults({{"people", "4"}, {"days", "12"}}).answers;
  EXPECT_EQ(four.at("drinking").text, "300 L");
  EXPECT_EQ(four.at("utility").text, "180 L");
  EXPECT_EQ(four.at("food").text, "15");
}

}  // namespace
}  // namespace drystage::start
