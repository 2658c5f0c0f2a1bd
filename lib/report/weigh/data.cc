#include "report/text/data.h"

#include <fmt/core.h>

#include <cmath>
#include <string_view>

#include "report/text/words.h"
#include "report/weigh/words.h"
#include "units/index.h"

namespace drystage::report {
namespace {

using answers::VehicleDay;
using engine::Scale;
using engine::ScaleKind;

constexpr std::string_view weigh_header =
    "day,date,vehicle,what,most_kg,least_kg,end_kg,limit_kg\r\n";

/// The key of a scale; empty for bays and wheels, which are maps of their own.
std::string_view key_of(ScaleKind kind) {
  switch (kind) {
    case ScaleKind::total:
      return "total_kg";
    case ScaleKind::front:
      return "front_kg";
    case ScaleKind::rear:
      return "rear_kg";
    case ScaleKind::roof:
      return "roof_kg";
    case ScaleKind::ball:
      return "ball_kg";
    case ScaleKind::trailer:
      return "trailer_kg";
    case ScaleKind::combination:
      return "combination_kg";
    default:
      return {};
  }
}

void put(Json& out, const plan::Plan& plan, const Scale& scale, const Json& value) {
  const std::string_view key = key_of(scale.kind);
  if (!key.empty()) {
    out[std::string(key)] = value;
    return;
  }
  if (scale.kind == ScaleKind::bay) {
    out["bays_kg"][plan.vehicles[at(scale.vehicle)].bays[at(scale.bay)].name] = value;
  } else {
    out["wheels_kg"][engine::scale_name(plan, scale)] = value;
  }
}

Json centre(const std::optional<answers::Centre>& of) {
  if (!of) return nullptr;
  return {{"behind_front_axle_m", of->behind_m},
          {"height_m", of->height_m ? Json(*of->height_m) : Json(nullptr)},
          {"right_m", of->right_m},
          {"front_share", of->front},
          {"static_roll_angle_deg", of->roll_deg ? Json(*of->roll_deg) : Json(nullptr)}};
}

Json day_json(const WeighAnswer& answer, const answers::VehicleWeighing& vehicle,
              const VehicleDay& day) {
  Json most = Json::object();
  Json least = Json::object();
  Json end = Json::object();
  for (std::size_t i = 0; i < vehicle.scales.size(); ++i) {
    const Scale& scale = answer.weighing.scales[vehicle.scales[i]];
    const answers::Weighed& its = day.scales[i];
    const auto value = [&its](double kg) { return its.there ? Json(kg) : Json(nullptr); };
    put(most, answer.planned.plan, scale, value(its.most_kg));
    put(least, answer.planned.plan, scale, value(its.least_kg));
    put(end, answer.planned.plan, scale, value(its.end_kg));
  }
  return {{"most", std::move(most)},
          {"least", std::move(least)},
          {"end", std::move(end)},
          {"centre_full", centre(day.full)},
          {"centre_light", centre(day.light)}};
}

Json days(const WeighAnswer& answer) {
  const plan::Plan& plan = answer.planned.plan;
  Json out = Json::array();
  for (std::size_t d = 0; d < answer.planned.record.days(); ++d) {
    Json vehicles = Json::object();
    for (std::size_t v = 0; v < plan.vehicles.size(); ++v) {
      const answers::VehicleWeighing& its = answer.weighing.vehicles[v];
      if (its.days[d]) vehicles[plan.vehicles[v].name] = day_json(answer, its, *its.days[d]);
    }
    out.push_back({{"day", d + 1},
                   {"date", iso_date(date_of(answer.planned, static_cast<int>(d)))},
                   {"vehicles", std::move(vehicles)}});
  }
  return out;
}

Json limits(const WeighAnswer& answer) {
  const plan::Plan& plan = answer.planned.plan;
  Json out = Json::object();
  for (std::size_t v = 0; v < plan.vehicles.size(); ++v) {
    Json its = Json::object();
    for (const std::size_t s : answer.weighing.vehicles[v].scales) {
      const Scale& scale = answer.weighing.scales[s];
      put(its, plan, scale, json_number(scale.limit_kg));
    }
    out[plan.vehicles[v].name] = std::move(its);
  }
  return out;
}

Json room(const WeighAnswer& answer) {
  const plan::Plan& plan = answer.planned.plan;
  Json out = Json::object();
  for (std::size_t v = 0; v < plan.vehicles.size(); ++v) {
    Json its = Json::object();
    const answers::VehicleWeighing& vehicle = answer.weighing.vehicles[v];
    for (std::size_t b = 0; b < vehicle.room_kg.size(); ++b) {
      its[plan.vehicles[v].bays[b].name] = json_number(vehicle.room_kg[b]);
    }
    out[plan.vehicles[v].name] = std::move(its);
  }
  return out;
}

Json over(const WeighAnswer& answer) {
  if (answer.weighing.over.empty()) return nullptr;
  const answers::Overload& first = answer.weighing.over.front();
  const Scale& scale = answer.weighing.scales[first.scale];
  const bool whole = scale.kind == ScaleKind::total;
  return {{"day", first.day + 1},
          {"vehicle", answer.planned.plan.vehicles[at(scale.vehicle)].name},
          {"what", whole ? "total" : engine::scale_name(answer.planned.plan, scale)},
          {"kg", first.kg},
          {"hour", first.hour},
          {"most", first.most},
          {"most_kg", first.most_kg}};
}

Json moves(const WeighAnswer& answer) {
  const plan::Plan& plan = answer.planned.plan;
  Json out = Json::array();
  for (const answers::Moves& of : answer.weighing.moves) {
    for (const answers::Move& move : of.moves) {
      const plan::Vehicle& vehicle = plan.vehicles[at(move.vehicle)];
      const auto bay = [&vehicle](int index) {
        return index < 0 ? Json(nullptr) : Json(vehicle.bays[at(index)].name);
      };
      out.push_back({{"vehicle", vehicle.name},
                     {"what", move.name},
                     {"kg", move.kg},
                     {"leave", move.left},
                     {"in_trailer", move.in_trailer},
                     {"from", bay(move.from_bay)},
                     {"from_m", move.from_m},
                     {"to", bay(move.to_bay)},
                     {"to_m", move.left ? Json(nullptr) : Json(move.to_m)}});
    }
  }
  return out;
}

/// What stays over whatever is moved.
Json still_over(const WeighAnswer& answer) {
  Json out = Json::array();
  for (const answers::Moves& of : answer.weighing.moves) {
    for (const std::size_t s : of.still) {
      out.push_back(scale_words(answer.planned.plan, answer.weighing.scales[s]));
    }
  }
  return out;
}

}  // namespace

std::string weigh_json(const WeighAnswer& answer) {
  const Json out{{"format", "drystage.weigh/1"},
                 {"trip", json_trip(answer.planned)},
                 {"warnings", answer.warnings},
                 {"days", days(answer)},
                 {"limits", limits(answer)},
                 {"room", room(answer)},
                 {"over", over(answer)},
                 {"move", moves(answer)},
                 {"still_over", still_over(answer)}};
  return out.dump(json_indent) + "\n";
}

std::string weigh_csv(const WeighAnswer& answer) {
  const plan::Plan& plan = answer.planned.plan;
  std::string out(weigh_header);
  for (std::size_t d = 0; d < answer.planned.record.days(); ++d) {
    for (std::size_t v = 0; v < plan.vehicles.size(); ++v) {
      const answers::VehicleWeighing& its = answer.weighing.vehicles[v];
      if (!its.days[d]) continue;
      for (std::size_t i = 0; i < its.scales.size(); ++i) {
        const Scale& scale = answer.weighing.scales[its.scales[i]];
        const answers::Weighed& weighed = its.days[d]->scales[i];
        if (!weighed.there) continue;
        const bool whole = scale.kind == ScaleKind::total;
        out += csv_row(
            {std::to_string(d + 1), iso_date(date_of(answer.planned, static_cast<int>(d))),
             cell(plan.vehicles[v].name), cell(whole ? "total" : engine::scale_name(plan, scale)),
             number(weighed.most_kg), number(weighed.least_kg), number(weighed.end_kg),
             number(scale.limit_kg)});
      }
    }
  }
  return out;
}

}  // namespace drystage::report
