#include "engine/schedule.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <type_traits>
#include <utility>

#include "engine/almanac.h"
#include "engine/surfaces.h"
#include "units/day.h"
#include "units/index.h"

namespace drystage::engine {
namespace {

// Not worth setting out, or going on, for less than this.
constexpr double least_drive_h = 0.25;

/// The hand that writes the schedule: a clock that moves over the itinerary.
class Clock {
 public:
  Clock(const plan::Plan& plan, const std::vector<Detour>& detours, Almanac& almanac, Schedule& out,
        const RoutePoint& start, const WayGone& gone)
      : plan_(plan), detours_(detours), almanac_(almanac), gone_(gone), out_(out), here_(start) {
    open_day();
  }

  [[nodiscard]] bool full() const { return static_cast<int>(out_.days.size()) > most_days; }

  /// Where a detour has led to since this was asked last: an itinerary index, or -1.
  int take_jump() { return std::exchange(jump_, -1); }

  void drive(const plan::Drive& item, int index) {
    // In the middle of a leg: turned round, what lies beyond is not driven; gone on with, what lies
    // behind.
    const bool under_way = place_at(here_) < 0;
    const bool on = under_way && item.to == here_.to && here_.from != here_.to;
    const int origin = on ? here_.from : here_.to;
    double skip_km = under_way ? (on ? here_.share : 1 - here_.share) * item.distance_km : 0;
    double done_km = skip_km;
    bool begun = under_way;
    if (under_way) here_ = spot(origin, item, done_km);
    for (std::size_t p = 0; p < item.surfaces.size(); ++p) {
      const plan::SurfacePart& part = item.surfaces[p];
      const double speed = speed_km_h(part, plan_.trip.driving);
      double left_km = part.distance_km - std::min(skip_km, part.distance_km);
      skip_km -= part.distance_km - left_km;
      while (left_km > tiny_h && !full()) {
        const double leg_left_h = left_km / speed;
        disturbed_ = false;
        const double room_h = room(leg_left_h + later_h(item, p));
        meet_detour();
        if (jump_ >= 0) return;
        if (disturbed_) continue;
        if (room_h <= 0) {
          camp(index, item.distance_km - done_km, begun);
          continue;
        }
        const double drive_h = std::min({leg_left_h, room_h, until_detour_h()});
        const double km = std::min(left_km, drive_h * speed);
        const RoutePoint end = spot(origin, item, done_km + km);
        begin_driving(item);
        push(hour_ + drive_h, end, {.drive = index, .part = static_cast<int>(p), .km = km});
        today().distance_km += km;
        today().drive_h += drive_h;
        done_km += km;
        left_km = drive_h >= leg_left_h ? 0 : left_km - km;
        begun = true;
      }
    }
    here_ = {.from = item.to, .to = item.to, .share = 0};
    today().to = here_;
  }

  void stay(const plan::Stay& item, int index) {
    const int activity = item.activity.value_or(plan_.camp_activity);
    const int nights =
        item.nights -
        (at(index) < gone_.nights_left_out.size() ? gone_.nights_left_out[at(index)] : 0);
    for (int night = 0; night < nights && !full(); ++night) {
      if (today().drive_h <= 0) today().activity = activity;
      next_day();
      if (jump_ >= 0) return;
      today().activity = activity;
    }
  }

  void resupply(const plan::Resupply& item, int index) {
    // What is taken on where the trip begins is on board when it does; elsewhere a stop after a
    // night is in the morning.
    const bool before_setting_out = day() == 0 && hour_ <= 0;
    while (!before_setting_out && !wait_until(plan_.trip.driving.depart_h)) {
      if (jump_ >= 0) return;
    }
    Segment segment{.day = day(),
                    .from_h = hour_,
                    .to_h = std::min(hour_ + item.takes_h, day_h),
                    .begin = here_,
                    .end = here_,
                    .resupply = index};
    hour_ = segment.to_h;
    out_.segments.push_back(segment);
  }

