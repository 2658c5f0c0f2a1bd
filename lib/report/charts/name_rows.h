#pragma once

#include <string>
#include <vector>

#include "drawing/flow.h"
#include "drawing/typesetter.h"

namespace drystage::report {

/// A name and what it stands under, from edge to edge.
struct NameUnder {
  double from_pt = 0;
  double to_pt = 0;
  std::string words;
};

/// Names, each as near the middle of its own as two edges allow, on a few rows. Where there is not
/// room for all, those of the widest go first, and the rest are left out.
drawing::Block name_rows(const drawing::Typesetter& typesetter, std::vector<NameUnder> names,
                         double from_pt, double to_pt);

}  // namespace drystage::report
