#include "answers/base/verdict.h"

#include <algorithm>
#include <tuple>
#include <utility>

#include "units/day.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

// A load that is off for less at the trip's end may well have come on again the next morning.
constexpr double off_for_good_h = 24;
constexpr double slight_h = 1e-6;

bool worse(const engine::ReserveInfo& info, double level, double than) {
  return info.sense == engine::Sense::keep_above ? level < than : level > than;
}

auto when(const Breach& breach) { return std::pair(breach.day, breach.hour); }

/// What a day of a reserve does at its worst; nothing where its margin is kept.
std::optional<Harm> harm_of(const engine::ReserveInfo& info, const engine::ReserveDay& row) {
  if (row.breach_h < 0) return std::nullopt;
  // Of a bank only what its never-shed loads lack is counted as short.
  if (row.short_of > 0) {
    return info.life_supporting || engine::is_bank(info) ? Harm::runs_out_vital : Harm::runs_out;
  }
  if (row.stood_in > 0) return Harm::utility_drunk;
  return info.life_supporting ? Harm::margin_vital : Harm::margin;
}

class VerdictOf {
 public:
  VerdictOf(const engine::CourseBase& course, const engine::Record& record)
      : course_(course), record_(record) {}

  Verdict verdict() {
    for (std::size_t r = 0; r < record_.reserves; ++r) read_reserve(r);
    read_loads();
    read_masses();
    std::ranges::stable_sort(out_.breaches, {}, [](const Breach& breach) {
      return std::tuple(breach.harm, breach.day, breach.hour);
    });
    out_.holds = out_.breaches.empty();
    return std::move(out_);
  }

 private:
  void read_reserve(std::size_t r) {
    const engine::ReserveInfo& info = course_.reserves[r];
    ReserveOutlook outlook;
    std::optional<Breach> worst;
    bool any = false;
    for (std::size_t d = at(course_.first_judged_day()); d < record_.days(); ++d) {
      const engine::ReserveDay& row = record_.reserve(d, r);
      if (!row.judged) continue;
      const int day = static_cast<int>(d);
      outlook.short_of += row.short_of;
      outlook.stood_in += row.stood_in;
      if (!any || worse(info, row.lowest, outlook.lowest)) {
        outlook.lowest = row.lowest;
        outlook.lowest_day = day;
      }
      if (!any || row.slack < outlook.slack) {
        outlook.slack = row.slack;
        outlook.tightest_day = day;
      }
      any = true;
      const std::optional<Harm> harm = harm_of(info, row);
      if (!harm) continue;
      const Breach breach{
          .harm = *harm,
          .day = day,
          .hour = *harm == Harm::margin || *harm == Harm::margin_vital ? row.breach_h : row.short_h,
          .reserve = static_cast<int>(r),
          .left = row.left,
          .margin = row.margin,
          .short_of = *harm == Harm::utility_drunk ? row.stood_in : row.short_of};
      if (!outlook.first_breach_day) {
        outlook.first_breach_day = day;
        note_first(first_of(info, row, breach));
      }
      if (!worst || breach.harm < worst->harm) worst = breach;
    }
    if (worst) {
      worst->at_worst = -outlook.slack;
      worst->worst_day = outlook.tightest_day;
      worst->short_of = worst->harm == Harm::utility_drunk ? outlook.stood_in : outlook.short_of;
      out_.breaches.push_back(*worst);
    }
    out_.reserves.push_back(outlook);
  }

  /// What came first on the first day: the margin may break, or utility water be drunk, before all
  /// is gone.
  static Breach first_of(const engine::ReserveInfo& info, const engine::ReserveDay& row,
                         Breach breach) {
    breach.hour = row.breach_h;
    if (row.short_h >= 0 && row.breach_h >= row.short_h - slight_h) return breach;
    const bool replaced = row.stood_in > 0 && row.margin <= 0;
    breach.harm = replaced               ? Harm::utility_drunk
                  : info.life_supporting ? Harm::margin_vital
                                         : Harm::margin;
    breach.short_of = replaced ? row.stood_in : 0;
    return breach;
  }

  /// Loads that are off when the trip ends, and have been for long.
  void read_loads() {
    const double end_h = day_h * static_cast<double>(record_.days());
    for (std::size_t l = 0; l < course_.loads.size(); ++l) {
      const std::optional<Breach> breach = off_at_the_end(static_cast<int>(l));
      if (!breach || end_h - (day_h * breach->day + breach->hour) < off_for_good_h) continue;
      note_first(*breach);
      out_.breaches.push_back(*breach);
    }
  }

  /// Since when a load is off that is not on again before the trip ends. It is off while it is shed
  /// itself, and while its bank is cut off.
  [[nodiscard]] std::optional<Breach> off_at_the_end(int load) const {
    using engine::EventKind;
    const engine::LoadInfo& info = course_.loads[at(load)];
    if (info.never_shed) return std::nullopt;
    bool shed = false;
    bool cut_off = false;
    std::optional<Breach> off;
    for (const engine::Event& event : record_.events) {
      const bool own = event.subject == load;
      const bool of_bank = event.subject == info.bank;
      if (event.kind == EventKind::shed && own) shed = true;
      if (event.kind == EventKind::restored && own) shed = false;
      if (event.kind == EventKind::cut_off && of_bank) cut_off = true;
      if (event.kind == EventKind::reconnected && of_bank) cut_off = false;
      if (!shed && !cut_off) {
        off.reset();
      } else if (!off) {
        off = Breach{.harm = Harm::load_off,
                     .day = event.day,
                     .hour = event.hour,
                     .reserve = info.reserve,
                     .load = load};
      }
    }
    return off;
  }

  void read_masses() {
    for (std::size_t s = 0; s < record_.heaviest.size(); ++s) {
      const engine::Heaviest& most = record_.heaviest[s];
      if (most.over_day < 0) continue;
      const Breach breach{.harm = Harm::overload,
                          .day = most.over_day,
                          .hour = most.over_h,
                          .vehicle = course_.scales[s].vehicle,
                          .scale = static_cast<int>(s),
                          .left = most.kg,
                          .margin = course_.scales[s].limit_kg};
      note_first(breach);
      out_.breaches.push_back(breach);
    }
  }

  void note_first(const Breach& breach) {
    if (!out_.first_breach || when(breach) < when(*out_.first_breach)) out_.first_breach = breach;
  }

  const engine::CourseBase& course_;
  const engine::Record& record_;
  Verdict out_;
};

}  // namespace

bool Verdict::reserves_hold() const { return worst_of_reserves() == nullptr; }

const Breach* Verdict::worst_of_reserves() const {
  const auto found = std::ranges::find_if(
      breaches, [](const Breach& breach) { return breach.harm != Harm::overload; });
  return found == breaches.end() ? nullptr : &*found;
}

bool Verdict::breaks(int reserve) const {
  return std::ranges::any_of(breaches,
                             [reserve](const Breach& breach) { return breach.reserve == reserve; });
}

Verdict verdict(const engine::CourseBase& course, const engine::Record& record) {
  return VerdictOf(course, record).verdict();
}

}  // namespace drystage::answers
