#include "engine/calendar.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include "engine/calendar_checks.h"
#include "engine/empty_axles.h"
#include "engine/fuel_checks.h"
#include "engine/opening.h"
#include "engine/party.h"
#include "engine/surfaces.h"
#include "engine/way_gone.h"
#include "models/altitude.h"
#include "units/index.h"

namespace drystage::engine {
namespace {

/// Climb and descent of a whole drive: as given, else what the places' elevations make of it.
struct Hills {
  double climb_m = 0;
  double descent_m = 0;
};

Hills hills(const plan::Plan& plan, const plan::Drive& drive, int origin) {
  const double rise_m = plan.places[static_cast<std::size_t>(drive.to)].elevation_m -
                        plan.places[static_cast<std::size_t>(origin)].elevation_m;
  if (drive.climb_m && drive.descent_m) return {*drive.climb_m, *drive.descent_m};
  if (drive.climb_m) return {*drive.climb_m, std::max(0.0, *drive.climb_m - rise_m)};
  if (drive.descent_m) return {std::max(0.0, *drive.descent_m + rise_m), *drive.descent_m};
  return {std::max(0.0, rise_m), std::max(0.0, -rise_m)};
}

class Layer {
 public:
  Layer(const plan::Plan& plan, const CalendarLayout& layout, Calendar& out)
      : plan_(plan), layout_(layout), most_step_h_(layout.most_step_h), out_(out) {}

  void lay() {
    if (layout_.same != nullptr) take_same_days(*layout_.same);
    if (layout_.same != nullptr) {
      out_.gone = layout_.same->gone;
    } else {
      WayTaken taken = way_taken(plan_, layout_.almanac);
      out_.gone = std::move(taken.gone);
      out_.problems = std::move(taken.problems);
      if (!out_.problems.empty()) return;
    }
    const Schedule schedule = lay_out(plan_, layout_.detours, layout_.almanac, out_.gone);
    CompanyOnTheWay company = company_on_the_way(plan_, schedule);
    out_.companies = std::move(company.companies);
    for (const Event& event : schedule.events) {
      if (event.day >= same_days()) out_.events.push_back(event);
    }
    for (const Event& event : company.events) {
      if (event.day >= same_days()) out_.events.push_back(event);
    }
    out_.problems = calendar_problems(plan_, schedule, same_days());
    if (layout_.same == nullptr && out_.problems.empty()) add_plan_problems();
    if (!out_.problems.empty()) return;
    measure_meals(schedule);
    for (std::size_t d = out_.days.size(); d < schedule.days.size(); ++d) {
      add_day(schedule.days[d]);
    }
    for (std::size_t s = 0; s < schedule.segments.size(); ++s) {
      company_ = company.of_segment[s];
      if (schedule.segments[s].day >= same_days()) add_segment(schedule.segments[s]);
    }
    add_legs();
    close_days();
    mark_camps();
  }

 private:
  void add_plan_problems() {
    out_.problems = fuel_problems(plan_);
    std::ranges::move(mass_problems(plan_), std::back_inserter(out_.problems));
  }

  [[nodiscard]] int same_days() const { return layout_.same == nullptr ? 0 : layout_.same_days; }

  /// Takes the days before the first one that differs from another calendar.
  void take_same_days(const Calendar& same) {
    const auto days = std::min(static_cast<std::size_t>(layout_.same_days), same.days.size());
    out_.days.assign(same.days.begin(), same.days.begin() + static_cast<std::ptrdiff_t>(days));
    uses_.resize(days);
    const auto earlier = [this](const auto& thing) { return thing.day < layout_.same_days; };
    std::ranges::copy_if(same.steps, std::back_inserter(out_.steps), earlier);
    std::ranges::copy_if(same.place_days, std::back_inserter(out_.place_days), earlier);
    std::ranges::copy_if(same.party_days, std::back_inserter(out_.party_days), earlier);
    std::ranges::copy_if(same.events, std::back_inserter(out_.events), earlier);
    for (const TimeStep& step : out_.steps) {
      if (step.drive < 0) continue;
      out_.pieces.push_back(same.pieces[static_cast<std::size_t>(step.drive)]);
      legs_begun_ = step.leg + 1;
    }
    for (int l = 0; l < legs_begun_; ++l) {
      const Leg& leg = same.legs[static_cast<std::size_t>(l)];
      drives_.push_back({.item = leg.item, .from = leg.from, .company = leg.company});
      last_drive_ = leg.item;
      origin_ = leg.from;
    }
    same_steps_ = out_.steps.size();
  }

