#pragma once

#include <cstddef>
#include <memory>
#include <vector>

#include "engine/course.h"
#include "engine/remedy.h"
#include "engine/reserves/generator.h"
#include "engine/run.h"
#include "engine/while.h"
#include "models/battery.h"
#include "models/cabinet.h"
#include "models/radiation.h"

namespace drystage::engine::reserves {

/// Battery banks and the cold cabinets that live on them, which must be stepped together: how hard
/// the compressors work depends on the heat, and whether they work at all on the charge.
///
/// A bank at its cut-off disconnects everything that may be shed, cabinets included, until it has
/// been charged well above it again. Loads with a shed order go earlier, between floor and cut-off.
struct Power {
  /// A bank being charged stands this much above its nominal voltage, so that a source of so many
  /// watts puts in that many fewer amperes (common practice: 13.8 V on a 12 V bank).
  static constexpr double charging_over_nominal = 1.15;

  struct Bank {
    int store = 0;
    int reserve = 0;
    models::BatteryParams params;
    double cut_off_ah = 0;  ///< at 25 °C, as are the next and those of the loads
    double reconnect_ah = 0;
    bool lost = false;  ///< left behind

    /// What it gives in a day in which so much is drawn evenly: by Peukert's law, maybe more.
    [[nodiscard]] double given_ah_day(double drawn_ah_day) const {
      return drawn_ah_day * models::peukert_factor(params, drawn_ah_day / 24);
    }
  };

  struct Cabinet {
    int heat = 0;  ///< store: heat content, Wh
    int ice = -1;  ///< store: ice, kg
    int reserve = 0;
    models::CabinetParams params;
    models::CabinetState start;
    double liner_kj_k = 0;   ///< liner and air
    double fresh_kj_kg = 0;  ///< enthalpy of frozen goods or ice that is put in
    double full_ice_kg = 0;
    int bank = -1;  ///< -1: needs no electricity from a bank
    double above_ambient_k = 0;
    plan::While above_when = plan::While::always;
    bool freezer_only = false;  ///< judged by its frozen goods
    bool stopped = false;       ///< its compressor has failed
    double limit_c = 5;         ///< what hold-over counts to

    /// How warm it is where it stands.
    [[nodiscard]] double ambient_c(const TimeStep& step, double air_c) const {
      return air_c + (applies(above_when, step) ? above_ambient_k : 0);
    }
  };

  struct Load {
    int bank = 0;
    bool vital = false;        ///< never shed
    double shed_below_ah = 0;  ///< 0: only at cut-off
    double back_above_ah = 0;
  };

  /// What the tables below depend on. Of a course that is ready from an earlier step, they serve
  /// from a later one as well.
  struct Inputs {
    std::shared_ptr<const Timeline> timeline;
    plan::Power power;
    std::vector<plan::Cabinet> cold;
    Damage damage;                           ///< but for what is lost of other families
    std::vector<models::FoodThermal> slabs;  ///< by cabinet
    std::size_t people = 0;                  ///< what they put in through the lids
    bool operator==(const Inputs&) const = default;
  };

  /// What panels get of the sun in each half of a step, but for how much sun there is: by half
  /// step, by charger that is a panel.
  using Light = std::vector<models::SunStretch>;

  /// The costly part of compiling: it does not depend on what is in store, so courses share it.
  struct Tables {
    Inputs inputs;
    std::size_t first_step = 0;    ///< nothing is ready before it
    std::vector<double> load_w;    ///< by step, by load: mean over the step
    std::vector<double> vital_w;   ///< by step, by bank: loads that are never shed
    std::vector<double> plain_w;   ///< by step, by bank: loads that go at cut-off alone
    std::vector<double> source_a;  ///< by half step, by bank: what all but generators offer
    std::vector<double> panel_a;   ///< by half step, by bank: what panels offer of that
    std::vector<double> in_reach;  ///< by day, by bank: share of the capacity that the cold leaves
    std::vector<double> charging_c;    ///< by step: how cold a bank is taken to be when charged
    std::vector<double> lid_w_k;       ///< by step, by cabinet: what the lid lets in
    std::vector<double> lid_day_w_k;   ///< by PlaceDay, by cabinet: the same, mean over the day
    std::vector<double> loads_ah_day;  ///< by bank: what its loads draw while staying put
    std::vector<double> drawn_ah_day;  ///< by PlaceDay, by bank: that, and what cabinets draw
    std::vector<double>
        use_ah_day;  ///< by PlaceDay, by bank: what it gives then, nothing coming in
    std::shared_ptr<const Light> light;  ///< null: not worked out
    std::size_t light_from = 0;          ///< step from which it is
    bool autonomy = true;                ///< whether what is by PlaceDay is filled as well
  };

