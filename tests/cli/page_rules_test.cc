// The page's script and the library have the same rules: the same cases are given to both.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <limits>
#include <map>
#include <random>

#include "cli/browser.h"
#include "cli/process.h"
#include "cli/workspace.h"
#include "report/page/figures.h"
#include "report/page/rules.h"

namespace drystage::testing::page_rules_test {
namespace {

using report::Json;
using report::json_number;
using report::page::Answer;
using report::page::Entry;
using report::page::Evening;
using report::page::Reserve;
using report::page::Stand;
using report::page::Way;
using ::testing::IsEmpty;

constexpr std::array<const char*, 4> way_words{"open", "rate", "unknown", "shut"};
constexpr std::array<const char*, 3> stand_words{"above", "at", "below"};

std::string words(Way way) { return way_words.at(static_cast<std::size_t>(way)); }
std::string words(Stand stand) { return stand_words.at(static_cast<std::size_t>(stand)); }

struct Case {
  Reserve reserve;
  std::vector<Entry> entries;
  std::size_t evening = 0;
};

/// Cases of every kind, the same ones always.
class Cases {
 public:
  Case next() {
    Case out{.reserve = {.evenings = {}, .step = one_in(4) ? 0.1 : 1, .rated = !one_in(8)},
             .entries = {},
             .evening = 0};
    const std::size_t count = 2 + below(6);
    double plan = 60 + tenths(600);
    if (!one_in(5)) out.reserve.holds = 130;
    const double each = one_in(4) ? 0.3 : 4 + tenths(80);
    for (std::size_t i = 0; i < count; ++i) {
      const double spare = tenths(200);
      out.reserve.evenings.push_back({.plan = plan,
                                      .must = one_in(20) ? endless : plan - spare,
                                      .use = each,
                                      .takes = one_in(7),
                                      .once = one_in(9) ? endless : plan - spare - tenths(100),
                                      .back = one_in(9) ? endless : plan - tenths(300)});
      out.entries.push_back({reading(plan), taken()});
      plan -= each;
    }
    out.reserve.evenings.back().must = 0;
    out.evening = below(count);
    if (!one_in(12)) out.entries[out.evening].reading = near(out.reserve.evenings[out.evening]);
    return out;
  }

  Way way() { return static_cast<Way>(below(4)); }
  std::size_t below(std::size_t most) { return numbers_() % most; }

 private:
  static constexpr double endless = std::numeric_limits<double>::infinity();

  bool one_in(std::size_t many) { return below(many) == 0; }
  double tenths(std::size_t most) { return static_cast<double>(below(most)) / 10; }

  std::optional<double> reading(double plan) {
    if (one_in(4)) return std::nullopt;
    if (one_in(30)) return 500;
    return plan - 8 + tenths(120);
  }

  std::optional<double> taken() {
    if (!one_in(6)) return std::nullopt;
    return one_in(3) ? 0 : tenths(300);
  }

  /// A reading at a figure that decides, or by it.
  double near(const Evening& evening) {
    const std::array<double, 4> figures{evening.must, evening.once, evening.back, evening.plan};
    if (one_in(25)) return 500;
    const double figure = figures.at(below(figures.size()));
    if (figure > 200 || one_in(2)) return evening.plan - 5 + tenths(80);
    return figure + (static_cast<double>(below(5)) - 2) / 2;
  }

  std::mt19937 numbers_{7};
};

Json json_entry(const Entry& entry) {
  const auto number = [](const std::optional<double>& value) {
    return value ? Json(*value) : Json(nullptr);
  };
  return {{"reading", number(entry.reading)}, {"taken", number(entry.taken)}};
}

Json json_answer(const std::optional<Answer>& answer) {
  if (!answer) return nullptr;
  return {{"excess", answer->excess},
          {"stand", words(answer->stand)},
          {"spare", json_number(answer->spare)},
          {"asks", answer->asks},
          {"since", answer->since},
          {"used", answer->used},
          {"planned", answer->planned},
          {"rate", answer->rate ? Json(*answer->rate) : Json(nullptr)},
          {"tomorrow", json_number(answer->tomorrow)},
          {"on", words(answer->on)},
          {"once", words(answer->once)},
          {"back", words(answer->back)},
          {"again", answer->again}};
}

TEST(PageRulesInABrowser, AreThoseOfTheLibrary) {
  constexpr int count = 1500;
  Cases cases;
  Json all = Json::array();
  std::map<std::string, int> met;  // every kind of answer must be among them
  for (int i = 0; i < count; ++i) {
    const Case one = cases.next();
    const auto answer = report::page::answer(one.reserve, one.entries, one.evening);
    Json entries = Json::array();
    for (const Entry& entry : one.entries) entries.push_back(json_entry(entry));
    all.push_back({{"reserve", report::page::json_reserve(one.reserve)},
                   {"entries", entries},
                   {"evening", one.evening},
                   {"expected", json_answer(answer)}});
    if (!answer) {
      ++met["nothing"];
      continue;
    }
    ++met[answer->excess ? "excess" : words(answer->stand)];
    ++met["on " + words(answer->on)];
    ++met["back " + words(answer->back)];
    if (answer->asks) ++met["asks"];
    if (answer->rate) ++met["rate"];
    if (answer->since >= 0 && !answer->rate) ++met["too little to rate"];
    if (answer->again && answer->stand != Stand::below) ++met["far off"];
  }
  for (const char* kind :
       {"nothing", "excess", "above", "at", "below", "on open", "on rate", "on shut", "back rate",
        "asks", "rate", "too little to rate", "far off"}) {
    EXPECT_GT(met[kind], 10) << kind;
  }
  Json together = Json::array();
  for (int i = 0; i < 100; ++i) {
    std::vector<Way> ways;
    Json names = Json::array();
    for (std::size_t n = cases.below(4); n > 0; --n) {
      ways.push_back(cases.way());
      names.push_back(words(ways.back()));
    }
    together.push_back({{"ways", names}, {"expected", words(report::page::together(ways))}});
  }

  const Workspace workspace;
  const std::string file = workspace.path("card.html");
  ASSERT_EQ(drystage({"card", scenario_path("last-camp"), "--output", file}).status, 0);
  const Visit visit = look({{file, 360}}, "const cases = " + all.dump() +
                                              ";\nconst together = " + together.dump() + R"js(;
    const page = document.defaultView;
    const told = cases.map((one) => page.answerOf(one.reserve, one.entries, one.evening));
    const text = JSON.stringify;
    const wrong = cases.map((one, i) => ({one, got: told[i]}))
        .filter((both) => text(both.got) !== text(both.one.expected));
    const unlike = together.filter((one) => page.togetherOf(one.ways) !== one.expected);
    return {wrong: wrong.slice(0, 3), unlike: unlike.slice(0, 3)};
  )js");
  EXPECT_THAT(visit.messages, IsEmpty());
  EXPECT_THAT(visit.shown[0].found.at("wrong"), IsEmpty());
  EXPECT_THAT(visit.shown[0].found.at("unlike"), IsEmpty());
}

}  // namespace
}  // namespace drystage::testing::page_rules_test
