#include "engine/roads.h"

#include "engine/surfaces.h"
#include "models/atmosphere.h"

namespace drystage::engine {
namespace {

constexpr double m_s_in_km_h = 3.6;

}  // namespace

models::FuelDemand fuel_demand(const plan::Vehicle& vehicle, const RoadModel& model,
                               const RoadPiece& piece, double air_density_kg_m3, bool towing) {
  const double usual = rolling(piece.surface, plan::Tyres::usual);
  const double as_now = rolling(piece.surface, piece.tyres);
  const double own = model.rolling.at(static_cast<std::size_t>(piece.surface));
  const double trailer_m2 = vehicle.trailer ? vehicle.trailer->drag_area_m2 : 0;
  const double towed_m2 = towing ? trailer_m2 : 0;
  const double towed_kg = towing && vehicle.trailer ? vehicle.trailer->loaded_kg() : 0;
  // Tyres as they are now change what a figure of one's own says of the ground in proportion.
  const models::Stretch stretch{.rolling = own * as_now / usual,
                                .drag_area_m2 = vehicle.drag_area_m2 + towed_m2,
                                .air_density_kg_m3 = air_density_kg_m3,
                                .speed_m_s = piece.speed_km_h / m_s_in_km_h,
                                .headwind_m_s = piece.headwind_m_s};
  const models::Hills hills{
      .climb_m = piece.climb_m, .descent_m = piece.descent_m, .steepness = piece.steepness};
  const plan::ObservedUse* figure = standing_figure(vehicle, model, piece.surface);
  if (figure == nullptr) {
    return models::fuel_demand(stretch, model.train, piece.distance_km, hills);
  }
  models::Stretch then = stretch;
  then.headwind_m_s = 0;
  then.drag_area_m2 = vehicle.drag_area_m2 + (figure->with_trailer ? trailer_m2 : 0);
  models::OwnUse use{.uses_l_km = figure->uses_l_km,
                     .mass_kg = figure->mass_kg.value_or(0),
                     .more_n = models::drag_n(stretch) - models::drag_n(then),
                     .more_rolling = stretch.rolling - own};
  if (!figure->with_trailer && !figure->mass_kg) {
    use.more_n += own * models::gravity_m_s2 * towed_kg;
  }
  return models::observed_demand(stretch, model.train, use, piece.distance_km, hills);
}

models::FuelDemand standard_fuel_demand(const plan::Vehicle& vehicle, const RoadModel& model,
                                        const RoadPiece& piece, bool towing) {
  const double air_c = models::standard_temperature_c(piece.elevation_m);
  return fuel_demand(vehicle, model, piece, models::air_density_kg_m3(piece.elevation_m, air_c),
                     towing);
}

}  // namespace drystage::engine
