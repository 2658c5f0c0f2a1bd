#include "answers/weigh/moves.h"

#include <algorithm>
#include <cmath>
#include <queue>
#include <utility>

#include "engine/empty_axles.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

using engine::Carried;
using engine::Scale;

// Rounding alone overloads nothing.
constexpr double tiny_kg = 1e-6;
constexpr double step_m = 0.05;
// Beyond this many trials an answer would take longer than a few seconds.
constexpr std::size_t most_tried = 400'000;
constexpr std::size_t most_tried_soon = 4'000;

/// Somewhere that a thing may go.
struct Target {
  plan::Spot spot{};
  double at_m = 0;
  bool home = false;
};

class Mover {
  /// A limit, and by how much it is passed at every moment as things lie (less than 0: kept).
  struct Held {
    const Scale* scale = nullptr;
    std::size_t index = 0;
    std::vector<double> over_kg{};
    std::size_t worst = 0;
  };

 public:
  Mover(const PlanRun& planned, const Trace& trace, const Loads& loads,
        const std::vector<Scale>& scales, const MoveOptions& options)
      : plan_(planned.plan),
        vehicle_(planned.plan.vehicles[at(loads.vehicle())]),
        loads_(loads),
        options_(options) {
    for (std::size_t m = 0; m < loads.moments().size(); ++m) {
      if (!trace.moments[loads.moments()[m]].past) moments_.push_back(m);
    }
    for (const Scale& scale : scales) {
      if (scale.vehicle != loads.vehicle() || !std::isfinite(scale.limit_kg)) continue;
      // These go by the trailer alone.
      using engine::ScaleKind;
      if (scale.kind == ScaleKind::ball || scale.kind == ScaleKind::trailer) continue;
      Held held{.scale = &scale, .index = static_cast<std::size_t>(&scale - scales.data())};
      for (const std::size_t m : moments_) {
        held.over_kg.push_back(scale_kg(scale, trace, loads.moments()[m]) - scale.limit_kg);
      }
      const auto worst = std::ranges::max_element(held.over_kg);
      held.worst = static_cast<std::size_t>(worst - held.over_kg.begin());
      held_.push_back(std::move(held));
    }
    // What is worst is looked at first.
    std::ranges::stable_sort(held_, std::ranges::greater{},
                             [](const Held& held) { return held.over_kg[held.worst]; });
    choose_things();
  }

  Moves moves() {
    Moves out;
    if (moments_.empty() || keeps_all()) {
      out.found = true;
      return out;
    }
    if (try_all(out) || options_.whole_only) return out;
    if (out.given_up) {
      heaviest_first(out);
      return out;
    }
    // Some limit cannot be kept: as many as can be, each tried beside those that can.
    const std::vector<Held> whole = held_;
    std::vector<char> enforced(whole.size(), 0);
    for (std::size_t h = 0; h < whole.size(); ++h) {
      if (whole[h].over_kg[whole[h].worst] <= tiny_kg) continue;
      enforced[h] = 1;
      relax(whole, enforced);
      Moves tried;
      if (try_all(tried)) {
        out.moves = std::move(tried.moves);
      } else {
        enforced[h] = 0;
        out.still.push_back(whole[h].index);
      }
    }
    return out;
  }

 private:
  /// What is not enforced may stay as it is, and get no worse.
  void relax(const std::vector<Held>& whole, const std::vector<char>& enforced) {
    held_ = whole;
    for (std::size_t h = 0; h < held_.size(); ++h) {
      const double worst_kg = held_[h].over_kg[held_[h].worst];
      if (enforced[h] != 0 || worst_kg <= 0) continue;
      for (double& kg : held_[h].over_kg) kg -= worst_kg;
    }
  }

  bool try_all(Moves& out) {
    const std::vector<Target> all = bays_or_places();
    std::vector<Target> low = all;
    std::erase_if(low, [this](const Target& target) { return is_on_roof(target); });
    if (search(low, out) || out.given_up) return out.found;
    if ((low.size() < all.size() && search(all, out)) || out.given_up) return out.found;
    if (!options_.may_leave) return false;
    std::vector<Target> with_home = all;
    with_home.push_back({.home = true});
    return search(with_home, out);
  }

