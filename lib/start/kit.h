#pragma once

#include <filesystem>

#include "plan/read.h"
#include "start/answers.h"

namespace drystage::start {

/// The kit that was read from `file`, without an error, for a plan that is to stand in `plan_file`.
Kit kit_of(const plan::ReadPlan& reading, const std::filesystem::path& file,
           const std::filesystem::path& plan_file);

}  // namespace drystage::start
