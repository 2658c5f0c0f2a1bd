#pragma once

#include <compare>
#include <cstddef>
#include <map>
#include <memory>
#include <mutex>

#include "engine/timeline.h"

namespace drystage::answers {

/// Timelines that have been laid, for plans that differ in their stores alone: what a mishap makes
/// of the calendar is the same for all of them. For any number of threads.
class KeptTimelines {
 public:
  /// What a timeline is known by: which of the mishaps that move time struck, before which step of
  /// the plan's own laid trip, and how the itinerary was changed then.
  struct Key {
    static constexpr std::size_t no_mishap = static_cast<std::size_t>(-1);
    std::size_t mishap = no_mishap;
    std::size_t step = 0;
    std::size_t items = 0;
    std::size_t detours = 0;
    // clang-tidy takes the comparison with zero in it for a null pointer.
    auto operator<=>(const Key&) const = default;  // NOLINT(modernize-use-nullptr)
  };

  /// The one that is kept, or the one that `lay()` makes.
  template <class Lay>
  std::shared_ptr<const engine::Timeline> get(const Key& key, const Lay& lay) {
    if (auto known = find(key)) return known;
    auto laid = std::make_shared<const engine::Timeline>(lay());
    const std::scoped_lock lock(mutex_);
    if (steps_ + laid->steps.size() > most_steps) return laid;
    const auto [kept, fresh] = kept_.emplace(key, std::move(laid));
    if (fresh) steps_ += kept->second->steps.size();
    return kept->second;
  }

 private:
  std::shared_ptr<const engine::Timeline> find(const Key& key) {
    const std::scoped_lock lock(mutex_);
    const auto found = kept_.find(key);
    return found == kept_.end() ? nullptr : found->second;
  }

  static constexpr std::size_t most_steps = 500'000;  ///< of all together: some 100 MB

  std::mutex mutex_;
  std::size_t steps_ = 0;
  std::map<Key, std::shared_ptr<const engine::Timeline>> kept_;
};

}  // namespace drystage::answers
