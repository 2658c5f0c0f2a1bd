#pragma once

#include <oneapi/tbb/global_control.h>

#include <optional>

#include "options.h"

namespace drystage::cli {

/// While it lives, no more threads work than `--jobs` says; without it as many as there are.
class Threads {
 public:
  explicit Threads(const CommonOptions& options) {
    using oneapi::tbb::global_control;
    if (options.jobs) limit_.emplace(global_control::max_allowed_parallelism, *options.jobs);
  }

 private:
  std::optional<oneapi::tbb::global_control> limit_;
};

}  // namespace drystage::cli
