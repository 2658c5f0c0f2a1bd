#include "answers/onward/way_out.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <memory>
#include <utility>
#include <variant>

#include "answers/base/in_parallel.h"
#include "answers/base/laid_trip.h"
#include "answers/base/supplies.h"
#include "answers/onward/least_level.h"
#include "answers/onward/retreat.h"
#include "units/day.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

using engine::Engine;

constexpr double all_but_dry = 1e-3;

bool is_drive(const plan::ItineraryItem& item) { return std::holds_alternative<plan::Drive>(item); }
bool is_stay(const plan::ItineraryItem& item) { return std::holds_alternative<plan::Stay>(item); }

double driven_km(const engine::Timeline& timeline, std::size_t from, std::size_t until) {
  double km = 0;
  for (std::size_t s = from; s < std::min(until, timeline.steps.size()); ++s) {
    km += timeline.steps[s].distance_km;
  }
  return km;
}

/// Whether a drive is one of the plan's roads, or the way that is given back along one of its legs.
bool is_own_road(const plan::Plan& plan, const engine::Timeline& planned, const plan::Drive& drive,
                 int from) {
  if (drive.off_itinerary) return true;
  return std::ranges::any_of(planned.legs, [&](const engine::Leg& leg) {
    const auto& there = std::get<plan::Drive>(plan.itinerary[at(leg.item)]);
    if (!there.back || leg.from != drive.to || there.to != from) return false;
    return std::ranges::equal(there.back->surfaces, drive.surfaces,
                              [](const plan::SurfacePart& a, const plan::SurfacePart& b) {
                                return a.surface == b.surface && a.distance_km == b.distance_km;
                              });
  });
}

class WaysOutSearch {
 public:
  WaysOutSearch(const PlanRun& plan_run, const Needs& needs)
      : needs_(needs),
        laid_(laid_trip_of(plan_run)),
        certain_(laid_trip_on_what_is_certain(plan_run)),
        parts_(parts_of_what_there_is(*certain_.course)),
        record_(engine::blank_record(*laid_.course)) {
    Engine::Standing standing = Engine::begin(*laid_.course, record_);
    for (int day = 0; day < days(); ++day) {
      Engine::go_on(*laid_.course, standing, morning_step(planned(), day));
      mornings_.push_back(standing);
    }
    for (std::size_t i = 0; i < needs.reserves.size(); ++i) {
      if (!laid_.course->reserves[at(needs.reserves[i])].life_supporting) continue;
      of_needs_.push_back(i);
      passed_.push_back(passed_refuges(certain_, needs.reserves[i]));
    }
  }

  WaysOutTable answer() {
    WaysOutTable out;
    for (const std::size_t i : of_needs_) out.reserves.push_back(needs_.reserves[i]);
    const std::size_t count = of_needs_.size();
    out.table.resize(mornings_.size() * count);
    PerThread<engine::Record> scratch;
    in_parallel(mornings_.size(), [&](std::size_t day) {
      if (static_cast<int>(day) < needs_.first_day) return;
      Morning morning = morning_of(day);
      for (std::size_t i = 0; i < count; ++i) {
        out.table[day * count + i] = ways(morning, i, scratch.local());
      }
    });
    return out;
  }

 private:
  /// A morning, and the trips that are laid out from it, which reserves share.
  struct Morning {
    std::size_t day = 0;
    std::size_t step = 0;
    int next_item = 0;                  ///< what comes next, stays left out; or the drive under way
    std::map<int, LaidTrip> on{};       ///< by the item that leads to the supply; -1: to the end
    std::map<int, LaidTrip> retreat{};  ///< by the leg to go back to
  };

  [[nodiscard]] int days() const { return static_cast<int>(planned().days.size()); }
  [[nodiscard]] const engine::Timeline& planned() const { return *laid_.timeline; }

