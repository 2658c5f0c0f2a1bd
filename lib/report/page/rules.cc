#include "report/page/rules.h"

#include <algorithm>
#include <cmath>

namespace drystage::report::page {
namespace {

Way way(double reading, double least, double factor) {
  if (reading < least) return Way::shut;
  return reading < least * factor ? Way::rate : Way::open;
}

bool too_much(const Reserve& reserve, double reading) {
  return reading > reserve.holds + reserve.step;
}

/// Finds the reading to tell use from.
void tell_use(Answer& out, const Reserve& reserve, const std::vector<Entry>& entries,
              std::size_t evening) {
  const double reading = *entries[evening].reading;
  const double least = least_steps * reserve.step;
  double taken = 0;
  double planned = 0;
  for (std::size_t next = evening; next > 0; --next) {
    planned += reserve.evenings[next - 1].use;
    if (entries[next].taken) {
      taken += *entries[next].taken;
    } else if (reserve.evenings[next].takes) {
      out.asks = out.since < 0;
      return;
    }
    const auto& before = entries[next - 1].reading;
    if (!before || too_much(reserve, *before)) continue;
    const double used = *before + taken - reading;
    if (used < -least) {
      out.asks = out.since < 0;
      return;
    }
    out.since = static_cast<int>(next) - 1;
    out.used = used;
    out.planned = planned;
    if (planned < least) continue;
    out.rate = used / planned;
    return;
  }
}

}  // namespace

std::optional<Answer> answer(const Reserve& reserve, const std::vector<Entry>& entries,
                             std::size_t evening) {
  if (!entries[evening].reading) return std::nullopt;
  const double reading = *entries[evening].reading;
  const Evening& plan = reserve.evenings[evening];
  Answer out;
  out.spare = reading - plan.must;
  out.excess = too_much(reserve, reading);
  if (out.excess) return out;
  if (out.spare < reserve.step) out.stand = out.spare < 0 ? Stand::below : Stand::at;
  if (reserve.rated) tell_use(out, reserve, entries, evening);
  const double factor = std::max(1.0, out.rate.value_or(1));
  if (evening + 1 < reserve.evenings.size()) {
    constexpr double noise = 1e-6;
    out.tomorrow = reserve.evenings[evening + 1].must;
    if (factor > 1) {
      out.tomorrow = std::ceil(out.tomorrow * factor / reserve.step - noise) * reserve.step;
    }
  }
  out.on = way(reading, plan.must, factor);
  out.once = way(reading, plan.once, factor);
  out.back = way(reading, plan.back, factor);
  const double most = out.rate ? far_off_share * out.planned : least_steps * reserve.step;
  const bool far_off = out.since >= 0 && std::abs(out.used - out.planned) > most;
  out.again = out.stand == Stand::below || far_off;
  return out;
}

Way together(const std::vector<Way>& ways) {
  return ways.empty() ? Way::unknown : std::ranges::max(ways);
}

}  // namespace drystage::report::page
