#pragma once

#include <limits>
#include <memory>
#include <vector>

#include "engine/engine.h"

namespace drystage::engine {

/// A course whose weather and people change in place from one trip to the next.
class ChangingCourse {
 public:
  /// `days`: where what trips share is kept. `like`: one that it shares what is the same with;
  /// null: none.
  ChangingCourse(std::shared_ptr<const plan::Plan> plan, std::shared_ptr<const Course> planned,
                 ReadyDays& days, const ChangingCourse* like = nullptr);

  /// Days from one to another that is not included.
  struct Days {
    int from = 0;
    int until = std::numeric_limits<int>::max();
  };

  /// The course as one trip has it, with this share of the capacity of its banks; no other days
  /// than these need be right. With nothing drawn it is as planned, to the last digit. `keep`: what
  /// its record is to keep.
  Course& draw(const Drawn& drawn, double batteries, const Days& days, Keep keep);
  /// All of it, for a record that keeps all.
  Course& draw(const Drawn& drawn, double batteries = 1) {
    return draw(drawn, batteries, {}, Keep::ledgers);
  }

 private:
  [[nodiscard]] bool needs_autonomy(Keep keep) const;

  std::shared_ptr<const plan::Plan> plan_;
  std::shared_ptr<const Course> planned_;
  std::shared_ptr<const ReadyConditions> ready_;
  std::shared_ptr<Timeline> timeline_;
  Course course_;
  bool as_planned_ = true;
  std::shared_ptr<const Skies> skies_;
  std::vector<DrawnSky> drawn_;  ///< by PlaceDay
};

}  // namespace drystage::engine