  [[nodiscard]] Morning morning_of(std::size_t day) const {
    Morning out{.day = day, .step = mornings_[day].next};
    const Progress progress = progress_before(planned(), out.step);
    if (progress.under_way) {
      out.next_item = planned().legs[at(progress.leg)].item;
      return out;
    }
    int done = progress.leg < 0 ? -1 : planned().legs[at(progress.leg)].item;
    for (std::size_t s = 0; s < out.step; ++s) done = std::max(done, planned().steps[s].stop);
    const auto& items = laid_.plan->itinerary;
    const auto next =
        std::find_if(items.begin() + done + 1, items.end(), [](const plan::ItineraryItem& item) {
          return is_drive(item) || std::holds_alternative<plan::Resupply>(item);
        });
    out.next_item = static_cast<int>(next - items.begin());
    return out;
  }

  WaysOut ways(Morning& morning, std::size_t i, engine::Record& scratch) const {
    if (!needs_.need(morning.day, of_needs_[i]).judged) {
      return {.judged = false, .as_planned = {}, .at_once = {}, .back = {}};
    }
    WaysOut out{
        .as_planned = as_planned(morning, i), .at_once = {}, .back = back(morning, i, scratch)};
    out.at_once = at_once(morning, i, out.as_planned, scratch);
    return out;
  }

  [[nodiscard]] double least(const Morning& morning, const engine::Course& course,
                             std::size_t until, int reserve, engine::Record& scratch) const {
    return least_level({.course = course,
                        .start = mornings_[morning.day],
                        .from = morning.step,
                        .until = until,
                        .reserve = reserve},
                       scratch);
  }

  /// The least up to a step without any margin.
  [[nodiscard]] double bare(const Morning& morning, engine::Course course, std::size_t until,
                            int reserve, engine::Record& scratch) const {
    engine::ReserveInfo& info = course.reserves[at(reserve)];
    // Not dry on arrival, so that there is no doubt about it.
    info.margin = {.fixed = info.empty_at + all_but_dry};
    return least(morning, course, until, reserve, scratch);
  }

  /// Both, and whether the least can be held.
  void find_least(WayOut& way, const Morning& morning, const engine::Course& course,
                  std::size_t until, int reserve, engine::Record& scratch) const {
    way.least = least(morning, course, until, reserve, scratch);
    way.fits = std::isfinite(way.least) &&
               way.least <= course.reserves[at(reserve)].capacity + fit_rounding;
    way.bare = std::min(way.least, bare(morning, course, until, reserve, scratch));
  }

  // --- on ---

  [[nodiscard]] WayOut as_planned(const Morning& morning, std::size_t i) const {
    const Need& need = needs_.need(morning.day, of_needs_[i]);
    const auto refuge = next_goal(laid_, morning.step, needs_.reserves[of_needs_[i]]);
    const std::size_t until = refuge ? refuge->step : planned().steps.size();
    return {.least = need.must_have,
            .bare = 0,
            .fits = need.fits,
            .place = need.until_place,
            .day = need.until_day,
            .km = driven_km(planned(), morning.step, until),
            .taking_at = need.taking_at};
  }

  /// The itinerary item whose drive leads from a morning to a step; -1 where nothing is driven.
  [[nodiscard]] int leads_to(const Morning& morning, std::size_t until) const {
    for (std::size_t s = until; s > morning.step; --s) {
      const engine::TimeStep& step = planned().steps[s - 1];
      if (step.drive >= 0) return planned().legs[at(step.leg)].item;
    }
    return -1;
  }

  [[nodiscard]] bool stays_between(const Morning& morning, int last_item) const {
    const auto& items = laid_.plan->itinerary;
    // The stay under way stands before what comes next.
    int first = morning.next_item;
    while (first > 0 && is_stay(items[at(first - 1)])) --first;
    return std::any_of(items.begin() + first, items.begin() + last_item, is_stay);
  }

