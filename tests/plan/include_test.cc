// A plan that includes other files.
#include "plan/include.h"

#include <fmt/core.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>

#include <algorithm>
#include <filesystem>
#include <map>

#include "cli/workspace.h"
#include "plan/same_plan.h"
#include "plan_text.h"

namespace drystage::plan {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

constexpr const char* truck = R"(vehicles:
  - name: truck
    fuel: diesel
    mass: {empty: 2480 kg, limit: 3500 kg}
    tanks: [{name: main tank, holds: 80 L, filled: 78 L}]
    observed: [{surface: sealed, uses: 12 L/100km}]
water: {containers: [{name: can 1, holds: 20 L, filled: 20 L, for: drinking}]}
margins: {drinking_water: 3 days, fuel: 150 km}
)";

// A trip without what the kit above has.
std::string trip_with(const std::string& include, const std::string& more = {}) {
  return "drystage: 1\ninclude: " + include + R"(
trip: {title: Walk, start: 2027-06-01, time_zone: UTC}
people: [{name: Ada, mass: 70 kg, height: 170 cm, age: 30, sex: female}]
climate: {hills: {jun: {max: 20 °C, min: 10 °C, humidity: 50 %, sun: 6 kWh/m2/day}}}
places: {Hut: {at: {latitude: 20° N, longitude: 0° E, elevation: 100 m}, climate: hills,
  supplies: {drinking_water: {}}}}
itinerary: [{at: Hut}, {stay: {nights: 1}}]
)" + more;
}

class Include : public ::testing::Test {
 protected:
  void put(const std::string& name, const std::string& text) const {
    EXPECT_NE(space_.write(name, text), "");
  }
  ReadPlan read(const std::string& text, const std::vector<Override>& overrides = {}) const {
    put("trip.yaml", text);
    return read_file(space_.path("trip.yaml"), overrides);
  }
  // The one thing that is wrong, with its line and that line's file.
  std::string fault(const ReadPlan& reading) const {
    EXPECT_FALSE(reading.plan.has_value());
    EXPECT_EQ(reading.diagnostics.size(), 1U) << all_of(reading);
    if (reading.diagnostics.empty()) return {};
    std::string shown = render(reading.diagnostics[0], reading, "trip.yaml", false);
    // Its first line again, where nothing is wrapped.
    const std::string where = shown.substr(0, shown.find(": error: "));
    shown.insert(0, where + ": error: " + reading.diagnostics[0].what + "\n");
    const std::string folder = space_.folder() + "/";
    for (std::size_t at = shown.find(folder); at != std::string::npos; at = shown.find(folder)) {
      shown.erase(at, folder.size());
    }
    return shown;
  }

  const testing::Workspace space_;
};

TEST_F(Include, BringsTheSectionsOfAKitIntoTheTrip) {
  put("truck.yaml", truck);
  const ReadPlan reading = read(trip_with("truck.yaml"));
  ASSERT_TRUE(reading.plan.has_value()) << all_of(reading);
  EXPECT_TRUE(reading.diagnostics.empty()) << all_of(reading);
  EXPECT_EQ(reading.plan->vehicles.at(0).name, "truck");
  EXPECT_EQ(reading.plan->vehicles.at(0).mark.file, 1);
  EXPECT_EQ(reading.plan->people.at(0).mark.file, 0);
  EXPECT_EQ(reading.included.at(0).name, space_.path("truck.yaml"));
}

TEST_F(Include, LetsTheTripWinAndLaterFilesOverEarlierOnes) {
  put("truck.yaml", truck);
  put("winter.yaml", "margins: {fuel: 300 km, drinking_water: 4 days}\n");
  const ReadPlan reading = read(trip_with("[truck.yaml, winter.yaml]",
                                          "margins: {drinking_water: 5 days}\n"
                                          "water: {containers: [{name: can 1, filled: 7 L}]}\n"));
  ASSERT_TRUE(reading.plan.has_value()) << all_of(reading);
  EXPECT_DOUBLE_EQ(reading.plan->margins.at("fuel").value, 300);
  EXPECT_DOUBLE_EQ(reading.plan->margins.at("drinking_water").value, 5);
  EXPECT_DOUBLE_EQ(reading.plan->water.containers.at(0).holds_l, 20);
  EXPECT_DOUBLE_EQ(reading.plan->water.containers.at(0).filled_l, 7);
}

TEST_F(Include, GoesOnFromTheFolderOfTheFileThatSaysIt) {
  std::filesystem::create_directories(space_.path("kits/parts"));
  put("kits/parts/truck.yaml", truck);
  put("kits/all.yaml", "drystage: 1\ninclude: parts/truck.yaml\n");
  const ReadPlan reading = read(trip_with("kits/all.yaml"));
  ASSERT_TRUE(reading.plan.has_value()) << all_of(reading);
  EXPECT_EQ(reading.included.at(1).name, space_.path("kits/parts/truck.yaml"));
  const ReadPlan by_path = read(trip_with(space_.path("kits/../kits/all.yaml")));
  EXPECT_TRUE(by_path.plan.has_value()) << all_of(by_path);
}

