#pragma once

#include <string>
#include <vector>

#include "report/mishaps/report.h"
#include "report/odds/report.h"
#include "report/run/report.h"
#include "report/size/report.h"
#include "report/weigh/report.h"
#include "units/format.h"

namespace drystage::cli {

// Cairo and Pango bring some forty shared libraries with them, and to load those takes longer than
// to answer most questions. So there are two programs of the same objects: `drystage`, linked with
// cli/without_drawing, and `drystage-draw`, linked with cli/with_drawing and with those libraries.
// The first hands over to the second, beside it, what ends in a picture. A module loaded with
// dlopen would have to share, or hold twice, the library that both need; a program in its place
// shares nothing, and its output, exit status and Ctrl-C are its own.

/// Puts the program that can draw in the place of this one, with the same words after its name.
/// Returns in that program itself alone. Throws FileError where it cannot be started.
void hand_over_to_draw(const std::vector<std::string>& words);

/// Writes the chart of an answer into a file, in the form that its name asks for, whole or not at
/// all. Throws UsageError where the form has no room for it, FileError where the file cannot be
/// written.
void write_chart(const std::string& path, const report::RunAnswer& answer, units::System system);
void write_chart(const std::string& path, const report::MishapsAnswer& answer,
                 units::System system);
void write_chart(const std::string& path, const report::SizeAnswer& answer, units::System system);
void write_chart(const std::string& path, const report::WeighAnswer& answer, units::System system);
void write_chart(const std::string& path, const report::OddsAnswer& answer, units::System system);

}  // namespace drystage::cli
