#pragma once

#include <initializer_list>
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

#include "answers/base/plan_run.h"
#include "models/chance.h"

namespace drystage::report {

/// A cell of text as RFC 4180 has it. One that a spreadsheet could take for a formula gets an
/// apostrophe before it, which spreadsheets read as "this is text".
std::string cell(std::string_view text);

/// A cell with a number to four digits after the point; empty where there is none to give (an
/// endurance without end).
std::string number(double value);

/// Cells as they stand in a row, with its line end.
std::string csv_row(std::initializer_list<std::string> cells);

/// "yes" or "no".
std::string yes_no(bool value);

/// Keys stay in the order in which they are given.
using Json = nlohmann::ordered_json;

/// By how many blanks a level is set in.
inline constexpr int json_indent = 2;

/// A number, or null where there is none to give (an endurance without end).
Json json_number(double value);

/// How likely something is, with the ends of its interval; 0 to 1.
Json json_chance(const models::Chance& chance);

/// A place's name; null for none (an index below 0).
Json json_place(const plan::Plan& plan, int place);

/// A moment of the trip: day counted from 1, date, clock hour. `day` is 0-based.
Json json_moment(const answers::PlanRun& planned, int day, double hour);

/// What every answer says of its trip: title, start, days.
Json json_trip(const answers::PlanRun& planned);

}  // namespace drystage::report
