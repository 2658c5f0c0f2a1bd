
#include <algorithm>
#include <map>
#include <mutex>
#include <tuple>
#include <utility>

#include "answers/base/in_parallel.h"
#include "answers/mishaps/pair_check.h"

namespace drystage::answers {
namespace {

using engine::Engine;

/// What is known of each strike from the single sweep; a strike that was not run is not known.
class Singles {
 public:
  Singles(const SweepPlan& plan, const Sweep& single) {
    std::size_t next = 0;
    for (const Strike& strike : plan.strikes()) {
      const engine::TimeStep& step = plan.laid().timeline->steps[strike.step];
      const bool done = next < single.findings.size() &&
                        single.findings[next].failure == static_cast<int>(strike.mishap) &&
                        single.findings[next].day == step.day &&
                        single.findings[next].hour == step.from_h;
      if (!done) continue;
      known_[{strike.mishap, strike.ordinal}] = single.findings[next++].outcome;
    }
  }

  /// Whether a mishap was run at any moment.
  [[nodiscard]] bool reached(std::size_t mishap) const {
    const auto first = known_.lower_bound({mishap, 0});
    return first != known_.end() && first->first.first == mishap;
  }

  [[nodiscard]] std::optional<Outcome> outcome(std::size_t mishap, std::size_t ordinal) const {
    const auto found = known_.find({mishap, ordinal});
    if (found == known_.end()) return std::nullopt;
    return found->second;
  }

 private:
  std::map<std::pair<std::size_t, std::size_t>, Outcome> known_;
};

/// Strikes of one mishap that lead to the same laid trip: one for each moment, or all of them
/// together.
struct First {
  std::size_t mishap = 0;
  std::vector<Strike> strikes;
};

std::vector<First> firsts_of(const SweepPlan& plan, const Singles& singles) {
  std::vector<First> out;
  for (const Strike& strike : plan.strikes()) {
    const auto alone = singles.outcome(strike.mishap, strike.ordinal);
    if (!alone || *alone == Outcome::runs_out_vital) continue;
    const bool moves = plan.mishaps()[strike.mishap].moves_time();
    const bool joins = !moves && !out.empty() && out.back().mishap == strike.mishap;
    if (!joins) out.push_back({.mishap = strike.mishap, .strikes = {}});
    out.back().strikes.push_back(strike);
  }
  return out;
}

/// The two failures, whichever strikes first.
using PairKey = std::pair<int, int>;
using Pairs = std::map<PairKey, PairFinding>;

bool worse(const Finding& a, const Finding& b) {
  if (a.outcome != b.outcome) return a.outcome > b.outcome;
  return std::tie(a.dry_day, a.dry_hour) < std::tie(b.dry_day, b.dry_hour);
}

/// Puts what was found of a pair to what is known of it.
void merge(PairFinding& into, const PairFinding& more) {
  into.tried += more.tried;
  if (more.dry > 0 && (into.dry == 0 || worse(more.worst, into.worst))) {
    into.first = more.first;
    into.second = more.second;
    into.worst = more.worst;
    into.first_day = more.first_day;
    into.first_hour = more.first_hour;
  }
  into.dry += more.dry;
}

/// Tries every second mishap after one first.
class SecondMishaps {
 public:
  SecondMishaps(const SweepPlan& plan, const Singles& singles, const PairCheck& check,
                const First& first, const Watch& watch)
      : plan_(plan),
        singles_(singles),
        check_(check),
        first_(first),
        watch_(watch),
        mishap_(plan.mishaps()[first.mishap]),
        laid_(plan.struck(first.strikes.front())),
        loaded_(HeavyFuel::loaded(*laid_.course)) {}

  Pairs try_all() {
    for (std::size_t m = 0; m < plan_.mishaps().size(); ++m) list(m);
    std::ranges::stable_sort(seconds_, {}, [](const Second& s) { return s.strike.step; });
    for (const Strike& strike : first_.strikes) try_after(strike);
    return std::move(pairs_);
  }

  [[nodiscard]] std::size_t runs() const { return runs_; }

 private:
  /// A second strike on the laid trip after the first, with the laid trip that it leads to.
  struct Second {
    Strike strike;
    Outcome alone{};
    std::shared_ptr<Way> way{};
  };

  void list(std::size_t m) {
    const Mishap& second = plan_.mishaps()[m];
    if (m == first_.mishap && !second.repeats) return;
    // Who has turned back meets no road ahead that could be shut.
    if (mishap_.turns_back && second.turns_back) return;
    if (!singles_.reached(m)) return;
    std::shared_ptr<Way> timeless;
    const std::vector<std::size_t> steps = second.strikes(laid_);
    const std::size_t planned = second.strikes(plan_.laid()).size();
    for (std::size_t n = 0; n < steps.size(); ++n) {
      if (!plan_.on_the_days(laid_, steps[n])) continue;
      // A moment that the plan itself does not have, on days that a delay has added.
      const auto alone = n < planned ? singles_.outcome(m, n) : std::optional(Outcome::holds);
      if (!alone || *alone == Outcome::runs_out_vital) continue;
      if (steps[n] < first_.strikes.front().step) continue;
      Second one{.strike = {.mishap = m, .ordinal = n, .step = steps[n]}, .alone = *alone};
      if (second.moves_time() || !timeless) {
        timeless = std::make_shared<Way>(plan_, laid_, second, steps[n]);
      }
      one.way = timeless;
      seconds_.push_back(std::move(one));
    }
  }

