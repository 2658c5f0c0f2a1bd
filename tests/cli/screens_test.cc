// What a person reads at a camp table: one screen for each answer, in short sentences, and a word
// that there is more; with --all everything.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>

#include "cli/process.h"
#include "cli/workspace.h"
#include "report/text/events.h"
#include "report/text/page.h"
#include "report/text/words.h"
#include "support/answer.h"
#include "support/other_plan.h"

namespace drystage::testing::screens_test {
namespace {

using support::unwrapped;
using ::testing::AnyOf;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

constexpr std::array<const char*, 4> commands{"run", "needs", "mishaps", "size"};
constexpr int page_columns = 80;
constexpr std::size_t most_words = 20;

/// What a command prints of a scenario; each is run once.
const Outcome& shown(const std::string& command, const std::string& scenario,
                     const std::string& option = {}) {
  static std::map<std::vector<std::string>, Outcome> known;
  std::vector<std::string> words{command, scenario_path(scenario)};
  if (!option.empty()) words.push_back(option);
  const auto at = known.find(words);
  return at != known.end() ? at->second : known.emplace(words, drystage(words)).first->second;
}

class Screen : public ::testing::TestWithParam<std::string> {
 protected:
  [[nodiscard]] static const std::string& usual(const std::string& command) {
    return shown(command, GetParam()).out;
  }
  [[nodiscard]] static const std::string& all(const std::string& command) {
    return shown(command, GetParam(), "--all").out;
  }
};

INSTANTIATE_TEST_SUITE_P(Shipped, Screen, ::testing::ValuesIn(scenarios()), AsTestName{});

/// The number before " days from".
std::size_t days_of(const std::string& text) {
  const std::size_t end = text.find(" days from");
  return std::stoul(text.substr(text.rfind(' ', end - 1)));
}

TEST_P(Screen, HasFortyLinesAndOneMoreForEachDayAfterTheSixteenth) {
  for (const char* command : commands) {
    const std::size_t days = days_of(unwrapped(usual(command)));
    EXPECT_LE(lines(usual(command)).size(), 40 + std::max<std::size_t>(days, 16) - 16)
        << usual(command);
  }
}

TEST_P(Screen, HasEightyColumnsWithAllTooUnlessWide) {
  for (const char* command : commands) {
    for (const std::string& text : {usual(command), all(command)}) {
      for (const std::string& line : lines(text)) {
        EXPECT_LE(terminal_columns(line), page_columns) << line;
      }
    }
  }
}

TEST_P(Screen, BeginsWithTheVerdict) {
  const std::map<std::string, std::array<const char*, 2>> verdicts{
      {"run", {"HOLDS", "DOES NOT HOLD: "}},
      {"needs", {"MET: ", "NOT MET. "}},
      {"mishaps", {"SURVIVES ", "DOES NOT SURVIVE"}},
      {"size", {"LOAD ", "NOT ENOUGH ON OFFER: "}}};
  for (const auto& [command, words] : verdicts) {
    const int status = shown(command, GetParam()).status;
    EXPECT_THAT(usual(command),
                AnyOf(StartsWith(words.at(status == 0 ? 0 : 1)),
                      // What life depends on is met; the set holds if somebody confirms it.
                      StartsWith(status == 0 ? "HOLDS ONLY IF " : "MET FOR WHAT LIFE DEPENDS ON")));
  }
}

// --- sentences ---
//
// What counts as a sentence of more than twenty words:
// - Prose is broken at blanks to eighty columns: a line goes on in the next where the first word of
//   that would not have fitted, and where it does not end in . ! or ?
// - A sentence ends at . ! or ? before a capital, a digit or a sign that stands alone.
// - A line with two blanks between words is a row of a table. What stands before a row of a list,
//   its number, "-" or date and hour, is not in its sentence.
// - A date ("Fri 19 Mar 2027") is one word, a sign alone none.
// - A list of names is not a sentence: what is not shown, what holds on every day, what the signs
//   of a table mean, the rows of "Must last to", and what one more day of margin takes.

bool is_one_of(std::string_view word, std::initializer_list<std::string_view> all) {
  return std::ranges::find(all, word) != all.end();
}

bool is_weekday(const std::string& word) {
  return is_one_of(word, {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"});
}

bool has_letter_or_digit(const std::string& word) {
  return std::ranges::any_of(word, [](unsigned char c) { return std::isalnum(c) != 0 || c > 127; });
}

bool ends_a_sentence(const std::string& text) {
  return !text.empty() && std::string_view(".!?").find(text.back()) != std::string_view::npos;
}

std::vector<std::string> words_of(const std::string& text) {
  std::istringstream in(text);
  std::vector<std::string> out;
  for (std::string word; in >> word;) out.push_back(word);
  return out;
}

bool is_row_of_a_table(const std::string& line) {
  const std::size_t begin = line.find_first_not_of(' ');
  return begin == std::string::npos || line.find("  ", begin) != std::string::npos;
}

/// A row of a list without its number, its "-" or its date and hour; others as they are.
std::string without_label(const std::string& line, bool& labelled) {
  const std::vector<std::string> words = words_of(line);
  const bool event = words.size() > 4 && line.starts_with("  ") && is_weekday(words[0]) &&
                     words[3].size() == 5 && words[3][2] == ':';
  const bool item =
      words.size() > 1 && (words[0] == "-" || std::ranges::all_of(words[0], [](unsigned char c) {
                             return std::isdigit(c) != 0;
                           }));
  const std::string label = event ? words[3] + "  " : item ? words[0] + " " : "";
  labelled = !label.empty() && (event || !is_row_of_a_table(line));
  return labelled ? line.substr(line.find(label) + label.size()) : line;
}

std::vector<std::string> paragraphs(const std::string& text) {
  std::vector<std::string> out;
  std::string before;  // the line that may go on
  for (const std::string& line : lines(text)) {
    bool labelled = false;
    const std::string words = without_label(line, labelled);
    if (is_row_of_a_table(words)) {
      before.clear();
      continue;
    }
    const std::string first = words_of(words).front();
    const bool goes_on = !labelled && !before.empty() && !ends_a_sentence(before) &&
                         terminal_columns(before + " " + first) > page_columns;
    if (goes_on) {
      out.back() += " " + words;
    } else {
      out.push_back(words);
    }
    before = line;
  }
  return out;
}

/// Names in a row are no sentence: "can 5 (20 L full, 22 kg), can 6 (20 L full, 22 kg)".
bool is_list(const std::string& sentence) {
  return sentence.find(" kg), ") != std::string::npos ||
         std::ranges::any_of(
             std::initializer_list<std::string_view>{
                 "Not shown", "Hold on every day: ", "X drinking water", "One more day of margin "},
             [&](std::string_view head) { return sentence.starts_with(head); });
}

std::vector<std::string> sentences(const std::string& text) {
  std::vector<std::string> out;
  bool names = false;  // in the rows of "Must last to"
  for (const std::string& paragraph : paragraphs(text)) {
    names = paragraph == "Must last to" || (names && paragraph.starts_with("  "));
    if (names) continue;
    const std::vector<std::string> words = words_of(paragraph);
    std::string sentence;
    for (std::size_t i = 0; i < words.size(); ++i) {
      sentence += (sentence.empty() ? "" : " ") + words[i];
      const bool last = i + 1 == words.size();
      const auto next = static_cast<unsigned char>(last ? '.' : words[i + 1].front());
      const bool begins = std::isupper(next) != 0 || std::isdigit(next) != 0 ||
                          (!last && !has_letter_or_digit(words[i + 1]));
      if (!last && !(ends_a_sentence(words[i]) && begins)) continue;
      if (!is_list(sentence)) out.push_back(sentence);
      sentence.clear();
    }
  }
  return out;
}

std::size_t count_words(const std::string& sentence) {
  const std::vector<std::string> words = words_of(sentence);
  std::size_t count = 0;
  for (std::size_t i = 0; i < words.size(); ++i) {
    count += has_letter_or_digit(words[i]) ? 1 : 0;
    if (!is_weekday(words[i]) || i + 2 >= words.size()) continue;
    i += 2;
    const bool year = i + 1 < words.size() && words[i].size() == 3 && words[i + 1].size() >= 4 &&
                      words[i + 1].starts_with("20");
    if (year) ++i;
  }
  return count;
}

TEST(Sentences, AreFoundInProseAlone) {
  const std::string text =
      "HOLDS: on day 12, Fri 19 Mar 2027, at 21:15. Then more. ! too little.\n"
      " 1 Mon 08 Mar Marrabel    195  3.1\n"
      "Not shown: one, two, three. --all shows them.\n"
      "  Wed 10 Mar 08:00  brackish water in a tank that has a rather long name: do not\n"
      "                    drink\n"
      " 1 can lost, on day 5. Short by 3 L.\n";
  EXPECT_THAT(sentences(text),
              ::testing::ElementsAre(
                  "HOLDS: on day 12, Fri 19 Mar 2027, at 21:15.", "Then more.", "! too little.",
                  "brackish water in a tank that has a rather long name: do not drink",
                  "can lost, on day 5.", "Short by 3 L."));
  EXPECT_EQ(count_words("HOLDS: on day 12, Fri 19 Mar 2027, at 21:15."), 7U);
  EXPECT_EQ(count_words("from Mon 08 Mar to Tue 09 Mar, ! too little."), 6U);
}

TEST_P(Screen, HasNoSentenceOfMoreThanTwentyWords) {
  for (const char* command : commands) {
    const std::vector<std::string> all = sentences(usual(command));
    EXPECT_GE(all.size(), 5U) << usual(command);
    for (const std::string& sentence : all) {
      EXPECT_LE(count_words(sentence), most_words) << command << ": " << sentence;
    }
  }
}

// --- what --all shows ---

std::string without_cautions(std::string text) {
  const std::size_t at = text.rfind("\nA planning aid");
  return at == std::string::npos ? text : text.substr(0, at);
}

TEST_P(Screen, SaysThatAllShowsMoreWhereSomethingIsLeftOut) {
  for (const char* command : commands) {
    EXPECT_GE(lines(all(command)).size(), lines(usual(command)).size());
    const bool left_out = without_cautions(usual(command)) != without_cautions(all(command));
    EXPECT_EQ(usual(command).find("--all") != std::string::npos, left_out) << usual(command);
    EXPECT_THAT(all(command), Not(HasSubstr("--all")));
    EXPECT_THAT(unwrapped(usual(command)), HasSubstr(std::string(report::short_cautions)));
    EXPECT_THAT(unwrapped(all(command)), HasSubstr(std::string(report::cautions)));
  }
}

TEST_P(Screen, WithAllHasEveryEvent) {
  const answers::PlanRun planned = support::run_plan(support::scenario_plan(GetParam()));
  const std::vector<report::ToldEvent> told = report::told_events(planned);
  const std::string whole = unwrapped(all("run"));
  const std::string screen = unwrapped(usual("run"));
  std::size_t hidden = 0;
  std::size_t from = 0;
  for (const report::ToldEvent& event : told) {
    const auto day = static_cast<std::size_t>(event.first.day);
    const std::string line = report::short_date(planned.course.timeline->days[day].schedule.date) +
                             " " + report::clock(event.first.hour) + " " +
                             report::told_words(planned, event, units::System::metric);
    EXPECT_THAT(whole, HasSubstr(line));
    const std::size_t at = screen.find(line, from);
    hidden += at == std::string::npos ? 1 : 0;
    if (at != std::string::npos) from = at + line.size();
  }
  const std::string more = std::to_string(hidden) + " more with --all";
  EXPECT_EQ(screen.find(more) != std::string::npos, hidden > 0) << more << "\n" << usual("run");
}

TEST_P(Screen, WithAllHasEveryReserve) {
  const answers::PlanRun planned = support::run_plan(support::scenario_plan(GetParam()));
  const nlohmann::json needs =
      nlohmann::json::parse(drystage({"needs", scenario_path(GetParam()), "--format", "json"}).out);
  for (const engine::ReserveInfo& reserve : planned.course.reserves) {
    EXPECT_THAT(all("run"), HasSubstr(reserve.title));
  }
  for (const nlohmann::json& reserve : needs.at("reserves")) {
    const auto named = std::ranges::find(
        planned.course.reserves, reserve.at("name").get<std::string>(), &engine::ReserveInfo::name);
    ASSERT_NE(named, planned.course.reserves.end());
    EXPECT_THAT(all("needs"), HasSubstr(named->title + ", " + named->unit));
  }
}

TEST_P(Screen, WithAllNamesEveryMishap) {
  const nlohmann::json mishaps = nlohmann::json::parse(
      drystage({"mishaps", scenario_path(GetParam()), "--format", "json"}).out);
  for (const nlohmann::json& mishap : mishaps.at("failures")) {
    EXPECT_THAT(unwrapped(all("mishaps")), HasSubstr(mishap.at("name").get<std::string>()));
  }
}

TEST_P(Screen, WithAllHasTheWholeTradeOff) {
  EXPECT_THAT(all("size"), HasSubstr("\nWhat one more day of margin weighs\n"));
  EXPECT_THAT(all("size"), HasSubstr("\nas planned  "));
}

}  // namespace
}  // namespace drystage::testing::screens_test