  void measure_meals(const Schedule& schedule) {
    // What a meal is stays what it was.
    if (layout_.same != nullptr) {
      out_.meal_kj = layout_.same->meal_kj;
    } else {
      std::vector<int> activities;
      for (const ScheduledDay& day : schedule.days) activities.push_back(day.activity);
      out_.meal_kj = three_meals_kj(plan_, activities) / 3;
    }
    three_meals_kj_ = 3 * out_.meal_kj;
  }

  const plan::Activity& activity(int index) const {
    return plan_.activities[static_cast<std::size_t>(index)];
  }

  void add_day(const ScheduledDay& day) {
    out_.days.push_back({.schedule = day});
    uses_.emplace_back();
  }

  /// Who are there now.
  [[nodiscard]] const std::vector<char>& people() const {
    return out_.companies[at(company_)].people;
  }
  [[nodiscard]] bool same_people(int company) const {
    return company == company_ || out_.companies[at(company)].people == people();
  }

  /// What is eaten, and used of utility water, in an hour of a day.
  struct UseByHour {
    int company = -1;
    double meals = 0;
    UtilityWater utility{};
  };
  const UseByHour& use_on(int day) {
    UseByHour& use = uses_[at(day)];
    if (use.company == company_) return use;
    const int its_activity = out_.days[at(day)].schedule.activity;
    const UtilityWater utility = party_utility(plan_, people(), day);
    use = {.company = company_,
           .meals = party_meals_day(plan_, activity(its_activity), three_meals_kj_, people()) / 24,
           .utility = {.all_l = utility.all_l / 24, .potable_l = utility.potable_l / 24}};
    return use;
  }

  /// The place day of a day and a spot, made when first asked for.
  int place_day(int day, const RoutePoint& spot) {
    const int climate = climate_at(plan_, spot);
    const int place = place_at(spot);
    for (int h = static_cast<int>(out_.place_days.size()) - 1; h >= 0; --h) {
      const PlaceDay& known = out_.place_days[static_cast<std::size_t>(h)];
      if (known.day != day) break;
      if (known.climate == climate && known.place == place && same_people(known.company)) return h;
    }
    Position at = position(plan_, spot);
    // Of a day on the road the higher end counts: this is asked for where the day begins.
    if (place < 0) {
      for (const int end : {spot.from, spot.to}) {
        at.elevation_m =
            std::max(at.elevation_m, plan_.places[static_cast<std::size_t>(end)].elevation_m);
      }
    }
    const plan::Date date = out_.days[static_cast<std::size_t>(day)].schedule.date;
    out_.place_days.push_back(
        {.day = day,
         .climate = climate,
         .place = place,
         .at = at,
         .utility_l = party_utility_l_day(plan_, people()),
         .meals = party_meals_day(plan_, activity(plan_.camp_activity), three_meals_kj_, people()),
         .company = company_,
         .people = how_many(people()),
         .mains = has_mains(place, date)});
    const int added = static_cast<int>(out_.place_days.size()) - 1;
    out_.place_days.back().camp = party_day(added, plan_.camp_activity);
    return added;
  }

  /// Mains to be had there that day, and a charger that takes it.
  [[nodiscard]] bool has_mains(int place, plan::Date date) const {
    const auto takes_mains = [](const plan::Charger& charger) {
      return charger.kind == plan::ChargerKind::mains &&
             (charger.current_a > 0 || charger.power_w > 0);
    };
    if (place < 0 || std::ranges::none_of(plan_.power.chargers, takes_mains)) return false;
    const auto& supplies = plan_.places[static_cast<std::size_t>(place)].supplies;
    const auto mains =
        std::ranges::find(supplies, plan::Commodity::mains, &plan::Supply::commodity);
    return mains != supplies.end() && is_open(*mains, date);
  }

  /// Whether people need the same at the elevations of two places.
  static bool as_high(const Position& a, const Position& b) {
    return std::max(a.elevation_m, models::lowest_altitude_m) ==
           std::max(b.elevation_m, models::lowest_altitude_m);
  }

  /// The party day of a place day and an activity. Two places in one climate, as high as each
  /// other, share it.
  int party_day(int place_day, int activity) {
    const PlaceDay& its = out_.place_days[static_cast<std::size_t>(place_day)];
    for (int p = static_cast<int>(out_.party_days.size()) - 1; p >= 0; --p) {
      const PartyDay& known = out_.party_days[static_cast<std::size_t>(p)];
      if (known.day != its.day) break;
      const PlaceDay& other = out_.place_days[static_cast<std::size_t>(known.place_day)];
      if (other.climate != its.climate || known.activity != activity) continue;
      if (out_.companies[at(other.company)].people != out_.companies[at(its.company)].people)
        continue;
      if (as_high(other.at, its.at)) return p;
    }
    out_.party_days.push_back({.day = its.day, .place_day = place_day, .activity = activity});
    return static_cast<int>(out_.party_days.size()) - 1;
  }

