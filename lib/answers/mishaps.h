#pragma once

#include <atomic>
#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "answers/trial.h"

namespace drystage::answers {

/// One thing that can go wrong, whenever it does.
struct Failure {
  plan::MishapKind kind{};
  std::string name;  ///< "can 3 lost", "stuck 2 days on the way"
};

/// What a mishap leads to, in rising order of harm.
enum class Outcome {
  holds,          ///< every reserve keeps its margin, or is no worse off than in the plan itself
  eats_margin,    ///< below a margin, or utility water drunk, further than in the plan itself
  runs_out,       ///< a reserve that life does not depend on is dry
  runs_out_vital  ///< drinking water, or fuel to get out, is dry
};

/// One failure at one moment, run to the end of the trip.
struct Finding {
  int failure = 0;  ///< index into Sweep::failures
  int day = 0;      ///< when it strikes, 0-based
  double hour = 0;
  Outcome outcome = Outcome::holds;
  int reserve = -1;     ///< the one that fares worst; -1 where all hold
  double slack = 0;     ///< of that reserve at its tightest: level less margin
  double stood_in = 0;  ///< utility water drunk, from then on, in place of drinking water
  // Where it runs out:
  double short_of = 0;  ///< wanted and not there, in its unit
  int dry_day = -1;     ///< when it is dry first
  double dry_hour = 0;
  std::string where;                  ///< and where
  double dry_for_h = 0;               ///< from then until it is topped up, or the trip ends
  std::optional<bool> retreat_saves;  ///< turning back at once keeps it, and what life depends on
};

/// Every single failure at every moment at which it can strike.
struct Sweep {
  std::vector<Failure> failures;
  std::vector<Finding> findings;  ///< by failure, then in time order
  Finding plan_itself;            ///< the same judgement of the plan without mishap
  std::size_t asked = 0;          ///< runs that there were to do; more than findings when stopped
  std::vector<std::string> remarks;  ///< what the reader must know of how it was reckoned

  [[nodiscard]] bool partial() const { return findings.size() < asked; }
  /// The worst that was found.
  [[nodiscard]] Outcome worst() const;
};

/// Two failures of which something runs out, and what comes of it is of a worse kind than what
/// comes of either alone.
struct PairFinding {
  int first = 0;  ///< index into Sweep::failures: of the worst of them, the one that strikes first
  int second = 0;
  std::size_t tried = 0;  ///< combinations of moments, whichever of the two strikes first
  std::size_t dry = 0;    ///< of which so many run out
  int first_day = 0;      ///< of the worst of them: when the first strikes
  double first_hour = 0;
  Finding worst;  ///< and the second, with what comes of it
};

struct PairSweep {
  std::vector<PairFinding> pairs;  ///< worst first
  std::size_t asked = 0;           ///< first mishaps that there were to try, each with every second
  std::size_t done = 0;            ///< of which so many have been
  std::size_t runs = 0;            ///< of the engine
  [[nodiscard]] bool partial() const { return done < asked; }
};

struct SweepOptions {
  std::vector<plan::MishapKind> only{};       ///< empty: all that are not left out
  std::optional<std::pair<int, int>> days{};  ///< strikes on these days alone, from 0
};

/// How a long search is watched: told how much of the work is done, of how much (0: that is not
/// known), from any thread, one at a time; and asked to stop.
struct Watch {
  std::function<void(std::size_t done, std::size_t total)> progress{};
  const std::atomic<bool>* stop = nullptr;
};

/// Tries every single failure that the plan can suffer, at every day at which it can strike, each a
/// run of the engine from the moment before. At stops people take what the plan says, and more
/// where that brings them to what they would have had there without the mishap; so too where a
/// confirmed supply is passed of which the plan takes nothing. In parallel; the answer does not
/// depend on the number of threads.
Sweep sweep_mishaps(const Trial& trial, const SweepOptions& options, const Watch& watch = {});

/// Tries every two failures of a single sweep, neither of which alone runs dry what life depends
/// on.
PairSweep sweep_pairs(const Trial& trial, const SweepOptions& options, const Sweep& single,
                      const Watch& watch = {});

}  // namespace drystage::answers
