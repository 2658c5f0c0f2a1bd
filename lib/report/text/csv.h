#pragma once

#include <string>
#include <string_view>

namespace drystage::report {

/// A cell of text as RFC 4180 has it. One that a spreadsheet could take for a formula gets an
/// apostrophe before it, which spreadsheets read as "this is text".
std::string cell(std::string_view text);

/// A cell with a number to four digits after the point; empty where there is none to give (an
/// endurance without end).
std::string number(double value);

}  // namespace drystage::report
