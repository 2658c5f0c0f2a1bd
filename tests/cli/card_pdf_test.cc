// The card as a PDF, opened by poppler: its sheets, its fonts, and that its figures are those that
// `run` and `needs` give to programs.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <nlohmann/json.hpp>
#include <set>
#include <string>
#include <vector>

#include "cli/poppler.h"
#include "cli/process.h"
#include "cli/workspace.h"
#include "report/text/page.h"
#include "support/answer.h"
#include "support/plan_text.h"

namespace drystage::testing::card_pdf_test {
namespace {

using support::unwrapped;
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::Field;
using ::testing::HasSubstr;
using Json = nlohmann::ordered_json;

/// ISO 216 and ANSI/ASME Y14.1, in points.
constexpr PdfPage a4{.width_pt = 595.276, .height_pt = 841.89};
constexpr PdfPage letter{.width_pt = 612, .height_pt = 792};

/// A figure as it may be shown: rounded one way to no, one or two digits after the point.
std::set<std::string> shown(double value, bool up) {
  constexpr double noise = 1e-6;
  std::set<std::string> out;
  for (const int digits : {0, 1, 2}) {
    const double scale = std::pow(10, digits);
    const double whole =
        up ? std::ceil((value - noise) * scale) : std::floor((value + noise) * scale);
    std::array<char, 64> text{};
    std::snprintf(text.data(), text.size(), "%.*f", digits, whole == 0 ? 0.0 : whole / scale);
    out.insert(text.data());
  }
  return out;
}

/// "2027-03-08" as the card has it: "Mon", "08", "Mar".
std::vector<std::string> date_words(const std::string& iso) {
  constexpr std::array weekdays{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
  constexpr std::array months{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                              "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  const int month = std::stoi(iso.substr(5, 2));
  const std::chrono::year_month_day date{
      std::chrono::year{std::stoi(iso.substr(0, 4))},
      std::chrono::month{static_cast<unsigned>(month)},
      std::chrono::day{static_cast<unsigned>(std::stoi(iso.substr(8, 2)))}};
  const std::chrono::weekday weekday{std::chrono::sys_days{date}};
  return {weekdays.at(weekday.c_encoding()), iso.substr(8, 2),
          months.at(static_cast<std::size_t>(month) - 1)};
}

/// A card that was drawn, and what poppler finds on it.
class Card {
 public:
  explicit Card(const std::string& plan, const std::vector<std::string>& options = {}) {
    std::vector<std::string> words{"card", plan, "--output", path()};
    words.insert(words.end(), options.begin(), options.end());
    outcome_ = drystage(words);
    words_ = pdf_words(path());
  }

  [[nodiscard]] std::string path() const { return workspace_.path("card.pdf"); }
  [[nodiscard]] const Outcome& outcome() const { return outcome_; }

  /// Where the row of a day begins: its date, with its number close on the left.
  [[nodiscard]] const PdfWord* row(int day, const std::string& iso) const {
    const std::string number = std::to_string(day);
    for (const PdfWord* date : all_of(date_words(iso))) {
      const bool numbered = std::ranges::any_of(words_, [&](const PdfWord& word) {
        constexpr double near_pt = 30;
        return word.text == number && word.page == date->page && word.right < date->left &&
               word.right > date->left - near_pt && std::abs(word.top - date->top) < 4;
      });
      if (numbered) return date;
    }
    return nullptr;
  }

  /// The row before setting out.
  [[nodiscard]] const PdfWord* first_row() const {
    const auto found = all_of({"Before", "setting", "out"});
    return found.empty() ? nullptr : found.front();
  }

  /// What stands on a page from the beginning of a row to that of the next (null: to the end).
  [[nodiscard]] std::vector<PdfWord> between(const PdfWord& row, const PdfWord* next) const {
    std::vector<PdfWord> out;
    for (const PdfWord& word : words_) {
      const double middle = (word.top + word.bottom) / 2;
      const bool below = word.page == row.page && middle > row.top;
      const bool above = next == nullptr || next->page != row.page || middle < next->top;
      if (below && above) out.push_back(word);
    }
    return out;
  }

 private:
  /// Where words follow on each other.
  [[nodiscard]] std::vector<const PdfWord*> all_of(const std::vector<std::string>& words) const {
    std::vector<const PdfWord*> out;
    for (std::size_t i = 0; i + words.size() <= words_.size(); ++i) {
      std::size_t same = 0;
      while (same < words.size() && words_[i + same].text == words[same]) ++same;
      if (same == words.size()) out.push_back(&words_[i]);
    }
    return out;
  }

  Workspace workspace_;
  Outcome outcome_;
  std::vector<PdfWord> words_;
};

/// Whether the second stands right of the first on its line, or right below it.
bool belongs_to(const PdfWord& first, const PdfWord& second) {
  constexpr double beside_pt = 40;
  constexpr double line_pt = 16;
  const double down = second.top - first.top;
  if (std::abs(down) < 1) {
    return second.left > first.right && second.left < first.right + beside_pt;
  }
  return down > 0 && down < line_pt && second.right > first.left &&
         second.left < first.right + beside_pt;
}

/// Whether a figure for the plan stands there, and with it the one for what must be there.
bool has_pair(const std::vector<PdfWord>& words, const std::set<std::string>& plan,
              const std::set<std::string>& must) {
  return std::ranges::any_of(words, [&](const PdfWord& first) {
    const std::string figure = first.text.starts_with('!') ? first.text.substr(1) : first.text;
    return plan.contains(figure) && std::ranges::any_of(words, [&](const PdfWord& second) {
             return must.contains(second.text) && belongs_to(first, second);
           });
  });
}

std::set<std::string> must_shown(const Json& need) {
  if (need.at("must_have").is_null()) return {"no"};  // amount is enough
  std::set<std::string> out;
  for (const std::string& text : shown(need.at("must_have").get<double>(), true)) {
    out.insert(need.at("fits").get<bool>() ? text : "+" + text);
  }
  return out;
}

/// Every day has a row with its date, and on it for each reserve on which life hangs what the plan
/// expects and what must be there.
void expect_figures(const Card& card, const std::string& plan) {
  const Json run = Json::parse(drystage({"run", plan, "--format", "json"}).out);
  const Json needs = Json::parse(drystage({"needs", plan, "--format", "json"}).out);
  const std::size_t days = run.at("days").size();
  std::vector<const PdfWord*> rows{card.first_row()};
  for (const Json& day : run.at("days")) {
    rows.push_back(card.row(day.at("day").get<int>(), day.at("date")));
  }
  for (std::size_t evening = 0; evening <= days; ++evening) {
    ASSERT_NE(rows[evening], nullptr) << "no row for evening " << evening;
    const std::vector<PdfWord> words =
        card.between(*rows[evening], evening < days ? rows[evening + 1] : nullptr);
    for (const Json& reserve : needs.at("reserves")) {
      if (!reserve.at("life_supporting").get<bool>()) continue;
      const std::string name = reserve.at("name");
      const Json* need =
          evening < days ? &needs.at("days").at(evening).at("reserves").at(name) : nullptr;
      const bool is_there =
          (need == nullptr || !need->is_null()) &&
          (evening == 0 || !run.at("days").at(evening - 1).at("reserves").at(name).is_null());
      if (!is_there) continue;
      const double has =
          evening == 0
              ? need->at("has").get<double>()
              : run.at("days").at(evening - 1).at("reserves").at(name).at("end").get<double>();
      if (need != nullptr) {
        EXPECT_NEAR(need->at("has").get<double>(), has, 1e-6);
      }
      const std::set<std::string> must =
          need == nullptr ? std::set<std::string>{"-"} : must_shown(*need);
      std::set<std::string> plan_figures = shown(has, false);
      // Where the plan has what must be there and less than a tenth more, both are shown alike.
      constexpr double tenth = 0.1;
      if (need != nullptr && need->at("met").get<bool>() &&
          need->at("to_spare").get<double>() < tenth) {
        plan_figures.insert(must.begin(), must.end());
      }
      EXPECT_TRUE(has_pair(words, plan_figures, must))
          << "evening " << evening << ", " << name << ": " << has << ", must have "
          << *must.begin();
    }
    if (evening == 0) continue;
    const Json& day = run.at("days").at(evening - 1);
    const double km = day.at("distance_km").get<double>();
    if (km < 9.95) continue;
    EXPECT_THAT(words, Contains(Field(&PdfWord::text, std::to_string(std::lround(km)))))
        << "day " << evening;
  }
}

class CardOfAScenario : public ::testing::TestWithParam<std::string> {};

TEST_P(CardOfAScenario, HasTheFiguresOfRunAndNeedsOnSheetsOfItsPaper) {
  const std::string plan = scenario_path(GetParam());
  for (const auto& [paper, size] : {std::pair{"a4", a4}, std::pair{"letter", letter}}) {
    SCOPED_TRACE(paper);
    const Card card(plan, {"--paper", paper});
    EXPECT_EQ(card.outcome().status, drystage({"run", plan}).status);
    const std::vector<PdfPage> pages = pdf_pages(card.path());
    EXPECT_THAT(card.outcome().out, HasSubstr(std::to_string(pages.size()) + " pages; "));
    const std::string text = pdf_text(card.path());
    for (std::size_t i = 0; i < pages.size(); ++i) {
      EXPECT_NEAR(pages[i].width_pt, size.width_pt, 0.01);
      EXPECT_NEAR(pages[i].height_pt, size.height_pt, 0.01);
      EXPECT_THAT(
          text, HasSubstr("page " + std::to_string(i + 1) + " of " + std::to_string(pages.size())));
    }
    EXPECT_EQ(std::ranges::count(text, '\f'), static_cast<std::ptrdiff_t>(pages.size()));
    const std::vector<PdfFont> fonts = pdf_fonts(card.path());
    EXPECT_FALSE(fonts.empty());
    for (const PdfFont& font : fonts) {
      EXPECT_TRUE(font.embedded) << font.name;
      EXPECT_TRUE(font.to_unicode) << font.name;
    }
    expect_figures(card, plan);
  }
}

INSTANTIATE_TEST_SUITE_P(Scenarios, CardOfAScenario, ::testing::ValuesIn(scenarios()),
                         AsTestName());

TEST(CardPdf, HasTheVerdictTheCautionsAndEveryPart) {
  const std::string plan = scenario_path("desert-crossing");
  const Card card(plan, {"--with", "all"});
  const std::string text = unwrapped(pdf_text(card.path()));
  for (const char* words :
       {"DOES NOT HOLD: drinking water runs out on day 12, short by 18 L.",
        "A planning aid only. Local rules, licensed practice and medical advice come first.",
        "LAST PLACE TO TURN BACK: day 9, Tue 16 Mar, 10:47", "If a reading is below must have",
        "Emergency number", "Packing list", "To leave at home", "Emergency number of the region",
        "Ilse", "Tomas", "sealed spare"}) {
    EXPECT_THAT(text, HasSubstr(words));
  }
  EXPECT_THAT(text, HasSubstr(std::string(report::cautions)));
  EXPECT_THAT(pdf_info(card.path()), HasSubstr("Dune mapping, Marrabel to Tessarin"));
}

TEST(CardPdf, IsInTheUnitsThatAreAskedFor) {
  const std::string plan = scenario_path("desert-crossing");
  const auto text_in = [&plan](const char* system) {
    const Card card(plan, {"--units", system});
    return pdf_text(card.path());
  };
  EXPECT_THAT(text_in("metric"), AllOf(HasSubstr("Drinking water, L"), HasSubstr("195 km")));
  EXPECT_THAT(text_in("us"), AllOf(HasSubstr("Fuel of truck, US gal"), HasSubstr("121 mi")));
  EXPECT_THAT(text_in("imperial"), HasSubstr("Fuel of truck, imp gal"));
}

TEST(CardPdf, TakesChangesOfThePlan) {
  const Card card(scenario_path("desert-crossing"),
                  {"--set", "trip.title=Another trip", "--set", "trip.start=2027-03-09"});
  EXPECT_THAT(unwrapped(pdf_text(card.path())),
              HasSubstr("Another trip Tue 09 Mar 2027 to Mon 22 Mar 2027, 14 days."));
}

TEST(CardPdf, HasTheWarningsForItIsTakenAlong) {
  support::PlanText plan;
  plan.people = {support::PlanText::person("Ada", "1 L/day")};
  plan.containers = {"{name: can, holds: 40 L, filled: 40 L, for: drinking}"};
  const Workspace workspace;
  const Card card(workspace.write("odd.yaml", plan.text()));
  const std::string text = unwrapped(pdf_text(card.path()));
  for (const char* warning : {"no margin for drinking_water: the plan may use it to the last drop",
                              "\"Ada\" is said to drink 1 L a day"}) {
    EXPECT_THAT(unwrapped(card.outcome().err), HasSubstr(warning));
    EXPECT_THAT(text, HasSubstr(warning));
  }
}

/// Forty days, seven vehicles with water and fuel each on their own, twelve people with long names.
support::PlanText large_trip() {
  support::PlanText plan;
  plan.margins = {"drinking_water: 2 days", "fuel: 5 L"};
  plan.people.clear();
  for (int i = 1; i <= 12; ++i) {
    plan.people.push_back(support::PlanText::person(
        "Bartholomew Ravensbourne-Featherstonehaugh the " + std::to_string(i) + "th", "4 L/day"));
  }
  plan.containers = {"{name: tank, holds: 3000 L, filled: 3000 L, for: drinking}"};
  for (int i = 1; i <= 7; ++i) {
    plan.vehicles.push_back(
        "{name: long wheelbase expedition vehicle no. " + std::to_string(i) +
        ", fuel: diesel, mass: {empty: 2200 kg}, tanks: [{name: main tank, holds: 90 L, filled: " +
        std::to_string(60 + i) + " L}]}");
  }
  plan.places = {support::PlanText::place("Base", "air"), support::PlanText::place("Post", "air")};
  plan.itinerary = {"{at: Base}", "stay: {nights: 20}",
                    "drive: {to: Post, distance: 100 km, surfaces: sealed}", "stay: {nights: 19}"};
  return plan;
}

TEST(CardPdf, OfALargeTripHasEveryDayAndFigure) {
  const Workspace workspace;
  const std::string plan = workspace.write("large.yaml", large_trip().text());
  for (const char* paper : {"a4", "letter"}) {
    const Card card(plan, {"--paper", paper});
    ASSERT_LE(card.outcome().status, 1) << card.outcome().err;
    expect_figures(card, plan);
    const std::string text = unwrapped(pdf_text(card.path()));
    for (const char* name : {"the 1th", "the 12th", "vehicle no. 7"}) {
      EXPECT_THAT(text, HasSubstr(name));
    }
  }
}

TEST(CardPdf, OfOneDayIsACard) {
  support::PlanText plan;
  plan.margins = {"drinking_water: 1 L"};
  plan.containers = {"{name: can, holds: 40 L, filled: 40 L, for: drinking}"};
  plan.places = {support::PlanText::place("Base", "air"), support::PlanText::place("Post", "air")};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2200 kg}, tanks: "
      "[{name: main tank, holds: 90 L, filled: 90 L}]}"};
  plan.itinerary = {"{at: Base}", "drive: {to: Post, distance: 30 km, surfaces: sealed}"};
  const Workspace workspace;
  const std::string path = workspace.write("day.yaml", plan.text());
  const Card card(path);
  EXPECT_THAT(unwrapped(pdf_text(card.path())), HasSubstr("Mon 01 Mar 2027, 1 day."));
  expect_figures(card, path);
}

}  // namespace
}  // namespace drystage::testing::card_pdf_test
