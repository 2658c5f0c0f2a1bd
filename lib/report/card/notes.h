#pragma once

#include "drawing/flow.h"
#include "drawing/typesetter.h"

namespace drystage::report {

/// A page of lines to write on, 8 mm apart, as long as the paper is. Nothing on endless paper.
void write_notes(drawing::Flow& flow, const drawing::Typesetter& typesetter);

}  // namespace drystage::report
