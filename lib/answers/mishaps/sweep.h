#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "answers/mishaps/finding.h"

namespace drystage::answers {

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

}  // namespace drystage::answers