  /// A set of things, by their place in `order_`, which rises.
  struct Subset {
    double kg = 0;
    std::vector<std::size_t> members{};
    bool operator>(const Subset& other) const {
      return std::pair(kg, members.size()) > std::pair(other.kg, other.members.size());
    }
  };

  void choose_things() {
    for (std::size_t t = 0; t < loads_.things().size(); ++t) {
      const bool may = options_.which.empty() ? loads_.things()[t].movable : options_.which[t] != 0;
      if (may && loads_.most_kg(t) > 0) order_.push_back(t);
    }
    std::ranges::stable_sort(order_, {}, [this](std::size_t t) { return loads_.most_kg(t); });
  }

  [[nodiscard]] bool keeps_all() const {
    return std::ranges::all_of(
        held_, [](const Held& held) { return held.over_kg[held.worst] <= tiny_kg; });
  }

  [[nodiscard]] std::vector<Target> bays_or_places() const {
    std::vector<Target> out;
    for (std::size_t b = 0; b < vehicle_.bays.size(); ++b) {
      if (engine::is_seat(plan_, loads_.vehicle(), static_cast<int>(b))) continue;
      out.push_back({.spot = {.bay = static_cast<int>(b)}, .at_m = vehicle_.bays[b].at_m});
    }
    if (!out.empty()) return out;
    double from_m = std::numeric_limits<double>::infinity();
    double to_m = -from_m;
    for (const Carried& thing : loads_.things()) {
      if (!thing.is_placed()) continue;
      from_m = std::min(from_m, engine::at_m(vehicle_, thing.spot));
      to_m = std::max(to_m, engine::at_m(vehicle_, thing.spot));
    }
    for (int i = 0; from_m + i * step_m <= to_m + step_m / 2; ++i) {
      const double at_m = std::min(to_m, from_m + i * step_m);
      out.push_back({.spot = {.at_m = at_m}, .at_m = at_m});
    }
    return out;
  }

  /// Whether fuel is carried in a bay as the plan has it.
  [[nodiscard]] bool has_fuel(int bay) const {
    return std::ranges::any_of(loads_.things(), [bay](const Carried& thing) {
      return thing.is_fuel && thing.spot.bay == bay;
    });
  }

  [[nodiscard]] bool is_on_roof(const Target& target) const {
    return target.spot.bay && vehicle_.bays[at(*target.spot.bay)].on_roof;
  }

  /// Where a thing lies once it is there: beside the bay, what it says itself is kept.
  [[nodiscard]] plan::Spot there(std::size_t thing, const Target& target) const {
    plan::Spot spot = target.spot;
    if (!spot.bay) {
      spot.height_m = loads_.things()[thing].spot.height_m;
      spot.right_m = loads_.things()[thing].spot.right_m;
    }
    return spot;
  }

  /// By how much a scale's share of a thing changes.
  [[nodiscard]] double change(const Scale& scale, std::size_t thing, const Target& target) const {
    const double before = engine::share_of(vehicle_, scale, loads_.things()[thing].spot);
    const double after = target.home ? 0 : engine::share_of(vehicle_, scale, there(thing, target));
    return after - before;
  }

  [[nodiscard]] bool may_go(std::size_t thing, const Target& target) const {
    const Carried& it = loads_.things()[thing];
    if (target.home) return it.leavable;
    if (target.spot.bay) {
      return it.spot.bay != target.spot.bay && (!it.is_fuel || has_fuel(*target.spot.bay));
    }
    return std::abs(engine::at_m(vehicle_, it.spot) - target.at_m) > step_m / 2;
  }

  /// The changes of shares, for every limit, thing and target; not a number where it may not go.
  void tabulate(const std::vector<Target>& targets) {
    changes_.clear();
    least_change_.clear();
    for (const Held& held : held_) {
      for (const std::size_t thing : order_) {
        double least = std::numeric_limits<double>::infinity();
        for (const Target& target : targets) {
          changes_.push_back(may_go(thing, target) ? change(*held.scale, thing, target)
                                                   : std::numeric_limits<double>::quiet_NaN());
          least = std::fmin(least, changes_.back());
        }
        least_change_.push_back(std::isfinite(least) ? least : 0);
      }
    }
  }

