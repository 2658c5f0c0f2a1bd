// `--chart` of `drystage run`, `mishaps` and `size`: what is drawn beside the words, and what is
// refused.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "cli/poppler.h"
#include "cli/process.h"
#include "cli/workspace.h"
#include "cli/xml.h"
#include "support/answer.h"
#include "support/plan_text.h"

namespace drystage::testing::chart_test {
namespace {

using support::unwrapped;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::SizeIs;
using ::testing::StartsWith;
using ::testing::UnorderedElementsAre;
using Json = nlohmann::ordered_json;

constexpr int wrong = 2;
constexpr int file_trouble = 3;
constexpr std::array charting{"run", "size", "mishaps"};

/// Three days with a can of water and two of fuel.
support::PlanText small_trip() {
  support::PlanText plan;
  plan.margins = {"drinking_water: 5 L", "fuel: 5 L"};
  plan.containers = {"{name: can, holds: 20 L, filled: 20 L, for: drinking, empty_mass: 1.2 kg}",
                     "{name: spare, holds: 20 L, filled: 20 L, for: drinking, empty_mass: 1.2 kg}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2200 kg, limit: 3500 kg}, tanks: "
      "[{name: main tank, holds: 90 L, filled: 90 L}]}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 3}"};
  return plan;
}

class Chart : public ::testing::Test {
 protected:
  [[nodiscard]] Outcome go(const std::string& command,
                           const std::vector<std::string>& options) const {
    std::vector<std::string> words{command, plan_};
    words.insert(words.end(), options.begin(), options.end());
    return drystage(words, {.folder = workspace_.folder()});
  }

  /// The text of a chart that was written as PDF, line ends made blanks.
  [[nodiscard]] std::string text_of(const std::string& name) const {
    return unwrapped(pdf_text(workspace_.path(name)));
  }

