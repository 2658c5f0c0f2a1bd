#pragma once

#include "plan/plan.h"

namespace drystage::engine {

/// Whether a supply is open on a date: on one of its weekdays, within its open dates if it has any,
/// and on none of its shut dates.
bool is_open(const plan::Supply& supply, plan::Date date);

}  // namespace drystage::engine