  void add_segment(const Segment& segment) {
    out_.days[static_cast<std::size_t>(segment.day)].night_m =
        position(plan_, segment.end).elevation_m;
    double from = segment.from_h;
    bool first = true;
    const double whole_h = segment.to_h - segment.from_h;
    // A stop that takes no time still happens, in a step of no length; and what is taken on where
    // the trip begins is on board before anything is used, however long it takes.
    const bool outset = segment.day == 0 && from <= 0;
    if (segment.resupply >= 0 && (outset || whole_h <= tiny_h)) {
      TimeStep stop = blank_step(segment, segment.begin, from);
      stop.stop = segment.resupply;
      out_.steps.push_back(stop);
      first = false;
    }
    while (from < segment.to_h - tiny_h) {
      // Steps end on the hour (or its parts), so that weather by the hour falls into them whole.
      const double next = (std::floor(from / most_step_h_ + tiny_h) + 1) * most_step_h_;
      const double to = std::min(segment.to_h, next);
      const double share = whole_h > 0 ? ((from + to) / 2 - segment.from_h) / whole_h : 0;
      add_step(segment, between(segment, share), from, to, whole_h, first);
      from = to;
      first = false;
    }
  }

  static RoutePoint between(const Segment& segment, double share) {
    if (segment.drive < 0) return segment.begin;
    RoutePoint spot = segment.end;
    spot.share = segment.begin.share + (segment.end.share - segment.begin.share) * share;
    return spot;
  }

  TimeStep blank_step(const Segment& segment, const RoutePoint& spot, double from) {
    TimeStep step{.day = segment.day, .from_h = from, .company = company_};
    step.place_day = place_day(segment.day, spot);
    step.dark_h = from - out_.days[static_cast<std::size_t>(segment.day)].schedule.sunset_h;
    const bool under_way = place_at(segment.begin) < 0;
    step.leg = under_way ? legs_begun_ - 1 : legs_begun_;
    return step;
  }

  void add_step(const Segment& segment, const RoutePoint& spot, double from, double to,
                double whole_h, bool first) {
    TimeStep step = blank_step(segment, spot, from);
    const auto day = static_cast<std::size_t>(segment.day);
    const UseByHour& use = use_on(segment.day);
    step.dt_h = to - from;
    step.meals = use.meals * step.dt_h;
    step.utility_l = use.utility.all_l * step.dt_h;
    step.potable_utility_l = use.utility.potable_l * step.dt_h;
    step.party_day = party_day(step.place_day, out_.days[day].schedule.activity);
    if (first) step.stop = segment.resupply;
    if (segment.drive >= 0) add_road(segment, spot, step, whole_h);
    out_.steps.push_back(step);
  }

  void add_road(const Segment& segment, const RoutePoint& spot, TimeStep& step, double whole_h) {
    const auto& drive =
        std::get<plan::Drive>(plan_.itinerary[static_cast<std::size_t>(segment.drive)]);
    const plan::SurfacePart& part = drive.surfaces[static_cast<std::size_t>(segment.part)];
    if (segment.drive != last_drive_) {
      last_drive_ = segment.drive;
      origin_ = spot.from;
      drives_.push_back({.item = segment.drive, .from = origin_, .company = company_});
      ++legs_begun_;
    }
    step.ground = segment.part;
    step.leg = legs_begun_ - 1;
    step.distance_km = segment.distance_km * step.dt_h / whole_h;
    step.drive = static_cast<int>(out_.pieces.size());
    out_.pieces.push_back(
        piece(drive, origin_, part, step.distance_km, position(plan_, spot).elevation_m));
  }

  RoadPiece piece(const plan::Drive& drive, int origin, const plan::SurfacePart& part,
                  double distance_km, double elevation_m) const {
    const Hills whole = hills(plan_, drive, origin);
    const double share = distance_km / drive.distance_km;
    return {.surface = part.surface,
            .speed_km_h = speed_km_h(part, plan_.trip.driving),
            .distance_km = distance_km,
            .climb_m = whole.climb_m * share,
            .descent_m = whole.descent_m * share,
            .steepness = drive.kind.steepness.value_or(models::usual_steepness),
            .headwind_m_s = drive.kind.headwind_m_s,
            .tyres = drive.kind.tyres,
            .elevation_m = elevation_m,
            .fuel_factor = part.fuel_factor};
  }

