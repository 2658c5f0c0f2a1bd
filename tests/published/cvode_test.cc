// The cabinet and battery equations integrated by SUNDIALS CVODE, written out here a second time
// as plain differential equations, against the closed forms of the library stepped by the hour.
// The thermostat here is a stiff proportional one, 0.01 K wide.
#include <cvode/cvode.h>
#include <gtest/gtest.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>
#include <vector>

#include "models/battery.h"
#include "models/cabinet.h"

namespace drystage::models {
namespace {

constexpr double thermostat_width_k = 0.01;
constexpr double volts = 12.0;
constexpr int days = 20;

enum Part { chilled_c, slab_kj_kg, pumped_kj, electric_wh, charge_ah, parts };
using Parts = std::array<double, parts>;

/// What holds for one hour.
struct Hour {
  double ambient_c = 0.0;
  double other_load_a = 0.0;
  double source_a = 0.0;
  bool power = true;
};

struct Journey {
  CabinetParams cabinet;
  double chilled_kj_per_k = 35.0;
  double slab_kg = 6.0;
  BatteryParams battery;
  double battery_c = 12.0;
  std::vector<Hour> hours;
  Hour now;
};

double ramp(double x) { return std::clamp(x, 0.0, 1.0); }

double heat_moved_per_work(const Journey& j, double inside_c) {
  const double cold_k = inside_c - 10.0 + 273.15;
  return j.cabinet.compressor.carnot_fraction * cold_k / (j.now.ambient_c + 15.0 + 273.15 - cold_k);
}

double slab_temperature(const FoodThermal& food, double h) {
  const double top = food.above_kj_kg_k * food.freezing_c;
  if (h >= top) {
    return h / food.above_kj_kg_k;
  }
  const double melting = top - food.latent_kj_kg;
  return h > melting ? food.freezing_c : food.freezing_c + (h - melting) / food.below_kj_kg_k;
}

/// Rates of change per hour.
Parts rates(const Journey& j, const Parts& y) {
  const CabinetParams& p = j.cabinet;
  const bool ice = p.kind == CabinetKind::ice_box;
  const FoodThermal food = ice ? food_thermal(1.0, 0.0) : p.slab;
  const bool has_slab = j.slab_kg > 0.0 && !(ice && y[slab_kj_kg] >= 0.0);
  const bool pump = j.now.power && !ice;
  const double slab_c = slab_temperature(food, y[slab_kj_kg]);
  const bool evaporator_between = pump && p.kind == CabinetKind::frozen_below;
  const double on_slab = has_slab && !evaporator_between ? p.slab_share * p.leak_w_per_k : 0.0;
  const double through_w = has_slab ? p.barrier_w_per_k * (y[chilled_c] - slab_c) : 0.0;

  const double duty = pump ? ramp((y[chilled_c] - p.set_point_c) / thermostat_width_k + 0.5) : 0.0;
  const double run_w = p.compressor.running_w;
  const double from_chilled_w = duty * run_w * heat_moved_per_work(j, p.set_point_c);
  double slab_duty = 0.0;
  if (pump && p.kind == CabinetKind::freezer) {
    slab_duty = (1.0 - duty) * ramp((slab_c - p.frozen_set_point_c) / thermostat_width_k + 0.5);
  }
  const double from_slab_w = slab_duty * run_w * heat_moved_per_work(j, p.frozen_set_point_c);

  Parts dy{};
  const double to_chilled_w =
      (p.leak_w_per_k - on_slab) * (j.now.ambient_c - y[chilled_c]) - through_w - from_chilled_w;
  dy[chilled_c] = 3.6 * to_chilled_w / j.chilled_kj_per_k;
  if (has_slab) {
    dy[slab_kj_kg] =
        3.6 * (on_slab * (j.now.ambient_c - slab_c) + through_w - from_slab_w) / j.slab_kg;
  }
  dy[pumped_kj] = 3.6 * (from_chilled_w + from_slab_w);
  dy[electric_wh] = (duty + slab_duty) * run_w;

  const BatteryParams& b = j.battery;
  const double net_a = j.now.source_a - j.now.other_load_a - dy[electric_wh] / volts;
  if (net_a < 0.0) {
    const double rated_currents = -net_a * b.rate_h / b.capacity_ah;
    dy[charge_ah] = net_a * std::max(1.0, std::pow(rated_currents, b.peukert - 1.0));
  } else {
    const double empty = 1.0 - y[charge_ah] / b.capacity_ah;
    const double most_a = b.knee_per_h * b.capacity_ah * std::min(1.0, empty / (1.0 - b.knee));
    dy[charge_ah] = b.coulombic_efficiency * std::min(net_a, std::max(most_a, 0.0));
  }
  return dy;
}

int rates_for_cvode(realtype /*t*/, N_Vector y, N_Vector dy, void* user) {
  Parts parts_now{};
  std::copy_n(N_VGetArrayPointer(y), parts_now.size(), parts_now.begin());
  const Parts speed = rates(*static_cast<const Journey*>(user), parts_now);
  std::copy(speed.begin(), speed.end(), N_VGetArrayPointer(dy));
  return 0;
}

/// CVODE (stiff, dense) over a Journey.
class Integrator {
 public:
  Integrator(Journey& journey, const Parts& start) {
    must(SUNContext_Create(nullptr, &context_));
    y_ = N_VNew_Serial(parts, context_);
    std::copy(start.begin(), start.end(), N_VGetArrayPointer(y_));
    matrix_ = SUNDenseMatrix(parts, parts, context_);
    solver_ = SUNLinSol_Dense(y_, matrix_, context_);
    cvode_ = CVodeCreate(CV_BDF, context_);
    must(CVodeInit(cvode_, rates_for_cvode, 0.0, y_));
    must(CVodeSStolerances(cvode_, 1e-7, 1e-7));
    must(CVodeSetLinearSolver(cvode_, solver_, matrix_));
    must(CVodeSetUserData(cvode_, &journey));
    must(CVodeSetMaxNumSteps(cvode_, 200000));
  }
  Integrator(const Integrator&) = delete;
  Integrator& operator=(const Integrator&) = delete;
  ~Integrator() {
    CVodeFree(&cvode_);
    SUNLinSolFree(solver_);
    SUNMatDestroy(matrix_);
    N_VDestroy(y_);
    SUNContext_Free(&context_);
  }

