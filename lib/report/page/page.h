#pragma once

#include <string>

#include "report/card/answer.h"
#include "units/format.h"

namespace drystage::report {

/// The card as a page for a telephone: one HTML file with real text and fields for tonight's
/// readings. It asks for nothing from elsewhere, and its own policy forbids it. Without a script
/// all text and figures are there; the script compares readings with them (page/rules.h).
std::string card_page(const CardAnswer& answer, units::System system);

}  // namespace drystage::report