  struct Compiled {
    std::vector<Bank> banks;
    std::vector<Cabinet> cabinets;
    std::vector<Load> loads;
    std::vector<Generator> generators;
    std::vector<int> ranked;         ///< loads with a shed order
    std::shared_ptr<Tables> tables;  ///< not to be changed while another course has them
  };

  struct State {
    std::vector<double> charge_ah;   ///< by bank
    std::vector<char> disconnected;  ///< by bank
    std::vector<char> shed;          ///< by load
    std::vector<int> refused_day;    ///< by bank: when told last that it is too cold
    std::vector<models::CabinetState> cabinets;
    // Scratch of one step, kept here so that stepping allocates nothing.
    std::vector<models::CabinetState> before;
    std::vector<models::CabinetFlows> flows;
  };

  /// `like`: one whose tables are taken over if they are the same; null: none.
  static Compiled compile(const plan::Plan& plan, CourseBase& course,
                          const Compiled* like = nullptr);
  /// What of the tables goes by the weather of some steps.
  static void fill(Tables& tables, const Compiled& compiled, const plan::Plan& plan,
                   const CourseBase& course, const IndexRange& steps);
  static void refill(Compiled& compiled, const plan::Plan& plan, const CourseBase& course,
                     const IndexRange& steps);
  /// What panels get in the steps of a course, from its first on, for tables that are to be filled
  /// many times.
  static std::shared_ptr<const Light> light_on_panels(const plan::Plan& plan,
                                                      const CourseBase& course);
  /// Leaves all banks a share of the capacity that they have in the course `whole`, as though they
  /// had been compiled so. Nobody may share the tables of `worn`.
  static void wear(Compiled& worn, CourseBase& course, const Compiled& whole,
                   const CourseBase& whole_course, const plan::Plan& plan, double left);
  static State begin(const Compiled& compiled, Run& run);
  static void supply(const Compiled& compiled, State& state, Run& run, int order);
  static void advance(const Compiled& compiled, State& state, Run& run, const TimeStep& step);
  static void heed(Compiled& compiled, const plan::Plan& plan, const CourseBase& course);
  static void lose_excess(const Compiled& compiled, State& state, Run& run);
  static void set_level(const Compiled& compiled, State& state, Run& run, int reserve,
                        double level);
  static std::vector<Remedy> remedies(const Compiled& compiled, const plan::Plan& plan, int reserve,
                                      double lacking);
};

// --- one step of a cabinet (power_cabinets.cc) ---

inline constexpr double wh_per_kj = 1 / 3.6;

/// How cold what lies frozen in a cabinet is; where nothing does, its inside.
double frozen_temperature_c(const Power::Cabinet& cabinet, const models::CabinetState& state);

/// Heat that leaves or enters a cabinet with what is put in and taken out of it. What is taken out
/// is as cold as the rest; chilled goods that have been bought come in as warm as they are stated
/// to be, or as the air.
void settle_contents(const Power::Cabinet& cabinet, models::CabinetState& state, Run& run,
                     std::size_t index, double air_c);

/// A cabinet with its lid as it is used in a step.
models::CabinetParams in_use(const Power::Compiled& compiled, const Run& run, std::size_t index,
                             const TimeStep& step);

/// Steps a cabinet whose electricity lasts for `served` (0..1) of `dt_h` hours.
models::CabinetFlows step_served(const models::CabinetParams& params, models::CabinetState& state,
                                 double air_c, double dt_h, double served);

/// Writes a cabinet's step into the ledger and tells the food how warm it was.
void publish_cabinet(const Power::Compiled& compiled, const models::CabinetState& before,
                     const models::CabinetState& after, const models::CabinetFlows& flows, Run& run,
                     const TimeStep& step, std::size_t index);

}  // namespace drystage::engine::reserves
