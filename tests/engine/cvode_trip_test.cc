// A whole trip's cabinet and battery together, integrated by SUNDIALS CVODE from the equations
// written out here again, against the engine stepped by the hour. What the two share is what drives
// them: air, sun, loads and driving hour by hour, as the compiled course has them.
#include <cvode/cvode.h>
#include <gtest/gtest.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>
#include <tuple>

#include "models/food_properties.h"
#include "support/trip.h"

namespace drystage {
namespace {

using engine::reserves::Power;
using support::PlanText;
using support::Trip;

enum Unknown { chilled_c, slab_kj, compressor_wh, charge_ah, unknowns };
using Values = std::array<double, unknowns>;

/// The chest and bank of the plan below, and what holds in the step under way.
struct Equations {
  // The plan's own figures.
  double set_c = 3;
  double barrier_w_k = 0.35;
  double slab_share = 0.3;
  double capacity_ah = 120;
  double rate_h = 20;
  double peukert = 1.1;
  double efficiency = 0.95;
  double accepts_per_h = 0.3;
  // Worked out from them in `equations`.
  double leak_w_k = 0;
  double running_w = 0;
  double chilled_kj_k = 0;
  double slab_kg = 0;
  double latent_kj_kg = 0;
  double frozen_kj_kg_k = 0;
  double thawed_kj_kg_k = 0;
  double freezing_c = 0;
  // The step.
  double ambient_c = 0;
  double load_w = 0;
  double source_a = 0;
  bool on = true;
};

double clamp01(double x) { return std::clamp(x, 0.0, 1.0); }

/// Carnot between 10 K below the inside and 15 K above the surroundings, times 0.35.
double performance(double ambient_c, double inside_c) {
  const double evaporator_k = inside_c - 10 + 273.15;
  return 0.35 * evaporator_k / (ambient_c + 15 + 273.15 - evaporator_k);
}

double slab_c(const Equations& e, double kj) {
  const double h = kj / e.slab_kg;
  const double thawed = e.thawed_kj_kg_k * e.freezing_c;
  const double frozen = thawed - e.latent_kj_kg;
  if (h < frozen) return e.freezing_c + (h - frozen) / e.frozen_kj_kg_k;
  return h > thawed ? h / e.thawed_kj_kg_k : e.freezing_c;
}

Values rates(const Equations& e, const Values& y) {
  Values d{};
  const double slab = slab_c(e, y[slab_kj]);
  // While the compressor may run, the evaporator in the wall takes up the slab's share of the leak.
  const double on_slab_w_k = e.on ? 0 : e.slab_share * e.leak_w_k;
  const double across_w = e.barrier_w_k * (y[chilled_c] - slab);
  const double duty = e.on ? clamp01((y[chilled_c] - e.set_c) / 0.01 + 0.5) : 0;
  const double out_w = duty * e.running_w * performance(e.ambient_c, e.set_c);
  d[chilled_c] = 3.6 *
                 ((e.leak_w_k - on_slab_w_k) * (e.ambient_c - y[chilled_c]) - across_w - out_w) /
                 e.chilled_kj_k;
  d[slab_kj] = 3.6 * (on_slab_w_k * (e.ambient_c - slab) + across_w);
  d[compressor_wh] = duty * e.running_w;
  const double net_a = e.source_a - (e.load_w + d[compressor_wh]) / 12;
  if (net_a < 0) {
    const double rated = -net_a * e.rate_h / e.capacity_ah;
    d[charge_ah] = net_a * std::max(1.0, std::pow(rated, e.peukert - 1));
  } else {
    const double room = std::min(1.0, (1 - y[charge_ah] / e.capacity_ah) / 0.2);
    d[charge_ah] = e.efficiency * std::min(net_a, e.accepts_per_h * e.capacity_ah * room);
  }
  return d;
}

int rates_for_cvode(realtype /*t*/, N_Vector y, N_Vector dy, void* user) {
  Values now{};
  std::copy_n(N_VGetArrayPointer(y), now.size(), now.begin());
  const Values d = rates(*static_cast<const Equations*>(user), now);
  std::copy(d.begin(), d.end(), N_VGetArrayPointer(dy));
  return 0;
}

void must(int status) {
  if (status < 0) throw std::runtime_error("CVODE gave up: " + std::to_string(status));
}

class Solver {
 public:
  Solver(Equations& equations, const Values& start) {
    must(SUNContext_Create(nullptr, &context_));
    y_ = N_VNew_Serial(unknowns, context_);
    std::copy(start.begin(), start.end(), N_VGetArrayPointer(y_));
    matrix_ = SUNDenseMatrix(unknowns, unknowns, context_);
    linear_ = SUNLinSol_Dense(y_, matrix_, context_);
    cvode_ = CVodeCreate(CV_BDF, context_);
    must(CVodeInit(cvode_, rates_for_cvode, 0, y_));
    must(CVodeSStolerances(cvode_, 1e-7, 1e-7));
    must(CVodeSetLinearSolver(cvode_, linear_, matrix_));
    must(CVodeSetUserData(cvode_, &equations));
    must(CVodeSetMaxNumSteps(cvode_, 500000));
  }
  Solver(const Solver&) = delete;
  Solver& operator=(const Solver&) = delete;
  ~Solver() {
    CVodeFree(&cvode_);
    SUNLinSolFree(linear_);
    SUNMatDestroy(matrix_);
    N_VDestroy(y_);
    SUNContext_Free(&context_);
  }

