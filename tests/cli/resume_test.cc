// `drystage resume` as a user runs it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "cli/process.h"
#include "cli/workspace.h"
#include "plan/read.h"

namespace drystage::testing::resume_test {
namespace {

using Json = nlohmann::json;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

constexpr int wrong = 2;

Outcome resume(const std::string& plan, std::vector<std::string> options) {
  options.insert(options.begin(), {"resume", plan});
  return drystage(options);
}

const std::string trip = scenario_path("desert-crossing-mended");

TEST(ResumeCommand, AnswersOnOneScreen) {
  const Outcome outcome =
      resume(trip, {"--evening", "6", "--drinking", "115L", "--fuel", "105 L", "--meals", "66"});
  EXPECT_EQ(outcome.status, 1) << outcome.err;
  EXPECT_EQ(outcome.err, "");
  EXPECT_LE(lines(outcome.out).size(), 40U);
  for (const std::string& line : lines(outcome.out)) EXPECT_LE(terminal_columns(line), 80) << line;
  for (const char* part :
       {"THE REST DOES NOT HOLD", "What helps most: ", "Now: day 6", "Found",
        "Tomorrow at midnight there must be: ", "Turn back to Marrabel", "To send home ("}) {
    EXPECT_THAT(outcome.out, HasSubstr(part));
  }
}

TEST(ResumeCommand, SaysTheSameAsAPlanWithThatReading) {
  const Workspace folder;
  const std::string written = folder.write(
      "trip.yaml", read_file(trip) +
                       "\nreadings:\n  - {evening: 6, at: Red Tables, drinking: 115 L, "
                       "tanks: {main tank: 40 L}}\n");
  const Outcome given = resume(trip, {"--evening", "6", "--at", "Red Tables", "--drinking", "115L",
                                      "--tank", "main tank=40L"});
  const Outcome in_plan = resume(written, {});
  EXPECT_EQ(given.out, in_plan.out);
  EXPECT_EQ(given.status, in_plan.status);
  // More of the same evening is added to what the plan has.
  const std::string less = folder.write(
      "less.yaml",
      read_file(trip) + "\nreadings:\n  - {evening: 6, at: Red Tables, drinking: 115 L}\n");
  EXPECT_EQ(resume(less, {"--evening", "6", "--tank", "main tank=40L"}).out, given.out);
}

TEST(ResumeCommand, WritesTheReadingIntoThePlan) {
  const Workspace folder;
  const std::string path = folder.write("trip.yaml", read_file(trip));
  const std::vector<std::string> said{"--evening", "6", "--drinking", "115L", "--wait", "2 days"};
  std::vector<std::string> and_write = said;
  and_write.emplace_back("--write");
  const Outcome first = resume(path, and_write);
  EXPECT_THAT(first.err, HasSubstr("Wrote it into"));
  const std::string text = read_file(path);
  EXPECT_THAT(text, StartsWith(read_file(trip)));
  EXPECT_THAT(text, HasSubstr("readings:\n  - evening: 6\n    drinking: 115 L\n"));
  EXPECT_THAT(text, HasSubstr("changes:\n  - day: 6\n    wait: 2 days\n"));
  EXPECT_EQ(resume(path, {}).out, first.out);
}

TEST(ResumeCommand, WritesIntoTheEveningThatWasGiven) {
  const Workspace folder;
  const std::string path =
      folder.write("trip.yaml", read_file(trip) +
                                    "\nreadings:\n  - {evening: 3, drinking: 160 L}\n"
                                    "  - {evening: 5, drinking: 140 L}\n");
  resume(path, {"--evening", "3", "--drinking", "158L", "--write"});
  EXPECT_THAT(read_file(path), HasSubstr("{evening: 3, drinking: 158 L}\n"));
  EXPECT_THAT(read_file(path), HasSubstr("{evening: 5, drinking: 140 L}\n"));
}

TEST(ResumeCommand, NamesAStayThatIsOver) {
  const Workspace folder;
  const std::string path =
      folder.write("trip.yaml", read_file(trip) +
                                    "\nreadings:\n  - {evening: 8, drinking: 90 L}\n"
                                    "changes:\n  - {day: 8, stay: Imrel Bore, nights: 0}\n");
  const Outcome outcome = resume(path, {});
  EXPECT_EQ(outcome.status, wrong);
  EXPECT_THAT(outcome.err, HasSubstr("on day 8 that stay is over"));
}

TEST(ResumeCommand, SaysWhatTheTripTaughtAndWritesIt) {
  const Workspace folder;
  const std::string path =
      folder.write("trip.yaml", read_file(trip) +
                                    "\nreadings:\n  - {evening: 3, fuel: 120 L}\n"
                                    "  - {evening: 6, fuel: 92 L, drinking: 120 L}\n");
  const Outcome said = resume(path, {"--finish"});
  EXPECT_EQ(said.status, 0);
  EXPECT_THAT(said.out, HasSubstr("drinking water: "));
  EXPECT_THAT(said.out, HasSubstr("fuel of truck on track: "));
  const Outcome written = resume(path, {"--finish", "--write"});
  EXPECT_THAT(written.err, HasSubstr("Wrote what the vehicles use"));
  const plan::ReadPlan after = plan::read_file(path);
  ASSERT_TRUE(after.plan);
  const plan::ReadPlan before = plan::read_file(trip);
  const auto& own = after.plan->vehicles[0].observed;
  const auto& planned = before.plan->vehicles[0].observed;
  ASSERT_GE(own.size(), planned.size());
  // They used more: so it was written, and the mass and the speed of their figure stay.
  EXPECT_GT(own[0].uses_l_km, planned[0].uses_l_km);
  const Json json = Json::parse(resume(path, {"--format", "json"}).out);
  EXPECT_FALSE(json.at("lessons").empty());
  EXPECT_EQ(own[0].mass_kg, planned[0].mass_kg);
}

TEST(ResumeCommand, DoesNotSendOnThoseWhoLastByUsingLessAlone) {
  const Outcome outcome = resume(trip, {"--evening", "6", "--drinking", "115L", "--lost", "can 9"});
  EXPECT_THAT(outcome.out, StartsWith("THE REST HOLDS ONLY IF YOU GO ON USING LESS THAN PLANNED."));
  EXPECT_THAT(outcome.out, HasSubstr("What helps most: read again tomorrow."));
}

TEST(ResumeCommand, TakesAWaitIntoAccount) {
  const Outcome waits = resume(
      trip, {"--evening", "6", "--drinking", "125L", "--wait", "2 days", "--format", "json"});
  EXPECT_EQ(Json::parse(waits.out).at("late_days"), 2);
  EXPECT_EQ(Json::parse(waits.out).at("trip").at("days"), 16);
}

TEST(ResumeCommand, TellsEveryErrorAtOnceByItsOption) {
  const Outcome outcome = resume(trip, {"--evening", "6", "--drinking", "850L", "--fuel", "139",
                                        "--tank", "foo=3L", "--at", "Nowhere"});
  EXPECT_EQ(outcome.status, wrong);
  EXPECT_EQ(outcome.out, "");
  for (const char* part : {"--drinking 850L: error: ", "--fuel 139: error: ", "write 139 L",
                           "--tank foo=3L: error: ", "--at Nowhere: error: ", "4 errors"}) {
    EXPECT_THAT(outcome.err, HasSubstr(part));
  }
  EXPECT_THAT(resume(trip, {"--evening", "6", "--tank", "main tank=3L"}).err,
              HasSubstr("main tank: 3L is less than the 4 L that no pump"));
  EXPECT_THAT(resume(trip, {"--evening", "6", "--tank", "3L"}).err,
              HasSubstr("of which one? Write --tank \"main tank=3L\""));
  EXPECT_THAT(resume(trip, {}).err, HasSubstr("nothing was read yet"));
  EXPECT_EQ(resume(trip, {}).status, wrong);
}

TEST(ResumeCommand, AsksInTheOrderInWhichOneWalksRoundTheVehicle) {
  const Outcome outcome = drystage({"resume", trip}, {.out_is_terminal = false,
                                                      .typed = "6\n\n115\n115 L\n\n105 L\n"
                                                               "\n\n\n\n\n\n\n\n\n\n"});
  std::size_t last = 0;
  for (const char* question :
       {"Which evening", "Where are you?", "Drinking water? [127 L]", "Utility water? [81 L]",
        "Fuel of truck? [112 L]", "Camp battery?", "Cold in chest?", "Food?"}) {
    const std::size_t here = (outcome.out + outcome.err).find(question);
    ASSERT_NE(here, std::string::npos) << question << '\n' << outcome.out << outcome.err;
    EXPECT_GT(here, last);
    last = here;
  }
  EXPECT_THAT(outcome.out + outcome.err, HasSubstr("115 has no unit"));
}

TEST(ResumeCommand, SaysTheSameInJsonAndCsv) {
  const std::vector<std::string> said{"--evening", "6", "--drinking", "115L", "--format"};
  std::vector<std::string> as_json = said;
  as_json.emplace_back("json");
  const Json json = Json::parse(resume(trip, as_json).out);
  EXPECT_EQ(json.at("format"), "drystage.resume/1");
  EXPECT_EQ(json.at("readings").at(0).at("day"), 6);
  EXPECT_EQ(json.at("readings").at(0).at("hour"), 20);
  EXPECT_NEAR(json.at("readings").at(0).at("reserves").at("drinking_water").at("found"), 115, 1e-9);
  const Json& rate = json.at("rates").at("drinking_water");
  EXPECT_LT(rate.at("low"), rate.at("factor"));
  EXPECT_LT(rate.at("factor"), rate.at("high"));
  for (const Json& day : json.at("days")) {
    EXPECT_EQ(day.value("found", false), day.at("day") < 6);
  }
  EXPECT_LE(json.at("message").get<std::string>().size(), 160U);
  std::vector<std::string> as_csv = said;
  as_csv.emplace_back("csv");
  EXPECT_THAT(resume(trip, as_csv).out,
              HasSubstr("6,2027-03-13,20.0000,drinking_water,L,126.6498,115.0000,"));
}

TEST(ResumeCommand, ReadsAsPlannedNothingChanges) {
  const Json run = Json::parse(drystage({"run", trip, "--format", "json"}).out);
  const double planned =
      run.at("days").at(13).at("reserves").at("drinking_water").at("end").get<double>();
  const Json json =
      Json::parse(resume(trip, {"--evening", "6", "--at", "Red Tables", "--format", "json"}).out);
  EXPECT_NEAR(json.at("days").at(13).at("reserves").at("drinking_water").at("end"), planned, 1e-6);
  EXPECT_TRUE(json.at("rates").empty());
}

}  // namespace
}  // namespace drystage::testing::resume_test
