#include "answers/odds/join_records.h"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "units/index.h"

namespace drystage::answers {
namespace {

engine::StoreDay joined(const engine::StoreDay& before, const engine::StoreDay& after) {
  engine::StoreDay out = after;
  out.start = before.start;
  out.gained += before.gained;
  out.used += before.used;
  out.lost += before.lost;
  return out;
}

/// The earlier of two hours; below 0: never.
double earlier(double one, double other) {
  return one < 0 ? other : other < 0 ? one : std::min(one, other);
}

engine::ReserveDay joined(const engine::ReserveDay& before, const engine::ReserveDay& after,
                          bool above) {
  engine::ReserveDay out = after;
  out.start = before.start;
  out.gained += before.gained;
  out.used += before.used;
  out.lost += before.lost;
  out.short_of += before.short_of;
  out.stood_in += before.stood_in;
  out.drawn += before.drawn;
  // What was not with the party in one part of the day is judged by the other part.
  const double worse =
      above ? std::min(before.lowest, after.lowest) : std::max(before.lowest, after.lowest);
  out.lowest = !before.judged ? after.lowest : !after.judged ? before.lowest : worse;
  if (before.judged && before.slack < after.slack) {
    out.left = before.left;
    out.margin = before.margin;
    out.slack = before.slack;
    out.tight_h = before.tight_h;
  }
  if (std::isnan(out.frozen_c) || before.frozen_c > out.frozen_c) out.frozen_c = before.frozen_c;
  out.breach_h = earlier(before.breach_h, after.breach_h);
  out.short_h = earlier(before.short_h, after.short_h);
  out.judged = before.judged || after.judged;
  return out;
}

}  // namespace

void join_before(engine::Record& record, const engine::Record& before,
                 const engine::CourseBase& course, int day, bool begun) {
  const std::size_t stores = record.stores;
  const std::size_t reserves = record.reserves;
  std::copy_n(before.store_days.begin(), at(day) * stores, record.store_days.begin());
  std::copy_n(before.reserve_days.begin(), at(day) * reserves, record.reserve_days.begin());
  for (std::size_t s = 0; begun && s < stores; ++s) {
    engine::StoreDay& row = record.store_days[at(day) * stores + s];
    row = joined(before.store(at(day), s), row);
  }
  for (std::size_t r = 0; begun && r < reserves; ++r) {
    engine::ReserveDay& row = record.reserve_days[at(day) * reserves + r];
    const bool above = course.reserves[r].sense == engine::Sense::keep_above;
    row = joined(before.reserve(at(day), r), row, above);
  }
  record.events.insert(record.events.begin(), before.events.begin(), before.events.end());
  record.events_dropped += before.events_dropped;
  for (std::size_t s = 0; s < std::min(record.heaviest.size(), before.heaviest.size()); ++s) {
    engine::Heaviest& most = record.heaviest[s];
    const engine::Heaviest& other = before.heaviest[s];
    if (other.kg > most.kg) {
      most.kg = other.kg;
      most.day = other.day;
    }
    if (other.over_day >= 0) {
      most.over_day = other.over_day;
      most.over_h = other.over_h;
    }
  }
  for (std::size_t o = 0; o < std::min(record.order_left.size(), before.order_left.size()); ++o) {
    if (record.order_taken[o] <= 0) record.order_taken[o] = before.order_taken[o];
    if (record.order_left[o] <= 0) record.order_left[o] = before.order_left[o];
  }
}

}  // namespace drystage::answers
