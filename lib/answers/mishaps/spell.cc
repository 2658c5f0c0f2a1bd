#include "answers/mishaps/spell.h"

#include <algorithm>
#include <boost/date_time/gregorian/gregorian.hpp>
#include <cmath>
#include <optional>
#include <span>
#include <tuple>
#include <utility>

#include "answers/base/laid_trip.h"
#include "answers/mishaps/aftermath.h"
#include "engine/spell.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

using engine::Engine;

constexpr int most_starts = 60;  // of a trip, before those about the worst: a trip of two months

/// How bad a finding is: what lasts less comes after.
auto badness(const SpellFinding& finding, double lacking) {
  return std::tuple(finding.breaks(), finding.outcome, lacking);
}

/// Everything that the spells of one plan share.
class SpellRuns {
 public:
  explicit SpellRuns(const PlanRun& planned)
      : laid_(laid_trip_past_every_supply(planned)),
        usual_(engine::blank_record(*laid_.course)),
        planned_course_(*laid_.course),
        fates_(fate_from_each_step(*laid_.course, usual_)) {
    engine::wipe(usual_);
    Engine::Standing now = Engine::begin(*laid_.course, usual_);
    for (int day = 0; day < days(); ++day) {
      const std::size_t step = morning_step(*laid_.timeline, day);
      Engine::go_on(*laid_.course, now, step);
      mornings_.push_back(now);
    }
    Engine::go_on(*laid_.course, now, laid_.timeline->steps.size());
    engine::make_up(planned_course_, usual_);
  }

  [[nodiscard]] int days() const { return static_cast<int>(laid_.timeline->days.size()); }
  /// The first day on which a spell may begin: tomorrow; on the last day, today.
  [[nodiscard]] int first_day() const { return std::min(first_morning(*laid_.course), days() - 1); }
  [[nodiscard]] const LaidTrip& laid() const { return laid_; }

  /// The conditions of the whole trip in a spell.
  [[nodiscard]] engine::Conditions throughout(plan::Spell spell) const {
    plan::Plan plan = *laid_.plan;
    plan::NamedDays all = spell_from(spell, 0, plan);
    all.to = all.from + boost::gregorian::days(days() - 1);
    plan.weather.push_back(all);
    const engine::Timeline& usual = *laid_.timeline;
    engine::Conditions out = usual.conditions;
    engine::fill_days(out, plan, usual, *usual.almanac, 0, days());
    return out;
  }

  [[nodiscard]] static int last_day(int first_day, int days) {
    return std::min(first_day + plan::spell_days, days) - 1;
  }

  /// A course of the laid trip, on a timeline of its own.
  [[nodiscard]] engine::Course course(std::shared_ptr<const engine::Timeline> timeline) const {
    return engine::recompile(*laid_.plan, std::move(timeline), planned_course_);
  }

  /// A spell that begins on a day, and how much its worst reserve lacks; `record` is any.
  [[nodiscard]] std::pair<SpellFinding, double> finding_of(plan::Spell spell,
                                                           const LaidTrip& struck, int day,
                                                           engine::Record& record) const {
    const std::size_t step = morning_step(*laid_.timeline, day);
    const std::size_t reserves = struck.course->reserves.size();
    const std::vector<std::size_t> until(reserves, struck.timeline->steps.size());
    const Finding judged =
        finding_after(struck, mornings_[at(day)], step, until,
                      std::span(fates_).subspan(step * reserves, reserves), record);
    SpellFinding out{.spell = spell, .first_day = day, .last_day = last_day(day, days())};
    out.outcome = judged.outcome;
    out.reserve = judged.outcome == Outcome::holds ? subject(spell) : judged.reserve;
    out.short_of = judged.short_of;
    if (out.reserve >= 0) see_lowest(record, out);
    if (judged.outcome >= Outcome::runs_out) {
      out.day = judged.dry_day;
      out.hour = judged.dry_hour;
    }
    if (out.outcome != Outcome::runs_out_vital) {
      see_utility_drunk(record, out);
      see_vital_loads(record, out);
    }
    return {out, lacking(out, judged)};
  }

  /// The size of a spell.
  void measure(SpellFinding& finding) const {
    bool first = true;
    for (const engine::PlaceDay& here : laid_.timeline->place_days) {
      if (here.day < finding.first_day || here.day > finding.last_day) continue;
      const plan::Date date = laid_.timeline->days[at(here.day)].schedule.date;
      const auto month = static_cast<std::size_t>(date.month().as_number() - 1);
      const plan::Weather& normals = *laid_.plan->climates[at(here.climate)].months.at(month);
      const double hotter_k =
          finding.spell == plan::Spell::hot ? engine::spell_hotter_k(normals) : 0;
      const double sun = engine::spell_sun_share(finding.spell, normals.sun_kwh_m2,
                                                 here.at.latitude_deg, date.day_of_year());
      finding.least_hotter_k = first ? hotter_k : std::min(finding.least_hotter_k, hotter_k);
      finding.most_hotter_k = std::max(finding.most_hotter_k, hotter_k);
      finding.least_sun = first ? sun : std::min(finding.least_sun, sun);
      finding.most_sun = first ? sun : std::max(finding.most_sun, sun);
      finding.usual_spread = finding.usual_spread || !normals.spread_c;
      first = false;
    }
  }

