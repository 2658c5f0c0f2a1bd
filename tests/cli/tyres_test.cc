// Spare wheels and repairs are in every command as water and fuel are.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "cli/poppler.h"
#include "cli/process.h"
#include "cli/workspace.h"
#include "support/plan_text.h"

namespace drystage::testing::tyres_test {
namespace {

using Json = nlohmann::json;
using ::testing::HasSubstr;
using ::testing::Not;

constexpr const char* spares = "tyres:truck";

/// A night, 500 km of gravel, a night, 500 km more. One puncture in 1000 km, all of them cuts:
/// three must be there for the whole way (0.981; of two 0.920), two for half of it (0.986).
std::string plan_text(int spare_wheels) {
  support::PlanText text;
  text.margins = {"drinking_water: 1 day", "fuel: 50 km"};
  text.driving = "{most_per_day: 12 h, daylight_only: no}";
  text.containers = {"{name: can, holds: 60 L, filled: 60 L, empty_mass: 2 kg, for: drinking}"};
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg, limit: 3500 kg}, tanks: [{name: tank, "
      "holds: 290 L, filled: 290 L}], observed: [{surface: sealed, uses: 10 L/100km}], tyres: "
      "{spare_wheels: " +
      std::to_string(spare_wheels) + ", beyond_repair: 100 %, punctures: {gravel: 1}}}"};
  text.places = {support::PlanText::place("Base", "air"), support::PlanText::place("Red", "air"),
                 support::PlanText::place("Blue", "air")};
  text.itinerary = {"{at: Base}", "stay: {nights: 1}",
                    "drive: {to: Red, distance: 500 km, surfaces: gravel, speed: 50 km/h}",
                    "stay: {nights: 1}",
                    "drive: {to: Blue, distance: 500 km, surfaces: gravel, speed: 50 km/h}"};
  return text.text();
}

class TyresEverywhere : public ::testing::Test {
 protected:
  [[nodiscard]] Outcome ask(const std::string& command, std::vector<std::string> options) const {
    options.insert(options.begin(), {command, plan_});
    return drystage(options);
  }
  [[nodiscard]] Json json(const std::string& command, std::vector<std::string> options = {}) const {
    options.insert(options.end(), {"--format", "json"});
    return Json::parse(ask(command, options).out);
  }

