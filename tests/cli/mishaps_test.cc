// `drystage mishaps` as a user runs it on every shipped scenario: what it prints and with what
// status it ends, against what the library finds; and stopped half-way.
#include "answers/mishaps/mishaps.h"

#include <fcntl.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <cstdlib>
#include <map>
#include <nlohmann/json.hpp>

#include "cli/csv.h"
#include "cli/process.h"
#include "cli/workspace.h"
#include "report/mishaps/words.h"
#include "support/other_plan.h"

namespace drystage::testing::mishaps_test {
namespace {

using answers::Finding;
using ::testing::HasSubstr;
using ::testing::StartsWith;
using Json = nlohmann::ordered_json;

Outcome mishaps(const std::string& scenario, const std::vector<std::string>& options = {}) {
  std::vector<std::string> words{"mishaps", scenario_path(scenario)};
  words.insert(words.end(), options.begin(), options.end());
  return drystage(words);
}

/// What the library finds for a scenario.
struct Known {
  explicit Known(const std::string& name)
      : planned(support::run_plan(support::scenario_plan(name))),
        sweep(answers::sweep_mishaps(planned, {})) {}

  [[nodiscard]] int status() const {
    return sweep.worst() == answers::Outcome::runs_out_vital ? 1 : 0;
  }

  answers::PlanRun planned;
  answers::Sweep sweep;
};

/// The same for each scenario, found once.
const Known& known_of(const std::string& name) {
  static std::map<std::string, Known> all;
  return all.try_emplace(name, name).first->second;
}

class MishapsOf : public ::testing::TestWithParam<std::string> {};

INSTANTIATE_TEST_SUITE_P(Shipped, MishapsOf, ::testing::ValuesIn(scenarios()), AsTestName{});

TEST_P(MishapsOf, EndsWithTheStatusThatItsFindingsAskForAndSaysSoFirst) {
  const Known& known = known_of(GetParam());
  const Outcome outcome = mishaps(GetParam());
  EXPECT_EQ(outcome.status, known.status());
  EXPECT_EQ(outcome.err, "");
  EXPECT_THAT(outcome.out, StartsWith(known.status() == 0 ? "SURVIVES" : "DOES NOT SURVIVE"));
  for (const std::string& line : lines(outcome.out)) EXPECT_LE(terminal_columns(line), 80) << line;
}

TEST_P(MishapsOf, FitsEightyColumnsInOtherUnits) {
  for (const std::string& line : lines(mishaps(GetParam(), {"--units", "us"}).out)) {
    EXPECT_LE(terminal_columns(line), 80) << line;
  }
}

/// What JSON and CSV call it when there is nothing to say.
void expect_number(const Json& value, double wanted, bool there) {
  ASSERT_EQ(value.is_number(), there) << value;
  if (!there) return;
  EXPECT_DOUBLE_EQ(value.get<double>(), wanted);
}

void expect_finding(const Json& row, const Finding& finding, const answers::PlanRun& planned) {
  EXPECT_EQ(row.at("day"), finding.day + 1);
  EXPECT_DOUBLE_EQ(row.at("hour").get<double>(), finding.hour);
  EXPECT_EQ(row.at("outcome"), report::outcome_name(finding.outcome));
  const bool named = finding.reserve >= 0;
  EXPECT_EQ(row.at("reserve").is_string(), named);
  if (named) {
    const auto r = static_cast<std::size_t>(finding.reserve);
    EXPECT_EQ(row.at("reserve"), planned.course.reserves[r].name);
  }
  expect_number(row.at("slack"), finding.slack, named);
  const bool dry = finding.outcome >= answers::Outcome::runs_out;
  ASSERT_EQ(row.at("dry").is_object(), dry);
  if (dry) {
    EXPECT_EQ(row.at("dry").at("day"), finding.dry_day + 1);
    EXPECT_EQ(row.at("dry").at("where"), finding.where);
    expect_number(row.at("dry").at("short"), finding.short_of, true);
    expect_number(row.at("dry").at("for_h"), finding.dry_for_h, true);
  }
  EXPECT_EQ(row.at("retreat_saves"),
            finding.retreat_saves ? Json(*finding.retreat_saves) : Json(nullptr));
}

TEST_P(MishapsOf, PrintsInJsonWhatTheLibraryFinds) {
  const Known& known = known_of(GetParam());
  const Outcome outcome = mishaps(GetParam(), {"--format", "json"});
  EXPECT_EQ(outcome.status, known.status());
  const Json json = Json::parse(outcome.out);
  EXPECT_EQ(json.at("format"), "drystage.mishaps/1");
  EXPECT_EQ(json.at("verdict").at("survives_any_one"), known.status() == 0);
  EXPECT_EQ(json.at("verdict").at("partial"), false);
  EXPECT_EQ(json.at("tried").at("runs"), known.sweep.findings.size());
  EXPECT_EQ(json.at("tried").at("runs_asked"), known.sweep.asked);
  EXPECT_TRUE(json.at("pairs").is_null());
  ASSERT_EQ(json.at("failures").size(), known.sweep.failures.size());
  std::vector<std::size_t> next(known.sweep.failures.size());
  for (const Finding& finding : known.sweep.findings) {
    const auto f = static_cast<std::size_t>(finding.failure);
    const Json& failure = json.at("failures").at(f);
    SCOPED_TRACE(failure.at("name"));
    EXPECT_EQ(failure.at("name"), known.sweep.failures[f].name);
    EXPECT_EQ(failure.at("kind"), report::kind_name(known.sweep.failures[f].kind));
    expect_finding(failure.at("findings").at(next[f]++), finding, known.planned);
  }
  for (std::size_t f = 0; f < next.size(); ++f) {
    EXPECT_EQ(json.at("failures").at(f).at("findings").size(), next[f]);
  }
}

TEST_P(MishapsOf, PrintsInCsvOneRowForEachFinding) {
  const Known& known = known_of(GetParam());
  const std::vector<Row> rows = parse_csv(mishaps(GetParam(), {"--format", "csv"}).out);
  ASSERT_EQ(rows.size(), known.sweep.findings.size() + 1);
  const auto column = [&](const std::string& name) {
    const auto at = std::ranges::find(rows.front(), name);
    EXPECT_NE(at, rows.front().end()) << name;
    return static_cast<std::size_t>(at - rows.front().begin());
  };
  for (std::size_t n = 0; n < known.sweep.findings.size(); ++n) {
    const Finding& finding = known.sweep.findings[n];
    const Row& row = rows[n + 1];
    const auto f = static_cast<std::size_t>(finding.failure);
    EXPECT_EQ(row[column("failure")], known.sweep.failures[f].name);
    EXPECT_EQ(row[column("day")], std::to_string(finding.day + 1));
    EXPECT_EQ(row[column("outcome")], report::outcome_name(finding.outcome));
    EXPECT_EQ(row[column("dry_day")],
              finding.dry_day < 0 ? "" : std::to_string(finding.dry_day + 1));
    const char* saved = !finding.retreat_saves ? "" : *finding.retreat_saves ? "yes" : "no";
    EXPECT_EQ(row[column("retreat_saves")], saved);
  }
}

TEST_P(MishapsOf, NarrowedPrintsThoseOfAllThatWereAskedFor) {
  const Json all = Json::parse(mishaps(GetParam(), {"--format", "json"}).out);
  const Json some = Json::parse(
      mishaps(GetParam(), {"--only", "container", "--days", "2-3", "--format", "json"}).out);
  Json expected = Json::array();
  for (const Json& failure : all.at("failures")) {
    if (failure.at("kind") != "container") continue;
    for (const Json& finding : failure.at("findings")) {
      const int day = finding.at("day");
      if (day == 2 || day == 3) expected.push_back({failure.at("name"), finding});
    }
  }
  Json got = Json::array();
  for (const Json& failure : some.at("failures")) {
    for (const Json& finding : failure.at("findings")) {
      got.push_back({failure.at("name"), finding});
    }
  }
  EXPECT_EQ(got, expected);
  EXPECT_FALSE(got.empty());
}

TEST(MishapsOfTwo, AreThoseThatTheLibraryFindsAndChangeNoStatus) {
  const Known& known = known_of("two-at-once");
  const answers::PairSweep pairs = answers::sweep_pairs(known.planned, {}, known.sweep);
  const Outcome outcome = mishaps("two-at-once", {"--two", "--format", "json"});
  EXPECT_EQ(outcome.status, 0);
  const Json found = Json::parse(outcome.out).at("pairs").at("found");
  ASSERT_EQ(found.size(), pairs.pairs.size());
  for (std::size_t p = 0; p < pairs.pairs.size(); ++p) {
    const answers::PairFinding& pair = pairs.pairs[p];
    const auto name = [&](int f) { return known.sweep.failures[static_cast<std::size_t>(f)].name; };
    EXPECT_EQ(found[p].at("first").at("failure"), name(pair.first));
    EXPECT_EQ(found[p].at("second").at("failure"), name(pair.second));
    EXPECT_EQ(found[p].at("outcome"), report::outcome_name(pair.worst.outcome));
    EXPECT_EQ(found[p].at("combinations").at("dry"), pair.dry);
    EXPECT_EQ(found[p].at("combinations").at("tried"), pair.tried);
  }
}

TEST(MishapsOfTwo, FitEightyColumnsAndSayThatNotEveryTwoAreSurvived) {
  const Outcome outcome = mishaps("two-at-once", {"--two"});
  EXPECT_EQ(outcome.status, 0);
  EXPECT_THAT(outcome.out, StartsWith("SURVIVES any one mishap of those tried, but not every two"));
  for (const char* name : {"no drinking water at Halt Springs", "stuck 36 h before setting out"}) {
    EXPECT_THAT(outcome.out, HasSubstr(name));
  }
  for (const std::string& line : lines(outcome.out)) EXPECT_LE(terminal_columns(line), 80) << line;
}

TEST(MishapsOfShipped, SayWhatTheCommentsOfTheirPlansSay) {
  const std::string last_camp = mishaps("last-camp").out;
  EXPECT_THAT(last_camp, HasSubstr(": 1 of 23 mishaps runs drinking water or fuel dry."));
  EXPECT_THAT(last_camp, HasSubstr("road ahead shut: turned back, on day 8, Mon 16 Aug, 08:00. "));
  const std::string comment = read_file(scenario_path("last-camp"));
  EXPECT_THAT(comment, HasSubstr("on day 8, Monday 16 August 2027"));
  EXPECT_EQ(drystage({"run", scenario_path("last-camp")}).status, 0);
  EXPECT_EQ(drystage({"run", scenario_path("two-at-once")}).status, 0);
}

/// Waits until a process catches Ctrl-C; false if it ends before. (Its bit in the mask of caught
/// signals, proc(5).)
bool catches_interrupt(pid_t child) {
  const std::string path = "/proc/" + std::to_string(child) + "/status";
  while (true) {
    siginfo_t ended{};
    ::waitid(P_PID, static_cast<id_t>(child), &ended, WEXITED | WNOHANG | WNOWAIT);
    if (ended.si_pid != 0) return false;
    const std::string text = read_file(path);
    const std::size_t at = text.find("SigCgt:");
    if (at == std::string::npos) continue;
    const auto mask = std::stoull(text.substr(at + 7), nullptr, 16);
    if ((mask >> (SIGINT - 1) & 1U) != 0) return true;
  }
}

/// Runs it, sends Ctrl-C once that is caught, and answers its status. Standard output goes into a
/// file.
int interrupted(std::vector<std::string> words, const std::string& out) {
  const std::string program = tested_program();
  words.insert(words.begin(), program);
  std::vector<char*> pointers;
  pointers.reserve(words.size() + 1);
  for (std::string& word : words) pointers.push_back(word.data());
  pointers.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
  posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, out.c_str(), O_WRONLY | O_CREAT, 0600);
  // Whoever runs this may ignore Ctrl-C; the program is to begin as on a terminal.
  posix_spawnattr_t begin;
  posix_spawnattr_init(&begin);
  sigset_t signals;
  sigemptyset(&signals);
  posix_spawnattr_setsigmask(&begin, &signals);
  sigaddset(&signals, SIGINT);
  posix_spawnattr_setsigdefault(&begin, &signals);
  posix_spawnattr_setflags(&begin, POSIX_SPAWN_SETSIGDEF | POSIX_SPAWN_SETSIGMASK);
  pid_t child = -1;
  const int problem =
      ::posix_spawn(&child, program.c_str(), &actions, &begin, pointers.data(), environ);
  posix_spawnattr_destroy(&begin);
  posix_spawn_file_actions_destroy(&actions);
  if (problem != 0) throw std::runtime_error("it cannot be started");
  EXPECT_TRUE(catches_interrupt(child));
  ::kill(child, SIGINT);
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

TEST(MishapsInterrupted, SayWhatIsKnownSoFarAndThatItIsPartial) {
  const Workspace workspace;
  const std::string out = workspace.path("out.txt");
  // Seconds of work, of which a moment is done.
  EXPECT_EQ(interrupted({"mishaps", scenario_path("long-loop"), "--two", "--jobs", "1"}, out), 1);
  const std::string text = read_file(out);
  EXPECT_THAT(text, StartsWith("PARTIAL: "));
  EXPECT_THAT(text, Not(HasSubstr("SURVIVES")));
  EXPECT_THAT(text, HasSubstr("The long loop round the Ampara basin."));
}

}  // namespace
}  // namespace drystage::testing::mishaps_test
