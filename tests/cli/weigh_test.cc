// `drystage weigh` as a user runs it: what it says, its forms, and what it refuses.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "cli/csv.h"
#include "cli/process.h"
#include "cli/workspace.h"
#include "cli/xml.h"
#include "support/answer.h"
#include "support/plan_text.h"

namespace drystage::testing::weigh_test {
namespace {

using Json = nlohmann::json;
using support::unwrapped;
using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;

/// Two days, one person, a truck with a cab and a tray; `limits` of its mass.
std::string plan_text(const std::string& limits) {
  support::PlanText text;
  text.margins = {"drinking_water: 1 day", "fuel: 50 km"};
  text.people = {
      "{name: Ada, mass: 80 kg, height: 175 cm, age: 40, sex: female, seat: seat, observed: "
      "{drinking: 4 L/day, meals: 3}}"};
  text.containers = {"{name: can, holds: 40 L, filled: 40 L, empty_mass: 2 kg, bay: tray}"};
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg" + limits +
      "}, wheelbase: 3 m, weighed: {front: 1100 kg, rear: 900 kg}, bays: {seat: {at: 1.5 m}, cab: "
      "{at: 0.9 m}, tray: {at: 3 m}}, gear: [{name: tools, mass: 30 kg, bay: tray}], tanks: "
      "[{name: "
      "tank, holds: 60 L, filled: 60 L, at: 1.5 m}], observed: [{surface: sealed, uses: 10 "
      "L/100km}]}"};
  text.itinerary = {"{at: Base}", "stay: {nights: 2}"};
  return text.text();
}

class Weigh : public ::testing::Test {
 protected:
  [[nodiscard]] Outcome ask(const std::string& limits, std::vector<std::string> options = {},
                            const std::string& command = "weigh") const {
    const std::string plan = workspace_.write("trip.yaml", plan_text(limits));
    options.insert(options.begin(), {command, plan});
    return drystage(options);
  }
  [[nodiscard]] Json json(const std::string& limits) const {
    return Json::parse(ask(limits, {"--format", "json"}).out);
  }

