#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

#include "answers/base/watch.h"
#include "answers/mishaps/vital_check.h"
#include "answers/odds/many_trips.h"
#include "answers/odds/trial.h"
#include "answers/offers/decision.h"
#include "answers/size/sizing.h"

namespace drystage::answers {

/// A set that is tried: a choice for every decision.
using ChoiceSet = std::vector<const Choice*>;

/// What became of a set when it was run.
struct Judgement {
  PlanRun planned;
  std::optional<Verdict> confirmed;  ///< with every unconfirmed supply shut, where that is asked
  std::vector<double> over_kg;       ///< by scale of the course: beyond what it may weigh
  double over_space_l = 0;
  double over_budget = 0;
  std::size_t things_too_many = 0;  ///< more than a plan may have
  int packed_too_full = -1;         ///< a cabinet chosen too small for what is to go into it
  std::vector<Finding> fatal;       ///< mishaps that are not survived, where margins hold
  std::vector<Failure> failures;    ///< that these refer to
  std::optional<Trial> trial{};     ///< on drawn trips, where all else is in order and it is asked

  [[nodiscard]] bool keeps_margins() const;
  [[nodiscard]] bool within_limits() const;
  [[nodiscard]] bool holds() const;

  /// How far it is from holding, to tell which of those that do not comes nearest.
  [[nodiscard]] double shortfall() const;

  /// Index of a reserve; -1 where this set leaves nobody asking for it.
  [[nodiscard]] int reserve(engine::ReserveId id) const;
  /// Whether a reserve's margin is broken, or it runs out.
  [[nodiscard]] bool breaks(int reserve) const;
  /// Whether one has been at its end; false where nobody asks for it.
  [[nodiscard]] bool ran_dry(engine::ReserveId id) const;
  /// Whether any food has spoiled, or may have (of a run with supplies shut that is not looked
  /// into), or a consumable that was too warm.
  [[nodiscard]] bool something_spoiled() const;
  /// The least by which a reserve's level would have to be raised for that to change; 0 where it
  /// keeps its margin and is wanted in vain all the same.
  [[nodiscard]] double at_least_lacking(int reserve) const;
};

/// Runs sets: every one is judged by the engine, whole. Not to be shared by threads.
class SizeJudge {
 public:
  /// The plan's run must outlive it. `like`: the laid trip of a judge of the same plan.
  SizeJudge(const PlanRun& planned, const SizeOptions& options, const Watch& watch, bool limited,
            LaidTrip like);

  /// Which mishaps are tried, where everything else is in order: none; first those that were the
  /// worst of a set before, and all only where these are survived; or all at once. Trips are drawn
  /// last: none; until it is plain that too many fail; or all.
  enum class Mishaps { none, suspects_first, all };
  [[nodiscard]] Judgement judge(const ChoiceSet& set,
                                Mishaps mishaps = Mishaps::suspects_first) const;

  /// A set run, and nothing asked of it.
  [[nodiscard]] PlanRun run_of(const ChoiceSet& set) const;

  /// A set, and what becomes of it after every mishap that is asked for, whether or not all else is
  /// in order.
  [[nodiscard]] Judgement after_mishaps(const ChoiceSet& set) const;

  /// The trips that are drawn of a plan, run until it is plain that too many fail, or `all`.
  /// A confidence must be asked for.
  [[nodiscard]] Trial trial_of(const PlanRun& planned, bool all) const;

  /// The plan with a set in it.
  [[nodiscard]] plan::Plan plan_with(const ChoiceSet& set) const;

  /// Whether what is chosen costs no more, and takes up no more, than it may.
  [[nodiscard]] bool affordable(const Totals& totals) const;

  [[nodiscard]] const LaidTrip& last_laid() const { return last_laid_; }
  [[nodiscard]] std::size_t runs() const { return runs_; }
  [[nodiscard]] std::size_t trials() const { return trials_; }
  [[nodiscard]] bool stopped() const;
  [[nodiscard]] const plan::Plan& plan() const { return planned_.plan; }
  [[nodiscard]] const SizeOptions& options() const { return options_; }
  [[nodiscard]] bool limited() const { return limited_; }

 private:
  /// A kind of mishap on a day.
  struct Suspect {
    plan::MishapKind kind{};
    int day = 0;
    bool operator==(const Suspect& other) const = default;
  };

  /// A plan whose trips are drawn.
  struct Drawn {
    Drawn(PlanRun of, std::uint64_t seed, const TripGround* like)
        : planned(std::move(of)), trips(planned, seed, like) {}
    PlanRun planned;
    ManyTrips trips;
  };

  void weigh(Judgement& out) const;
  void try_all_mishaps(Judgement& out, Mishaps mishaps) const;
  /// Tries those that are suspected, or all.
  void try_mishaps(Judgement& out, const SweepPlan& plan, const VitalCheck& check,
                   std::optional<Suspect> only) const;
  [[nodiscard]] SweepPlan mishaps_of(const PlanRun& planned) const;

  const PlanRun& planned_;
  const SizeOptions& options_;
  const Watch& watch_;
  bool limited_;
  plan::Plan blank_;  ///< the plan without its `size:`, which refers to what a set changes
  mutable std::size_t runs_ = 0;
  mutable std::size_t trials_ = 0;
  // Of the set that was run last, and of the one whose mishaps were tried last, to share what is
  // the same.
  mutable engine::Course last_course_;
  mutable LaidTrip last_laid_;
  mutable std::unique_ptr<Drawn> last_drawn_;
  mutable std::vector<Suspect> suspects_;  ///< which have been the worst of a set
};

/// What a set costs, weighs and takes up.
Totals totals_of(const ChoiceSet& set);

/// Why a set is not enough, in the order in which it is found out; empty where it is.
std::vector<Failing> failings_of(const Judgement& judgement);

}  // namespace drystage::answers
