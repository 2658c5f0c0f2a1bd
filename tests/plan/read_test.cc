#include "plan/read.h"

#include <gtest/gtest.h>

#include <variant>

#include "plan_text.h"

namespace drystage::plan {
namespace {

class WholePlan : public testing::Test {
 protected:
  void SetUp() override {
    ASSERT_TRUE(reading_.plan.has_value()) << all_of(reading_);
    EXPECT_TRUE(reading_.diagnostics.empty()) << all_of(reading_);
  }

  const Plan& plan() const { return *reading_.plan; }

 private:
  ReadPlan reading_ = read_text(whole_plan());
};

TEST_F(WholePlan, HasItsTrip) {
  const Trip& trip = plan().trip;
  EXPECT_EQ(trip.title, "Salt pan survey, Oru to Kemet Wells and back");
  EXPECT_EQ(trip.start, Date(2027, 2, 8));
  EXPECT_DOUBLE_EQ(trip.utc_offset_h, 1);
  EXPECT_DOUBLE_EQ(trip.driving.most_per_day_h, 7);
  EXPECT_FALSE(trip.driving.daylight_only);
  EXPECT_DOUBLE_EQ(trip.driving.depart_h, 7.5);
  const auto& speeds = trip.driving.speed_km_h;
  EXPECT_DOUBLE_EQ(speeds[static_cast<std::size_t>(Surface::gravel)].value(), 60);
  EXPECT_DOUBLE_EQ(speeds[static_cast<std::size_t>(Surface::soft_sand)].value(), 25);
  EXPECT_FALSE(speeds[static_cast<std::size_t>(Surface::sealed)].has_value());
  EXPECT_EQ(trip.mark.line, 5);
}

TEST_F(WholePlan, HasItsMargins) {
  const auto expect = [&](const char* name, MarginKind kind, double value) {
    const auto found = plan().margins.find(name);
    ASSERT_NE(found, plan().margins.end()) << name;
    EXPECT_EQ(found->second.kind, kind) << name;
    EXPECT_DOUBLE_EQ(found->second.value, value) << name;
    EXPECT_GT(found->second.mark.line, 0) << name;
  };
  expect("drinking_water", MarginKind::days, 3);
  expect("utility_water", MarginKind::amount, 15);
  expect("fuel", MarginKind::distance_km, 150);
  expect("fuel:trailer rig", MarginKind::share, 0.2);
  expect("food", MarginKind::amount, 6);
  expect("battery", MarginKind::share, 0.5);
  expect("battery:camp battery", MarginKind::amount, 30);
  expect("cold", MarginKind::temperature_c, 5);
  expect("tyres", MarginKind::share, 0.9);
  expect("tyres:truck", MarginKind::share, 0.95);
  EXPECT_EQ(plan().margins.size(), 10U);
}

TEST_F(WholePlan, HasItsPeopleAndActivities) {
  ASSERT_EQ(plan().people.size(), 2U);
  const Person& ines = plan().people[0];
  EXPECT_EQ(ines.name, "Ines");
  EXPECT_DOUBLE_EQ(ines.mass_kg, 62);
  EXPECT_DOUBLE_EQ(ines.height_m, 1.68);
  EXPECT_DOUBLE_EQ(ines.age_years, 34);
  EXPECT_EQ(ines.sex, Sex::female);
  EXPECT_TRUE(ines.acclimatised);
  EXPECT_EQ(ines.vehicle, 0);
  EXPECT_FALSE(ines.drinking_l_day.has_value());
  const Person& bela = plan().people[1];
  EXPECT_DOUBLE_EQ(bela.height_m, 1.81);
  EXPECT_DOUBLE_EQ(bela.age_years, 51);
  EXPECT_FALSE(bela.acclimatised);
  EXPECT_EQ(bela.vehicle, 1);
  EXPECT_DOUBLE_EQ(bela.drinking_l_day.value(), 5.5);
  EXPECT_DOUBLE_EQ(bela.meals_day.value(), 3);
  ASSERT_TRUE(bela.drinking_at.has_value());
  EXPECT_DOUBLE_EQ(bela.drinking_at->max_c, 33);
  EXPECT_DOUBLE_EQ(bela.drinking_at->min_c, 18);
  EXPECT_DOUBLE_EQ(bela.drinking_at->elevation_m.value(), 700);
  EXPECT_EQ(bela.drinking_at->activity.value(), 1);

  ASSERT_EQ(plan().activities.size(), 3U);  // camp and survey, and on_the_road by default
  const Activity& camp = plan().activities[static_cast<std::size_t>(plan().camp_activity)];
  EXPECT_EQ(camp.name, "camp");
  EXPECT_EQ(camp.hours, (std::array<double, 5>{0, 5, 2, 0, 0}));
  const Activity& road = plan().activities[static_cast<std::size_t>(plan().road_activity)];
  EXPECT_EQ(road.name, "on_the_road");
  EXPECT_EQ(road.hours, (std::array<double, 5>{0, 7, 1, 0, 0}));
  const Activity& survey = plan().activities[1];
  EXPECT_EQ(survey.hours, (std::array<double, 5>{1, 0, 5, 1, 0.5}));
  EXPECT_DOUBLE_EQ(survey.in_sun, 0.7);
}

TEST_F(WholePlan, HasItsWater) {
  const auto& containers = plan().water.containers;
  ASSERT_EQ(containers.size(), 3U);
  EXPECT_EQ(containers[0].use, WaterUse::utility);
  EXPECT_EQ(containers[0].quality, WaterQuality::brackish);
  EXPECT_DOUBLE_EQ(containers[0].holds_l, 90);
  EXPECT_NEAR(containers[1].filled_l, 18.927, 0.001);  // 5 US gal of 231 cubic inches
  EXPECT_DOUBLE_EQ(containers[1].empty_kg, 1.1);
  EXPECT_EQ(containers[1].vehicle, 1);
  EXPECT_FALSE(containers[1].opened_last);
  EXPECT_TRUE(containers[2].opened_last);
  EXPECT_EQ(containers[2].use, WaterUse::drinking);
  EXPECT_EQ(containers[2].quality, WaterQuality::potable);
  const auto& uses = plan().water.utility_uses;
  ASSERT_EQ(uses.size(), 3U);
  EXPECT_EQ(uses[0].name, "cooking");
  EXPECT_DOUBLE_EQ(uses[0].volume_l, 2);
  EXPECT_DOUBLE_EQ(uses[0].every_days, 1);
  EXPECT_TRUE(uses[0].per_person);
  EXPECT_DOUBLE_EQ(uses[1].volume_l, 5);
  EXPECT_DOUBLE_EQ(uses[1].every_days, 4);
  EXPECT_FALSE(uses[2].per_person);
  EXPECT_TRUE(uses[0].potable);
  EXPECT_FALSE(uses[1].potable);
  EXPECT_FALSE(uses[2].potable);
}

TEST_F(WholePlan, HasItsVehicles) {
  ASSERT_EQ(plan().vehicles.size(), 2U);
  const Vehicle& truck = plan().vehicles[0];
  EXPECT_EQ(truck.fuel, FuelKind::diesel);
  EXPECT_DOUBLE_EQ(truck.empty_kg, 2480);
  EXPECT_DOUBLE_EQ(truck.gear_kg, 120);
  EXPECT_DOUBLE_EQ(truck.limit_kg.value(), 3500);
  ASSERT_EQ(truck.tanks.size(), 2U);
  EXPECT_DOUBLE_EQ(truck.tanks[0].unusable_l, 4);
  EXPECT_DOUBLE_EQ(truck.tanks[1].filled_l, 19);
  EXPECT_DOUBLE_EQ(truck.tanks[1].empty_kg, 4.5);
  EXPECT_DOUBLE_EQ(truck.drag_area_m2, 1.6);
  EXPECT_DOUBLE_EQ(truck.engine_efficiency, 0.34);
  EXPECT_DOUBLE_EQ(truck.idle_l_h, 1.2);
  ASSERT_EQ(truck.observed.size(), 2U);
  EXPECT_DOUBLE_EQ(truck.observed[0].uses_l_km, 0.112);
  EXPECT_DOUBLE_EQ(truck.observed[0].speed_km_h.value(), 90);
  EXPECT_DOUBLE_EQ(truck.observed[0].mass_kg.value(), 2900);
  EXPECT_EQ(truck.observed[1].surface, Surface::soft_sand);
  EXPECT_FALSE(truck.observed[1].speed_km_h.has_value());
  const Vehicle& rig = plan().vehicles[1];
  EXPECT_EQ(rig.fuel, FuelKind::petrol);
  EXPECT_FALSE(rig.limit_kg.has_value());
  EXPECT_DOUBLE_EQ(rig.engine_efficiency, 0);
  EXPECT_DOUBLE_EQ(rig.drag_area_m2, 1.6);
  EXPECT_DOUBLE_EQ(rig.idle_l_h, 0.8);
  ASSERT_TRUE(rig.trailer.has_value());
  EXPECT_DOUBLE_EQ(rig.trailer->mass_kg, 600);
  EXPECT_DOUBLE_EQ(rig.trailer->drag_area_m2, 0.4);
  ASSERT_EQ(rig.observed.size(), 1U);
  EXPECT_TRUE(rig.observed[0].with_trailer);
  EXPECT_FALSE(truck.trailer.has_value());
  EXPECT_FALSE(truck.observed[0].with_trailer);
}

TEST_F(WholePlan, HasItsCabinets) {
  ASSERT_EQ(plan().cold.size(), 3U);
  const Cabinet& chest = plan().cold[0];
  EXPECT_DOUBLE_EQ(chest.volume_l, 45);
  EXPECT_DOUBLE_EQ(chest.set_point_c, 2);
  EXPECT_DOUBLE_EQ(chest.starts_at_c, 6);
  EXPECT_NEAR(chest.rated_draw_w, 0.9 * 12, 1e-12);  // the camp battery has 12 V
  EXPECT_DOUBLE_EQ(chest.rated_ambient_c, 32);
  EXPECT_DOUBLE_EQ(chest.rated_inside_c, 4);
  EXPECT_DOUBLE_EQ(chest.running_w.value(), 45);
  EXPECT_DOUBLE_EQ(chest.heat_leak_w_k.value(), 0.8);
  EXPECT_DOUBLE_EQ(chest.lid.value().openings_day.value(), 30);
  EXPECT_DOUBLE_EQ(chest.lid.value().warm_l_day.value(), 3);
  ASSERT_TRUE(chest.frozen.has_value());
  EXPECT_DOUBLE_EQ(chest.frozen->barrier_w_k, 0.3);
  EXPECT_DOUBLE_EQ(chest.frozen->wall_share, 0.25);
  EXPECT_FALSE(chest.frozen->set_point_c.has_value());
  EXPECT_DOUBLE_EQ(chest.above_ambient_k, 6);
  EXPECT_EQ(chest.above_ambient_while, While::driving);
  EXPECT_FALSE(chest.ice_box);
  const Cabinet& drawer = plan().cold[1];
  EXPECT_FALSE(drawer.lid.has_value());
  EXPECT_DOUBLE_EQ(drawer.rated_draw_w, 15);
  EXPECT_DOUBLE_EQ(drawer.starts_at_c, 4);  // the set point, by default
  EXPECT_DOUBLE_EQ(drawer.frozen.value().set_point_c.value(), -15);
  EXPECT_DOUBLE_EQ(drawer.frozen->wall_share, 0.3);
  EXPECT_EQ(drawer.bank, 1);
  EXPECT_EQ(drawer.vehicle, 1);
  const Cabinet& ice_box = plan().cold[2];
  EXPECT_TRUE(ice_box.ice_box);
  EXPECT_DOUBLE_EQ(ice_box.ice_kg, 8);
  EXPECT_DOUBLE_EQ(ice_box.heat_leak_w_k.value(), 0.6);
  EXPECT_DOUBLE_EQ(ice_box.lid.value().openings_day.value(), 6);
  EXPECT_FALSE(ice_box.lid.value().warm_l_day.has_value());
}

TEST_F(WholePlan, HasItsFood) {
  ASSERT_EQ(plan().food.size(), 5U);
  const FoodItem& lamb = plan().food[0];
  EXPECT_EQ(lamb.kept, Kept::frozen);
  EXPECT_EQ(lamb.cabinet, 0);
  EXPECT_DOUBLE_EQ(lamb.mass_kg, 6);
  EXPECT_DOUBLE_EQ(lamb.meals, 24);
  EXPECT_DOUBLE_EQ(lamb.water_fraction, 0.73);
  EXPECT_DOUBLE_EQ(lamb.starts_at_c, -20);
  EXPECT_DOUBLE_EQ(lamb.freezing_c, -2);
  EXPECT_EQ(lamb.kind, FoodKind::raw_meat);
  EXPECT_TRUE(lamb.potentially_hazardous);
  const FoodItem& fish = plan().food[1];
  EXPECT_EQ(fish.cabinet, 1);
  EXPECT_EQ(fish.vehicle, 1);  // rides where its cabinet does
  EXPECT_DOUBLE_EQ(fish.starts_at_c, -18);
  const FoodItem& vegetables = plan().food[2];
  EXPECT_EQ(vegetables.cabinet, 0);
  EXPECT_DOUBLE_EQ(vegetables.keeps.value().life_days, 10);
  EXPECT_DOUBLE_EQ(vegetables.keeps->at_c, 3);
  EXPECT_FALSE(vegetables.potentially_hazardous);
  const FoodItem& butter = plan().food[3];
  EXPECT_EQ(butter.cabinet, 2);
  EXPECT_DOUBLE_EQ(butter.meals, 0);
  EXPECT_DOUBLE_EQ(butter.energy_kj_kg.value(), 30'000);
  EXPECT_DOUBLE_EQ(butter.bought_at_c.value(), 12);
  const FoodItem& dry = plan().food[4];
  EXPECT_EQ(dry.cabinet, -1);
  EXPECT_EQ(dry.vehicle, 1);
  EXPECT_FALSE(dry.potentially_hazardous);
  EXPECT_DOUBLE_EQ(dry.water_fraction, 0.1);
}

TEST_F(WholePlan, HasItsPower) {
  const Power& power = plan().power;
  ASSERT_EQ(power.banks.size(), 2U);
  const Bank& camp = power.banks[0];
  EXPECT_EQ(camp.kind, BatteryKind::agm);
  EXPECT_DOUBLE_EQ(camp.capacity_ah, 100);
  EXPECT_DOUBLE_EQ(camp.filled, 0.9);
  EXPECT_DOUBLE_EQ(camp.floor, 0.5);
  EXPECT_DOUBLE_EQ(camp.cut_off, 0.4);
  EXPECT_DOUBLE_EQ(camp.peukert.value(), 1.15);
  EXPECT_DOUBLE_EQ(camp.efficiency.value(), 0.92);
  EXPECT_DOUBLE_EQ(camp.mass_kg, 28);
  const Bank& rig = power.banks[1];
  EXPECT_EQ(rig.kind, BatteryKind::lfp);
  EXPECT_DOUBLE_EQ(rig.filled, 0.8);
  EXPECT_DOUBLE_EQ(rig.floor, 0.2);
  EXPECT_DOUBLE_EQ(rig.cut_off, 0.1);
  EXPECT_DOUBLE_EQ(rig.rate_h, 20);
  EXPECT_EQ(rig.vehicle, 1);

  ASSERT_EQ(power.chargers.size(), 5U);
  EXPECT_EQ(power.chargers[0].kind, ChargerKind::dc_dc);
  EXPECT_DOUBLE_EQ(power.chargers[0].current_a, 20);
  const Charger& roof = power.chargers[1];
  EXPECT_EQ(roof.kind, ChargerKind::solar);
  EXPECT_DOUBLE_EQ(roof.power_w, 160);
  EXPECT_DOUBLE_EQ(roof.tilt_deg, 20);
  EXPECT_DOUBLE_EQ(roof.facing_deg, 180);
  EXPECT_DOUBLE_EQ(roof.noct_c.value(), 47);
  EXPECT_DOUBLE_EQ(roof.loss, 0.12);
  EXPECT_EQ(roof.bank, 1);
  EXPECT_EQ(power.chargers[2].kind, ChargerKind::mains);
  EXPECT_DOUBLE_EQ(power.chargers[2].current_a, 10);
  const Charger& generator = power.chargers[3];
  EXPECT_EQ(generator.kind, ChargerKind::generator);
  EXPECT_DOUBLE_EQ(generator.power_w, 800);
  EXPECT_DOUBLE_EQ(generator.uses_l_h, 0.5);
  EXPECT_DOUBLE_EQ(generator.hours_day, 2);
  EXPECT_DOUBLE_EQ(generator.starts_h, 18.5);
  EXPECT_EQ(generator.fuel, FuelKind::petrol);
  EXPECT_EQ(generator.vehicle, 1);  // the first that carries petrol

  ASSERT_EQ(power.loads.size(), 4U);
  EXPECT_DOUBLE_EQ(power.loads[0].draw_w, 14);
  EXPECT_DOUBLE_EQ(power.loads[0].after_dark_h.value(), 3);
  EXPECT_EQ(power.loads[0].when, While::parked);
  EXPECT_EQ(power.loads[0].shed_order, 1);
  EXPECT_DOUBLE_EQ(power.loads[1].energy_wh_day, 80);
  EXPECT_DOUBLE_EQ(power.loads[2].draw_w, 1.5 * 24);  // on the rig battery, 24 V
  EXPECT_DOUBLE_EQ(power.loads[2].hours_day.value(), 4);
  EXPECT_TRUE(power.loads[3].never_shed);
}

TEST_F(WholePlan, HasItsClimateAndWeather) {
  ASSERT_EQ(plan().climates.size(), 2U);
  const Weather& plateau = plan().climates[0].months[1].value();
  EXPECT_DOUBLE_EQ(plateau.max_c, 22);
  EXPECT_DOUBLE_EQ(plateau.min_c, 7);
  EXPECT_DOUBLE_EQ(plateau.humidity.value(), 0.3);
  EXPECT_DOUBLE_EQ(plateau.wind_m_s.value(), 3.5);
  EXPECT_DOUBLE_EQ(plateau.sun_kwh_m2, 5.4);
  EXPECT_DOUBLE_EQ(plateau.spread_c.value(), 3);
  EXPECT_FALSE(plan().climates[0].months[0].has_value());
  const Weather& january = plan().climates[1].months[0].value();
  EXPECT_DOUBLE_EQ(january.dew_point_c.value(), 2);
  EXPECT_FALSE(january.humidity.has_value());
  EXPECT_DOUBLE_EQ(january.sun_kwh_m2, 5);  // 18 MJ
  EXPECT_FALSE(january.wind_m_s.has_value());
  ASSERT_EQ(plan().weather.size(), 2U);
  EXPECT_EQ(plan().weather[0].from, Date(2027, 2, 10));
  EXPECT_EQ(plan().weather[0].to, Date(2027, 2, 10));
  EXPECT_DOUBLE_EQ(plan().weather[0].max_c.value(), 38);
  EXPECT_FALSE(plan().weather[0].wind_m_s.has_value());
  EXPECT_EQ(plan().weather[1].to, Date(2027, 2, 13));
  EXPECT_DOUBLE_EQ(plan().weather[1].dew_point_c.value(), -4);
}

TEST_F(WholePlan, HasItsPlaces) {
  ASSERT_EQ(plan().places.size(), 4U);
  const Place& oru = plan().places[0];
  EXPECT_DOUBLE_EQ(oru.latitude_deg, 27.1);
  EXPECT_DOUBLE_EQ(oru.longitude_deg, 5.2);
  EXPECT_DOUBLE_EQ(oru.elevation_m, 980);
  EXPECT_EQ(oru.climate, 0);
  ASSERT_EQ(oru.supplies.size(), 8U);
  EXPECT_EQ(oru.supplies[7].commodity, Commodity::tyres);
  EXPECT_EQ(oru.supplies[4].commodity, Commodity::food);
  EXPECT_DOUBLE_EQ(oru.supplies[4].most.value(), 40);
  EXPECT_DOUBLE_EQ(oru.supplies[5].most.value(), 10);
  EXPECT_DOUBLE_EQ(plan().places[1].latitude_deg, 26.2);
  const Place& wells = plan().places[2];
  EXPECT_EQ(wells.climate, 1);
  EXPECT_EQ(wells.supplies[0].quality, WaterQuality::brackish);
  EXPECT_DOUBLE_EQ(wells.supplies[1].most.value(), 50);
  ASSERT_EQ(wells.supplies[1].open_dates.size(), 1U);
  EXPECT_EQ(wells.supplies[1].open_dates[0].to, Date(2027, 3, 31));
  const Supply& diesel = wells.supplies[3];
  EXPECT_EQ(diesel.open_weekdays.to_string(), "0101111");  // bit 0, the last, is Monday
  ASSERT_EQ(diesel.shut_dates.size(), 2U);
  EXPECT_EQ(diesel.shut_dates[0].from, diesel.shut_dates[0].to);
  EXPECT_EQ(diesel.shut_dates[1].to, Date(2027, 2, 21));
  EXPECT_FALSE(diesel.confirmed);
}

TEST_F(WholePlan, HasItsItinerary) {
  const auto& items = plan().itinerary;
  ASSERT_EQ(items.size(), 11U);
  EXPECT_EQ(std::get<At>(items[0]).place, 0);
  const auto& first = std::get<Drive>(items[1]);
  EXPECT_EQ(first.to, 1);
  EXPECT_DOUBLE_EQ(first.distance_km, 240);
  ASSERT_EQ(first.surfaces.size(), 2U);
  // 90 + 150.3 is not 240: the rounding is spread over the parts.
  EXPECT_DOUBLE_EQ(first.surfaces[0].distance_km + first.surfaces[1].distance_km, 240);
  EXPECT_NEAR(first.surfaces[0].distance_km, 90, 0.2);
  EXPECT_EQ(first.surfaces[1].surface, Surface::gravel);
  EXPECT_DOUBLE_EQ(first.climb_m.value(), 300);
  EXPECT_DOUBLE_EQ(first.descent_m.value(), 670);
  EXPECT_EQ(first.activity.value(), 1);
  EXPECT_EQ(std::get<Stay>(items[2]).nights, 3);
  EXPECT_EQ(std::get<Stay>(items[2]).activity.value(), 1);
  const auto& second = std::get<Drive>(items[3]);
  ASSERT_EQ(second.surfaces.size(), 3U);
  EXPECT_DOUBLE_EQ(second.surfaces[0].speed_km_h.value(), 50);
  EXPECT_DOUBLE_EQ(second.surfaces[1].speed_km_h.value(), 30);
  EXPECT_DOUBLE_EQ(second.surfaces[2].distance_km, 50);
  const auto& resupply = std::get<Resupply>(items[4]);
  ASSERT_EQ(resupply.orders.size(), 7U);
  EXPECT_EQ(resupply.orders[0].commodity, Commodity::utility_water);
  EXPECT_EQ(resupply.orders[0].take, Take::fill);
  EXPECT_EQ(resupply.orders[1].take, Take::needed);
  EXPECT_EQ(resupply.orders[2].take, Take::amount);
  EXPECT_DOUBLE_EQ(resupply.orders[2].amount, 60);
  EXPECT_EQ(resupply.orders[2].vehicle.value(), 0);
  EXPECT_FALSE(resupply.orders[3].vehicle.has_value());
  EXPECT_EQ(resupply.orders[4].commodity, Commodity(Commodity::consumable, 0));
  EXPECT_DOUBLE_EQ(resupply.orders[4].amount, 1.5);
  EXPECT_EQ(resupply.orders[6].commodity, Commodity(Commodity::consumable, 2));
  EXPECT_DOUBLE_EQ(resupply.takes_h, 1.5);
  EXPECT_TRUE(resupply.cleaned);
  EXPECT_FALSE(std::get<Stay>(items[5]).activity.has_value());
  const auto& last = std::get<Drive>(items[6]);
  ASSERT_EQ(last.surfaces.size(), 1U);
  EXPECT_DOUBLE_EQ(last.surfaces[0].distance_km, 445);
  EXPECT_FALSE(last.climb_m.has_value());
  EXPECT_DOUBLE_EQ(last.kind.steepness.value(), 0.04);
  EXPECT_DOUBLE_EQ(last.kind.headwind_m_s, 3);
  EXPECT_EQ(last.kind.tyres, Tyres::lowered);
  EXPECT_FALSE(first.kind.steepness.has_value());
  EXPECT_DOUBLE_EQ(first.kind.headwind_m_s, 0);
  EXPECT_EQ(first.kind.tyres, Tyres::usual);
  EXPECT_DOUBLE_EQ(second.kind.headwind_m_s, 0);
  EXPECT_DOUBLE_EQ(second.back->kind.headwind_m_s, 2);
}

TEST(ReadPlan, NeedsOnlySixSections) {
  const ReadPlan reading = read_text(R"(drystage: 1
trip: {title: Walk, start: 2027-06-01, time_zone: "-09:30"}
people: [{name: Ada, mass: 70 kg, height: 170 cm, age: 30, sex: female}]
climate: {hills: {jun: {max: 20 °C, min: 10 °C, humidity: 50 %, sun: 6 kWh/m2/day}}}
places: {Hut: {at: {latitude: 20.5° S, longitude: 30.25° W, elevation: 100 m}, climate: hills}}
itinerary: [{at: Hut}, {stay: {nights: 1}}]
)");
  ASSERT_TRUE(reading.plan.has_value()) << all_of(reading);
  EXPECT_DOUBLE_EQ(reading.plan->trip.utc_offset_h, -9.5);
  EXPECT_DOUBLE_EQ(reading.plan->places[0].latitude_deg, -20.5);
  EXPECT_DOUBLE_EQ(reading.plan->places[0].longitude_deg, -30.25);
  EXPECT_EQ(reading.plan->activities.size(), 2U);
  EXPECT_TRUE(reading.plan->trip.driving.daylight_only);
  EXPECT_TRUE(reading.plan->vehicles.empty());
}

TEST(ReadPlan, TakesAFileWithAByteOrderMarkAndWindowsLineEnds) {
  std::string text = whole_plan();
  for (std::size_t at = text.find('\n'); at != std::string::npos; at = text.find('\n', at + 2)) {
    text.insert(at, "\r");
  }
  const ReadPlan reading = read_text("\xEF\xBB\xBF" + text);
  EXPECT_TRUE(reading.plan.has_value()) << all_of(reading);
}

TEST(ReadPlan, TellsAFileThatCannotBeReadFromAWrongOne) {
  const ReadPlan missing = read_file(DRYSTAGE_TEST_DATA "/plan/plans/there-is-no-such-file.yaml");
  EXPECT_TRUE(missing.io_error.has_value());
  EXPECT_FALSE(missing.plan.has_value());
  EXPECT_TRUE(missing.diagnostics.empty());
  const ReadPlan folder = read_file(DRYSTAGE_TEST_DATA "/plan/plans");
  EXPECT_TRUE(folder.io_error.has_value());
  const ReadPlan good = read_file(DRYSTAGE_TEST_DATA "/plan/plans/whole.yaml");
  EXPECT_FALSE(good.io_error.has_value());
  EXPECT_TRUE(good.plan.has_value());
}

}  // namespace
}  // namespace drystage::plan
