#pragma once

#include "engine/course.h"
#include "engine/record.h"

namespace drystage::answers {

/// Puts what was before a moment of a day into the record of a run that went on from there. Both
/// have the same stores and reserves, and ledgers of days. `begun`: something of that day is in
/// `before`.
void join_before(engine::Record& record, const engine::Record& before,
                 const engine::CourseBase& course, int day, bool begun);

}  // namespace drystage::answers
