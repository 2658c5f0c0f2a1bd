#pragma once

#include <string>

#include "report/mishaps/report.h"

namespace drystage::report {

/// A row for each failure that does harm and a column for each day, one sign in each: the worst
/// that comes of it when it strikes that day. Below it what the signs mean, and the names of the
/// failures that hold whenever they strike. Within 80 columns and a page, unless wide: columns of a
/// trip of more than 40 days stand for several days each, and of more than 40 failures the least
/// harmful are counted instead.
std::string mishap_matrix(const MishapsAnswer& answer, const TextOptions& options);

}  // namespace drystage::report