  void close_days() {
    int ground = same_steps_ > 0 ? out_.steps[same_steps_ - 1].ground : -1;
    for (std::size_t s = same_steps_; s < out_.steps.size(); ++s) {
      TimeStep& step = out_.steps[s];
      step.index = s;
      if (step.drive >= 0) {
        ground = out_.legs[static_cast<std::size_t>(step.leg)].first_ground + step.ground;
      }
      step.ground = ground;
      step.last_of_day = s + 1 == out_.steps.size() || out_.steps[s + 1].day != step.day;
      if (s == 0 || out_.steps[s - 1].day != step.day) {
        out_.days[static_cast<std::size_t>(step.day)].first_step = static_cast<int>(s);
      }
    }
  }

  /// In camp is whoever does not drive, but between two drives of one day.
  void mark_camps() {
    for (std::size_t s = same_steps_; s < out_.steps.size();) {
      std::size_t end = s;
      std::size_t first = out_.steps.size();
      std::size_t last = s;
      for (; end < out_.steps.size() && out_.steps[end].day == out_.steps[s].day; ++end) {
        if (out_.steps[end].drive < 0) continue;
        first = std::min(first, end);
        last = end;
      }
      for (; s < end; ++s) out_.steps[s].camp = s < first || s > last;
    }
  }

  void add_legs() {
    int ground = 0;
    for (const auto& [item, origin, company] : drives_) {
      const auto& drive = std::get<plan::Drive>(plan_.itinerary[static_cast<std::size_t>(item)]);
      Leg leg{.item = item,
              .from = origin,
              .parts = {},
              .first_ground = ground,
              .company = company,
              .distance_km = drive.distance_km};
      ground += static_cast<int>(drive.surfaces.size());
      const double elevation_m =
          position(plan_, {.from = origin, .to = drive.to, .share = 0.5}).elevation_m;
      for (const plan::SurfacePart& part : drive.surfaces) {
        leg.parts.push_back(piece(drive, origin, part, part.distance_km, elevation_m));
      }
      out_.legs.push_back(leg);
    }
  }

  const plan::Plan& plan_;
  const CalendarLayout& layout_;
  double most_step_h_;
  Calendar& out_;
  std::size_t same_steps_ = 0;
  double three_meals_kj_ = 0;
  std::vector<UseByHour> uses_;  ///< by day, of those who were asked for last
  struct Begun {
    int item = 0;
    int from = 0;
    int company = 0;
  };
  std::vector<Begun> drives_;
  int company_ = 0;
  int last_drive_ = -1;
  int origin_ = 0;
  int legs_begun_ = 0;
};

/// The things that have a day within days, of things that are day by day.
template <class Things>
IndexRange within(const Things& things, const IndexRange& days) {
  const auto first_of = [&things](std::size_t day) {
    const auto at = std::ranges::partition_point(
        things, [day](const auto& thing) { return thing.day < static_cast<int>(day); });
    return static_cast<std::size_t>(at - things.begin());
  };
  return {.from = first_of(days.from), .until = first_of(days.until)};
}

}  // namespace

IndexRange steps_of_days(const Calendar& calendar, int from_day, int until_day) {
  return within(calendar.steps, {.from = static_cast<std::size_t>(from_day),
                                 .until = static_cast<std::size_t>(until_day)});
}

IndexRange days_of_steps(const Calendar& calendar, const IndexRange& steps) {
  if (steps.from >= steps.until) return {};
  return {.from = static_cast<std::size_t>(calendar.steps[steps.from].day),
          .until = static_cast<std::size_t>(calendar.steps[steps.until - 1].day) + 1};
}

IndexRange place_days_of(const Calendar& calendar, const IndexRange& days) {
  return within(calendar.place_days, days);
}

IndexRange party_days_of(const Calendar& calendar, const IndexRange& days) {
  return within(calendar.party_days, days);
}

std::size_t step_at(const Calendar& calendar, int day, double hour) {
  const auto at = std::ranges::partition_point(calendar.steps, [&](const TimeStep& step) {
    return step.day < day || (step.day == day && step.from_h < hour - tiny_h);
  });
  return static_cast<std::size_t>(at - calendar.steps.begin());
}

std::size_t step_of(const plan::Reading& reading, const Calendar& calendar) {
  std::size_t step = step_at(calendar, reading.day, reading.hour);
  if (!reading.in_the_evening) return step;
  for (std::size_t s = step; s < calendar.steps.size(); ++s) {
    if (calendar.steps[s].day != reading.day) break;
    if (calendar.steps[s].drive >= 0) step = s + 1;
  }
  return step;
}

Calendar lay_calendar(const plan::Plan& plan, const CalendarLayout& layout) {
  Calendar calendar;
  Layer(plan, layout, calendar).lay();
  return calendar;
}

}  // namespace drystage::engine
