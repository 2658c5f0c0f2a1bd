#include "answers/base/learned.h"

#include <algorithm>
#include <array>
#include <utility>

#include "units/index.h"

namespace drystage::answers {
namespace {

using engine::Family;

constexpr std::size_t surfaces = plan::surface_count;

/// Makes factors of use from what the readings found.
class Student {
 public:
  Student(const plan::Plan& plan, const std::shared_ptr<const engine::Timeline>& timeline)
      : plan_(plan), course_(engine::compile(plan, timeline)) {}

  Learned learn() {
    UsesFound found = uses_found(plan_, course_);
    intervals_ = std::move(found.intervals);
    out_.uses = std::move(found.uses);
    out_.doubts = std::move(found.doubts);
    since_.assign(course_.reserves.size(), 0);
    out_.factors.assign(course_.readings.size() + 1, {});
    for (engine::Factors& factors : out_.factors) {
      factors.fuel_of.assign(plan_.vehicles.size(), factors.fuel);
    }
    for (const UseFound& use : out_.uses) {
      // Found to be so between two readings: of fuel, on all surfaces alike. Of vessels that were
      // not read it is not known.
      if (use.calculated > hardly_any && !use.partly && !is_own(use.reserve)) {
        const double factor = std::clamp(use.used / use.calculated, 0.0, models::most_use_factor);
        for (std::size_t k = since_[at(use.reserve)]; k <= use.reading; ++k) {
          set(out_.factors[k], use.reserve, factor);
        }
      }
      since_[at(use.reserve)] = use.reading + 1;
    }
    out_.drinking = learned(Family::drinking_water);
    out_.utility = learned(Family::utility_water);
    out_.meals = learned(Family::food);
    for (std::size_t v = 0; v < plan_.vehicles.size(); ++v) {
      out_.fuel.push_back(learned(Family::fuel, static_cast<int>(v)));
    }
    for (std::size_t r = 0; r < course_.reserves.size(); ++r) {
      if (is_own(static_cast<int>(r))) continue;
      // From the last time it was read on.
      for (std::size_t k = since_[r]; k < out_.factors.size(); ++k) {
        set_learned(out_.factors[k], static_cast<int>(r));
      }
    }
    return std::move(out_);
  }

 private:
  /// The intervals that tell a rate. A single one that is far beyond it is a loss: a can that was
  /// spilt, or a stop that was not made. What was read stands, and teaches nothing. A second one is
  /// no accident.
  static void add_rates(std::vector<models::UseInterval>& all,
                        const std::vector<models::UseInterval>& intervals,
                        const models::UsualUse& usual) {
    const auto is_loss = [&](const models::UseInterval& interval) {
      return interval.used >
             hardly_any + models::most_usual_use(usual, interval, models::loss_from);
    };
    const bool accident = std::ranges::count_if(intervals, is_loss) == 1;
    bool after_loss = false;
    for (models::UseInterval interval : intervals) {
      interval.shares_begin = interval.shares_begin && !after_loss;
      after_loss = accident && is_loss(interval);
      if (!after_loss) all.push_back(std::move(interval));
    }
  }

  /// `of`: of fuel, which vehicle.
  [[nodiscard]] models::UseFactors learned(Family family, int of = -1) const {
    std::vector<models::UseInterval> all;
    for (std::size_t r = 0; r < intervals_.size(); ++r) {
      const engine::ReserveId id = course_.reserves[r].id;
      if (id.family != family || (of >= 0 && id.of != of)) continue;
      add_rates(all, intervals_[r], usual_use(plan_, family));
      // More than before, with nothing taken on: no later reading tells yet which of the two is
      // off.
      if (!all.empty() &&
          all.back().used < -beyond_error(all.back().begin_error, all.back().end_error)) {
        all.pop_back();
      }
    }
    return models::learn(usual_use(plan_, family).prior, all);
  }

  /// Of water or food that a vehicle keeps for itself. It teaches what all use, and no factors are
  /// its own.
  [[nodiscard]] bool is_own(int reserve) const {
    const engine::ReserveId id = course_.reserves[at(reserve)].id;
    return id.of >= 0 && id.family != Family::fuel;
  }

  void set(engine::Factors& factors, int reserve, double factor) const {
    const engine::ReserveId id = course_.reserves[at(reserve)].id;
    if (id.family == Family::drinking_water) factors.drinking = factor;
    if (id.family == Family::utility_water) factors.utility_water = factor;
    if (id.family == Family::food) factors.meals = factor;
    if (id.family == Family::fuel) factors.fuel_of[at(id.of)].fill(factor);
  }

  void set_learned(engine::Factors& factors, int reserve) const {
    const engine::ReserveId id = course_.reserves[at(reserve)].id;
    if (id.family != Family::fuel) {
      const models::UseFactors& own = id.family == Family::drinking_water  ? out_.drinking
                                      : id.family == Family::utility_water ? out_.utility
                                                                           : out_.meals;
      set(factors, reserve, own.common.factor);
      return;
    }
    for (std::size_t s = 0; s < surfaces; ++s) {
      factors.fuel_of[at(id.of)].at(s) = out_.fuel[at(id.of)].parts[s].factor;
    }
  }

  const plan::Plan& plan_;
  engine::Course course_;
  std::vector<std::vector<models::UseInterval>> intervals_;  ///< by reserve, as is the next
  std::vector<std::size_t> since_;  ///< the first of the factors that is not known yet
  Learned out_;
};

}  // namespace

std::optional<models::UseFactor> Learned::of(const engine::Course& course, int reserve) const {
  const engine::ReserveInfo& info = course.reserves[at(reserve)];
  switch (info.id.family) {
    case Family::drinking_water:
      return drinking.common;
    case Family::utility_water:
      return utility.common;
    case Family::food:
      return meals.common;
    case Family::fuel:
      break;
    case Family::cold:
    case Family::battery:
    case Family::consumable:
    case Family::tyres:
    case Family::other:
      return std::nullopt;
  }
  std::array<double, surfaces> ahead_km{};
  const std::vector<engine::TimeStep>& steps = course.timeline->steps;
  for (std::size_t s = course.judged_from(); s < steps.size(); ++s) {
    if (steps[s].drive < 0) continue;
    const auto surface = course.timeline->pieces[at(steps[s].drive)].surface;
    ahead_km.at(static_cast<std::size_t>(surface)) += steps[s].distance_km;
  }
  return fuel.at(at(info.id.of)).of(ahead_km);
}

Learned learn_from_readings(const plan::Plan& plan,
                            const std::shared_ptr<const engine::Timeline>& timeline) {
  return Student(plan, timeline).learn();
}

}  // namespace drystage::answers
