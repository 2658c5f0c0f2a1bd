#include "engine/company.h"

#include <algorithm>

#include "engine/schedule.h"
#include "units/index.h"

namespace drystage::engine {
namespace {

using plan::Along;

/// Whoever has gone home does not come again.
enum class Stage : char { to_come, there, gone };

class Follower {
 public:
  Follower(const plan::Plan& plan, CompanyOnTheWay& out) : plan_(plan), out_(out) {
    const std::size_t vehicles = plan.vehicles.size();
    now_.vehicles.assign(vehicles, 1);
    now_.parted.assign(vehicles, 0);
    now_.trailers.assign(vehicles, 0);
    now_.people.assign(plan.people.size(), 1);
    vehicles_.assign(vehicles, Stage::there);
    people_.assign(plan.people.size(), Stage::there);
    for (std::size_t v = 0; v < vehicles; ++v) {
      if (!plan.vehicles[v].along.from.is_said()) continue;
      vehicles_[v] = Stage::to_come;
      now_.parted[v] = 1;
    }
    for (std::size_t p = 0; p < plan.people.size(); ++p) {
      if (!plan.people[p].along.from.is_said()) continue;
      people_[p] = Stage::to_come;
      now_.people[p] = 0;
    }
  }

  void follow(const Segment& segment) {
    const bool first = out_.of_segment.empty();
    const int place = place_at(segment.begin);
    const bool arrived = place >= 0 && (first || on_the_road_);
    const bool another_day = first || segment.day != day_;
    day_ = segment.day;
    hour_ = segment.from_h;
    if (another_day) meet(-1, first);
    if (arrived) {
      pick_up(place);
      meet(place, first);
    }
    if (segment.drive >= 0 && (segment.drive != drive_ || arrived)) set_out(segment, place);
    on_the_road_ = segment.drive >= 0;
    drive_ = segment.drive >= 0 ? segment.drive : drive_;
    for (std::size_t v = 0; v < now_.vehicles.size(); ++v) {
      now_.vehicles[v] = now_.parted[v] == 0 && !stands(v) ? 1 : 0;
      now_.trailers[v] =
          is_left([&](const Left& left) { return has(left.what.trailers, v); }) ? 1 : 0;
    }
    if (out_.companies.empty() || out_.companies.back() != now_) out_.companies.push_back(now_);
    out_.of_segment.push_back(static_cast<int>(out_.companies.size()) - 1);
  }

 private:
  struct Left {
    int place = 0;
    int drive = 0;  ///< itinerary index of the drive that leaves it
    plan::Things what;
  };

  static bool has(const std::vector<int>& list, std::size_t index) {
    return std::ranges::find(list, static_cast<int>(index)) != list.end();
  }
  template <class Is>
  [[nodiscard]] bool is_left(const Is& is) const {
    return std::ranges::any_of(left_, is);
  }

  /// Whether a vehicle is left standing somewhere.
  [[nodiscard]] bool stands(std::size_t vehicle) const {
    return is_left([&](const Left& left) { return has(left.what.vehicles, vehicle); });
  }

  void tell(EventKind kind, int subject, int place = -1) {
    // What is so from the outset happens to nobody.
    if (day_ == 0 && hour_ <= 0) return;
    out_.events.push_back({.kind = kind,
                           .day = static_cast<std::int16_t>(day_),
                           .hour = hour_,
                           .subject = subject,
                           .other = static_cast<double>(place)});
  }

  /// As a day begins (no place), or on arrival at a place: who is due.
  void meet(int place, bool first) {
    // What is left standing elsewhere does not come to a place; nor is it gone home to from there.
    for (std::size_t v = 0; v < vehicles_.size(); ++v) {
      if (place >= 0 && vehicles_[v] == Stage::there && stands(v)) continue;
      if (!move_on(plan_.vehicles[v].along, vehicles_[v], place, first)) continue;
      now_.parted[v] = vehicles_[v] == Stage::there ? 0 : 1;
      tell(now_.parted[v] == 0 ? EventKind::vehicle_joins : EventKind::vehicle_leaves,
           static_cast<int>(v));
    }
    for (std::size_t p = 0; p < people_.size(); ++p) {
      const auto ride = at(plan_.people[p].vehicle);
      const bool with_vehicle = ride < vehicles_.size() &&
                                !plan_.people[p].along.is_all_the_way() &&
                                plan_.people[p].along == plan_.vehicles[ride].along;
      if (place >= 0 && with_vehicle && people_[p] == Stage::there && stands(ride)) continue;
      if (!move_on(plan_.people[p].along, people_[p], place, first)) continue;
      const bool there = people_[p] == Stage::there;
      now_.people[p] = there ? 1 : 0;
      tell(there ? EventKind::person_joins : EventKind::person_leaves, static_cast<int>(p));
    }
  }

  /// Whether one of them goes on to the next stage.
  bool move_on(const Along& along, Stage& stage, int place, bool first) const {
    const auto is_due = [&](const plan::Moment& moment, int day) {
      return place >= 0 ? moment.place == place : moment.day >= 0 && moment.day <= day;
    };
    if (stage == Stage::there && !first && is_due(along.until, day_ - 1)) {
      stage = Stage::gone;
    } else if (stage == Stage::to_come && is_due(along.from, day_)) {
      stage = Stage::there;
    } else {
      return false;
    }
    return true;
  }

  void pick_up(int place) {
    for (const Left& left : left_) {
      if (left.place == place) tell(EventKind::picked_up, left.drive, place);
    }
    std::erase_if(left_, [&](const Left& left) { return left.place == place; });
    gather_left();
  }

  void set_out(const Segment& segment, int place) {
    const auto& drive = std::get<plan::Drive>(plan_.itinerary[at(segment.drive)]);
    if (place < 0 || drive.leaves.empty()) return;
    left_.push_back({.place = place, .drive = segment.drive, .what = drive.leaves});
    tell(EventKind::left_behind, segment.drive, place);
    gather_left();
  }

  void gather_left() {
    now_.left_by.clear();
    for (const Left& left : left_) now_.left_by.push_back(left.drive);
  }

  const plan::Plan& plan_;
  CompanyOnTheWay& out_;
  Company now_;
  std::vector<Left> left_;
  std::vector<Stage> vehicles_;
  std::vector<Stage> people_;
  int day_ = 0;
  double hour_ = 0;
  int drive_ = -1;
  bool on_the_road_ = false;
};

}  // namespace

CompanyOnTheWay company_on_the_way(const plan::Plan& plan, const Schedule& schedule) {
  CompanyOnTheWay out;
  Follower follower(plan, out);
  out.of_segment.reserve(schedule.segments.size());
  for (const Segment& segment : schedule.segments) follower.follow(segment);
  return out;
}

int ride_of(const plan::Plan& plan, const Company& company, std::size_t person) {
  if (company.people[person] == 0) return -1;
  const int own = plan.people[person].vehicle;
  if (at(own) >= company.vehicles.size() || company.vehicles[at(own)] != 0) return own;
  const auto drives = std::ranges::find(company.vehicles, 1);
  return drives == company.vehicles.end() ? own
                                          : static_cast<int>(drives - company.vehicles.begin());
}

}  // namespace drystage::engine
