#pragma once

#include <string>
#include <vector>

#include "answers/base/dip_table.h"
#include "drawing/flow.h"
#include "drawing/typesetter.h"
#include "units/format.h"

namespace drystage::report {

/// The stick that a table is made for: marked in inches where units are not metric.
answers::StickMarks stick_marks(units::System system);

/// What a vessel is, how much it holds, and what cannot be read off its table.
std::string dip_title(const answers::DipTable& table, units::System system);
std::string dip_notes(const answers::DipTable& table, units::System system);

/// The heads of a table's columns, and the figures of a row in their order: the depth in cm or
/// inches, rounded up; the volume in L, and in gallons where units are not metric, and of fuel what
/// can be used, rounded down.
std::vector<std::string> dip_heads(const answers::DipTable& table, units::System system);
std::vector<std::string> dip_figures(const answers::DipTable& table, const answers::DipRow& row,
                                     units::System system);

/// The same in a line, for the sheet: some of the depths, evenly, with the highest; what can be
/// used then, whole and rounded down. "Main tank, diesel: 5 cm 9 L, 10 cm 20 L; nothing usable at 3
/// cm."
std::string dip_line(const answers::DipTable& table, units::System system);

/// A table with its title and notes. Its rows stand in as many groups side by side as there is room
/// for, read down and then to the right. Marks of the plan's own are bold.
drawing::Block dip_block(const drawing::Typesetter& typesetter, const answers::DipTable& table,
                         double width_pt, units::System system);

/// Litres and both gallons, kilometres and miles, each in the others, for a round number of each:
/// heads, and rows of the same length. Volumes are rounded down, distances up: what there is looks
/// no more than it is, and a road no shorter.
std::vector<std::string> conversion_heads();
std::vector<std::vector<std::string>> conversion_rows();

/// The same as a table with a title.
void write_conversion_table(drawing::Flow& flow, const drawing::Typesetter& typesetter);

}  // namespace drystage::report