  Workspace workspace_;
  std::string plan_ = workspace_.write("trip.yaml", small_trip().text());
};

void expect_refused(const Outcome& outcome, const std::string& reason) {
  EXPECT_EQ(outcome.status, wrong);
  EXPECT_EQ(outcome.out, "");
  EXPECT_THAT(outcome.err, HasSubstr(reason));
}

// --- what is refused ---

TEST_F(Chart, TheFilesNameMustSayItsForm) {
  for (const char* command : charting) {
    for (const char* name : {"-", "chart", "chart.jpeg", ".png", "chart.pdf/", "chart.txt"}) {
      expect_refused(go(command, {"--chart", name}),
                     std::string("--chart ") + name +
                         ": expected a file whose name ends in .pdf, .svg, .png or .html");
    }
    // Before the plan is read.
    expect_refused(drystage({command, workspace_.path("none.yaml"), "--chart", "chart"}),
                   "--chart chart: expected");
  }
  EXPECT_THAT(workspace_.names(), ElementsAre("trip.yaml"));
}

TEST_F(Chart, OverThePlanOrAnotherResultIsRefused) {
  const std::string text = small_trip().text();
  const std::string plan = workspace_.write("plan.svg", text);
  std::filesystem::create_hard_link(plan, workspace_.path("twin.png"));
  std::filesystem::create_directory(workspace_.path("sub"));
  for (const char* command : charting) {
    for (const char* chart : {"plan.svg", "./plan.svg", "sub/../plan.svg", "twin.png"}) {
      expect_refused(drystage({command, plan, "--chart", chart}, {.folder = workspace_.folder()}),
                     std::string("--chart ") + chart + ": that is the plan itself");
    }
    expect_refused(go(command, {"--output", "a.html", "--chart", "sub/../a.html"}),
                   "--chart sub/../a.html: --output goes there");
  }
  expect_refused(go("size", {"--write", "a.html", "--chart", "./a.html"}),
                 "--chart ./a.html: --write goes there");
  EXPECT_EQ(read_file(plan), text);
  EXPECT_THAT(workspace_.names(), UnorderedElementsAre("plan.svg", "sub", "trip.yaml", "twin.png"));
}

TEST_F(Chart, IsOfNoOtherCommand) {
  for (const char* command : {"check", "needs", "card"}) {
    expect_refused(go(command, {"--chart", "chart.pdf"}), "no option '--chart'");
  }
}

TEST_F(Chart, HelpNamesItInEightyColumns) {
  for (const char* command : charting) {
    const std::string help = drystage({command, "--help"}).out;
    EXPECT_THAT(help, HasSubstr("--chart FILE"));
    for (const std::string& line : lines(help)) EXPECT_LE(terminal_columns(line), 80) << line;
  }
}

TEST_F(Chart, OfAWrongPlanLeavesTheOldOneAsItWas) {
  const std::string old = workspace_.write("chart.pdf", "last week's chart");
  for (const char* command : charting) {
    expect_refused(go(command, {"--chart", old, "--set", "margins.drinking_water=many"}), "many");
  }
  EXPECT_EQ(read_file(old), "last week's chart");
}

// --- what is written ---

TEST_F(Chart, ChangesNothingOfTheWords) {
  for (const char* command : charting) {
    for (const char* form : {"table", "csv", "json"}) {
      const Outcome plain = go(command, {"--format", form});
      const Outcome drawn = go(command, {"--format", form, "--chart", "chart.pdf"});
      EXPECT_EQ(drawn.out, plain.out) << command << " " << form;
      EXPECT_EQ(drawn.err, plain.err) << command << " " << form;
      EXPECT_EQ(drawn.status, plain.status) << command << " " << form;
      EXPECT_THAT(pdf_pages(workspace_.path("chart.pdf")), SizeIs(1)) << command << " " << form;
      std::filesystem::remove(workspace_.path("chart.pdf"));
    }
  }
}

TEST_F(Chart, GoesBesideAnOutput) {
  for (const char* command : charting) {
    const Outcome outcome = go(command, {"--output", "words.txt", "--chart", "chart.svg"});
    EXPECT_EQ(outcome.out + outcome.err, "") << command;
    EXPECT_EQ(xml_faults(workspace_.path("chart.svg")), "") << command;
    EXPECT_THAT(read_file(workspace_.path("words.txt")), HasSubstr("A planning aid")) << command;
    EXPECT_THAT(workspace_.names(), ElementsAre("chart.svg", "trip.yaml", "words.txt"));
  }
}

TEST_F(Chart, HasEveryFormThatACardHas) {
  for (const char* command : charting) {
    for (const auto& [name, beginning] : std::vector<std::pair<const char*, const char*>>{
             {"c.PDF", "%PDF-"}, {"c.svg", "<?xml "}, {"c.png", "\x89PNG"}, {"c.Html", "<!DOC"}}) {
      EXPECT_EQ(go(command, {"--chart", name}).err, "") << command << name;
      EXPECT_THAT(read_file(workspace_.path(name)), StartsWith(beginning)) << command;
    }
  }
}

TEST_F(Chart, ThatCannotBeWrittenIsNoReasonToLoseTheWords) {
  for (const char* command : charting) {
    const Outcome plain = go(command, {});
    const Outcome outcome = go(command, {"--chart", "missing/chart.pdf"});
    EXPECT_EQ(outcome.status, file_trouble) << command;
    EXPECT_EQ(outcome.out, plain.out) << command;
    EXPECT_EQ(outcome.err, "drystage: missing/chart.pdf: No such file or directory\n");
  }
  EXPECT_THAT(workspace_.names(), ElementsAre("trip.yaml"));
}

TEST_F(Chart, IsTheSameBytesEachTime) {
  for (const char* command : charting) {
    for (const char* name : {"c.pdf", "c.svg", "c.png", "c.html"}) {
      EXPECT_EQ(go(command, {"--chart", name}).err, "");
      const std::string first = read_file(workspace_.path(name));
      EXPECT_EQ(go(command, {"--chart", name}).err, "");
      EXPECT_TRUE(read_file(workspace_.path(name)) == first) << command << " " << name;
    }
  }
}

// --- what is on it ---

TEST_F(Chart, OfRunHasTheVerdictAndEveryReserve) {
  const std::string plan = scenario_path("desert-crossing");
  const std::string chart = workspace_.path("chart.pdf");
  const Outcome outcome = drystage({"run", plan, "--chart", chart});
  const std::string text = text_of("chart.pdf");
  const std::string words = unwrapped(outcome.out);
  const std::size_t besides = words.find("Besides: ");
  EXPECT_THAT(text, HasSubstr(words.substr(0, besides)));
  EXPECT_THAT(text, HasSubstr(words.substr(besides, words.find(" Fix: ") - besides)));
  for (const char* reserve :
       {"rinking water", "tility water", "uel of truck", "ood", "old in chest", "amp battery"}) {
    EXPECT_THAT(text, HasSubstr(reserve));
  }
  EXPECT_THAT(text, HasSubstr("A planning aid, no more."));
}

TEST_F(Chart, OfRunIsInTheUnitsThatAreAskedFor) {
  EXPECT_EQ(go("run", {"--units", "us", "--chart", "chart.pdf"}).err, "");
  EXPECT_THAT(text_of("chart.pdf"), HasSubstr("US gal"));
  EXPECT_EQ(go("run", {"--chart", "chart.pdf"}).err, "");
  EXPECT_THAT(text_of("chart.pdf"), ::testing::Not(HasSubstr("US gal")));
}

/// A plan of which a warning is given.
TEST_F(Chart, HasTheWarningsForItIsTakenAlong) {
  support::PlanText plan = small_trip();
  plan.margins = {"fuel: 5 L"};
  const std::string odd = workspace_.write("odd.yaml", plan.text());
  const std::string warning = "no margin for drinking_water: the plan may use it to the last drop";
  for (const char* command : charting) {
    const Outcome outcome =
        drystage({command, odd, "--chart", "odd.pdf"}, {.folder = workspace_.folder()});
    EXPECT_THAT(unwrapped(outcome.err), HasSubstr(warning));
    EXPECT_THAT(text_of("odd.pdf"), HasSubstr(warning)) << command;
  }
}

TEST_F(Chart, OfMishapsHasTheVerdictAndEveryFailureThatDoesHarm) {
  const std::string plan = scenario_path("desert-crossing-mended");
  const std::string chart = workspace_.path("chart.pdf");
  const Outcome outcome = drystage({"mishaps", plan, "--chart", chart});
  EXPECT_EQ(outcome.status, 1);
  const std::string text = text_of("chart.pdf");
  EXPECT_THAT(text, HasSubstr("DOES NOT SURVIVE"));
  for (const char* failure : {"body tank lost", "can 1 lost", "main tank lost", "jerry 4 lost",
                              "stuck 2 days on the way", "one person more"}) {
    EXPECT_THAT(text, HasSubstr(failure));
  }
  EXPECT_THAT(text, HasSubstr("A planning aid, no more."));
}

TEST_F(Chart, OfSizeHasTheMassOfEverySet) {
  const std::string plan = scenario_path("desert-crossing");
  const std::string chart = workspace_.path("chart.pdf");
  const Json answer =
      Json::parse(drystage({"size", plan, "--format", "json", "--chart", chart}).out);
  const std::string text = text_of("chart.pdf");
  ASSERT_GE(answer.at("trade_off").size(), 3U);
  for (const Json& row : answer.at("trade_off")) {
    const double kg = row.at("totals").at("kg").get<double>();
    EXPECT_THAT(text, HasSubstr(std::to_string(static_cast<int>(std::ceil(kg - 1e-6))) + " kg"));
  }
  EXPECT_THAT(text, HasSubstr("A planning aid, no more."));
}

// CSV has no room for the trade-off, the chart has.
TEST_F(Chart, OfSizeHasTheTradeOffBesideCsv) {
  EXPECT_EQ(go("size", {"--chart", "table.pdf"}).err, "");
  EXPECT_EQ(go("size", {"--format", "csv", "--chart", "csv.pdf"}).err, "");
  EXPECT_TRUE(read_file(workspace_.path("csv.pdf")) == read_file(workspace_.path("table.pdf")));
}

TEST_F(Chart, OfSizeIsNotWrittenWhereNoSetIsFound) {
  const std::string poor = workspace_.write(
      "poor.yaml",
      small_trip().text() + "size: {containers: {drinking: [{holds: 5 L, most: 1}]}}\n");
  const std::string last_week = "%PDF-1.5\nlast week's chart\n/Creator (drystage)\n";
  const std::string old = workspace_.write("chart.pdf", last_week);
  const std::vector<std::string> words{"size", poor, "--set", "itinerary[1].stay.nights=30"};
  const Outcome plain = drystage(words);
  EXPECT_THAT(plain.out, StartsWith("NOT ENOUGH ON OFFER"));
  std::vector<std::string> charted = words;
  charted.insert(charted.end(), {"--chart", old});
  const Outcome outcome = drystage(charted);
  EXPECT_EQ(outcome.status, 1);
  EXPECT_EQ(outcome.out, plain.out);
  EXPECT_EQ(outcome.err,
            "drystage: nothing was written to " + old + ": no set on offer is enough\n");
  EXPECT_EQ(read_file(old), last_week);
}

}  // namespace
}  // namespace drystage::testing::chart_test