  WayOut at_once(Morning& morning, std::size_t i, const WayOut& planned_way,
                 engine::Record& scratch) const {
    const int reserve = needs_.reserves[of_needs_[i]];
    const auto ahead = next_goal(laid_, morning.step, reserve);
    const int item = leads_to(morning, ahead ? ahead->step : planned().steps.size());
    const int last_item = ahead ? item : static_cast<int>(laid_.plan->itinerary.size());
    if (item < 0 || !stays_between(morning, last_item)) {
      WayOut out = planned_way;
      const std::size_t end = ahead ? ahead->step : planned().steps.size();
      out.bare =
          std::min(out.least, bare(morning, taking_all_there_is(*certain_.course, reserve, parts_),
                                   end, reserve, scratch));
      return out;
    }
    const int to = ahead ? item : -1;
    auto found = morning.on.find(to);
    if (found == morning.on.end()) found = morning.on.emplace(to, without_stays(morning, to)).first;
    const LaidTrip& on = found->second;
    auto refuge = next_goal(on, morning.step, reserve);
    if (refuge && ahead && is_beyond(on, refuge->step, item)) refuge.reset();
    const std::size_t until = refuge ? refuge->step : on.timeline->steps.size();
    const Moment end = moment_before(on, until);
    WayOut out{.place = refuge  ? refuge->place
                        : ahead ? ahead->place
                                : -1,
               .day = end.day,
               .km = driven_km(*on.timeline, morning.step, until)};
    if (ahead && !refuge) {
      out.least = out.bare = engine::without_limit;
      out.fits = false;
      return out;
    }
    note_shut(out, on, morning.step, until, reserve);
    out.taking_at = taken_on_the_way(on, morning.step, until, reserve);
    const engine::Course course =
        taking_all_there_is(*on.course, reserve, mornings_[morning.day], morning.step);
    find_least(out, morning, course, until, reserve, scratch);
    return out;
  }

  /// What the party finds shut before a step, since it comes early.
  void note_shut(WayOut& way, const LaidTrip& on, std::size_t from, std::size_t until,
                 int reserve) const {
    const auto& steps = on.timeline->steps;
    for (const engine::OrderInfo& order : on.course->orders) {
      const bool ahead =
          std::any_of(steps.begin() + static_cast<std::ptrdiff_t>(from),
                      steps.begin() + static_cast<std::ptrdiff_t>(std::min(until, steps.size())),
                      [&](const engine::TimeStep& step) { return step.stop == order.item; });
      const bool open_as_planned =
          std::ranges::any_of(certain_.course->orders, [&](const engine::OrderInfo& planned) {
            return planned.item == order.item && planned.reserve == reserve && planned.open;
          });
      if (order.reserve != reserve || order.open || !ahead || !open_as_planned) continue;
      way.shut_place = order.place;
      way.shut_day = order.day;
      return;
    }
    // The supply itself, where it is waited for.
    std::size_t arrival = std::min(until, steps.size());
    while (arrival > from && steps[arrival - 1].drive < 0) --arrival;
    if (until >= steps.size() || way.place < 0 || arrival >= until) return;
    if (steps[arrival].day == steps[until].day) return;
    way.shut_place = way.place;
    way.shut_day = steps[arrival].day;
  }

  /// Whether a step comes after a drive that follows the one of an item.
  static bool is_beyond(const LaidTrip& on, std::size_t step, int item) {
    const Progress progress = progress_before(*on.timeline, step);
    return progress.leg >= 0 && on.timeline->legs[at(progress.leg)].item > item;
  }

  /// The laid trip gone on with from a morning without stays: up to the end of a drive, and waiting
  /// there; or to its end.
  [[nodiscard]] LaidTrip without_stays(const Morning& morning, int to_item) const {
    plan::Plan plan = *certain_.plan;
    if (to_item >= 0) {
      // The two drives after it tell what a margin of distance is there.
      const auto& items = certain_.plan->itinerary;
      plan.itinerary.resize(at(to_item) + 1);
      plan.itinerary.emplace_back(plan::Stay{.nights = longest_wait_days, .activity = {}});
      int after = 2;
      std::copy_if(
          items.begin() + to_item + 1, items.end(), std::back_inserter(plan.itinerary),
          [&after](const plan::ItineraryItem& item) { return is_drive(item) && after-- > 0; });
    }
    // Those that are over stay as they were.
    const std::size_t last = to_item >= 0 ? at(to_item) : plan.itinerary.size();
    for (std::size_t k = at(morning.next_item); k < last; ++k) {
      if (auto* stay = std::get_if<plan::Stay>(&plan.itinerary[k])) stay->nights = 0;
    }
    const engine::TimeStep& step = planned().steps[morning.step];
    const engine::Detour jump{
        .at_h = day_h * step.day + step.from_h, .halt_h = 0, .go_on_with = morning.next_item};
    LaidTrip out =
        changed(certain_, std::make_shared<const plan::Plan>(std::move(plan)), {jump}, step.day);
    out.course = std::make_shared<const engine::Course>(
        engine::recompile(*out.plan, out.timeline, *certain_.course, morning.step));
    return out;
  }

