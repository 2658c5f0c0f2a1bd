#include "answers/weigh/weighing.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "answers/weigh/trailer_moves.h"
#include "engine/empty_axles.h"
#include "models/axle_load.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

using engine::Scale;
using engine::ScaleKind;

constexpr double slight_over_kg = 1e-6;

void add(Weighed& to, double kg, int day, bool first) {
  if (first || kg > to.most_kg) {
    to.most_kg = kg;
    to.most_day = day;
  }
  if (first || kg < to.least_kg) {
    to.least_kg = kg;
    to.least_day = day;
  }
  to.end_kg = kg;
  to.there = true;
}

/// Centres of gravity of one vehicle's own mass.
class Centres {
 public:
  Centres(const plan::Vehicle& vehicle, const Loads& loads)
      : vehicle_(vehicle), loads_(loads), empty_(engine::empty_axles(vehicle)) {}

  [[nodiscard]] std::optional<Centre> at_moment(std::size_t moment) const {
    if (!empty_) return std::nullopt;
    const std::optional<double> empty_height_m = vehicle_.chassis.centre_height_m;
    double kg = vehicle_.empty_kg + vehicle_.gear_kg;
    double along = empty_->rear_kg * *vehicle_.chassis.wheelbase_m +
                   vehicle_.gear_kg * engine::at_m(vehicle_, {});
    double up = kg * empty_height_m.value_or(0);
    double right = 0;
    for (std::size_t t = 0; t < loads_.things().size(); ++t) {
      const plan::Spot& spot = loads_.things()[t].spot;
      const double thing_kg = loads_.kg(t, moment);
      kg += thing_kg;
      along += thing_kg * engine::at_m(vehicle_, spot);
      up += thing_kg * engine::height_m(vehicle_, spot).value_or(empty_height_m.value_or(0));
      right += thing_kg * engine::right_m(vehicle_, spot);
    }
    Centre out{.behind_m = along / kg, .right_m = right / kg};
    if (empty_height_m) out.height_m = up / kg;
    if (out.height_m && vehicle_.chassis.track_m) {
      out.roll_deg =
          models::static_roll_angle_deg(*vehicle_.chassis.track_m, out.right_m, *out.height_m);
    }
    return out;
  }

 private:
  const plan::Vehicle& vehicle_;
  const Loads& loads_;
  std::optional<engine::EmptyAxles> empty_;
};

class Weigher {
 public:
  explicit Weigher(const PlanRun& planned) : planned_(planned), trace_(trace_of(planned)) {
    out_.scales = engine::scales_of(planned.plan, planned.course, true);
  }

  Weighing weighing() {
    for (std::size_t v = 0; v < planned_.plan.vehicles.size(); ++v) {
      const Loads loads(planned_, trace_, static_cast<int>(v));
      out_.vehicles.push_back(weigh_vehicle(loads));
      const bool over = std::ranges::any_of(out_.over, [&](const Overload& one) {
        return out_.scales[one.scale].vehicle == static_cast<int>(v);
      });
      out_.moves.push_back(over ? moves_of(loads) : Moves{});
    }
    std::ranges::stable_sort(out_.over, {},
                             [](const Overload& one) { return std::pair(one.day, one.hour); });
    return std::move(out_);
  }

 private:
  [[nodiscard]] double over_kg(int vehicle, ScaleKind kind) const {
    for (const Overload& one : out_.over) {
      const Scale& scale = out_.scales[one.scale];
      if (scale.vehicle == vehicle && scale.kind == kind) return one.kg;
    }
    return 0;
  }

  /// In the vehicle, and in its trailer.
  [[nodiscard]] Moves moves_of(const Loads& loads) const {
    Moves out = least_moves(planned_, trace_, loads, out_.scales);
    const plan::Vehicle& vehicle = planned_.plan.vehicles[at(loads.vehicle())];
    const double trailer_kg = over_kg(loads.vehicle(), ScaleKind::trailer);
    const double ball_kg = over_kg(loads.vehicle(), ScaleKind::ball);
    if (trailer_kg <= 0 && ball_kg <= 0) return out;
    TrailerMoves towed = trailer_moves(vehicle, loads.vehicle(), trailer_kg, ball_kg);
    std::ranges::move(towed.moves, std::back_inserter(out.moves));
    for (std::size_t s = 0; s < out_.scales.size(); ++s) {
      const Scale& scale = out_.scales[s];
      if (scale.vehicle != loads.vehicle()) continue;
      const bool stays = (scale.kind == ScaleKind::trailer && !towed.keeps_limit) ||
                         (scale.kind == ScaleKind::ball && !towed.keeps_ball);
      if (stays) out.still.push_back(s);
    }
    out.found = out.found && out.still.empty();
    return out;
  }

  /// What is of the trailer is weighed while that is behind.
  [[nodiscard]] bool is_there(const Scale& scale, const WeighedMoment& moment) const {
    const bool towed = scale.kind == ScaleKind::ball || scale.kind == ScaleKind::trailer ||
                       scale.kind == ScaleKind::combination;
    const engine::Company& company = planned_.course.timeline->companies[at(moment.company)];
    return !towed || company.trailers[at(scale.vehicle)] == 0;
  }

