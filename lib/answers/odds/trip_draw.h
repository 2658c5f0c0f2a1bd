#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "answers/base/plan_run.h"
#include "engine/drawn.h"
#include "models/cholesky.h"
#include "models/random.h"
#include "plan/uncertainty.h"

namespace drystage::answers {

/// Something that happens on one trip.
struct TripEvent {
  plan::Source source = plan::Source::delays;
  int day = -1;      ///< on the morning of this day ...
  int leg = -1;      ///< ... or halfway along this leg
  int subject = -1;  ///< of what is lost or stops: its index in the plan; of tanks and consumables'
                     ///< stores: whose it is
  int item = -1;     ///< and which of them
  int times = 1;     ///< of punctures
  double halt_h = 0;

  bool operator==(const TripEvent&) const = default;
};

/// A supply that is not to be had on one trip.
struct MissingSupply {
  int place = 0;
  int supply = 0;  ///< of Place::supplies

  bool operator==(const MissingSupply&) const = default;
};

/// How one trip differs from the plan.
struct TripDraw {
  engine::Drawn weather{};
  engine::Factors factors{};
  std::vector<double> fills{};  ///< by store of the course: times what is in it at the outset
  double batteries = 1;         ///< times the capacity of all banks
  std::vector<MissingSupply> missing{};
  std::vector<TripEvent> events{};

  bool operator==(const TripDraw&) const = default;
};

/// Draws trips. Each trip's numbers depend on the seed, the trip and what they are for, and on
/// nothing else, so that a source can be left as it usually is while all others stay the same.
class TripDraws {
 public:
  TripDraws(const PlanRun& planned, std::uint64_t seed);

  /// `as_usual`: a source that is not drawn but stays at its usual value (none happen, of what
  /// happens).
  [[nodiscard]] TripDraw draw(std::uint64_t trip,
                              std::optional<plan::Source> as_usual = std::nullopt) const;

 private:
  class Drawing;

  const plan::Plan& plan_;
  const engine::Course& course_;
  const Learned& learned_;
  std::uint64_t seed_;
  bool read_ = false;  ///< readings tell of use
  int first_day_ = 0;  ///< of those still to come
  int most_days_ = 0;  ///< that are drawn: the trip may take longer than the plan
  int first_leg_ = 0;
  std::vector<double> soft_share_;              ///< by leg: of its length
  std::vector<std::vector<double>> punctures_;  ///< by vehicle with tyres, by leg: in mean
  std::vector<models::SquareMatrix> fuel_;  ///< by vehicle: lower half root of what is not known
};

}  // namespace drystage::answers