  void finish() {
    if (hour_ <= 0 && out_.days.size() > 1) {
      out_.days.pop_back();
    } else if (hour_ < day_h - tiny_h) {
      push(day_h, here_, {});
    }
    while (static_cast<int>(out_.days.size()) > most_days) out_.days.pop_back();
  }

 private:
  struct Moving {
    int drive = -1;
    int part = -1;
    double km = 0;
  };

  [[nodiscard]] int day() const { return static_cast<int>(out_.days.size()) - 1; }
  ScheduledDay& today() { return out_.days.back(); }

  static RoutePoint spot(int origin, const plan::Drive& item, double done_km) {
    const double share = std::clamp(done_km / item.distance_km, 0.0, 1.0);
    return {.from = origin, .to = item.to, .share = share};
  }

  void open_day() {
    ScheduledDay day;
    day.date = plan_.trip.start + boost::gregorian::days(static_cast<long>(out_.days.size()));
    day.from = day.to = here_;
    day.activity = plan_.camp_activity;
    const models::SunTimes sun =
        almanac_.sun(day.date, position(plan_, here_), plan_.trip.utc_offset_h);
    day.sunrise_h = sun.rise_h;
    day.sunset_h = sun.set_h;
    out_.days.push_back(day);
    hour_ = 0;
  }

  void push(double to_h, const RoutePoint& end, const Moving& moving) {
    out_.segments.push_back({.day = day(),
                             .from_h = hour_,
                             .to_h = to_h,
                             .begin = here_,
                             .end = end,
                             .drive = moving.drive,
                             .part = moving.part,
                             .distance_km = moving.km});
    hour_ = to_h;
    here_ = end;
    today().to = end;
  }

  [[nodiscard]] double now_h() const { return day_h * day() + hour_; }

  /// Waits until a clock hour, if it is not past; answers false where a detour has come before it.
  bool wait_until(double hour) {
    if (until_detour_h() < std::max(0.0, hour - hour_) - tiny_h) {
      if (until_detour_h() > tiny_h) push(hour_ + until_detour_h(), here_, {});
      meet_detour();
      return false;
    }
    if (hour > hour_ + tiny_h) push(hour, here_, {});
    return true;
  }

  /// To the end of the night. A halt in it moves that by its whole days: people sleep where they
  /// are stuck.
  void next_day() {
    const int evening = day();
    double end_h = day_h * (evening + 1);
    while (true) {
      const double halt_h = next_detour_ < detours_.size() ? detours_[next_detour_].halt_h : 0;
      if (wait_until(day_h)) break;
      if (jump_ >= 0) return;
      end_h += day_h * std::floor(halt_h / day_h + tiny_h);
      if (day() > evening && end_h <= now_h() + tiny_h) return;
    }
    open_day();
  }

  /// Hours until the next detour; it may be overdue.
  [[nodiscard]] double until_detour_h() const {
    if (next_detour_ >= detours_.size()) return std::numeric_limits<double>::infinity();
    return detours_[next_detour_].at_h - now_h();
  }

  /// Where a detour is due: halts, and notes where to go on.
  void meet_detour() {
    if (until_detour_h() > tiny_h) return;
    disturbed_ = true;
    const Detour& detour = detours_[next_detour_++];
    double left_h = detour.halt_h;
    while (left_h > tiny_h && !full()) {
      const double part_h = std::min(left_h, day_h - hour_);
      if (part_h > tiny_h) push(hour_ + part_h, here_, {});
      left_h -= part_h;
      if (hour_ >= day_h - tiny_h) open_day();
    }
    jump_ = detour.go_on_with;
  }

  /// Driving hours left today, after waiting for the morning; 0 when it is not worth going on.
  double room(double wanted_h) {
    const plan::Driving& driving = plan_.trip.driving;
    double earliest = driving.depart_h;
    double latest = day_h;
    const double hurry_h = hurry_now_h();
    if (driving.daylight_only && hurry_h <= 0) {
      earliest = std::max(earliest, today().sunrise_h);
      latest = std::min(latest, today().sunset_h);
    }
    const double start = std::max(hour_, earliest);
    const double by_light = latest - start;
    const double by_hours = driving.most_per_day_h + hurry_h - today().drive_h;
    stopped_by_light_ = by_light < by_hours;
    const double hours = std::min(by_light, by_hours);
    const bool fresh = today().drive_h <= 0 && hour_ <= earliest;
    if (hours < std::min(least_drive_h, wanted_h) - tiny_h && !(fresh && hours > tiny_h)) return 0;
    if (hours <= tiny_h) return 0;
    wait_until(start);
    return hours;
  }