 private:
  /// What a spell is about, where nothing comes of it: drinking water; the first bank.
  [[nodiscard]] int subject(plan::Spell spell) const {
    const bool hot = spell == plan::Spell::hot;
    return engine::find_reserve(*laid_.course,
                                hot ? engine::ReserveId{engine::Family::drinking_water}
                                    : engine::ReserveId{engine::Family::battery, 0});
  }

  /// The worst level of the finding's reserve from the spell's beginning on, and when.
  void see_lowest(const engine::Record& record, SpellFinding& out) const {
    const auto reserve = static_cast<std::size_t>(out.reserve);
    const bool above = laid_.course->reserves[reserve].sense == engine::Sense::keep_above;
    const auto worse = [above](double level, double than) {
      return above ? level < than : level > than;
    };
    double usually = 0;
    for (int day = out.first_day; day < days(); ++day) {
      const auto d = static_cast<std::size_t>(day);
      const double level = record.reserve(d, reserve).lowest;
      const double usual = usual_.reserve(d, reserve).lowest;
      if (day == out.first_day || worse(level, out.lowest)) {
        out.lowest = level;
        out.day = day;
      }
      if (day == out.first_day || worse(usual, usually)) usually = usual;
    }
    out.lowers = std::abs(out.lowest - usually) > noticeable && worse(out.lowest, usually);
  }

  /// Drinking containers that run empty, though not in the plan itself, with utility water to
  /// drink.
  void see_utility_drunk(const engine::Record& record, SpellFinding& out) const {
    for (std::size_t r = 0; r < record.reserves; ++r) {
      double usual_l = 0;
      for (std::size_t d = 0; d < record.days(); ++d) usual_l += usual_.reserve(d, r).stood_in;
      if (usual_l > noticeable) continue;
      std::optional<std::pair<int, double>> since;
      for (int day = out.first_day; day < days(); ++day) {
        const engine::ReserveDay& row = record.reserve(static_cast<std::size_t>(day), r);
        if (row.stood_in <= noticeable) continue;
        if (!since) since = {day, row.short_h};
        out.stood_in += row.stood_in;
      }
      if (!since) continue;
      out.reserve = static_cast<int>(r);
      see_lowest(record, out);
      std::tie(out.day, out.hour) = *since;
    }
  }

  /// A load that is never shed and goes unserved, though not in the plan itself.
  void see_vital_loads(const engine::Record& record, SpellFinding& out) const {
    const auto unserved = [](const engine::Event& event, int load) {
      return event.kind == engine::EventKind::vital_unserved && (load < 0 || event.subject == load);
    };
    for (const engine::Event& event : record.events) {
      if (!unserved(event, -1)) continue;
      const bool anyway = std::ranges::any_of(usual_.events, [&](const engine::Event& other) {
        return unserved(other, event.subject);
      });
      if (anyway) continue;
      out.load = event.subject;
      out.day = event.day;
      out.hour = event.hour;
      return;
    }
  }

  /// How much is lacking, as a share of what the reserve can hold.
  [[nodiscard]] double lacking(const SpellFinding& finding, const Finding& judged) const {
    if (finding.reserve < 0) return 0;
    const engine::ReserveInfo& info = laid_.course->reserves[at(finding.reserve)];
    const double scale = std::max(1.0, info.capacity);
    if (finding.outcome == Outcome::holds && finding.stood_in <= 0) {
      const bool above = info.sense == engine::Sense::keep_above;
      return (above ? -finding.lowest : finding.lowest) / scale;
    }
    const double lacks = judged.short_of - std::min(judged.slack, 0.0);
    return (finding.stood_in > 0 ? finding.stood_in : lacks) / scale;
  }

  LaidTrip laid_;
  engine::Record usual_;
  engine::Course planned_course_;  ///< whose stops make up for what is missing
  std::vector<Fate> fates_;
  std::vector<Engine::Standing> mornings_;
};

/// A laid trip whose weather is changed in place, a spell at a time.
class ChangingWeather {
 public:
  ChangingWeather(const SpellRuns& runs, const engine::Conditions& throughout)
      : usual_(runs.laid()),
        throughout_(throughout),
        timeline_(std::make_shared<engine::Timeline>(*usual_.timeline)),
        course_(std::make_shared<engine::Course>(runs.course(timeline_))),
        struck_{.plan = usual_.plan, .detours = {}, .timeline = timeline_, .course = course_} {}

