#include "engine/way_gone.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <utility>

#include "units/day.h"
#include "units/index.h"
#include "units/text.h"

namespace drystage::engine {
namespace {

/// When the party is at a point: from its arrival until it goes on.
struct Visit {
  double arrives_h = 0;  ///< since the trip's first midnight, as is all that follows
  double leaves_h = 0;
};

/// The moments at which a reading may have been taken.
struct Window {
  double from_h = 0;
  double until_h = 0;

  [[nodiscard]] double late_h(const Visit& visit) const { return from_h - visit.leaves_h; }
  [[nodiscard]] double early_h(const Visit& visit) const { return visit.arrives_h - until_h; }
};

// Hours more on a day's driving that are tried, one after the other.
constexpr int most_more_h = 20;
// Nearer than this, a camp is where it was said to be.
constexpr double near_km = 0.5;

class WayFollower {
 public:
  WayFollower(const plan::Plan& plan, Almanac* almanac) : plan_(plan), almanac_(almanac) {}

  WayTaken follow() {
    lay();
    for (const plan::Reading& reading : plan_.readings) {
      if (reading.at) meet(reading);
      if (!out_.problems.empty()) break;
      if (reading.day >= static_cast<int>(schedule_.days.size())) {
        out_.problems.push_back(over(reading));
        break;
      }
      since_h_ = window_of(reading).from_h;
    }
    wait_as_said();
    if (out_.problems.empty()) check_changes();
    return std::move(out_);
  }

 private:
  void lay() { schedule_ = lay_out(plan_, {}, almanac_, out_.gone); }

  static Window window_of(const plan::Reading& reading) {
    const double from_h = day_h * reading.day + reading.hour;
    return {.from_h = from_h,
            .until_h = reading.in_the_evening ? day_h * (reading.day + 1) : from_h};
  }

  /// Makes the way taken lead by where the reading was.
  void meet(const plan::Reading& reading) {
    const Window window = window_of(reading);
    std::optional<Visit> visit = nearest_visit(*reading.at, window);
    while (visit && window.early_h(*visit) > tiny_h && leave_a_night_out(*visit)) {
      lay();
      visit = nearest_visit(*reading.at, window);
    }
    for (int more = 1; more <= most_more_h && visit && window.early_h(*visit) > tiny_h; ++more) {
      if (more > 1) out_.gone.hurries.pop_back();
      out_.gone.hurries.push_back({.from_h = day_h * std::floor(since_h_ / day_h),
                                   .until_h = window.until_h,
                                   .more_h = static_cast<double>(more)});
      lay();
      visit = nearest_visit(*reading.at, window);
    }
    if (!visit || window.early_h(*visit) > tiny_h) {
      out_.problems.push_back(never_there(reading));
      return;
    }
    if (window.late_h(*visit) > tiny_h) wait(*reading.at, *visit, window);
  }

  /// Changes that come too late: after the trip, or of nights that have passed by then.
  void check_changes() {
    if (!plan_.as_planned) return;
    lay();
    const Schedule before = lay_out(*plan_.as_planned, {}, almanac_, out_.gone);
    for (const plan::Change& change : plan_.changes) {
      const auto days = std::max(before.days.size(), schedule_.days.size());
      if (at(change.day) >= days) {
        out_.problems.push_back(
            {.mark = change.mark,
             .what = fmt::format("a change on day {}, but the trip ends on day {}", change.day + 1,
                                 days),
             .expected = "a day of the trip",
             .hint = {}});
      }
      if (change.stay >= 0) check_stay(change, before);
    }
  }

  void check_stay(const plan::Change& change, const Schedule& before) {
    int arrives = 0;
    int leaves = static_cast<int>(before.days.size());
    for (const Segment& segment : before.segments) {
      if (segment.drive >= 0 && segment.drive < change.stay) arrives = segment.day;
      if (segment.drive > change.stay) leaves = std::min(leaves, segment.day);
    }
    const bool is_over = leaves < change.day;
    const bool too_few = change.day > arrives && change.nights < change.day - arrives;
    if (!is_over && !too_few) return;
    out_.problems.push_back(
        {.mark = change.mark,
         .what = is_over ? fmt::format("on day {} that stay is over: it ends on day {}",
                                       change.day + 1, leaves + 1)
                         : fmt::format("on day {} there have been {} nights of that stay",
                                       change.day + 1, change.day - arrives),
         .expected = is_over ? "a stay that is still to come, or under way" : "that many or more",
         .hint = "days gone by are told by readings"});
  }

  /// Waits that are still to come, or of which no reading says yet how they went.
  void wait_as_said() {
    for (const plan::Change& change : plan_.changes) {
      const std::pair evening{change.day, plan::evening_h};
      const bool is_known = std::ranges::any_of(plan_.readings, [&](const plan::Reading& reading) {
        return reading.at && reading.moment() > evening;
      });
      if (change.wait_days == 0 || is_known) continue;
      out_.gone.halts.push_back(
          {.at_h = day_h * change.day + plan::evening_h, .halt_h = day_h * change.wait_days});
    }
    std::ranges::stable_sort(out_.gone.halts, {}, &Detour::at_h);
  }

  /// Halts where the party was found, so that it goes on in the first morning after the reading.
  void wait(const plan::Whereabouts& where, const Visit& visit, const Window& window) {
    double halt_h = day_h * std::ceil(window.late_h(visit) / day_h);
    const double next_morning_h =
        day_h * (std::floor(window.from_h / day_h) + 1) + plan_.trip.driving.depart_h;
    if (where.after_km) {
      const bool in_the_evening = window.until_h > window.from_h;
      halt_h = in_the_evening ? next_morning_h - visit.leaves_h : window.late_h(visit);
    }
    out_.gone.halts.push_back({.at_h = visit.leaves_h, .halt_h = halt_h});
    lay();
  }