TEST_F(Include, TakesOneFileByTwoWaysAndByteOrderMarks) {
  put("truck.yaml", std::string("\xEF\xBB\xBF") + truck);
  put("a.yaml", "include: truck.yaml\nmargins: {food: 1 day}\n");
  put("b.yaml", "include: truck.yaml\n");
  const ReadPlan reading = read(trip_with("\n  - a.yaml\n  - b.yaml"));
  EXPECT_TRUE(reading.plan.has_value()) << all_of(reading);
}

TEST_F(Include, LetsSetChangeWhatIsIncluded) {
  put("truck.yaml", truck);
  const ReadPlan reading = read(
      trip_with("truck.yaml"),
      {{"vehicles.truck.tanks.main tank.filled", "60 L"}, {"water.containers[0].filled", "5 L"}});
  ASSERT_TRUE(reading.plan.has_value()) << all_of(reading);
  EXPECT_DOUBLE_EQ(reading.plan->vehicles.at(0).tanks.at(0).filled_l, 60);
  EXPECT_DOUBLE_EQ(reading.plan->water.containers.at(0).filled_l, 5);
  EXPECT_THAT(fault(read(trip_with("truck.yaml"), {{"include", "other.yaml"}})),
              HasSubstr("--set include=other.yaml: error: \"include\" cannot be set"));
}

TEST_F(Include, TellsTheFileAndLineOfWhatIsWrong) {
  put("truck.yaml",
      "drystage: 1\nwater:\n  containers: [{name: can, filled: 2 L, holds: 20, for: drinking}]\n");
  EXPECT_THAT(fault(read(trip_with("truck.yaml"))),
              HasSubstr("truck.yaml:3:48: error: holds: 20 has no unit\n"
                        "  1 | drystage: 1\n"
                        "  2 | water:\n"));
  put("truck.yaml", "vehicles: [{name: truck]\n");
  EXPECT_THAT(fault(read(trip_with("truck.yaml"))),
              HasSubstr("truck.yaml:1:24: error: not well-formed YAML"));
  put("truck.yaml", "drystage: 2\n");
  EXPECT_THAT(fault(read(trip_with("truck.yaml"))),
              HasSubstr("truck.yaml:1:11: error: the version"));
}

TEST_F(Include, TellsTheFileOfTheOtherOfTwo) {
  put("truck.yaml", "activities: {dig: {high: 4 h}}\n");
  const ReadPlan reading = read(trip_with("truck.yaml", "activities: {\"dig \": {high: 3 h}}\n"));
  EXPECT_THAT(all_of(reading),
              HasSubstr("the first one is on line 1 of " + space_.path("truck.yaml")));
}

TEST_F(Include, WarnsInTheFileThatIsOdd) {
  put("truck.yaml", truck);
  const ReadPlan reading = read(trip_with("truck.yaml", "vehicles: [{name: truck}]\n"));
  EXPECT_TRUE(reading.diagnostics.empty()) << all_of(reading);
  put("truck.yaml", std::string(truck) + "activities: {diging: {high: 4 h}}\n");
  const ReadPlan odd = read(trip_with("truck.yaml"));
  ASSERT_EQ(odd.diagnostics.size(), 1U) << all_of(odd);
  EXPECT_EQ(odd.diagnostics[0].mark, (Mark{9, 14, 1}));
}

TEST_F(Include, RefusesWhatIsNoFile) {
  std::filesystem::create_directory(space_.path("folder"));
  ASSERT_EQ(mkfifo(space_.path("pipe").c_str(), 0600), 0);
  for (const auto& [include, what] : std::map<std::string, std::string>{
           {"none.yaml", "trip.yaml:2:10: error: include: there is no file none.yaml"},
           {"folder", "include: folder is not a file"},
           {"pipe", "include: pipe is not a file"},
           {"/dev/zero", "include: /dev/zero is not a file"},
           {"{a: b}", "include: a map of keys does not belong here"},
           {"[[a]]", "include: a list does not belong here"},
           {"", "include: the value is missing"},
           {"\"a\\nb\"", "is no path"},
           {"\"\"", "is no path"}}) {
    EXPECT_THAT(fault(read(trip_with(include))), HasSubstr(what)) << include;
  }
}

TEST_F(Include, RefusesAnEmptyFileAndOneThatIsNoMap) {
  put("kit.yaml", "# nothing yet\n");
  EXPECT_THAT(fault(read(trip_with("kit.yaml"))),
              HasSubstr("kit.yaml:1:1: error: the included file is empty"));
  put("kit.yaml", "- a\n");
  EXPECT_THAT(fault(read(trip_with("kit.yaml"))),
              HasSubstr("kit.yaml:1:1: error: an included file: a list does not belong here"));
}

TEST_F(Include, RefusesCircles) {
  put("a.yaml", "include: b.yaml\n");
  put("b.yaml", "drystage: 1\ninclude: [a.yaml]\n");
  EXPECT_THAT(fault(read(trip_with("a.yaml"))),
              HasSubstr("b.yaml:2:11: error: include: a.yaml includes itself"));
  EXPECT_THAT(fault(read(trip_with("trip.yaml"))),
              HasSubstr("trip.yaml:2:10: error: include: trip.yaml includes itself"));
}

