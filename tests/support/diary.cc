#include "support/diary.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/route_point.h"
#include "support/laid_out.h"
#include "support/ways_home.h"

namespace drystage::support {
namespace {

using engine::Timeline;
using engine::TimeStep;

constexpr double tiny = 1e-6;

double trip_h(const TimeStep& step) { return day_h * step.day + step.from_h; }

/// The first `km` of a drive.
plan::Drive cut(const plan::Drive& drive, double km, int to) {
  plan::Drive out = drive;
  const double share = km / drive.distance_km;
  out.to = to;
  out.distance_km = km;
  out.surfaces.clear();
  for (plan::SurfacePart part : drive.surfaces) {
    part.distance_km = std::min(part.distance_km, km);
    km -= part.distance_km;
    if (part.distance_km > 0) out.surfaces.push_back(part);
  }
  if (out.climb_m) *out.climb_m *= share;
  if (out.descent_m) *out.descent_m *= share;
  return out;
}

}  // namespace

Diary::Diary(const plan::Plan& plan, const Timeline& timeline, std::size_t step, double hour,
             Height height)
    : plan_(plan), timeline_(timeline), step_(timeline.steps[step]), height_(height), out_(plan) {
  at_h_ = day_h * step_.day + hour;
  for (std::size_t s = 0; s <= step; ++s) {
    const TimeStep& now = timeline.steps[s];
    const double share = std::min(1.0, (at_h_ - trip_h(now)) / std::max(now.dt_h, tiny));
    if (now.drive < 0 || share <= 0) continue;
    if (now.leg != last_leg_) done_km_ = 0;
    last_leg_ = now.leg;
    done_km_ += now.distance_km * share;
  }
  out_.itinerary.clear();
  write_way_out();
  wait();
}

plan::Plan Diary::back_to(int leg, int nights) const {
  std::vector<plan::Drive> home;
  if (leg <= last_leg_) {
    const auto leg_of = [&](int l) -> const engine::Leg& {
      return timeline_.legs[static_cast<std::size_t>(l)];
    };
    const engine::Leg& last = leg_of(last_leg_);
    const int ahead = drive_of(last).to;
    const KnownRoads roads(plan_, leg, under_way() ? last_leg_ : last_leg_ + 1);
    const auto then_home = [&](std::vector<plan::Drive> drives, int from) {
      const auto rest = roads.shortest(from, leg_of(leg).from);
      if (!rest) return std::vector<plan::Drive>{};
      drives.insert(drives.end(), rest->begin(), rest->end());
      return drives;
    };
    if (under_way()) {
      for (int to : way_points_) home.push_back(turned(pieces_.at(to), to));
      home = then_home(std::move(home), last.from);
      const auto on = ahead == last.from ? std::vector<plan::Drive>{} : then_home(on_, ahead);
      if (!on.empty() && km(on) < km(home)) home = on;
    } else {
      home = then_home({}, ahead);
    }
  }
  plan::Plan out = out_;
  const int outset = timeline_.days.front().schedule.from.from;
  const int here =
      last_leg_ < 0 ? outset : drive_of(timeline_.legs[static_cast<std::size_t>(last_leg_)]).to;
  const std::vector<plan::ItineraryItem> way =
      with_limited_stops(plan_, under_way() ? -1 : here, home);
  out.itinerary.insert(out.itinerary.end(), way.begin(), way.end());
  if (nights > 0) out.itinerary.emplace_back(plan::Stay{.nights = nights, .activity = {}});
  return out;
}

std::size_t Diary::first_step(const Timeline& own) const {
  const bool stop_done = step_.stop < 0;
  const auto found = std::ranges::find_if(own.steps, [&](const TimeStep& step) {
    const bool on_the_way_out = step.stop < first_home_item();
    return trip_h(step) > at_h_ - tiny && !(stop_done && on_the_way_out && step.dt_h <= 0);
  });
  return static_cast<std::size_t>(found - own.steps.begin());
}

const plan::Drive& Diary::drive_of(const engine::Leg& leg) const {
  return std::get<plan::Drive>(plan_.itinerary[static_cast<std::size_t>(leg.item)]);
}

bool Diary::under_way() const {
  if (last_leg_ < 0) return false;
  return done_km_ < timeline_.legs[static_cast<std::size_t>(last_leg_)].distance_km - tiny;
}

void Diary::write_way_out() {
  int leg = 0;
  for (std::size_t i = 0; i < plan_.itinerary.size(); ++i) {
    const plan::ItineraryItem& item = plan_.itinerary[i];
    if (const auto* drive = std::get_if<plan::Drive>(&item)) {
      if (leg > last_leg_) return;
      clock_h_ = end_of_leg(leg);
      if (leg++ == last_leg_ && under_way()) return drive_part_of(*drive);
      activity_.reset();
    } else if (const auto* stay = std::get_if<plan::Stay>(&item)) {
      const double end_h = day_h * (std::floor(clock_h_ / day_h) + stay->nights);
      activity_ = stay->activity;
      if (end_h > at_h_ + tiny) return;
      clock_h_ = end_h;
    } else if (const auto* stop = std::get_if<plan::Resupply>(&item)) {
      const auto there = std::ranges::find(timeline_.steps, static_cast<int>(i), &TimeStep::stop);
      if (there == timeline_.steps.end() || trip_h(*there) > at_h_ + tiny) return;
      const double midnight = day_h * (there->day + 1);
      clock_h_ = std::min(trip_h(*there) + stop->takes_h, midnight);
    }
    out_.itinerary.push_back(item);
  }
}

/// When a leg ends, or is broken off.
double Diary::end_of_leg(int leg) const {
  double end_h = 0;
  for (const TimeStep& step : timeline_.steps) {
    if (trip_h(step) > at_h_ - tiny) break;
    if (step.drive >= 0 && step.leg == leg) end_h = trip_h(step) + step.dt_h;
  }
  return std::min(end_h, at_h_);
}

/// A place that is not in the plan, at a share of the way along the leg under way.
int Diary::place_on_the_way(const engine::Leg& leg, double share) {
  const engine::RoutePoint spot{.from = leg.from, .to = drive_of(leg).to, .share = share};
  const engine::Position at = engine::position(plan_, spot);
  plan::Place place;
  place.name = "on the way";
  place.latitude_deg = at.latitude_deg;
  place.longitude_deg = at.longitude_deg;
  place.elevation_m = at.elevation_m;
  if (height_ == Height::higher_end) {
    for (const int end : {spot.from, spot.to}) {
      place.elevation_m =
          std::max(place.elevation_m, plan_.places[static_cast<std::size_t>(end)].elevation_m);
    }
  }
  place.climate = engine::climate_at(plan_, spot);
  out_.places.push_back(place);
  return static_cast<int>(out_.places.size()) - 1;
}

/// Part of a leg. The nearer place's climate counts: where that changes half-way, there is a
/// place more, as far before the middle as the moment is behind it.
void Diary::drive_part_of(const plan::Drive& drive) {
  const engine::Leg& leg = timeline_.legs[static_cast<std::size_t>(last_leg_)];
  const double share = done_km_ / leg.distance_km;
  const int there = place_on_the_way(leg, share);
  const auto climate = [&](int place) {
    return plan_.places[static_cast<std::size_t>(place)].climate;
  };
  plan::Drive rest = cut(drive, done_km_, there);
  int from = leg.from;
  if (share > 0.5 && share < 1 && climate(leg.from) != climate(drive.to)) {
    const double first_km = (1 - share) * leg.distance_km;
    from = place_on_the_way(leg, 1 - share);
    const plan::Drive first = cut(drive, first_km, from);
    rest = turned(cut(turned(rest, from), done_km_ - first_km, from), there);
    out_.itinerary.emplace_back(first);
    pieces_[leg.from] = first;
    way_points_ = {from, leg.from};
  } else {
    way_points_ = {leg.from};
  }
  pieces_[from] = rest;
  out_.itinerary.emplace_back(rest);
  // What is left, from the other end.
  const plan::Drive back = cut(turned(drive, leg.from), leg.distance_km - done_km_, there);
  if (share > 0 && share < 0.5 && climate(leg.from) != climate(drive.to)) {
    const int beyond = place_on_the_way(leg, 1 - share);
    const plan::Drive last = cut(back, done_km_, beyond);
    const plan::Drive middle = cut(turned(back, drive.to), leg.distance_km - 2 * done_km_, beyond);
    on_ = {middle, turned(last, drive.to)};
  } else {
    on_ = {turned(back, drive.to)};
  }
}

/// Lets time pass until the moment; before the hour of departure that comes by itself.
void Diary::wait() {
  const int nights = step_.day - static_cast<int>(std::floor(clock_h_ / day_h + 1e-12));
  if (nights > 0) {
    out_.itinerary.emplace_back(plan::Stay{.nights = nights, .activity = activity_});
    clock_h_ = day_h * step_.day;
  }
  const bool setting_out = clock_h_ <= 0;
  const double depart_h = setting_out ? 0 : day_h * step_.day + plan_.trip.driving.depart_h;
  const double from_h = std::max(clock_h_, depart_h);
  if (at_h_ > from_h + tiny) {
    out_.itinerary.emplace_back(plan::Resupply{.orders = {}, .takes_h = at_h_ - from_h});
  }
}

}  // namespace drystage::support
