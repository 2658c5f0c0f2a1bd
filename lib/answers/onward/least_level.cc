#include "answers/onward/least_level.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "units/index.h"

namespace drystage::answers {
namespace {

using engine::Engine;

constexpr double exact_enough = 1e-4;
constexpr double just_less = 0.99 * exact_enough;
constexpr int most_tries = 60;
// Nobody takes so much; where it is not enough, nothing is.
constexpr double plenty = 1e5;
constexpr double full_share = 0.995;

/// Runs a bank to the end of the stint, or to where it is full after having been used.
void run_until_full(const Stint& stint, Engine::Standing& standing) {
  const double full_ah = full_share * stint.course.reserves[at(stint.reserve)].capacity;
  bool used = false;
  while (standing.next < stint.until) {
    Engine::go_on(stint.course, standing, standing.next + 1);
    const bool is_full = standing.run.reserve_level(stint.reserve) >= full_ah;
    if (used && is_full) break;
    used = used || !is_full;
  }
}

/// The tightest of some time, and what was wanted and not there. What utility water stands in for
/// was not there.
struct Tightest {
  double slack = engine::without_limit;
  double missing = 0;

  void add(const Tightest& more) {
    slack = std::min(slack, more.slack);
    missing += more.missing;
  }

  /// What is left may be of no use for what was wanted: brackish water is not for cooking.
  [[nodiscard]] double less_missing() const {
    return missing > engine::rounding ? std::min(slack, 0.0) - missing : slack;
  }
};

/// Over the days from one to where the run has come; and it is forgotten then.
Tightest take_tightest(engine::Record& record, std::size_t reserve, int from_day, int to_day) {
  Tightest out;
  for (int day = from_day; day <= to_day; ++day) {
    engine::ReserveDay& row =
        record.reserve_days[static_cast<std::size_t>(day) * record.reserves + reserve];
    out.add({.slack = row.slack, .missing = row.short_of + row.stood_in});
    row.slack = engine::without_limit;
    row.short_of = row.stood_in = 0;
  }
  return out;
}

}  // namespace

std::vector<std::vector<double>> slacks_from_each(const engine::Course& course,
                                                  std::span<const Engine::Standing> starts,
                                                  std::size_t from, const std::vector<Goal>& goals,
                                                  engine::Record& scratch) {
  engine::make_blank(scratch, course);
  Engine::Standing now = Engine::resume(starts.front(), course, from, scratch);
  // First what happens in the step that each start begins ...
  std::vector<std::vector<Tightest>> after(goals.size(), std::vector<Tightest>(starts.size()));
  int day = now.run.day();
  const auto take = [&](std::size_t goal, std::size_t start) {
    const auto reserve = static_cast<std::size_t>(goals[goal].reserve);
    after[goal][start] = take_tightest(scratch, reserve, day, now.run.day());
  };
  for (std::size_t i = 0; i + 1 < starts.size(); ++i) {
    Engine::go_on(course, now, from + i + 1);
    for (std::size_t g = 0; g < goals.size(); ++g) take(g, i);
    day = now.run.day();
  }
  std::vector<std::size_t> order(goals.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, {}, [&](std::size_t g) { return goals[g].until; });
  for (const std::size_t g : order) {
    Engine::go_on(course, now, goals[g].until);
    take(g, starts.size() - 1);
  }
  // ... and then, from the last on, what comes after it too.
  std::vector<std::vector<double>> out(goals.size(), std::vector<double>(starts.size()));
  for (std::size_t g = 0; g < goals.size(); ++g) {
    for (std::size_t i = starts.size(); i-- > 0;) {
      if (i + 1 < starts.size()) after[g][i].add(after[g][i + 1]);
      const engine::Run& run = starts[i].run;
      Tightest all = after[g][i];
      if (run.is_judged(goals[g].reserve)) {
        all.add({.slack = run.reserve_level(goals[g].reserve) - run.margin(goals[g].reserve)});
      }
      // Sums are made up from each start in turn, so that two of the same come to the same.
      out[g][i] = all.missing > 0 && starts.size() > 1 ? slack_over({.course = course,
                                                                     .start = starts[i],
                                                                     .from = from + i,
                                                                     .until = goals[g].until,
                                                                     .reserve = goals[g].reserve},
                                                                    std::nullopt, scratch)
                                                       : all.less_missing();
    }
  }
  return out;
}

double slack_over(const Stint& stint, std::optional<double> level, engine::Record& scratch) {
  const engine::Course& course = stint.course;
  const auto reserve = static_cast<std::size_t>(stint.reserve);
  engine::make_blank(scratch, course);
  if (stint.from >= course.timeline->steps.size()) return engine::without_limit;
  Engine::Standing standing = Engine::resume(stint.start, course, stint.from, scratch);
  const engine::TimeStep& first = course.timeline->steps[stint.from];
  if (level) Engine::set_level(course, standing, stint.reserve, *level);
  standing.run.observe(first.from_h);
  if (engine::is_bank(course.reserves[reserve])) {
    run_until_full(stint, standing);
  } else {
    Engine::go_on(course, standing, stint.until);
  }
  return take_tightest(scratch, reserve, first.day, standing.run.day()).less_missing();
}

std::size_t full_again(const Stint& stint, engine::Record& scratch) {
  engine::make_blank(scratch, stint.course);
  Engine::Standing standing = Engine::resume(stint.start, stint.course, stint.from, scratch);
  run_until_full(stint, standing);
  return standing.next;
}

double least_level(const Stint& stint, engine::Record& scratch) {
  // Of what is not there then, nothing must be.
  const std::vector<engine::TimeStep>& steps = stint.course.timeline->steps;
  const bool is_there =
      stint.from >= steps.size() ||
      stint.course.presences[at(steps[stint.from].company)].reserves[at(stint.reserve)] != 0;
  if (!is_there) return 0;
  const engine::ReserveInfo& info = stint.course.reserves[at(stint.reserve)];
  // With nothing to hold it no level can be tried: what is lacking is what it takes. (Food needs
  // nothing to hold it.)
  if (info.capacity <= 0 && info.commodity != plan::Commodity::food) {
    return std::max(0.0, -slack_over(stint, std::nullopt, scratch));
  }
  const double most =
      engine::is_bank(info) ? info.capacity : std::numeric_limits<double>::infinity();
  // Bracketed between a level that is too low and one that is enough. What a litre more brings is
  // about a litre more of slack, from which each next try follows.
  struct Try {
    double level = 0;
    double slack = 0;
  };
  // Where a litre more brings a litre more of slack, what slack is left is too much.
  const auto without_slack = [&](const Try& enough) {
    const double level = enough.level - enough.slack;
    const bool tries =
        enough.slack > engine::rounding && enough.slack <= exact_enough && level >= 0;
    return tries && slack_over(stint, level, scratch) >= -engine::rounding ? level : enough.level;
  };
  std::optional<Try> low;
  std::optional<Try> enough;
  bool probing = false;
  // The same slack goes with many levels: what is dry stays dry.
  bool level_ground = false;
  int downwards = 0;
  double level = std::clamp(stint.start.run.reserve_level(stint.reserve), 0.0, most);
  for (int n = 0; n < most_tries; ++n) {
    const double slack = slack_over(stint, level, scratch);
    if (slack >= -engine::rounding) {
      level_ground = level_ground || (probing && slack <= exact_enough);
      enough = {.level = level, .slack = slack};
      if (level <= 0) return level;
    } else {
      low = {.level = level, .slack = slack};
      if (level >= most) return std::numeric_limits<double>::infinity();
    }
    const double width = low && enough ? enough->level - low->level : engine::without_limit;
    if (width <= exact_enough) return without_slack(*enough);
    // Where no slack is left, a little less is too little; or else the ground is level.
    probing = enough && enough->slack <= exact_enough && !level_ground;
    if (probing) {
      level = std::max(0.0, enough->level - just_less);
    } else if (low && enough) {
      // By turns where the straight line between them leads, and the middle.
      const double share = n % 3 == 2 ? 0.5 : -low->slack / (enough->slack - low->slack);
      level = low->level + width * std::clamp(share, 0.0, 1.0) + exact_enough / 4;
      if (level >= enough->level) level = low->level + width / 2;
    } else if (enough) {
      const double stride = std::ldexp(1.0, std::max(0, downwards++ - 1));
      level = level_ground ? 0.0 : std::max(0.0, enough->level - enough->slack * stride);
    } else {
      // What it lacks may grow with it: of food most may spoil.
      constexpr int in_small_strides = 6;
      const double stride =
          n < in_small_strides ? 1.0 + 0.25 * n : std::ldexp(4.0, n - in_small_strides);
      if (low->level > plenty) break;
      level = std::min(most, low->level - low->slack * stride + exact_enough / 4);
    }
  }
  return enough ? without_slack(*enough) : std::numeric_limits<double>::infinity();
}

}  // namespace drystage::answers