  [[nodiscard]] double changed(std::size_t held, std::size_t member, std::size_t target) const {
    return changes_[(held * order_.size() + member) * targets_ + target];
  }

  [[nodiscard]] bool keeps_all_with(const Subset& set, const std::vector<std::size_t>& to) const {
    for (std::size_t h = 0; h < held_.size(); ++h) {
      const auto over_kg = [&](std::size_t m) {
        double kg = held_[h].over_kg[m];
        for (std::size_t i = 0; i < to.size(); ++i) {
          kg += changed(h, set.members[i], to[i]) * loads_.kg(order_[set.members[i]], moments_[m]);
        }
        return kg;
      };
      if (over_kg(held_[h].worst) > tiny_kg) return false;
      for (std::size_t m = 0; m < moments_.size(); ++m) {
        if (over_kg(m) > tiny_kg) return false;
      }
    }
    return true;
  }

  /// The way to put the things of a set elsewhere, member by member.
  struct Placing {
    const Subset& set;
    const std::vector<Target>& targets;
    std::vector<std::size_t> to{};
    double distance_m = 0;
    std::optional<std::vector<std::size_t>> best{};
    double best_m = std::numeric_limits<double>::infinity();
  };

  [[nodiscard]] double distance_m(std::size_t member, const Target& target) const {
    if (target.home) return 0;
    const plan::Spot& from = loads_.things()[order_[member]].spot;
    return std::abs(engine::at_m(vehicle_, from) - target.at_m);
  }

  /// Whether all limits can still be kept at their worst moments, however well the rest is put.
  [[nodiscard]] bool may_do(const Placing& placing) const {
    for (std::size_t h = 0; h < held_.size(); ++h) {
      double kg = held_[h].over_kg[held_[h].worst];
      for (std::size_t i = 0; i < placing.set.members.size(); ++i) {
        const std::size_t member = placing.set.members[i];
        double change = 0;
        if (i < placing.to.size()) {
          change = changed(h, member, placing.to[i]);
        } else {
          change = least_change_[h * order_.size() + member];
        }
        kg += change * loads_.kg(order_[member], moments_[held_[h].worst]);
      }
      if (kg > tiny_kg) return false;
    }
    return true;
  }

  /// Tries every way to put the things of a set elsewhere; of those that keep all limits it takes
  /// the one over the least distance.
  void place(Placing& placing) {
    if (++tried_ > at_most() || placing.distance_m >= placing.best_m - 1e-9) return;
    if (!may_do(placing)) return;
    const std::size_t depth = placing.to.size();
    if (depth == placing.set.members.size()) {
      if (!keeps_all_with(placing.set, placing.to)) return;
      placing.best = placing.to;
      placing.best_m = placing.distance_m;
      return;
    }
    const std::size_t member = placing.set.members[depth];
    for (std::size_t t = 0; t < placing.targets.size(); ++t) {
      if (std::isnan(changed(0, member, t))) continue;
      const double more_m = distance_m(member, placing.targets[t]);
      placing.to.push_back(t);
      placing.distance_m += more_m;
      place(placing);
      placing.distance_m -= more_m;
      placing.to.pop_back();
    }
  }

  /// Sets in the order of their mass: each is followed by itself with the next thing, and by itself
  /// with the next thing in place of its last.
  bool search(const std::vector<Target>& targets, Moves& out) {
    targets_ = targets.size();
    if (order_.empty() || targets.empty() || held_.empty()) return false;
    tabulate(targets);
    tried_ = 0;
    std::size_t seen = 0;
    std::priority_queue<Subset, std::vector<Subset>, std::greater<>> queue;
    queue.push({.kg = weight(0), .members = {0}});
    while (!queue.empty()) {
      const Subset set = queue.top();
      queue.pop();
      if (tried_ > at_most() || ++seen > at_most()) {
        out.given_up = true;
        return false;
      }
      Placing placing{.set = set, .targets = targets};
      place(placing);
      if (placing.best) {
        take(set, *placing.best, targets, out);
        return true;
      }
      const std::size_t next = set.members.back() + 1;
      if (next >= order_.size()) continue;
      Subset more = set;
      more.members.push_back(next);
      more.kg += weight(next);
      queue.push(std::move(more));
      Subset other = set;
      other.kg += weight(next) - weight(set.members.back());
      other.members.back() = next;
      queue.push(std::move(other));
    }
    return false;
  }