  Workspace workspace_;
};

// Rear when setting out: 900 + 40 (Ada) + 25.05 (diesel) + 42 (can) + 30 (tools) = 1037.05.

TEST_F(Weigh, SaysThatAllIsKept) {
  const Outcome outcome = ask(", rear_limit: 1100 kg, limit: 2500 kg");
  EXPECT_EQ(outcome.status, 0);
  EXPECT_THAT(outcome.out, ::testing::StartsWith("KEPT: all limits of mass are kept"));
  EXPECT_THAT(outcome.out, HasSubstr("A weighbridge decides"));
  for (const std::string& line : lines(outcome.out)) EXPECT_LE(terminal_columns(line), 80) << line;
  EXPECT_LE(lines(outcome.out).size(), 40U);
}

TEST_F(Weigh, SaysWhatIsOverAndWhatToMove) {
  const Outcome outcome = ask(", rear_limit: 1020 kg");
  EXPECT_EQ(outcome.status, 1);
  const std::string text = unwrapped(outcome.out);
  EXPECT_THAT(text,
              ::testing::StartsWith("OVER: rear axle of truck is up to 18 kg over its limit"));
  EXPECT_THAT(text, HasSubstr("Can (42 kg) puts most on it: 42 kg."));
  EXPECT_THAT(text, HasSubstr("Move tools (30 kg) from tray to cab. Then truck keeps all its "
                              "limits."));
  EXPECT_THAT(ask(", rear_limit: 1020 kg", {"--units", "imperial"}).out, HasSubstr("lb"));
}

TEST_F(Weigh, SaysWhereNothingHelps) {
  EXPECT_THAT(unwrapped(ask(", limit: 2100 kg").out),
              HasSubstr("Stays over, whatever is moved or left: truck."));
  EXPECT_THAT(unwrapped(ask(", limit: 2180 kg").out), HasSubstr("Leave tools (30 kg) at home."));
}

TEST_F(Weigh, HasTheSameFiguresInJsonAndCsv) {
  const Json answer = json(", rear_limit: 1020 kg");
  EXPECT_EQ(answer.at("format"), "drystage.weigh/1");
  const Json& day = answer.at("days")[0].at("vehicles").at("truck");
  EXPECT_NEAR(day.at("most").at("rear_kg").get<double>(), 1037.05, 1e-6);
  EXPECT_NEAR(day.at("most").at("total_kg").get<double>(), 2000 + 80 + 50.1 + 42 + 30, 1e-6);
  EXPECT_NEAR(day.at("least").at("rear_kg").get<double>(), 1033.05, 1e-6);
  EXPECT_NEAR(day.at("most").at("bays_kg").at("tray").get<double>(), 72, 1e-6);
  EXPECT_EQ(answer.at("limits").at("truck").at("rear_kg"), 1020.0);
  EXPECT_TRUE(answer.at("limits").at("truck").at("front_kg").is_null());
  EXPECT_EQ(answer.at("over").at("day"), 1);
  EXPECT_EQ(answer.at("over").at("vehicle"), "truck");
  EXPECT_EQ(answer.at("over").at("what"), "rear axle");
  EXPECT_NEAR(answer.at("over").at("kg").get<double>(), 17.05, 1e-6);
  ASSERT_EQ(answer.at("move").size(), 1U);
  EXPECT_EQ(answer.at("move")[0].at("what"), "tools");
  EXPECT_EQ(answer.at("move")[0].at("to"), "cab");
  EXPECT_TRUE(json(", rear_limit: 1100 kg").at("over").is_null());
  const auto rows = parse_csv(ask(", rear_limit: 1020 kg", {"--format", "csv"}).out);
  EXPECT_EQ(rows[0][4], "most_kg");
  EXPECT_EQ(rows[1][3], "total");
  EXPECT_EQ(rows[3][3], "rear axle");
  EXPECT_EQ(rows[3][4], "1037.0500");
}

TEST_F(Weigh, IsInTheVerdictOfRun) {
  const Outcome outcome = ask(", rear_limit: 1020 kg", {}, "run");
  EXPECT_EQ(outcome.status, 1);
  const std::string text = unwrapped(outcome.out);
  EXPECT_THAT(text, HasSubstr("DOES NOT HOLD: rear axle of truck is up to 18 kg over its limit"));
  EXPECT_THAT(text, HasSubstr("Fix: take 18 kg off rear axle of truck. drystage weigh says how."));
  EXPECT_THAT(text, HasSubstr("Over its limit: rear axle, 1038 kg of 1020 kg."));
  EXPECT_THAT(ask(", rear_limit: 1100 kg", {}, "run").out,
              HasSubstr("Nearest its limit: rear axle"));
}

TEST_F(Weigh, IsHeededBySizeWhichSaysWhereNewCansGo) {
  // Fourteen days and a day of margin take 60 L. A can more in the tray would be 1059 kg on the
  // rear axle, and in the cab 1044.
  const std::vector<std::string> longer{"--set", "itinerary[1].stay.nights=14", "--set",
                                        "size={containers: {drinking: [20 L, 40 L]}}"};
  const Outcome outcome = ask(", rear_limit: 1045 kg", longer, "size");
  EXPECT_EQ(outcome.status, 0) << outcome.out << outcome.err;
  EXPECT_THAT(unwrapped(outcome.out), HasSubstr("New, with its bay: "));
  std::vector<std::string> json = longer;
  json.insert(json.end(), {"--format", "json"});
  const Json answer = Json::parse(ask(", rear_limit: 1045 kg", json, "size").out);
  const Json& places = answer.at("load").at("places");
  ASSERT_EQ(places.size(), 1U);
  EXPECT_EQ(places[0].at("bay"), "cab");
}

TEST_F(Weigh, DrawsTheVehicleFromTheSide) {
  const std::string picture = workspace_.path("weigh.svg");
  EXPECT_EQ(ask(", rear_limit: 1020 kg", {"--chart", picture}).status, 1);
  const std::string svg = read_file(picture);
  EXPECT_EQ(xml_faults(picture), "");
  EXPECT_THAT(svg, Not(HasSubstr("nan")));
}

TEST_F(Weigh, TellsWhatAMishapOverloads) {
  // Where the wagon is left behind its people and cans go on in the truck.
  support::PlanText text;
  text.margins = {"drinking_water: 1 day", "fuel: 50 km"};
  text.people = {support::PlanText::person("Ada", "4 L/day"),
                 "{name: Ben, mass: 90 kg, height: 175 cm, age: 40, sex: male, rides_in: wagon, "
                 "observed: {drinking: 4 L/day, meals: 3}}"};
  text.containers = {"{name: can, holds: 60 L, filled: 60 L}",
                     "{name: wagon can, holds: 40 L, filled: 40 L, in: wagon}"};
  const std::string tank =
      ", holds: 90 L, filled: 90 L}], observed: [{surface: sealed, uses: 10 L/100km}]";
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg, rear_limit: 1060 kg}, wheelbase: 3 m, "
      "weighed: {front: 1100 kg, rear: 900 kg}, tanks: [{name: tank" +
          tank + "}",
      "{name: wagon, fuel: diesel, mass: {empty: 1500 kg}, tanks: [{name: wagon tank" + tank + "}"};
  text.places = {support::PlanText::place("Base", "air"), support::PlanText::place("End", "air")};
  text.itinerary = {"{at: Base}", "stay: {nights: 1}",
                    "drive: {to: End, distance: 100 km, surfaces: sealed, speed: 50 km/h}"};
  const std::string plan = workspace_.write("two.yaml", text.text());
  const Outcome outcome = drystage({"mishaps", plan, "--only", "vehicle"});
  // 900 and half of 70, 75.15 and 60: 1002.6; 45 and 20 more make it 1067 and less as it is drunk.
  EXPECT_THAT(unwrapped(outcome.out), HasSubstr("rear axle of truck by"));
  const Json answer =
      Json::parse(drystage({"mishaps", plan, "--only", "vehicle", "--format", "json"}).out);
  double most = 0;
  for (const Json& failure : answer.at("failures")) {
    for (const Json& finding : failure.at("findings")) {
      if (finding.contains("overload")) {
        EXPECT_EQ(finding.at("overload").at("vehicle"), "truck");
        most = std::max(most, finding.at("overload").at("kg").get<double>());
      }
    }
  }
  EXPECT_GT(most, 1);
  EXPECT_LT(most, 900 + (70 + 90) / 2.0 + (75.15 + 60 + 40) / 2 - 1060 + 1e-6);
}