  Workspace workspace_;
  std::string plan_ = workspace_.write("trip.yaml", plan_text(2));
};

TEST_F(TyresEverywhere, RunTellsWhatIsLackingAndTheFix) {
  const Outcome outcome = ask("run", {});
  EXPECT_EQ(outcome.status, 1);
  EXPECT_THAT(outcome.out, HasSubstr("DOES NOT HOLD: tyre kit of truck"));
  EXPECT_THAT(outcome.out, HasSubstr("Fix: one more spare wheel for truck."));
  EXPECT_THAT(outcome.out, HasSubstr("Least tyre kit of truck: 3 spares on day 1, margin 3"));
  EXPECT_EQ(json("run")["verdict"]["first_breach"]["reserve"], spares);
  EXPECT_THAT(ask("run", {"--format", "csv"}).out, HasSubstr("1,2027-03-01,tyres:truck,spares,"));
}

TEST_F(TyresEverywhere, AreToldApartByTheirVehicleWhereThereAreMore) {
  std::string two = plan_text(3);
  two.insert(two.find("vehicles:\n") + 10,
             "  - {name: wagon, fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: drum, holds: "
             "290 L, filled: 290 L}], tyres: {spare_wheels: 4}}\n");
  plan_ = workspace_.write("two.yaml", two);
  const Outcome outcome = ask("run", {"--all", "--wide"});
  EXPECT_THAT(outcome.out, HasSubstr("Tyres truck")) << outcome.err;
  EXPECT_THAT(outcome.out, HasSubstr("Tyres wagon"));
}

TEST_F(TyresEverywhere, RunHasALineForThemWithTheUsualCaution) {
  plan_ = workspace_.write("enough.yaml", plan_text(3));
  const Outcome outcome = ask("run", {});
  EXPECT_EQ(outcome.status, 0) << outcome.out;
  EXPECT_THAT(outcome.out, HasSubstr("truck: about 1 puncture to be expected; spares and repairs "
                                     "for 3, 3 must be"));
  EXPECT_THAT(outcome.out, HasSubstr("No repair of a side wall holds. Check pressures and tread"));
}

TEST_F(TyresEverywhere, NeedsTellsWhatMustBeThereEachMorning) {
  const Json days = json("needs")["days"];
  EXPECT_NEAR(days[0]["reserves"][spares]["must_have"].get<double>(), 3, 1e-9);
  EXPECT_NEAR(days[1]["reserves"][spares]["must_have"].get<double>(), 3, 1e-9);
  EXPECT_NEAR(days[2]["reserves"][spares]["must_have"].get<double>(), 2, 1e-9);
  EXPECT_NEAR(days[2]["reserves"][spares]["has"].get<double>(), 2, 1e-9);
  EXPECT_THAT(ask("needs", {"--all"}).out, HasSubstr("Tyres, spares"));
}

TEST_F(TyresEverywhere, MishapsHasOneAndTwoInADay) {
  const std::string text = ask("mishaps", {"--all"}).out;
  EXPECT_THAT(text, HasSubstr("one puncture"));
  EXPECT_THAT(text, HasSubstr("two punctures in one day"));
  EXPECT_THAT(json("mishaps").dump(), HasSubstr("\"kind\":\"puncture\""));
  EXPECT_THAT(json("mishaps")["remarks"].dump(), HasSubstr("no repair of a side wall holds"));
  EXPECT_THAT(ask("mishaps", {"--only", "container"}).out, Not(HasSubstr("puncture")));
  plan_ = workspace_.write("none.yaml", plan_text(0));
  EXPECT_THAT(ask("mishaps", {"--all"}).out, HasSubstr("one puncture, no spare: stuck 2 days"));
}

TEST_F(TyresEverywhere, SizeLoadsAThirdWheelAndWritesIt) {
  const Outcome outcome = ask("size", {});
  EXPECT_EQ(outcome.status, 0) << outcome.err;
  EXPECT_THAT(outcome.out, HasSubstr("spare wheels"));
  EXPECT_THAT(ask("size", {"--all"}).out, HasSubstr("which no repair mends"));
  const std::string written = workspace_.path("sized.yaml");
  EXPECT_EQ(ask("size", {"--write", written}).status, 0);
  EXPECT_THAT(read_file(written), HasSubstr("spare_wheels: 3"));
  EXPECT_EQ(drystage({"run", written}).status, 0);
}

TEST_F(TyresEverywhere, CardHasThemInItsListAndSaysWhatNoRepairMends) {
  plan_ = workspace_.write("enough.yaml", plan_text(3));
  const std::string card = workspace_.path("card.pdf");
  EXPECT_EQ(ask("card", {"--with", "packing", "--output", card}).status, 0);
  const std::string text = pdf_text(card);
  EXPECT_THAT(text.substr(0, text.find("page 1 of")), HasSubstr("spares"));
  EXPECT_THAT(text, HasSubstr("3 spare wheels"));
  EXPECT_THAT(text, HasSubstr("cannot be repaired: change the wheel"));
}

// Of one wheel left for half of the way, where two must be there.
TEST_F(TyresEverywhere, ResumeGoesOnFromWhatIsLeft) {
  plan_ = workspace_.write("enough.yaml", plan_text(3));
  const Outcome two = ask("resume", {"--evening", "2", "--spare-wheels", "2"});
  EXPECT_EQ(two.status, 0) << two.out << two.err;
  EXPECT_THAT(two.out, HasSubstr("tyre kit of truck"));
  EXPECT_THAT(ask("resume", {"--evening", "2", "--spare-wheels", "truck=1"}).out,
              HasSubstr("THE REST DOES NOT HOLD"));
  EXPECT_THAT(ask("resume", {"--evening", "2", "--spare-wheels", "4"}).err,
              HasSubstr("set out with 3"));
}

TEST_F(TyresEverywhere, ATextWithoutThemHasNoWordOfThem) {
  std::string text = plan_text(2);
  const std::size_t begin = text.find(", tyres:");
  text.erase(begin, text.find("}}", begin) + 2 - begin);
  plan_ = workspace_.write("without.yaml", text);
  for (const char* command : {"run", "needs", "mishaps", "size"}) {
    const Outcome outcome = ask(command, {"--all"});
    EXPECT_NE(outcome.status, 2) << outcome.err;
    EXPECT_THAT(outcome.out, Not(HasSubstr("tyre"))) << command;
    EXPECT_THAT(outcome.out, Not(HasSubstr("puncture"))) << command;
  }
}

}  // namespace
}  // namespace drystage::testing::tyres_test