  [[nodiscard]] std::size_t at_most() const {
    return options_.whole_only ? most_tried_soon : most_tried;
  }

  /// How far all limits together are passed, each at its worst moment, with some things elsewhere.
  [[nodiscard]] double passed_kg(const std::vector<std::optional<std::size_t>>& to) const {
    double sum_kg = 0;
    for (std::size_t h = 0; h < held_.size(); ++h) {
      double worst_kg = 0;
      for (std::size_t m = 0; m < moments_.size(); ++m) {
        double kg = held_[h].over_kg[m];
        for (std::size_t i = 0; i < to.size(); ++i) {
          if (to[i]) kg += changed(h, i, *to[i]) * loads_.kg(order_[i], moments_[m]);
        }
        worst_kg = std::max(worst_kg, kg);
      }
      sum_kg += worst_kg;
    }
    return sum_kg;
  }

  /// Where trying all would take too long: again and again the one move that helps most, until all
  /// limits are kept or none helps. Need not be the least.
  void heaviest_first(Moves& out) {
    std::vector<Target> targets = bays_or_places();
    if (options_.may_leave) targets.push_back({.home = true});
    targets_ = targets.size();
    tabulate(targets);
    std::vector<std::optional<std::size_t>> to(order_.size());
    double now_kg = passed_kg(to);
    while (now_kg > tiny_kg) {
      std::size_t best_thing = 0;
      std::size_t best_target = 0;
      double best_kg = now_kg - tiny_kg;
      for (std::size_t i = 0; i < order_.size(); ++i) {
        if (to[i]) continue;
        for (std::size_t t = 0; t < targets_; ++t) {
          if (std::isnan(changed(0, i, t))) continue;
          to[i] = t;
          const double kg = passed_kg(to);
          to[i].reset();
          if (kg >= best_kg) continue;
          best_kg = kg;
          best_thing = i;
          best_target = t;
        }
      }
      if (best_kg >= now_kg - tiny_kg) break;
      to[best_thing] = best_target;
      now_kg = best_kg;
    }
    Subset set;
    std::vector<std::size_t> places;
    for (std::size_t i = 0; i < to.size(); ++i) {
      if (!to[i]) continue;
      set.members.push_back(i);
      places.push_back(*to[i]);
    }
    if (now_kg > tiny_kg) return;
    take(set, places, targets, out);
  }

  [[nodiscard]] double weight(std::size_t member) const { return loads_.most_kg(order_[member]); }

  void take(const Subset& set, const std::vector<std::size_t>& to,
            const std::vector<Target>& targets, Moves& out) const {
    out.found = true;
    for (std::size_t i = 0; i < to.size(); ++i) {
      const std::size_t index = order_[set.members[i]];
      const Carried& thing = loads_.things()[index];
      const Target& target = targets[to[i]];
      out.moves.push_back({.vehicle = loads_.vehicle(),
                           .name = thing.name,
                           .from_bay = thing.spot.bay.value_or(-1),
                           .from_m = engine::at_m(vehicle_, thing.spot),
                           .to_bay = target.spot.bay.value_or(-1),
                           .to_m = target.at_m,
                           .left = target.home,
                           .kg = loads_.most_kg(index),
                           .to = there(index, target)});
    }
  }

  const plan::Plan& plan_;
  const plan::Vehicle& vehicle_;
  const Loads& loads_;
  const MoveOptions& options_;
  std::vector<std::size_t> moments_;  ///< of the loads', those that are not past
  std::vector<Held> held_;
  std::vector<std::size_t> order_;  ///< things that may be moved, the lightest first
  std::size_t targets_ = 0;
  std::vector<double> changes_;
  std::vector<double> least_change_;  ///< by limit and thing, wherever it goes
  std::size_t tried_ = 0;
};

}  // namespace

Moves least_moves(const PlanRun& planned, const Trace& trace, const Loads& loads,
                  const std::vector<Scale>& scales, const MoveOptions& options) {
  return Mover(planned, trace, loads, scales, options).moves();
}

}  // namespace drystage::answers
