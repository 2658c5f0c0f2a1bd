#pragma once

#include "plan/plan.h"

namespace drystage::support {

/// A plan whose stops take what they came to take ("to next" as an amount), whatever comes after.
/// Throws where several vehicles share such an order.
plan::Plan settled(plan::Plan plan);

}  // namespace drystage::support