  VehicleWeighing weigh_vehicle(const Loads& loads) {
    const plan::Vehicle& vehicle = planned_.plan.vehicles[at(loads.vehicle())];
    VehicleWeighing out;
    for (std::size_t s = 0; s < out_.scales.size(); ++s) {
      if (out_.scales[s].vehicle == loads.vehicle()) out.scales.push_back(s);
    }
    out.days.resize(planned_.record.days());
    out.trip.resize(out.scales.size());
    const Centres centres(vehicle, loads);
    std::optional<std::size_t> fullest;
    std::optional<std::size_t> lightest;
    for (std::size_t m = 0; m < loads.moments().size(); ++m) {
      const WeighedMoment& moment = trace_.moments[loads.moments()[m]];
      std::optional<VehicleDay>& day = out.days[at(moment.day)];
      const bool first_of_day = !day;
      if (first_of_day) day.emplace().scales.resize(out.scales.size());
      for (std::size_t i = 0; i < out.scales.size(); ++i) {
        const double kg = scale_kg(out_.scales[out.scales[i]], trace_, loads.moments()[m]);
        const bool fuller = i == 0 && (first_of_day || kg > day->scales[0].most_kg);
        const bool lighter = i == 0 && (first_of_day || kg < day->scales[0].least_kg);
        if (fuller) day->full = centre(centres, loads, out, m);
        if (lighter) day->light = centre(centres, loads, out, m);
        if (!is_there(out_.scales[out.scales[i]], moment)) continue;
        add(day->scales[i], kg, moment.day, !day->scales[i].there);
        if (moment.past) continue;
        const bool first = !fullest;
        if (i == 0 && (first || kg > out.trip[0].most_kg)) next_full_ = m;
        if (i == 0 && (first || kg < out.trip[0].least_kg)) next_light_ = m;
        add(out.trip[i], kg, moment.day, !out.trip[i].there);
        note_over(out.scales[i], kg, moment, loads, m);
      }
      if (moment.past) continue;
      fullest = next_full_;
      lightest = next_light_;
    }
    if (fullest) out.full = centre(centres, loads, out, *fullest);
    if (lightest) out.light = centre(centres, loads, out, *lightest);
    name_unplaced(vehicle, loads, out);
    find_room(vehicle, out);
    return out;
  }

  [[nodiscard]] std::optional<Centre> centre(const Centres& centres, const Loads& loads,
                                             const VehicleWeighing& of, std::size_t m) const {
    std::optional<Centre> out = centres.at_moment(m);
    if (!out) return out;
    const std::size_t moment = loads.moments()[m];
    for (const std::size_t s : of.scales) {
      if (out_.scales[s].kind != ScaleKind::front) continue;
      out->front = scale_kg(out_.scales[s], trace_, moment) /
                   scale_kg(out_.scales[of.scales.front()], trace_, moment);
    }
    return out;
  }

  void note_over(std::size_t s, double kg, const WeighedMoment& moment, const Loads& loads,
                 std::size_t m) {
    const Scale& scale = out_.scales[s];
    const double over_kg = kg - scale.limit_kg;
    if (over_kg <= slight_over_kg) return;
    auto known = std::ranges::find(out_.over, s, &Overload::scale);
    if (known == out_.over.end()) {
      out_.over.push_back({.day = moment.day, .hour = moment.hour, .scale = s});
      known = out_.over.end() - 1;
    }
    if (over_kg <= known->kg) return;
    known->kg = over_kg;
    known->most.clear();
    known->most_kg = 0;
    const plan::Vehicle& vehicle = planned_.plan.vehicles[at(scale.vehicle)];
    for (std::size_t t = 0; t < loads.things().size(); ++t) {
      const double on_it_kg =
          loads.kg(t, m) * engine::share_of(vehicle, scale, loads.things()[t].spot);
      if (on_it_kg <= known->most_kg) continue;
      known->most = loads.things()[t].name;
      known->most_kg = on_it_kg;
      known->thing_kg = loads.kg(t, m);
    }
  }

  static void name_unplaced(const plan::Vehicle& vehicle, const Loads& loads,
                            VehicleWeighing& out) {
    if (!engine::empty_axles(vehicle)) return;
    const auto note = [&](const std::string& name, double kg) {
      out.unplaced.push_back(name);
      out.unplaced_kg += kg;
    };
    for (std::size_t t = 0; t < loads.things().size(); ++t) {
      const engine::Carried& thing = loads.things()[t];
      if (loads.most_kg(t) <= 0) continue;
      if (!thing.is_placed()) note(thing.name, loads.most_kg(t));
      if (!engine::height_m(vehicle, thing.spot)) out.without_height.push_back(thing.name);
    }
    if (vehicle.gear_kg > 0) note("gear", vehicle.gear_kg);
  }

  /// What more a bay could take: each limit has room on the whole trip for so much of it.
  void find_room(const plan::Vehicle& vehicle, VehicleWeighing& out) const {
    for (std::size_t b = 0; b < vehicle.bays.size(); ++b) {
      double room_kg = engine::without_limit;
      int by = -1;
      for (std::size_t i = 0; i < out.scales.size(); ++i) {
        const Scale& scale = out_.scales[out.scales[i]];
        const double share = engine::share_of(vehicle, scale, {.bay = static_cast<int>(b)});
        if (share <= 0 || !std::isfinite(scale.limit_kg)) continue;
        const double left_kg = std::max(0.0, scale.limit_kg - out.trip[i].most_kg);
        if (left_kg / share >= room_kg) continue;
        room_kg = left_kg / share;
        by = static_cast<int>(out.scales[i]);
      }
      out.room_kg.push_back(room_kg);
      out.room_by.push_back(by);
    }
  }

  const PlanRun& planned_;
  Trace trace_;
  Weighing out_;
  std::size_t next_full_ = 0;
  std::size_t next_light_ = 0;
};

}  // namespace

Weighing weigh(const PlanRun& planned) { return Weigher(planned).weighing(); }

}  // namespace drystage::answers