  void try_after(const Strike& strike) {
    const Outcome alone = *singles_.outcome(strike.mishap, strike.ordinal);
    const engine::Course& course = *laid_.course;
    engine::make_blank(run_, course);
    Engine::Standing now = Engine::resume(plan_.before(strike.step), course, strike.step, run_);
    Engine::lose_excess(course, now);
    Engine::Standing heavy =
        HeavyFuel::strike(check_.fuel().before(strike.step), loaded_, strike.step, heavy_run_);
    for (const Second& second : seconds_) {
      if (watch_.stopped()) return;
      // Two that strike at the same moment are one pair, in the order of the list.
      const bool before = std::tie(second.strike.step, second.strike.mishap) <=
                          std::tie(strike.step, strike.mishap);
      if (before) continue;
      Engine::go_on(course, now, second.strike.step);
      HeavyFuel::go_on(loaded_, heavy, second.strike.step);
      const PairCheck::Moment moment{.first = strike,
                                     .second = second.strike,
                                     .now = now,
                                     .heavy = heavy,
                                     .alone = std::max(alone, second.alone)};
      const bool no_worse = check_.is_no_worse(moment, *second.way, scratch_);
      note(moment, no_worse ? Finding{} : finding(second, now));
    }
  }

  Finding finding(const Second& second, const Engine::Standing& standing) {
    const LaidTrip& laid = second.way->laid();
    const Mishap& mishap = plan_.mishaps()[second.strike.mishap];
    const std::size_t step = second.strike.step;
    // Who had turned back by then is judged on the way that begins there, not after its end.
    const std::vector<std::size_t> until =
        mishap.turns_back ? judged_until(laid, mishap, step)
                          : judged_until(laid, mishap_, first_.strikes.front().step);
    return finding_after(laid, standing, step, until, plan_.planned(laid.timeline->steps[step]),
                         scratch_);
  }

  void note(const PairCheck::Moment& moment, Finding found) {
    ++runs_;
    // What had run dry between the two is the first one's doing, and was seen there.
    const int first = static_cast<int>(moment.first.mishap);
    found.failure = static_cast<int>(moment.second.mishap);
    PairFinding one;
    one.first = first;
    one.second = found.failure;
    one.tried = 1;
    if (found.outcome >= Outcome::runs_out && found.outcome > moment.alone) {
      const engine::TimeStep& step = plan_.laid().timeline->steps[moment.first.step];
      one.dry = 1;
      one.first_day = step.day;
      one.first_hour = step.from_h;
      one.worst = std::move(found);
    }
    const PairKey key{std::min(one.first, one.second), std::max(one.first, one.second)};
    const auto [known, fresh] = pairs_.emplace(key, one);
    if (!fresh) merge(known->second, one);
  }

  const SweepPlan& plan_;
  const Singles& singles_;
  const PairCheck& check_;
  const First& first_;
  const Watch& watch_;
  const Mishap& mishap_;
  LaidTrip laid_;
  engine::Course loaded_;  ///< its course as HeavyFuel has it
  std::vector<Second> seconds_;
  Pairs pairs_;
  std::size_t runs_ = 0;
  engine::Record run_;
  engine::Record heavy_run_;
  engine::Record scratch_;
};

}  // namespace

PairSweep sweep_pairs(const PlanRun& planned, const SweepOptions& options, const Sweep& single,
                      const Watch& watch) {
  const LaidTrip keeping = keeping_timelines();
  const SweepPlan plan(planned, options, &keeping);
  const Singles singles(plan, single);
  const PairCheck check(plan, watch);
  const std::vector<First> firsts = firsts_of(plan, singles);
  std::vector<Pairs> found(firsts.size());
  PairSweep out;
  out.asked = firsts.size();
  std::mutex mutex;
  in_parallel(firsts.size(), [&](std::size_t f) {
    if (watch.stopped()) return;
    SecondMishaps seconds(plan, singles, check, firsts[f], watch);
    Pairs some = seconds.try_all();
    if (watch.stopped()) return;
    found[f] = std::move(some);
    const std::scoped_lock lock(mutex);
    out.runs += seconds.runs();
    ++out.done;
    if (watch.progress) watch.progress(out.done, out.asked);
  });
  Pairs all;
  for (const Pairs& some : found) {
    for (const auto& [key, pair] : some) {
      const auto [known, fresh] = all.emplace(key, pair);
      if (!fresh) merge(known->second, pair);
    }
  }
  for (auto& [key, pair] : all) {
    if (pair.dry > 0) out.pairs.push_back(std::move(pair));
  }
  std::ranges::stable_sort(out.pairs, [](const PairFinding& a, const PairFinding& b) {
    if (a.worst.outcome != b.worst.outcome) return a.worst.outcome > b.worst.outcome;
    return worse(a.worst, b.worst);
  });
  return out;
}

}  // namespace drystage::answers