  /// How much longer than the plan has it the party drove at this time.
  [[nodiscard]] double hurry_now_h() const {
    for (const Hurry& hurry : gone_.hurries) {
      if (now_h() >= hurry.from_h - tiny_h && now_h() < hurry.until_h) return hurry.more_h;
    }
    return 0;
  }

  static double part_h(const plan::SurfacePart& part, const plan::Driving& driving) {
    return part.distance_km / speed_km_h(part, driving);
  }

  [[nodiscard]] double later_h(const plan::Drive& item, std::size_t p) const {
    double hours = 0;
    for (std::size_t q = p + 1; q < item.surfaces.size(); ++q) {
      hours += part_h(item.surfaces[q], plan_.trip.driving);
    }
    return hours;
  }

  void begin_driving(const plan::Drive& item) {
    if (today().drive_h <= 0) today().activity = item.activity.value_or(plan_.road_activity);
  }

  void camp(int drive, double to_go_km, bool begun) {
    const EventKind kind = !begun              ? EventKind::waits
                           : stopped_by_light_ ? EventKind::camp_dusk
                                               : EventKind::camp_hours;
    out_.events.push_back({.kind = kind,
                           .day = static_cast<std::int16_t>(day()),
                           .hour = hour_,
                           .subject = drive,
                           .amount = to_go_km});
    next_day();
  }

  const plan::Plan& plan_;
  const std::vector<Detour>& detours_;
  Almanac& almanac_;
  const WayGone& gone_;
  std::size_t next_detour_ = 0;
  int jump_ = -1;           ///< where the last detour leads to
  bool disturbed_ = false;  ///< a detour has been met
  Schedule& out_;
  RoutePoint here_;
  double hour_ = 0;
  bool stopped_by_light_ = false;
};

}  // namespace

Schedule lay_out(const plan::Plan& plan, const std::vector<Detour>& detours, Almanac* almanac,
                 const WayGone& gone) {
  Schedule schedule;
  if (plan.itinerary.empty()) return schedule;
  RoutePoint start;
  if (const auto* first = std::get_if<plan::At>(&plan.itinerary.front())) {
    start = {.from = first->place, .to = first->place};
  }
  Almanac own;
  std::vector<Detour> halts = gone.halts;
  // Who goes elsewhere in the middle of a halt does not wait for its end.
  for (Detour& halt : halts) {
    for (const Detour& detour : detours) {
      const double until_h = detour.at_h - halt.at_h;
      if (detour.go_on_with >= 0 && until_h >= 0) halt.halt_h = std::min(halt.halt_h, until_h);
    }
  }
  halts.insert(halts.end(), detours.begin(), detours.end());
  std::ranges::stable_sort(halts, {}, &Detour::at_h);
  Clock clock(plan, halts, almanac == nullptr ? own : *almanac, schedule, start, gone);
  int next = 0;
  const int items = static_cast<int>(plan.itinerary.size());
  while (next < items && !clock.full()) {
    const int index = next++;
    std::visit(
        [&](const auto& item) {
          using Item = std::decay_t<decltype(item)>;
          if constexpr (std::is_same_v<Item, plan::Drive>) clock.drive(item, index);
          if constexpr (std::is_same_v<Item, plan::Stay>) clock.stay(item, index);
          if constexpr (std::is_same_v<Item, plan::Resupply>) clock.resupply(item, index);
        },
        plan.itinerary[at(index)]);
    const int jump = clock.take_jump();
    if (jump >= 0) next = jump;
  }
  clock.finish();
  return schedule;
}

}  // namespace drystage::engine