// Common practice: about a tenth of a trailer on the ball; under 5 % it sways, over a sixth is
// much. A tenth of 620 kg is 62; 5 % is 31 and a sixth is 103.3. The gear puts 60 x 0.6 / 2.9
// = 12.4 on it.
TEST_F(Weigh, SaysWhereTheBallHasTooLittleOrTooMuch) {
  const auto said = [](const std::string& ball) {
    const Outcome outcome = drystage(
        {"weigh", scenario_path("side-trips"), "--set", "vehicles.truck.trailer.ball=" + ball});
    EXPECT_EQ(outcome.status, 0) << outcome.err;
    return unwrapped(outcome.out);
  };
  EXPECT_THAT(said("18 kg"), HasSubstr("so little that it may sway"));
  for (const char* usual : {"20 kg", "50 kg", "90 kg"}) {
    EXPECT_THAT(said(usual), Not(HasSubstr("about a tenth is usual"))) << usual;
  }
  EXPECT_THAT(said("92 kg"), HasSubstr("104 kg of the trailer's 620 kg, which is much"));
}

TEST_F(Weigh, RefusesWhatCannotBe) {
  const auto refused = [&](const std::string& from, const std::string& to) {
    std::string text = plan_text("");
    const std::size_t at = text.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    text.replace(at, from.size(), to);
    const Outcome outcome = drystage({"weigh", workspace_.write("wrong.yaml", text)});
    EXPECT_EQ(outcome.status, 2);
    EXPECT_EQ(outcome.out, "");
    return unwrapped(outcome.err);
  };
  EXPECT_THAT(refused("tray: {at: 3 m}", "tray: {at: 5 m}"),
              AllOf(HasSubstr("5 m behind the front axle, and the vehicle ends at 4.2 m"),
                    HasSubstr("overhang")));
  EXPECT_THAT(refused("tray: {at: 3 m}", "tray: {at: -1.4 m}"),
              HasSubstr("1.4 m ahead of the front axle"));
  EXPECT_THAT(refused("bay: tray}", "bay: trey}"),
              AllOf(HasSubstr("there is no bay \"trey\""), HasSubstr("did you mean \"tray\"?")));
  EXPECT_THAT(refused("{front: 1100 kg, rear: 900 kg}", "{front: 1100 kg, rear: 700 kg}"),
              HasSubstr("empty by this ticket"));
  EXPECT_THAT(
      refused("{front: 1100 kg, rear: 900 kg}", "{front: 1100 kg, rear: 900 kg, with: Bob}"),
      HasSubstr("there is no thing or person \"Bob\""));
  EXPECT_THAT(refused("empty: 2000 kg", "empty: 2000 kg, rear_limit: 800 kg"),
              HasSubstr("the limit of its rear axle is 800 kg, and empty it has 900 kg"));
}

}  // namespace
}  // namespace drystage::testing::weigh_test
