// The same plan comes to the same card, byte for byte, whenever and wherever it is drawn.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <chrono>
#include <ctime>
#include <map>
#include <thread>

#include "cli/poppler.h"
#include "cli/process.h"
#include "cli/workspace.h"
#include "support/plan_text.h"

namespace drystage::testing {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

const std::vector<std::string> forms{"card.pdf", "card.svg", "card.png", "card.html"};

class SameCard : public ::testing::Test {
 protected:
  /// The card in all its forms, by name.
  [[nodiscard]] std::map<std::string, std::string> cards(const Surroundings& around = {},
                                                         const std::string& jobs = "2") const {
    std::map<std::string, std::string> out;
    for (const std::string& form : forms) {
      std::vector<std::string> words{"card", plan_,      "--jobs",
                                     jobs,   "--output", workspace_.path(form)};
      if (!form.ends_with(".html")) words.insert(words.end(), {"--with", "all"});
      const Outcome outcome = drystage(words, around);
      EXPECT_LE(outcome.status, 1) << outcome.err;
      out[form] = read_file(workspace_.path(form));
    }
    return out;
  }

  static void expect_same(const std::map<std::string, std::string>& a,
                          const std::map<std::string, std::string>& b) {
    for (const std::string& form : forms) EXPECT_TRUE(a.at(form) == b.at(form)) << form;
  }

  Workspace workspace_;
  std::string plan_ = scenario_path("coast-road");
};

TEST_F(SameCard, LaterInAnotherTimeZoneLanguageAndFolderOnFewerThreads) {
  const auto before = cards();
  std::this_thread::sleep_for(std::chrono::milliseconds(1100));
  expect_same(before, cards({.set = {{"TZ", "Pacific/Kiritimati"},
                                     {"LANG", "de_DE.UTF-8"},
                                     {"LC_ALL", "de_DE.UTF-8"},
                                     {"LOCPATH", DRYSTAGE_TEST_LOCALES},
                                     {"COLUMNS", "40"}},
                             .folder = workspace_.folder()},
                            "1"));
}

// A trip long before or after today has no figure that could be taken for it.
TEST_F(SameCard, HasNeitherTheDateOfTodayNorTheNameOfAFolder) {
  support::PlanText plan;
  plan.start = "2091-03-01";
  plan.containers = {"{name: can, holds: 40 L, filled: 40 L, for: drinking}"};
  plan_ = workspace_.write("trip.yaml", plan.text());
  const std::time_t now = std::time(nullptr);
  std::tm today{};
  ASSERT_NE(::gmtime_r(&now, &today), nullptr);
  std::vector<std::string> dates;
  for (const char* pattern : {"%Y-%m-%d", "%Y%m%d", "%d %b %Y", "%b %d %Y", "%d %B %Y"}) {
    std::array<char, 64> text{};
    ASSERT_GT(std::strftime(text.data(), text.size(), pattern, &today), 0U);
    dates.emplace_back(text.data());
  }
  auto texts = cards();
  const std::string pdf = workspace_.path("card.pdf");
  texts["what pdftotext finds"] = pdf_text(pdf);
  texts["what pdfinfo finds"] = pdf_info(pdf);
  EXPECT_THAT(texts["what pdftotext finds"], HasSubstr("2091"));
  for (const auto& [name, text] : texts) {
    for (const std::string& date : dates) EXPECT_THAT(text, Not(HasSubstr(date))) << name;
    EXPECT_EQ(text.find(workspace_.folder()), std::string::npos) << name;
  }
  EXPECT_THAT(texts["what pdfinfo finds"], Not(HasSubstr("Date")));
}

}  // namespace
}  // namespace drystage::testing