  /// Of all visits since the last reading the one in time; else the one for which the party is
  /// least late, for delays are common; else the one for which it is least early.
  [[nodiscard]] std::optional<Visit> nearest_visit(const plan::Whereabouts& where,
                                                   const Window& window) const {
    std::optional<Visit> best;
    for (const Visit& visit : where.after_km ? passages(where) : visits(where.place)) {
      if (visit.leaves_h < since_h_ - tiny_h) continue;
      if (!best || rank(window, visit) < rank(window, *best)) best = visit;
    }
    return best;
  }

  static std::pair<int, double> rank(const Window& window, const Visit& visit) {
    if (window.late_h(visit) > tiny_h) return {1, window.late_h(visit)};
    if (window.early_h(visit) > tiny_h) return {2, window.early_h(visit)};
    return {0, 0};
  }

  static double begins_h(const Segment& segment) { return day_h * segment.day + segment.from_h; }
  static double ends_h(const Segment& segment) { return day_h * segment.day + segment.to_h; }

  [[nodiscard]] std::vector<Visit> visits(int place) const {
    std::vector<Visit> out;
    bool there = false;
    for (const Segment& segment : schedule_.segments) {
      const bool now = segment.drive < 0 && place_at(segment.begin) == place;
      if (now && !there) out.push_back({.arrives_h = begins_h(segment)});
      if (now) out.back().leaves_h = ends_h(segment);
      there = now;
    }
    // Once there at the end, people stay.
    if (there) out.back().leaves_h = day_h * static_cast<double>(schedule_.days.size());
    return out;
  }

  /// When so much of a drive to the place had been driven, and how long the party camped there.
  [[nodiscard]] std::vector<Visit> passages(const plan::Whereabouts& where) const {
    std::vector<Visit> out;
    bool camps = false;
    for (const Segment& segment : schedule_.segments) {
      if (segment.drive < 0) {
        if (camps) out.back().leaves_h = ends_h(segment);
        continue;
      }
      camps = false;
      const auto& drive = std::get<plan::Drive>(plan_.itinerary[at(segment.drive)]);
      if (drive.to != where.place) continue;
      const double end_km = segment.end.to == segment.end.from && segment.end.share <= 0
                                ? drive.distance_km
                                : segment.end.share * drive.distance_km;
      const double begin_km = end_km - segment.distance_km;
      const double after_km = *where.after_km;
      const bool at_end = std::abs(end_km - after_km) <= near_km;
      if (!at_end && (after_km < begin_km || after_km > end_km)) continue;
      const double share = std::clamp((after_km - begin_km) / segment.distance_km, 0.0, 1.0);
      const double when_h =
          at_end ? ends_h(segment) : begins_h(segment) + share * (segment.to_h - segment.from_h);
      out.push_back({.arrives_h = when_h, .leaves_h = when_h});
      camps = at_end;
    }
    return out;
  }

  /// Leaves out one night of the last stay before a visit that has one left. The calendar must have
  /// had it since the last reading.
  bool leave_a_night_out(const Visit& visit) {
    auto& left_out = out_.gone.nights_left_out;
    left_out.resize(plan_.itinerary.size());
    for (int item = item_before(visit.arrives_h); item >= item_before(since_h_); --item) {
      const auto* stay = std::get_if<plan::Stay>(&plan_.itinerary[at(item)]);
      if (stay == nullptr || left_out[at(item)] >= stay->nights) continue;
      ++left_out[at(item)];
      return true;
    }
    return false;
  }

  /// The itinerary's last drive that is under way or over at a moment, and 0 before the first.
  [[nodiscard]] int item_before(double moment_h) const {
    int item = 0;
    for (const Segment& segment : schedule_.segments) {
      if (begins_h(segment) >= moment_h - tiny_h) break;
      item = std::max(item, segment.drive);
    }
    return item;
  }

  [[nodiscard]] std::string place_name(const plan::Reading& reading) const {
    return plan_.places[at(reading.at->place)].name;
  }

  [[nodiscard]] plan::Diagnostic never_there(const plan::Reading& reading) const {
    return {
        .mark = reading.mark,
        .what = fmt::format("nobody can be {} {} on day {}", reading.at->after_km ? "near" : "at",
                            units::in_quotes(place_name(reading)), reading.day + 1),
        .expected = "a place that the trip reaches by then",
        .hint = "is it another place, or another day?"};
  }

  [[nodiscard]] plan::Diagnostic over(const plan::Reading& reading) const {
    return {
        .mark = reading.mark,
        .what = fmt::format("a reading on day {}, but the trip ends on day {}", reading.day + 1,
                            schedule_.days.size()),
        .expected = "a day of the trip",
        .hint = reading.at ? "" : "who is late says where: \"at\", or \"towards\" and \"after\""};
  }

  const plan::Plan& plan_;
  Almanac* almanac_;
  WayTaken out_;
  Schedule schedule_;
  double since_h_ = 0;  ///< the last reading
};

}  // namespace

WayTaken way_taken(const plan::Plan& plan, Almanac* almanac) {
  if (plan.readings.empty() && plan.changes.empty()) return {};
  return WayFollower(plan, almanac).follow();
}

}  // namespace drystage::engine
