// Each call that may fail does so once, in turn: each write, sync and renaming of a file, and
// memory. The file that was there is whole, or the new one is; and the user is told. After how
// SQLite is tested ("How SQLite Is Tested", part 3: I/O error testing, out-of-memory testing).
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

#include "cli/process.h"
#include "cli/workspace.h"
#include "support/plan_text.h"

namespace drystage::testing::failing_calls_test {
namespace {

using ::testing::AnyOf;
using ::testing::HasSubstr;
using ::testing::IsSubsetOf;

constexpr int holds = 0;
constexpr int fails = 1;
constexpr int io = 3;
constexpr int aborted = 134;

std::string plan_text() {
  support::PlanText plan;
  plan.containers = {"{name: can, holds: 40 L, filled: 40 L, for: drinking}"};
  plan.margins = {"drinking_water: 1 day"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 2}"};
  return plan.text();
}

/// A command that writes a file, which may be there before.
struct Written {
  std::vector<std::string> words;
  std::string file;
};

class FailingCalls : public ::testing::Test {
 protected:
  /// With the call of a kind failing that is the n-th.
  [[nodiscard]] Outcome run(const Workspace& space, const std::vector<std::string>& words,
                            const std::string& kind, int n) const {
    std::filesystem::remove(mark_);
    return drystage(words, {.set = {{"LD_PRELOAD", DRYSTAGE_FAILING_CALLS},
                                    {"FAILING_CALL", kind + ":" + std::to_string(n)},
                                    {"FAILING_CALL_MADE", mark_}},
                            .folder = space.folder()});
  }
  [[nodiscard]] bool has_failed() const { return std::filesystem::exists(mark_); }

  /// Each command that writes a file, with the text that it writes where all goes well.
  [[nodiscard]] static std::vector<Written> all_written() {
    return {
        {{"run", "trip.yaml", "--output", "answer.txt"}, "answer.txt"},
        {{"needs", "trip.yaml", "--format", "json", "--output", "answer.json"}, "answer.json"},
        {{"size", "trip.yaml", "--write", "sized.yaml"}, "sized.yaml"},
        {{"resume", "trip.yaml", "--evening", "1", "--drinking", "35L", "--write"}, "trip.yaml"},
        {{"start", "--defaults", "--output", "first.yaml"}, "first.yaml"},
        {{"run", "trip.yaml", "--chart", "chart.svg"}, "chart.svg"},
        {{"card", "trip.yaml", "--output", "card.pdf"}, "card.pdf"}};
  }

  Workspace apart_;
  std::string mark_ = apart_.path("failed");
};

/// What a command leaves of its file where nothing fails.
std::string whole(const Written& written) {
  const Workspace space;
  (void)space.write("trip.yaml", plan_text());
  EXPECT_THAT(drystage(written.words, {.folder = space.folder()}).status, AnyOf(holds, fails));
  return read_file(space.path(written.file));
}

TEST_F(FailingCalls, LeaveTheFileThatWasThereOrTheNewOne) {
  for (const Written& written : all_written()) {
    const std::string should = whole(written);
    ASSERT_NE(should, "") << written.words.front();
    for (const char* kind : {"open", "write", "mode", "sync", "rename"}) {
      int failed = 0;
      for (int n = 1; n < 50; ++n) {
        SCOPED_TRACE(written.words.front() + " " + written.file + ", " + kind + " " +
                     std::to_string(n));
        const Workspace space;
        (void)space.write("trip.yaml", plan_text());
        const bool was_there = written.file == "trip.yaml";
        const Outcome outcome = run(space, written.words, kind, n);
        const bool is_there = std::filesystem::exists(space.path(written.file));
        const std::string is = is_there ? read_file(space.path(written.file)) : "";
        EXPECT_THAT(space.names(), IsSubsetOf({std::string("trip.yaml"), written.file}));
        if (!has_failed()) {
          EXPECT_THAT(outcome.status, AnyOf(holds, fails)) << outcome.err;
          EXPECT_EQ(is, should);
          break;
        }
        ++failed;
        EXPECT_EQ(outcome.status, io) << outcome.err;
        EXPECT_THAT(outcome.err, AnyOf(HasSubstr(written.file), HasSubstr("standard output")));
        EXPECT_TRUE(is == should || is == (was_there ? plan_text() : "")) << is;
      }
      // Whatever writes a file makes each of these calls.
      EXPECT_GT(failed, 0) << written.words.front() << " " << kind;
    }
  }
}

TEST_F(FailingCalls, OfMemoryAreToldOrDoNoHarm) {
  const Workspace space;
  (void)space.write("trip.yaml", plan_text());
  const std::vector<std::vector<std::string>> questions{{"check", "trip.yaml"},
                                                        {"run", "trip.yaml"},
                                                        {"needs", "trip.yaml", "--jobs", "1"},
                                                        {"weigh", "trip.yaml"}};
  // All of them would take an hour: each is about so much further on than the one before.
  constexpr double further = 1.15;
  for (const std::vector<std::string>& words : questions) {
    const std::string should = drystage(words, {.folder = space.folder()}).out;
    int told = 0;
    for (int n = 1;; n = std::max(n + 1, static_cast<int>(n * further))) {
      SCOPED_TRACE(words.front() + ", memory " + std::to_string(n));
      const Outcome outcome = run(space, words, "memory", n);
      if (outcome.status == io) {
        EXPECT_EQ(outcome.err, "drystage: not enough memory for this plan and this question\n");
        EXPECT_EQ(outcome.out, "");
        ++told;
      } else if (told == 0 && outcome.status == aborted) {
        // Before the program begins: the library that reads YAML makes ready what it needs.
        EXPECT_LT(n, 10);
      } else {
        // Whoever asked for it did without.
        EXPECT_THAT(outcome.status, AnyOf(holds, fails)) << outcome.err;
        EXPECT_EQ(outcome.out, should);
      }
      if (!has_failed()) break;
    }
    EXPECT_GT(told, 10) << words.front();
  }
}

}  // namespace
}  // namespace drystage::testing::failing_calls_test
