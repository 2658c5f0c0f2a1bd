#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <vector>

#include "engine/timeline.h"
#include "plan/plan.h"

namespace drystage::support {

/// A trip that is broken off, written down as a trip of its own: what has been done, and then the
/// shortest way back over the roads of the legs since. In mid-leg it turns at a place that is not
/// in the plan, or goes on, where that leads to a place passed before and is shorter. Until the
/// moment it is the same trip, except that the day on which it is broken off may be one of driving
/// from its morning.
class Diary {
 public:
  /// How high a place on the way lies: between the ends of its leg, as for the vehicle; or as high
  /// as the higher one, which counts for what people need on the road.
  enum class Height { between, higher_end };

  /// Broken off `hour` o'clock, within a step of the timeline. Stops that fall on that are made.
  Diary(const plan::Plan& plan, const engine::Timeline& timeline, std::size_t step, double hour,
        Height height = Height::between);

  /// The trip, and back to where a leg began; then a wait there of so many nights.
  [[nodiscard]] plan::Plan back_to(int leg, int nights) const;

  /// The item of what `back_to` writes with which the way back begins.
  [[nodiscard]] int first_home_item() const { return static_cast<int>(out_.itinerary.size()); }

  /// When it is broken off, in hours of the trip.
  [[nodiscard]] double at_h() const { return at_h_; }

  /// The first step, of the trip that is written, at or after the moment; before a stop that falls
  /// on it, where the trip that is broken off stands before it too.
  [[nodiscard]] std::size_t first_step(const engine::Timeline& own) const;

 private:
  [[nodiscard]] const plan::Drive& drive_of(const engine::Leg& leg) const;
  [[nodiscard]] bool under_way() const;
  void write_way_out();
  [[nodiscard]] double end_of_leg(int leg) const;
  int place_on_the_way(const engine::Leg& leg, double share);
  void drive_part_of(const plan::Drive& drive);
  void wait();

  const plan::Plan& plan_;
  const engine::Timeline& timeline_;
  const engine::TimeStep& step_;
  Height height_;
  plan::Plan out_;
  double at_h_ = 0;     ///< hours of the trip
  double clock_h_ = 0;  ///< the same, of what has been written
  std::optional<int> activity_{};
  int last_leg_ = -1;
  double done_km_ = 0;
  std::map<int, plan::Drive> pieces_{};  ///< of the leg under way, by where they begin
  std::vector<int> way_points_{};        ///< to come to on the way back, in order
  std::vector<plan::Drive> on_{};        ///< the rest of the leg under way
};

}  // namespace drystage::support
