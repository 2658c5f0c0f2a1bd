#include "answers/base/levels.h"

#include <utility>

#include "units/day.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

/// Writes down how every reserve stands.
class Writer {
 public:
  Writer(const engine::Run& run, std::size_t reserves, std::size_t steps) : run_(run) {
    out_.reserves.resize(reserves);
    for (std::vector<Level>& levels : out_.reserves) levels.reserve(steps + 2);
  }

  void write(int day, double clock_h) {
    for (int r = 0; r < count(); ++r) add(r, day, clock_h);
  }

  /// Those alone that are not as they were written down last.
  void write_changed(int day, double clock_h) {
    for (int r = 0; r < count(); ++r) {
      if (!of(r).empty() && run_.reserve_level(r) != of(r).back().level) add(r, day, clock_h);
    }
  }

  /// Gives the margin of now to all that was written before.
  void margins_from_now() {
    for (int r = 0; r < count(); ++r) {
      for (Level& level : of(r)) level.margin = run_.margin(r);
    }
  }

  [[nodiscard]] Levels take() { return std::move(out_); }

 private:
  [[nodiscard]] int count() const { return static_cast<int>(out_.reserves.size()); }
  std::vector<Level>& of(int reserve) { return out_.reserves[at(reserve)]; }

  void add(int reserve, int day, double clock_h) {
    if (!run_.is_judged(reserve)) return;
    of(reserve).push_back({.hour = day_h * day + clock_h,
                           .level = run_.reserve_level(reserve),
                           .margin = run_.margin(reserve),
                           .day = day});
  }

  const engine::Run& run_;
  Levels out_;
};

}  // namespace

Levels levels(const PlanRun& planned) {
  const std::vector<engine::TimeStep>& steps = planned.course.timeline->steps;
  engine::Record record = engine::blank_record(planned.course);
  engine::Engine::Standing standing = engine::Engine::begin(planned.course, record);
  Writer writer(standing.run, planned.course.reserves.size(), steps.size());
  writer.write(0, 0);
  bool rates_known = false;
  for (const engine::TimeStep& step : steps) {
    engine::Engine::begin_step(planned.course, standing);
    if (step.stop >= 0) writer.write_changed(step.day, step.from_h);
    engine::Engine::end_step(planned.course, standing);
    if (step.dt_h <= 0) continue;
    if (!rates_known) writer.margins_from_now();
    rates_known = true;
    writer.write(step.day, step.from_h + step.dt_h);
  }
  return writer.take();
}

}  // namespace drystage::answers