  /// One hour with constant surroundings; starts afresh, since they jump between hours.
  Parts hour(double from_h) {
    must(CVodeReInit(cvode_, from_h, y_));
    must(CVodeSetStopTime(cvode_, from_h + 1.0));
    double reached_h = from_h;
    must(CVode(cvode_, from_h + 1.0, y_, &reached_h, CV_NORMAL));
    Parts now{};
    std::copy_n(N_VGetArrayPointer(y_), now.size(), now.begin());
    return now;
  }

 private:
  static void must(int status) {
    if (status < 0) {
      throw std::runtime_error("CVODE gave up with status " + std::to_string(status));
    }
  }

  SUNContext context_ = nullptr;
  N_Vector y_ = nullptr;
  SUNMatrix matrix_ = nullptr;
  SUNLinearSolver solver_ = nullptr;
  void* cvode_ = nullptr;
};

/// Days of sun and heat: hot afternoons, lights after dark, a panel by day, a drive each morning.
std::vector<Hour> weather(double mean_c, double swing_k) {
  std::vector<Hour> hours;
  for (int hour = 0; hour < 24 * days; ++hour) {
    const int of_day = hour % 24;
    const double angle = 2.0 * std::numbers::pi * (of_day + 0.5 - 9.0) / 24.0;
    Hour now;
    now.ambient_c = mean_c + swing_k * std::sin(angle);
    now.other_load_a = of_day >= 19 && of_day < 22 ? 6.0 : 0.3;
    now.source_a = std::max(0.0, 6.0 * std::sin(2.0 * std::numbers::pi * (of_day - 6.0) / 24.0));
    if (of_day >= 8 && of_day < 10) {
      now.source_a += 20.0;
    }
    hours.push_back(now);
  }
  return hours;
}

Journey chest(CabinetKind kind) {
  constexpr RatedDraw rated{.mean_w = 10.8, .ambient_c = 32.0, .inside_c = 4.0};
  Journey j;
  j.cabinet.kind = kind;
  j.cabinet.leak_w_per_k = rated_leak_w_per_k(rated);
  j.cabinet.barrier_w_per_k = 0.35;
  j.cabinet.set_point_c = 2.0;
  j.cabinet.compressor = rated_compressor(rated);
  j.cabinet.slab = food_thermal(0.73);
  j.battery = usual_battery(BatteryKind::agm, 100.0);
  j.hours = weather(28.0, 9.0);
  return j;
}

/// Steps both by the hour and compares each: temperatures within 0.05 K, the slab's melting within
/// 1 % of its latent heat, the charge within 1 % of capacity, and at the end the energies within
/// 1 %.
void compare(Journey j, double start_c, double slab_start_c) {
  const bool ice = j.cabinet.kind == CabinetKind::ice_box;
  const FoodThermal food = ice ? ice_thermal() : j.cabinet.slab;
  Parts y{};
  y[chilled_c] = start_c;
  y[slab_kj_kg] = food_enthalpy_kj_kg(food, slab_start_c);
  y[charge_ah] = 85.0;
  CabinetState cabinet{.chilled_c = start_c,
                       .chilled_kj_per_k = j.chilled_kj_per_k,
                       .slab_kg = j.slab_kg,
                       .slab_kj_kg = y[slab_kj_kg]};
  double charge = y[charge_ah];
  CabinetFlows sum;
  Integrator integrator(j, y);
  for (std::size_t hour = 0; hour < j.hours.size(); ++hour) {
    j.now = j.hours[hour];
    y = integrator.hour(static_cast<double>(hour));
    const CabinetFlows flows = step_cabinet(j.cabinet, cabinet, j.now.ambient_c, 1.0, j.now.power);
    sum.pumped_kj += flows.pumped_kj;
    sum.electric_wh += flows.electric_wh;
    sum.melted_kg += flows.melted_kg;
    const BatteryFlows drawn =
        step_battery(j.battery, charge, flows.electric_wh / volts + j.now.other_load_a,
                     j.now.source_a, j.battery_c, 1.0, 0.0);
    ASSERT_EQ(drawn.served, 1.0) << "the bank ran flat in hour " << hour;
    ASSERT_NEAR(cabinet.chilled_c, y[chilled_c], 0.05) << "hour " << hour;
    ASSERT_NEAR(charge, y[charge_ah], 0.01 * j.battery.capacity_ah) << "hour " << hour;
    if (ice) {
      const double left = std::clamp(-y[slab_kj_kg] / food.latent_kj_kg, 0.0, 1.0);
      ASSERT_NEAR(j.slab_kg - sum.melted_kg, left * j.slab_kg, 0.01 * j.slab_kg) << hour;
    } else if (j.slab_kg > 0.0) {
      ASSERT_NEAR(cabinet.slab_kj_kg, y[slab_kj_kg], 0.01 * food.latent_kj_kg) << "hour " << hour;
    }
  }
  EXPECT_NEAR(sum.pumped_kj, y[pumped_kj], 0.01 * y[pumped_kj] + 1e-9);
  EXPECT_NEAR(sum.electric_wh, y[electric_wh], 0.01 * y[electric_wh] + 1e-9);
}

TEST(Cvode, AgreesOnTwentyDaysOfFrozenGoodsBelowABarrier) {
  compare(chest(CabinetKind::frozen_below), 2.0, -18.0);
}

TEST(Cvode, AgreesOnACabinetOfOneCompartmentLoadedWarm) {
  Journey j = chest(CabinetKind::single);
  j.slab_kg = 0.0;
  compare(j, 27.0, 0.0);
}

TEST(Cvode, AgreesOnAFreezerLoadedWithThawedFood) {
  compare(chest(CabinetKind::freezer), 2.0, 8.0);
}

TEST(Cvode, AgreesOnTwoDaysWithoutPowerAndTheRecovery) {
  for (const CabinetKind kind : {CabinetKind::frozen_below, CabinetKind::freezer}) {
    Journey j = chest(kind);
    for (std::size_t hour = 100; hour < 148; ++hour) {
      j.hours[hour].power = false;
    }
    compare(j, 2.0, -18.0);
  }
}

TEST(Cvode, AgreesOnACompressorTooSmallForTheAfternoons) {
  Journey j = chest(CabinetKind::frozen_below);
  j.cabinet.compressor.running_w = 9.0;
  j.hours = weather(31.0, 10.0);
  compare(j, 2.0, -10.0);
}

TEST(Cvode, AgreesOnNightsColderThanTheSetPoint) {
  Journey j = chest(CabinetKind::frozen_below);
  j.hours = weather(8.0, 13.0);
  compare(j, 2.0, -18.0);
}

TEST(Cvode, AgreesOnAnIceBoxUntilTheIceIsGoneAndAfter) {
  Journey j = chest(CabinetKind::ice_box);
  j.slab_kg = 12.0;
  j.cabinet.barrier_w_per_k = 5.0;
  compare(j, 10.0, -6.0);
}

}  // namespace
}  // namespace drystage::models
