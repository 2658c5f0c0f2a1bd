#include "report/charts/trip_line.h"

#include <algorithm>
#include <cmath>

#include "engine/route_point.h"
#include "units/day.h"
#include "units/index.h"

namespace drystage::report {
namespace {

class LineWriter {
 public:
  explicit LineWriter(const engine::Timeline& timeline) : timeline_(timeline) {}

  TripLine line() {
    out_.driven.push_back({});
    for (const engine::TimeStep& step : timeline_.steps) {
      if (step.dt_h <= 0) continue;
      const double from_h = day_h * step.day + step.from_h;
      const Stretch hours{.from = from_h, .to = from_h + step.dt_h};
      if (step.drive >= 0) {
        drive(step, hours);
      } else {
        stand(timeline_.place_days[at(step.place_day)].place, hours);
      }
    }
    const int last = engine::place_at(timeline_.days.back().schedule.to);
    if (leg_ >= 0) stand(last, {.from = end_h(), .to = end_h()});
    add_nights();
    return std::move(out_);
  }

 private:
  [[nodiscard]] double end_h() const { return day_h * static_cast<double>(timeline_.days.size()); }

  void drive(const engine::TimeStep& step, const Stretch& hours) {
    const bool sets_out = out_.halts.empty() && out_.drives.empty();
    if (sets_out || (leg_ >= 0 && step.leg != leg_)) {
      // A place that is passed without a halt.
      stand(timeline_.legs[at(step.leg)].from, {.from = hours.from, .to = hours.from});
    }
    if (leg_ == step.leg) {
      out_.drives.back().to = hours.to;
    } else {
      out_.drives.push_back(hours);
    }
    leg_ = step.leg;
    const double km = out_.driven.back().km;
    out_.driven.push_back({.hour = hours.from, .km = km});
    out_.driven.push_back({.hour = hours.to, .km = km + step.distance_km});
  }

  void stand(int place, const Stretch& hours) {
    const bool goes_on = leg_ < 0 && !out_.halts.empty() && out_.halts.back().place == place;
    if (goes_on) {
      out_.halts.back().hours.to = hours.to;
    } else {
      out_.halts.push_back({.hours = hours, .place = place, .km = out_.driven.back().km});
    }
    leg_ = -1;
  }

  /// Where the sun does not set, sunset and the next sunrise are the same moment.
  void add_nights() {
    constexpr double slight_h = 0.01;
    double sunset_h = 0;
    const auto add = [&](double sunrise_h) {
      const double to_h = std::min(sunrise_h, end_h());
      if (to_h - sunset_h > slight_h) out_.nights.push_back({.from = sunset_h, .to = to_h});
    };
    for (std::size_t day = 0; day < timeline_.days.size(); ++day) {
      const engine::ScheduledDay& sun = timeline_.days[day].schedule;
      const double midnight_h = day_h * static_cast<double>(day);
      add(midnight_h + sun.sunrise_h);
      sunset_h = std::max(0.0, midnight_h + sun.sunset_h);
    }
    add(end_h());
  }

  const engine::Timeline& timeline_;
  TripLine out_;
  int leg_ = -1;  ///< being driven
};

}  // namespace

double TripLine::km_at(double hour) const {
  const auto next = std::ranges::upper_bound(driven, hour, {}, &Driven::hour);
  if (next == driven.end()) return total_km();
  const Driven& before = *std::prev(next);
  return std::lerp(before.km, next->km, (hour - before.hour) / (next->hour - before.hour));
}

TripLine trip_line(const engine::Timeline& timeline) { return LineWriter(timeline).line(); }

}  // namespace drystage::report
