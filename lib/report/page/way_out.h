#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "report/card/answer.h"
#include "report/page/figures.h"
#include "units/format.h"

namespace drystage::report::page {

/// "The way out" from the camp of an evening: for each reserve that life depends on, what must be
/// there to go on as planned, to go on at once and to turn back, and where these lead. Nothing
/// before setting out, on the last evening, and where nothing is driven.
std::string way_out(const CardAnswer& answer, const std::vector<Shown>& reserves,
                    std::size_t evening, units::System system);

/// Whether an evening has one.
bool has_way_out(const CardAnswer& answer, std::size_t evening);

}  // namespace drystage::report::page
