#pragma once

#include <atomic>
#include <cstddef>
#include <functional>

namespace drystage::answers {

/// How a long search is watched: told how much of the work is done, of how much (0: that is not
/// known), from any thread, one at a time; and asked to stop.
struct Watch {
  std::function<void(std::size_t done, std::size_t total)> progress{};
  const std::atomic<bool>* stop = nullptr;

  [[nodiscard]] bool stopped() const { return stop != nullptr && stop->load(); }
};

}  // namespace drystage::answers