  // --- back ---

  std::optional<WayOut> back(Morning& morning, std::size_t i, engine::Record& scratch) const {
    const int reserve = needs_.reserves[of_needs_[i]];
    const std::vector<Passed>& passed = passed_[i];
    const auto ahead = std::ranges::find_if(
        passed, [&](const Passed& other) { return other.refuge.step > morning.step; });
    if (ahead == passed.begin()) return std::nullopt;
    const Passed& behind = *(ahead - 1);
    const Turn turn{.step = morning.step,
                    .hour = planned().steps[morning.step].from_h,
                    .to_leg = behind.to_leg};
    auto found = morning.retreat.find(turn.to_leg);
    if (found == morning.retreat.end()) {
      found = morning.retreat.emplace(turn.to_leg, retreat(certain_, turn, {reserve})).first;
    }
    std::optional<Refuge> refuge = next_refuge(found->second, morning.step, reserve);
    if (refuge) return back_by(morning, found->second, *refuge, reserve, scratch);
    // It may have to be waited for, where what others need is open.
    const LaidTrip waiting = retreat(certain_, turn, {reserve});
    refuge = next_refuge(waiting, morning.step, reserve);
    if (refuge) return back_by(morning, waiting, *refuge, reserve, scratch);
    const std::size_t end = waiting.timeline->steps.size();
    return WayOut{.least = engine::without_limit,
                  .bare = engine::without_limit,
                  .fits = false,
                  .place = behind.refuge.place,
                  .day = moment_before(waiting, end).day,
                  .km = driven_km(*waiting.timeline, morning.step, end)};
  }

  [[nodiscard]] WayOut back_by(const Morning& morning, const LaidTrip& way, const Refuge& refuge,
                               int reserve, engine::Record& scratch) const {
    WayOut out{.place = refuge.place,
               .day = moment_before(way, refuge.step).day,
               .km = driven_km(*way.timeline, morning.step, refuge.step),
               .taking_at = taken_on_the_way(way, morning.step, refuge.step, reserve)};
    for (std::size_t s = morning.step; s < refuge.step; ++s) {
      const engine::TimeStep& step = way.timeline->steps[s];
      if (step.drive < 0) continue;
      const engine::Leg& leg = way.timeline->legs[at(step.leg)];
      out.own_road =
          out.own_road ||
          is_own_road(*certain_.plan, planned(),
                      std::get<plan::Drive>(way.plan->itinerary[at(leg.item)]), leg.from);
    }
    const engine::Course course =
        taking_all_there_is(*way.course, reserve, mornings_[morning.day], morning.step);
    find_least(out, morning, course, refuge.step, reserve, scratch);
    return out;
  }

  const Needs& needs_;
  LaidTrip laid_;
  LaidTrip certain_;
  std::vector<std::optional<double>> parts_;  ///< of what limited supplies give, as planned
  engine::Record record_;                     ///< what the mornings stand in
  std::vector<Engine::Standing> mornings_;
  std::vector<std::size_t> of_needs_;        ///< of the reserves: indices into Needs::reserves
  std::vector<std::vector<Passed>> passed_;  ///< of each of them
};

}  // namespace

WaysOutTable ways_out(const PlanRun& planned, const Needs& needs) {
  return WaysOutSearch(planned, needs).answer();
}

}  // namespace drystage::answers