  /// One stretch of constant surroundings.
  Values go(double from_h, double to_h) {
    must(CVodeReInit(cvode_, from_h, y_));
    must(CVodeSetStopTime(cvode_, to_h));
    double reached_h = from_h;
    must(CVode(cvode_, to_h, y_, &reached_h, CV_NORMAL));
    Values now{};
    std::copy_n(N_VGetArrayPointer(y_), now.size(), now.begin());
    return now;
  }

 private:
  SUNContext context_ = nullptr;
  N_Vector y_ = nullptr;
  SUNMatrix matrix_ = nullptr;
  SUNLinearSolver linear_ = nullptr;
  void* cvode_ = nullptr;
};

constexpr double lamb_kg = 7;
constexpr double salad_kg = 8;

/// Two weeks with two days of driving, days at camp, and a hot spell. Nobody eats, so that the
/// chest holds what it held.
PlanText trip_text() {
  PlanText plan;
  plan.people = {
      "{name: Ada, mass: 70 kg, height: 172 cm, age: 40, sex: male, observed: {drinking: 4 L/day, "
      "meals: 0}}"};
  plan.climate = {PlanText::climate_of("air", 31, 14, "25 %", "5 kWh/m2/day")};
  plan.weather = {"{from: 2027-03-07, to: 2027-03-09, max: 43 °C, min: 27 °C}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 200 L, "
      "filled: 200 L}]}"};
  plan.cold = {
      "{name: chest, volume: 45 L, set_point: 3 °C, rated: {draw: 0.9 A, ambient: 32 °C, "
      "inside: 4 °C}, frozen_below: {barrier: 0.35 W/K, walls: 30 %}, stands_in: "
      "{above_ambient: 6 °C, while: driving}, lid: {openings: 0, warm: 0 L/day}}"};
  plan.food = {"{item: lamb, kept: frozen, mass: 7 kg, water: 73 %, meals: 24, from: -18 °C}",
               "{item: salad, kept: chilled, mass: 8 kg, water: 90 %, meals: 24, keeps: {for: 90 "
               "days, at: 4 °C}, potentially_hazardous: no}"};
  plan.batteries = {
      "{name: bank, kind: agm, capacity: 120 Ah, rate: 20 h, filled: 90 %, floor: 0 %, cut_off: 0 "
      "%, peukert: 1.1, efficiency: 95 %}"};
  plan.charging = {"{name: DC-DC, current: 20 A, while: driving}", "{name: panel, solar: 90 W}"};
  plan.loads = {"{name: lights, draw: 14 W, after_dark: 3 h/day}",
                "{name: radio, energy: 60 Wh/day}"};
  plan.places.push_back(PlanText::place("There", "air"));
  plan.itinerary = {"{at: Base}", "drive: {to: There, distance: 250 km, surfaces: gravel}",
                    "stay: {nights: 8}", "drive: {to: Base, distance: 250 km, surfaces: gravel}",
                    "stay: {nights: 4}"};
  return plan;
}

Equations equations() {
  Equations e;
  // The rating: 0.9 A at 12 V, a quarter of the time.
  e.leak_w_k = 10.8 * performance(32, 4) / (32 - 4);
  e.running_w = 10.8 / 0.25;
  e.slab_kg = lamb_kg;
  e.latent_kj_kg = 335 * 0.73;
  e.thawed_kj_kg_k = 4.19 * 0.73 + 0.84 * 0.27;
  e.frozen_kj_kg_k = 2.1 * 0.73 + 0.84 * 0.27;
  e.freezing_c = -1;
  e.chilled_kj_k = salad_kg * (4.19 * 0.9 + 0.84 * 0.1) + 0.1 * 45;
  return e;
}

TEST(CvodeTrip, AgreesWithinOnePercentOnCabinetAndBatteryOfAWholeTrip) {
  const Trip trip = support::travel(trip_text());
  ASSERT_TRUE(trip.told(engine::EventKind::cut_off).empty());
  ASSERT_EQ(trip.sum(&engine::ReserveDay::used, "food"), 0);
  const auto& power = *std::get<Power::Compiled>(trip.course.families).tables;
  const engine::Timeline& timeline = *trip.course.timeline;
  Equations e = equations();
  Values y{};
  y[chilled_c] = 3;
  const double frozen_end = e.thawed_kj_kg_k * e.freezing_c - e.latent_kj_kg;
  y[slab_kj] = e.slab_kg * (frozen_end + e.frozen_kj_kg_k * (-18 - e.freezing_c));
  y[charge_ah] = 0.9 * e.capacity_ah;
  Solver solver(e, y);
  double pumped_before_wh = 0;
  for (std::size_t s = 0; s < timeline.steps.size(); ++s) {
    const engine::TimeStep& step = timeline.steps[s];
    if (step.dt_h <= 0) continue;
    const auto day = static_cast<std::size_t>(step.day);
    e.ambient_c = timeline.conditions.steps[s].air_c + (step.drive >= 0 ? 6 : 0);
    e.load_w = power.load_w[2 * s] + power.load_w[2 * s + 1];
    const double from_h = 24.0 * step.day + step.from_h;
    for (const std::size_t half : {0U, 1U}) {
      e.source_a = power.source_a[2 * s + half];
      const double half_h = step.dt_h / 2;
      const double begin_h = from_h + static_cast<double>(half) * half_h;
      y = solver.go(begin_h, begin_h + half_h);
    }
    if (!step.last_of_day) continue;
    EXPECT_NEAR(trip.reserve(day, "battery:bank").end, y[charge_ah], 0.01 * e.capacity_ah) << day;
    EXPECT_NEAR(trip.reserve(day, "cold:chest").end, y[chilled_c], 0.05) << day;
    // Heat content, against the whole latent heat of the slab.
    const double heat_kj = y[slab_kj] + e.chilled_kj_k * y[chilled_c];
    EXPECT_NEAR(3.6 * trip.store(day, "heat in chest").end, heat_kj,
                0.01 * e.slab_kg * e.latent_kj_kg)
        << day;
    EXPECT_GT(y[compressor_wh], pumped_before_wh);
    pumped_before_wh = y[compressor_wh];
  }
  // The trip does exercise the bank and the slab.
  EXPECT_LT(trip.outlook("battery:bank").lowest, 0.8 * e.capacity_ah);
  EXPECT_GT(slab_c(e, y[slab_kj]), -1.5);
}

}  // namespace
}  // namespace drystage
