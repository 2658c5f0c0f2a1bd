#pragma once

#include "plan/tree.h"

namespace drystage::plan {

/// One plan file laid over another: what `over` says wins. Maps are merged key by key, and so are
/// items of a list that have the same `name` (food: `item`); other items of such a list are added.
/// All else that `over` says stands in place of what `base` says: plain values, lists without
/// names, `dip` and `shape`. A key with an empty value takes away what `base` has there.
Node laid_over(const Node& base, const Node& over);

}  // namespace drystage::plan
