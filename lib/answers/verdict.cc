#include "answers/verdict.h"

#include <tuple>

namespace drystage::answers {
namespace {

bool worse(const engine::ReserveInfo& info, double level, double than) {
  return info.sense == engine::Sense::keep_above ? level < than : level > than;
}

}  // namespace

Verdict verdict(const engine::CourseBase& course, const engine::Record& record) {
  Verdict out;
  for (std::size_t r = 0; r < record.reserves; ++r) {
    ReserveOutlook outlook;
    for (std::size_t d = 0; d < record.days(); ++d) {
      const engine::ReserveDay& row = record.reserve(d, r);
      const int day = static_cast<int>(d);
      outlook.short_of += row.short_of;
      if (d == 0 || worse(course.reserves[r], row.lowest, outlook.lowest)) {
        outlook.lowest = row.lowest;
        outlook.lowest_day = day;
      }
      if (d == 0 || row.slack < outlook.slack) {
        outlook.slack = row.slack;
        outlook.tightest_day = day;
      }
      if (row.breach_h < 0) continue;
      if (!outlook.first_breach_day) outlook.first_breach_day = day;
      const Breach breach{.day = day,
                          .reserve = static_cast<int>(r),
                          .hour = row.breach_h,
                          .left = row.left,
                          .margin = row.margin,
                          .short_of = row.short_of};
      if (!out.first_breach || std::tie(breach.day, breach.hour) <
                                   std::tie(out.first_breach->day, out.first_breach->hour)) {
        out.first_breach = breach;
      }
    }
    out.reserves.push_back(outlook);
  }
  out.holds = !out.first_breach;
  return out;
}

}  // namespace drystage::answers
