#include "engine/timeline.h"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "engine/calendar_checks.h"
#include "engine/drinking.h"
#include "engine/fuel_checks.h"
#include "engine/opening.h"
#include "engine/party.h"
#include "engine/roads.h"
#include "engine/water_loss.h"
#include "engine/weather_warnings.h"
#include "models/altitude.h"
#include "models/atmosphere.h"

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
  Layer(const plan::Plan& plan, const Layout& layout, Timeline& out)
      : plan_(plan), layout_(layout), most_step_h_(layout.most_step_h), out_(out) {}

  void lay() {
    if (layout_.same != nullptr) take_same_days(*layout_.same);
    std::vector<ScheduledDay> known;
    for (const DayInfo& day : out_.days) known.push_back(day.schedule);
    const Schedule schedule = lay_out(plan_, layout_.detours, known);
    for (const Event& event : schedule.events) {
      if (event.day >= same_days()) out_.events.push_back(event);
    }
    out_.problems = calendar_problems(plan_, schedule, same_days());
    if (layout_.same == nullptr && out_.problems.empty()) out_.problems = fuel_problems(plan_);
    if (!out_.problems.empty()) return;
    if (layout_.same == nullptr) out_.remarks = calendar_remarks(plan_, schedule);
    std::ranges::move(fuel_remarks(plan_), std::back_inserter(out_.remarks));
    measure_meals(schedule);
    measure_drinking(schedule);
    for (std::size_t d = out_.days.size(); d < schedule.days.size(); ++d) {
      add_day(schedule.days[d]);
    }
    for (const Segment& segment : schedule.segments) {
      if (segment.day >= same_days()) add_segment(segment);
    }
    add_legs();
    close_days();
  }

 private:
  [[nodiscard]] int same_days() const { return layout_.same == nullptr ? 0 : layout_.same_days; }

  /// Takes the days before the first one that differs from another timeline.
  void take_same_days(const Timeline& same) {
    const auto days = std::min(static_cast<std::size_t>(layout_.same_days), same.days.size());
    out_.days.assign(same.days.begin(), same.days.begin() + static_cast<std::ptrdiff_t>(days));
    meals_h_.resize(days);
    utility_h_.resize(days);
    const auto earlier = [this](const auto& thing) { return thing.day < layout_.same_days; };
    std::ranges::copy_if(same.steps, std::back_inserter(out_.steps), earlier);
    std::ranges::copy_if(same.place_days, std::back_inserter(out_.place_days), earlier);
    std::ranges::copy_if(same.events, std::back_inserter(out_.events), earlier);
    for (const TimeStep& step : out_.steps) {
      if (step.drive < 0) continue;
      out_.pieces.push_back(same.pieces[static_cast<std::size_t>(step.drive)]);
      legs_begun_ = step.leg + 1;
    }
    for (int l = 0; l < legs_begun_; ++l) {
      const Leg& leg = same.legs[static_cast<std::size_t>(l)];
      drives_.emplace_back(leg.item, leg.from);
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

  /// What was observed is of the plan as it was before anything came between.
  void measure_drinking(const Schedule& schedule) {
    const bool observed = std::ranges::any_of(
        plan_.people, [](const plan::Person& person) { return person.drinking_l_day.has_value(); });
    if (!observed) {
      out_.drinking_factors.assign(plan_.people.size(), 1);
      return;
    }
    const ScheduledDay first =
        layout_.detours.empty() ? schedule.days.front() : lay_out(plan_).days.front();
    out_.drinking_factors = drinking_factors(plan_, first);
    const auto remarks = drinking_remarks(plan_, first, out_.drinking_factors);
    out_.remarks.insert(out_.remarks.end(), remarks.begin(), remarks.end());
  }

  const plan::Activity& activity(int index) const {
    return plan_.activities[static_cast<std::size_t>(index)];
  }

  void add_day(const ScheduledDay& day) {
    DayInfo info{.schedule = day};
    info.max_c = -1e9;
    info.min_c = 1e9;
    out_.days.push_back(info);
    meals_h_.push_back(party_meals_day(plan_, activity(day.activity), three_meals_kj_) / 24);
    const UtilityWater utility = party_utility(plan_, static_cast<int>(out_.days.size()) - 1);
    utility_h_.push_back({.all_l = utility.all_l / 24, .potable_l = utility.potable_l / 24});
  }

  /// The PlaceDay of a day and a climate, made when first asked for.
  int place_day(int day, const Spot& spot) {
    const int climate = climate_at(plan_, spot);
    const int place = place_at(spot);
    for (int h = static_cast<int>(out_.place_days.size()) - 1; h >= 0; --h) {
      const PlaceDay& known = out_.place_days[static_cast<std::size_t>(h)];
      if (known.day != day) break;
      if (known.climate == climate && known.place == place) return h;
    }
    Position at = position(plan_, spot);
    // Of a day on the road the higher end counts: this is asked for where the day begins.
    if (place < 0) {
      for (const int end : {spot.from, spot.to}) {
        at.elevation_m =
            std::max(at.elevation_m, plan_.places[static_cast<std::size_t>(end)].elevation_m);
      }
    }
    add_place_day(day, climate, place, at);
    return static_cast<int>(out_.place_days.size()) - 1;
  }

  void add_place_day(int day, int climate, int place, const Position& at) {
    const DayInfo& info = out_.days[static_cast<std::size_t>(day)];
    PlaceDay today{.day = day, .climate = climate, .place = place, .latitude_deg = at.latitude_deg};
    today.weather = weather_day(*figures_on(plan_, climate, info.schedule.date), info.schedule.date,
                                at, plan_.trip.utc_offset_h);
    for (int h = 0; h < 24; ++h) {
      today.air_c.at(static_cast<std::size_t>(h)) = mean_air_c(today.weather, h, h + 1);
    }
    today.sunset_h = info.schedule.sunset_h;
    today.mean_c = day_mean_c(today.weather);
    today.mains = has_mains(place, info.schedule.date);
    out_.place_days.push_back(today);
    // Drinking by the hour at camp also makes the day's need.
    const PartyDay& camp = needs(static_cast<int>(out_.place_days.size()) - 1, plan_.camp_activity);
    PlaceDay& added = out_.place_days.back();
    for (const double litres : camp.drink_l_h) added.drink_l += litres;
    added.utility_l = party_utility_l_day(plan_);
    added.meals = party_meals_day(plan_, activity(plan_.camp_activity), three_meals_kj_);
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
  static bool as_high(const WeatherDay& a, const WeatherDay& b) {
    return std::max(a.elevation_m, models::lowest_altitude_m) ==
           std::max(b.elevation_m, models::lowest_altitude_m);
  }

  const PartyDay& needs(int index, int activity_index) {
    const PlaceDay& today = out_.place_days[static_cast<std::size_t>(index)];
    for (auto known = needs_.rbegin(); known != needs_.rend() && known->day == today.day; ++known) {
      const PlaceDay& other = out_.place_days[static_cast<std::size_t>(known->place_day)];
      if (other.climate == today.climate && known->activity == activity_index &&
          as_high(other.weather, today.weather)) {
        return *known;
      }
    }
    PartyDay needs{.day = today.day, .place_day = index, .activity = activity_index};
    const std::array<double, 24> loss_g_m2 =
        water_loss_g_m2(activity(activity_index), today.weather);
    needs.loss_g_m2 = day_loss_g_m2(loss_g_m2);
    needs.drink_l_h =
        party_drinking_l_h(plan_, loss_g_m2, today.weather.elevation_m, out_.drinking_factors);
    needs_.push_back(needs);
    return needs_.back();
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

  static Spot between(const Segment& segment, double share) {
    if (segment.drive < 0) return segment.begin;
    Spot spot = segment.end;
    spot.share = segment.begin.share + (segment.end.share - segment.begin.share) * share;
    return spot;
  }

  TimeStep blank_step(const Segment& segment, const Spot& spot, double from) {
    TimeStep step{.day = segment.day, .from_h = from};
    step.place_day = place_day(segment.day, spot);
    step.dark_h = from - out_.days[static_cast<std::size_t>(segment.day)].schedule.sunset_h;
    const bool under_way = place_at(segment.begin) < 0;
    step.leg = under_way ? legs_begun_ - 1 : legs_begun_;
    return step;
  }

  void add_step(const Segment& segment, const Spot& spot, double from, double to, double whole_h,
                bool first) {
    TimeStep step = blank_step(segment, spot, from);
    const auto day = static_cast<std::size_t>(segment.day);
    const PlaceDay& today = out_.place_days[static_cast<std::size_t>(step.place_day)];
    step.dt_h = to - from;
    step.air_c = mean_air_c(today.weather, from, to);
    step.meals = meals_h_[day] * step.dt_h;
    step.utility_l = utility_h_[day].all_l * step.dt_h;
    step.potable_utility_l = utility_h_[day].potable_l * step.dt_h;
    if (first) step.stop = segment.resupply;
    const PartyDay& hourly = needs(step.place_day, out_.days[day].schedule.activity);
    const auto hour = static_cast<std::size_t>(std::min(23.0, std::floor((from + to) / 2)));
    step.drink_l = hourly.drink_l_h.at(hour) * step.dt_h;
    if (segment.drive >= 0) add_road(segment, spot, step, whole_h);
    out_.days[day].max_c = std::max(out_.days[day].max_c, today.weather.max_c);
    out_.days[day].min_c = std::min(out_.days[day].min_c, today.weather.min_c);
    out_.days[day].mean_c += step.air_c * step.dt_h / 24;
    out_.steps.push_back(step);
  }

  void add_road(const Segment& segment, const Spot& spot, TimeStep& step, double whole_h) {
    const auto& drive =
        std::get<plan::Drive>(plan_.itinerary[static_cast<std::size_t>(segment.drive)]);
    const plan::SurfacePart& part = drive.surfaces[static_cast<std::size_t>(segment.part)];
    if (segment.drive != last_drive_) {
      last_drive_ = segment.drive;
      origin_ = spot.from;
      drives_.emplace_back(segment.drive, origin_);
      ++legs_begun_;
    }
    step.ground = segment.part;
    step.leg = legs_begun_ - 1;
    step.distance_km = segment.distance_km * step.dt_h / whole_h;
    step.drive = static_cast<int>(out_.pieces.size());
    out_.pieces.push_back(piece(drive, origin_, part, step.distance_km, step.air_c,
                                position(plan_, spot).elevation_m));
  }

  RoadPiece piece(const plan::Drive& drive, int origin, const plan::SurfacePart& part,
                  double distance_km, double air_c, double elevation_m) const {
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
            .air_density_kg_m3 = models::air_density_kg_m3(elevation_m, air_c),
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
    warn_of_weather(plan_, needs_, same_days(), out_);
  }

  void add_legs() {
    int ground = 0;
    for (const auto& [item, origin] : drives_) {
      const auto& drive = std::get<plan::Drive>(plan_.itinerary[static_cast<std::size_t>(item)]);
      Leg leg{.item = item,
              .from = origin,
              .parts = {},
              .first_ground = ground,
              .distance_km = drive.distance_km};
      ground += static_cast<int>(drive.surfaces.size());
      const double elevation_m =
          position(plan_, {.from = origin, .to = drive.to, .share = 0.5}).elevation_m;
      for (const plan::SurfacePart& part : drive.surfaces) {
        leg.parts.push_back(piece(drive, origin, part, part.distance_km,
                                  models::standard_temperature_c(elevation_m), elevation_m));
      }
      out_.legs.push_back(leg);
    }
  }

  const plan::Plan& plan_;
  const Layout& layout_;
  double most_step_h_;
  Timeline& out_;
  std::size_t same_steps_ = 0;
  double three_meals_kj_ = 0;
  std::vector<double> meals_h_;
  std::vector<UtilityWater> utility_h_;
  std::vector<PartyDay> needs_;
  std::vector<std::pair<int, int>> drives_;
  int last_drive_ = -1;
  int origin_ = 0;
  int legs_begun_ = 0;
};

}  // namespace

Timeline lay_timeline(const plan::Plan& plan, const Layout& layout) {
  Timeline timeline;
  Layer(plan, layout, timeline).lay();
  return timeline;
}

Timeline lay_timeline(const plan::Plan& plan, double most_step_h) {
  return lay_timeline(plan, Layout{.most_step_h = most_step_h});
}

std::size_t step_at(const Timeline& timeline, int day, double hour) {
  const auto at = std::ranges::partition_point(timeline.steps, [&](const TimeStep& step) {
    return step.day < day || (step.day == day && step.from_h < hour - tiny_h);
  });
  return static_cast<std::size_t>(at - timeline.steps.begin());
}

}  // namespace drystage::engine