TEST_F(Include, RefusesMoreFilesOrTextThanAnyPlanNeeds) {
  for (int i = 0; i < 20; ++i) {
    put(fmt::format("{}.yaml", i), fmt::format("include: {}.yaml\n", i + 1));
  }
  EXPECT_THAT(fault(read(trip_with("0.yaml"))),
              HasSubstr("15.yaml:1:10: error: include: more than 16 files"));
  put("large.yaml",
      "# " + std::string(most_source_bytes * 2 / 3, '-') + "\nmargins: {food: 1 day}\n");
  put("twice.yaml", "include: large.yaml\n");
  EXPECT_THAT(fault(read(trip_with("[large.yaml, twice.yaml]"))),
              HasSubstr("twice.yaml:1:10: error: include: the plan and its files are larger"));
}

TEST_F(Include, TellsOfAllFilesThatCannotBeHad) {
  const ReadPlan reading = read(trip_with("[none.yaml, nor this.yaml]"));
  EXPECT_EQ(reading.diagnostics.size(), 2U) << all_of(reading);
}

TEST_F(Include, ReadsNoFileForATextThatStandsNowhere) {
  put("truck.yaml", truck);
  const ReadPlan reading = read_text(trip_with(space_.path("truck.yaml")));
  EXPECT_EQ(only_error(reading).what, "include: only a plan in a file can include other files");
  EXPECT_TRUE(reading.included.empty());
  EXPECT_TRUE(read_text(trip_with("truck.yaml"), {}, space_.path("new.yaml")).plan.has_value());
}

TEST_F(Include, ReadsAKitAloneWithoutWhatATripHas) {
  put("truck.yaml", std::string(truck) + "trip: {driving: {depart: \"07:00\"}}\n");
  const ReadPlan kit = read_kit(space_.path("truck.yaml"));
  EXPECT_TRUE(kit.is_kit);
  ASSERT_TRUE(kit.plan.has_value()) << all_of(kit);
  EXPECT_TRUE(kit.diagnostics.empty()) << all_of(kit);
  EXPECT_THAT(kit.sections, ElementsAre("vehicles", "water", "margins", "trip"));
  put("truck.yaml", "people: []\nclimate: {}\nplaces:\nfood: []\n");
  EXPECT_TRUE(read_kit(space_.path("truck.yaml")).plan.has_value());
  put("truck.yaml", "vehicles: [{nmae: truck}]\n");
  const ReadPlan wrong = read_kit(space_.path("truck.yaml"));
  EXPECT_THAT(all_of(wrong), HasSubstr("has no key \"nmae\""));
  for (const Diagnostic& found : wrong.diagnostics) EXPECT_EQ(found.mark.line, 1) << found.what;
}

TEST_F(Include, ReadsAPlanAsOneThoughAKitMayBeRead) {
  put("trip.yaml", "drystage: 1\ntrip: {title: Walk, start: 2027-06-01, time_zone: UTC}\n");
  const ReadPlan trip = read_kit(space_.path("trip.yaml"));
  EXPECT_FALSE(trip.is_kit);
  EXPECT_EQ(all_of(trip), all_of(read_file(space_.path("trip.yaml"))));
  EXPECT_FALSE(read_text("").is_kit);
  EXPECT_FALSE(read_text("drystage: 1\n").is_kit);
}

// The sections of a plan's text, each from its key to the next.
std::vector<std::string> sections_of(const std::string& text) {
  std::vector<std::string> made{""};
  for (const std::string& line : testing::lines(text)) {
    const bool begins = !line.empty() && std::string(" #-}]\r").find(line[0]) == std::string::npos;
    if (begins) made.emplace_back();
    made.back() += line + "\n";
  }
  return made;
}

TEST_F(Include, MakesOnePlanOfAnyTwoHalves) {
  std::vector<std::string> texts{whole_plan()};
  for (const std::string& name : testing::scenarios()) {
    texts.push_back(testing::read_file(testing::scenario_path(name)));
  }
  for (const std::string& text : texts) {
    for (const std::size_t keep : {0U, 1U}) {
      std::string kit;
      std::string trip = "include: kit.yaml\n";
      const auto sections = sections_of(text);
      for (std::size_t i = 0; i < sections.size(); ++i) (i % 2 == keep ? kit : trip) += sections[i];
      put("kit.yaml", kit);
      const ReadPlan halves = read(trip);
      const ReadPlan whole = read_text(text);
      ASSERT_TRUE(halves.plan.has_value()) << all_of(halves);
      EXPECT_EQ(difference(*halves.plan, *whole.plan), "");
      EXPECT_EQ(halves.diagnostics.size(), whole.diagnostics.size());
      EXPECT_EQ(halves.merged->entries.size(), sections.size() - 1);
    }
  }
}

}  // namespace
}  // namespace drystage::plan