  /// In the spell from a day to another, not included, and as usual else. Only the days that change
  /// are made anew: the next spell begins a day later, and six of its days are in both.
  const LaidTrip& in_spell(int from_day, int until_day) {
    for (int day = std::min(from_day_, from_day); day < std::max(until_day_, until_day); ++day) {
      const bool was = day >= from_day_ && day < until_day_;
      const bool is = day >= from_day && day < until_day;
      if (was == is) continue;
      engine::take_days(timeline_->conditions, is ? throughout_ : usual_.timeline->conditions,
                        *timeline_, day, day + 1);
      Engine::refill(*course_, *usual_.plan, day, day + 1);
    }
    from_day_ = from_day;
    until_day_ = until_day;
    return struck_;
  }

 private:
  const LaidTrip& usual_;
  const engine::Conditions& throughout_;
  std::shared_ptr<engine::Timeline> timeline_;
  std::shared_ptr<engine::Course> course_;
  LaidTrip struck_;
  int from_day_ = 0;
  int until_day_ = 0;
};

/// Tries a spell on every so manieth day, and on all days about the worst of these.
/// `wants_verdict`: what becomes of the whole plan then is wanted too.
SpellFinding worst(const SpellRuns& runs, plan::Spell spell, int every_days, bool wants_verdict) {
  const engine::Conditions throughout = runs.throughout(spell);
  ChangingWeather weather(runs, throughout);
  engine::Record scratch;
  std::pair<SpellFinding, double> out{{}, 0};
  bool first = true;
  const auto attempt = [&](int day) {
    const int until_day = SpellRuns::last_day(day, runs.days()) + 1;
    auto found = runs.finding_of(spell, weather.in_spell(day, until_day), day, scratch);
    // Of two that are alike, that which begins first.
    const bool worse =
        first || badness(found.first, found.second) > badness(out.first, out.second + noticeable);
    if (worse) out = std::move(found);
    first = false;
  };
  const int first_day = runs.first_day();
  for (int day = first_day; day < runs.days(); day += every_days) attempt(day);
  const int about = out.first.first_day;
  for (int day = std::max(first_day, about - every_days + 1);
       day < std::min(runs.days(), about + every_days); ++day) {
    if (day != about) attempt(day);
  }
  runs.measure(out.first);
  if (wants_verdict) {
    const LaidTrip& struck = weather.in_spell(out.first.first_day, out.first.last_day + 1);
    engine::make_blank(scratch, *struck.course);
    Engine::run(*struck.course, scratch);
    out.first.verdict = verdict(*struck.course, scratch);
  }
  return out.first;
}

}  // namespace

plan::NamedDays days_from(int day, int days, const plan::Plan& plan) {
  plan::NamedDays out;
  out.from = plan.trip.start + boost::gregorian::days(day);
  out.to = out.from + boost::gregorian::days(days - 1);
  return out;
}

plan::NamedDays spell_from(plan::Spell spell, int day, const plan::Plan& plan) {
  plan::NamedDays out = days_from(day, plan::spell_days, plan);
  out.spell = spell;
  return out;
}

bool Spells::break_something() const { return std::ranges::any_of(found, &SpellFinding::breaks); }

const SpellFinding* Spells::of(plan::Spell spell) const {
  const auto it = std::ranges::find(found, spell, &SpellFinding::spell);
  return it == found.end() ? nullptr : &*it;
}

Spells try_spells(const PlanRun& planned) {
  const SpellRuns runs(planned);
  Spells out;
  out.every_days = (runs.days() + most_starts - 1) / most_starts;
  for (const plan::Spell spell : {plan::Spell::hot, plan::Spell::dull}) {
    out.found.push_back(worst(runs, spell, out.every_days, !planned.verdict.holds));
  }
  return out;
}

PlanRun in_spell(const PlanRun& planned, const SpellFinding& finding) {
  const SpellRuns runs(planned);
  PlanRun out;
  out.learned = planned.learned;
  out.plan = *runs.laid().plan;
  out.plan.weather.push_back(spell_from(finding.spell, finding.first_day, out.plan));
  auto timeline = std::make_shared<engine::Timeline>(*runs.laid().timeline);
  engine::take_days(timeline->conditions, runs.throughout(finding.spell), *timeline,
                    finding.first_day, SpellRuns::last_day(finding.first_day, runs.days()) + 1);
  out.course = runs.course(std::move(timeline));
  out.record = Engine::run(out.course);
  out.verdict = verdict(out.course, out.record);
  return out;
}

}  // namespace drystage::answers
