#pragma once

#include <vector>

#include "engine/course.h"

namespace drystage::engine {

/// A plan's readings, and what was lost on the way as readings of the evening: of what it held
/// nothing is left.
std::vector<plan::Reading> all_readings(const plan::Plan& plan);

/// Those made ready for a course that has all its stores and reserves. What a reading
/// names and the course does not have is left out.
std::vector<ReadingInfo> readings_of(const plan::Plan& plan, const CourseBase& course);

/// Whether a vessel that a reading may name, for water or fuel, is one of a reserve's.
bool serves(const plan::Plan& plan, const StoreInfo& store, ReserveId reserve);

/// How much of a reserve a reading has: nothing, some of its vessels, or all. Vessels that are lost
/// do not count.
enum class Extent { nothing, some, whole };
Extent extent_of(const plan::Plan& plan, const CourseBase& course, const ReadingInfo& reading,
                 int reserve);

/// Whether a vessel for water or fuel is lost.
bool is_lost(const CourseBase& course, const StoreInfo& store);

/// What a reading of a vessel comes to, in L.
double found_l(const plan::Found& found, const plan::Gauge& gauge, double holds_l);

}  // namespace drystage::engine
