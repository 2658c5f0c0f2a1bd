#include "answers/onward/needs.h"

#include <algorithm>
#include <cmath>

#include "answers/base/in_parallel.h"
#include "answers/base/laid_trip.h"
#include "answers/base/supplies.h"
#include "answers/onward/least_level.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

using engine::Engine;

/// Everything that it takes to work out one reserve's needs.
struct Question {
  const LaidTrip& laid;
  const LaidTrip& certain;
  const std::vector<Engine::Standing>& mornings;
  int reserve = 0;
  engine::Course course;
};

Need need_of(const Question& question, int day, engine::Record& scratch) {
  const engine::Timeline& timeline = *question.laid.timeline;
  const Engine::Standing& morning = question.mornings[at(day)];
  if (!morning.run.is_judged(question.reserve)) return {.judged = false};
  const auto refuge = next_goal(question.laid, morning.next, question.reserve);
  const std::size_t until = refuge ? refuge->step : timeline.steps.size();
  const Stint stint{.course = question.course,
                    .start = morning,
                    .from = morning.next,
                    .until = until,
                    .reserve = question.reserve};
  const auto& info = question.course.reserves[at(question.reserve)];
  const std::size_t lasts_to = info.commodity ? until : full_again(stint, scratch);
  const Moment end = moment_before(question.laid, lasts_to);
  Need need{.must_have = least_level(stint, scratch),
            .has = morning.run.reserve_level(question.reserve),
            .fits = true,
            .until_day = end.day,
            .until_h = end.hour,
            .until_place = refuge && lasts_to == until ? refuge->place : -1,
            .taking_at = taken_on_the_way(question.certain, morning.next, until, question.reserve)};
  need.fits = need.must_have <= info.capacity + fit_rounding || !info.commodity ||
              info.commodity == plan::Commodity::food;
  if (!std::isfinite(need.must_have)) need.fits = false;
  return need;
}

}  // namespace

bool Needs::met() const { return std::ranges::none_of(table, &Need::lacks); }

Needs morning_needs(const PlanRun& planned) {
  const LaidTrip laid = laid_trip_of(planned);
  const LaidTrip certain = laid_trip_on_what_is_certain(planned);
  const engine::Timeline& timeline = *laid.timeline;
  const auto days = static_cast<int>(timeline.days.size());
  engine::Record record = engine::blank_record(*laid.course);
  std::vector<Engine::Standing> mornings;
  Engine::Standing standing = Engine::begin(*laid.course, record);
  for (int day = 0; day < days; ++day) {
    Engine::go_on(*laid.course, standing, morning_step(timeline, day));
    mornings.push_back(standing);
    Engine::meet_next(*laid.course, mornings.back());
  }
  Engine::go_on(*laid.course, standing, timeline.steps.size());

  const auto parts = parts_of_what_there_is(*certain.course);
  Needs needs{.first_day = first_morning(*laid.course), .reserves = {}, .table = {}};
  std::vector<Question> questions;
  for (std::size_t r = 0; r < laid.course->reserves.size(); ++r) {
    if (laid.course->reserves[r].sense != engine::Sense::keep_above) continue;
    const int reserve = static_cast<int>(r);
    needs.reserves.push_back(reserve);
    questions.push_back({.laid = laid,
                         .certain = certain,
                         .mornings = mornings,
                         .reserve = reserve,
                         .course = taking_all_there_is(*certain.course, reserve, parts)});
  }
  needs.table.resize(static_cast<std::size_t>(days) * questions.size());
  PerThread<engine::Record> scratch;
  in_parallel(needs.table.size(), [&](std::size_t i) {
    const auto day = static_cast<int>(i / questions.size());
    if (day < needs.first_day) return;
    needs.table[i] = need_of(questions[i % questions.size()], day, scratch.local());
  });
  return needs;
}

}  // namespace drystage::answers
