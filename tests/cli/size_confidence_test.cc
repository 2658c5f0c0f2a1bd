// `drystage size --confidence`, as somebody runs it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "cli/process.h"
#include "cli/workspace.h"
#include "support/plan_text.h"

namespace drystage::testing::size_confidence_test {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using Json = nlohmann::ordered_json;

constexpr int holds = 0;
constexpr int fails = 1;

/// Four days with a truck, and a fridge whose compressor never stops.
support::PlanText four_days() {
  support::PlanText plan;
  plan.margins = {"drinking_water: 2 days", "fuel: 60 km"};
  plan.containers = {"{name: can 1, holds: 10 L, filled: 10 L, for: drinking, empty_mass: 1 kg}",
                     "{name: can 2, holds: 10 L, filled: 10 L, for: drinking, empty_mass: 1 kg}",
                     "{name: can 3, holds: 10 L, filled: 10 L, for: drinking, empty_mass: 1 kg}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2200 kg, limit: 2900 kg}, observed: [{surface: "
      "gravel, uses: 11 L/100km}], tanks: [{name: main tank, holds: 60 L, filled: 60 L}]}"};
  plan.places = {support::PlanText::place("Base", "air"), support::PlanText::place("Camp", "air")};
  plan.itinerary = {"{at: Base}", "drive: {to: Camp, distance: 200 km, surfaces: gravel}",
                    "stay: {nights: 2}", "drive: {to: Base, distance: 200 km, surfaces: gravel}"};
  plan.size = {"containers: {drinking: [10 L]}", "fuel_cans: {truck: [10 L]}"};
  return plan;
}

/// Text as one line, wherever it was broken.
std::string flowing(const std::string& text) {
  std::string out = text;
  std::ranges::replace(out, '\n', ' ');
  return out;
}

class SizeCommandConfidence : public ::testing::Test {
 protected:
  [[nodiscard]] Outcome run(std::vector<std::string> words) const {
    return drystage(words, {.folder = workspace_.folder()});
  }

  Workspace workspace_;
  std::string plan_ = workspace_.write("trip.yaml", four_days().text());
};

TEST_F(SizeCommandConfidence, SaysHowLikelyItIsThatMarginsAreKept) {
  const Outcome outcome = run({"size", plan_, "--confidence", "90%", "--trips", "500"});
  EXPECT_EQ(outcome.status, holds) << outcome.err;
  const std::vector<std::string> all = lines(outcome.out);
  const std::string text = flowing(outcome.out);
  EXPECT_THAT(text, HasSubstr("that keeps every margin as planned, and on 90"));
  EXPECT_THAT(text, HasSubstr("With it every margin is kept on 9"));
  EXPECT_THAT(text, HasSubstr("Broken most often: fuel of truck on "));
  EXPECT_THAT(text, HasSubstr("margins are kept on "));
  EXPECT_THAT(text, HasSubstr("It is no permission to go."));
  EXPECT_THAT(outcome.out, Not(HasSubstr("One more day of margin")));
  EXPECT_LE(all.size(), 40U);
  for (const std::string& line : all) EXPECT_LE(terminal_columns(line), 80) << line;
}

TEST_F(SizeCommandConfidence, OddsOfThePlanThatIsWrittenCountsTheSame) {
  for (const bool vital : {false, true}) {
    const std::string sized = vital ? "vital.yaml" : "sized.yaml";
    std::vector<std::string> words{"size",   plan_, "--confidence", "90%",  "--trips", "500",
                                   "--seed", "4",   "--format",     "json", "--write", sized};
    if (vital) words.emplace_back("--vital");
    const Outcome outcome = run(words);
    ASSERT_EQ(outcome.status, holds) << outcome.err;
    const Json kept = Json::parse(outcome.out).at("load").at("odds").at("kept");
    EXPECT_GE(kept.at("low"), 0.9);
    const Outcome odds =
        run({"odds", workspace_.path(sized), "--trips", "500", "--seed", "4", "--format", "json"});
    const Json told = Json::parse(odds.out).at(vital ? "life" : "any").at("breach");
    EXPECT_NEAR(kept.at("chance").get<double>(), 1 - told.at("chance").get<double>(), 1e-12);
    EXPECT_EQ(run({"run", workspace_.path(sized)}).status, holds);
  }
}

TEST_F(SizeCommandConfidence, TakesMoreTheSurerItIsToBe) {
  double before_kg = 0;
  for (const char* confidence : {"50%", "80%", "95%", "99%"}) {
    const Outcome outcome =
        run({"size", plan_, "--confidence", confidence, "--trips", "400", "--format", "json"});
    ASSERT_EQ(outcome.status, holds) << outcome.err;
    const double kg = Json::parse(outcome.out).at("load").at("totals").at("kg");
    EXPECT_GE(kg, before_kg) << confidence;
    before_kg = kg;
  }
  const Outcome least = run({"size", plan_, "--format", "json"});
  EXPECT_LT(Json::parse(least.out).at("load").at("totals").at("kg"), before_kg);
}

TEST_F(SizeCommandConfidence, SaysWhatNoLoadMends) {
  support::PlanText text = four_days();
  text.batteries = {"{name: bank, kind: lfp, capacity: 100 Ah}"};
  text.loads = {"{name: radio, draw: 0.35 A}"};
  text.margins.emplace_back("battery: 60 %");
  const std::string plan = workspace_.write("flat.yaml", text.text());
  const Outcome outcome =
      run({"size", plan, "--confidence", "95%", "--trips", "200", "--write", "none.yaml"});
  EXPECT_EQ(outcome.status, fails);
  const std::string said = flowing(outcome.out);
  EXPECT_THAT(said, HasSubstr("NOT ENOUGH ON OFFER: 95 % is out of reach. The best found"));
  EXPECT_THAT(said, HasSubstr("Broken most often: "));
  EXPECT_THAT(said, HasSubstr("No load on offer mends "));
  EXPECT_THAT(outcome.err, HasSubstr("nothing was written to none.yaml"));
  // Life depends on nothing of that.
  EXPECT_EQ(run({"size", plan, "--confidence", "95%", "--trips", "200", "--vital"}).status, holds);
  const Json nearest =
      Json::parse(
          run({"size", plan, "--confidence", "95%", "--trips", "200", "--format", "json"}).out)
          .at("nearest");
  EXPECT_EQ(nearest.at("beyond_load"), true);
  EXPECT_EQ(nearest.at("failing")[0].at("reason"), "chance");
  EXPECT_EQ(nearest.at("failing")[0].at("reserve"), "battery:bank");
}

}  // namespace
}  // namespace drystage::testing::size_confidence_test
