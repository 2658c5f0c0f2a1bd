#include "answers/base/laid_trip.h"

#include <fmt/core.h>

#include <algorithm>
#include <boost/date_time/gregorian/gregorian.hpp>
#include <utility>

#include "units/day.h"
#include "units/index.h"
#include "units/text.h"

namespace drystage::answers {
namespace {

constexpr int months = 12;

/// The month nearest to one that is missing, the one before it on a tie; -1 where there is none.
int nearest_month(const plan::Climate& climate, int month) {
  for (int distance = 1; distance <= months / 2; ++distance) {
    for (const int other : {month - distance, month + distance}) {
      const int index = (other + months) % months;
      if (climate.months.at(static_cast<std::size_t>(index))) return index;
    }
  }
  return -1;
}

void fill_months(plan::Plan& plan) {
  for (plan::Climate& climate : plan.climates) {
    const plan::Climate given = climate;
    for (int month = 0; month < months; ++month) {
      const auto index = static_cast<std::size_t>(month);
      const int nearest = nearest_month(given, month);
      if (given.months.at(index) || nearest < 0) continue;
      climate.months.at(index) = given.months.at(static_cast<std::size_t>(nearest));
    }
  }
}

/// Whether mains that nobody has confirmed is counted on.
bool hopes_for_mains(const plan::Plan& plan) {
  const bool takes = std::ranges::find(plan.power.chargers, plan::ChargerKind::mains,
                                       &plan::Charger::kind) != plan.power.chargers.end();
  return takes && std::ranges::any_of(plan.places, [](const plan::Place& place) {
           return std::ranges::any_of(place.supplies, [](const plan::Supply& supply) {
             return supply.commodity == plan::Commodity::mains && !supply.confirmed;
           });
         });
}

/// What a plan could take at a place and does not, in the stops up to the next drive: orders of
/// nothing. Brackish water that the plan leaves stays left: it would spoil what is good in a tank.
plan::Resupply left_untaken(const plan::Plan& plan, std::size_t drive) {
  const auto& to = std::get<plan::Drive>(plan.itinerary[drive]).to;
  plan::Resupply out;
  for (const plan::Supply& supply : plan.places[at(to)].supplies) {
    const bool brackish = supply.quality == plan::WaterQuality::brackish;
    if (!supply.confirmed || brackish || !is_taken_on(supply.commodity)) continue;
    bool taken = false;
    for (std::size_t i = drive + 1; i < plan.itinerary.size(); ++i) {
      if (std::holds_alternative<plan::Drive>(plan.itinerary[i])) break;
      const auto* stop = std::get_if<plan::Resupply>(&plan.itinerary[i]);
      taken = taken ||
              (stop != nullptr && std::ranges::find(stop->orders, supply.commodity,
                                                    &plan::Order::commodity) != stop->orders.end());
    }
    if (taken) continue;
    plan::Order order;
    order.commodity = supply.commodity;
    order.take = plan::Take::amount;
    out.orders.push_back(order);
  }
  return out;
}

/// A plan with stops for all that it leaves, and for each of its items the one that it was before;
/// -1 for what was added.
struct WithStops {
  plan::Plan plan;
  std::vector<int> was;
};

WithStops stop_everywhere(const plan::Plan& plan) {
  WithStops out{.plan = plan, .was = {}};
  out.plan.itinerary.clear();
  for (std::size_t i = 0; i < plan.itinerary.size(); ++i) {
    out.plan.itinerary.push_back(plan.itinerary[i]);
    out.was.push_back(static_cast<int>(i));
    if (!std::holds_alternative<plan::Drive>(plan.itinerary[i])) continue;
    plan::Resupply stop = left_untaken(plan, i);
    if (stop.orders.empty()) continue;
    out.plan.itinerary.emplace_back(std::move(stop));
    out.was.push_back(-1);
  }
  return out;
}

}  // namespace

bool is_taken_on(plan::Commodity commodity) {
  return commodity != plan::Commodity::mains && commodity != plan::Commodity::tyres &&
         commodity != plan::Commodity::ice;
}

LaidTrip laid_trip_of(const PlanRun& planned) {
  plan::Plan plan = planned.plan;
  fill_months(plan);
  return {.plan = std::make_shared<const plan::Plan>(std::move(plan)),
          .detours = {},
          .timeline = planned.course.timeline,
          .course = std::make_shared<const engine::Course>(planned.course)};
}

LaidTrip laid_trip_on_what_is_certain(const PlanRun& planned) {
  plan::Plan plan = planned.plan;
  fill_months(plan);
  for (plan::Place& place : plan.places) {
    for (plan::Supply& supply : place.supplies) {
      if (!supply.confirmed) supply.open_weekdays.reset();
    }
  }
  LaidTrip out = laid_trip_of(planned);
  out.plan = std::make_shared<const plan::Plan>(std::move(plan));
  // Where there is mains is a matter of the calendar.
  if (hopes_for_mains(planned.plan)) out.timeline = changed(out, out.plan, {}, 0).timeline;
  out.course = std::make_shared<const engine::Course>(
      engine::recompile(*out.plan, out.timeline, planned.course));
  return out;
}

LaidTrip laid_trip_past_every_supply(const PlanRun& planned, const LaidTrip* like) {
  const std::shared_ptr<KeptTimelines> kept = like != nullptr ? like->kept : nullptr;
  WithStops with = stop_everywhere(planned.plan);
  if (with.plan.itinerary.size() == planned.plan.itinerary.size()) {
    LaidTrip out = laid_trip_of(planned);
    out.kept = kept;
    return out;
  }
  fill_months(with.plan);
  const auto lay = [&] {
    return engine::lay_timeline(with.plan, {.almanac = planned.course.timeline->almanac});
  };
  const auto timeline = kept ? kept->get({}, lay) : std::make_shared<const engine::Timeline>(lay());
  engine::Course course = engine::Engine::compile(
      with.plan, timeline,
      {.more_margin_days = planned.course.more_margin_days, .learned = planned.course.learned},
      like != nullptr ? like->course.get() : nullptr);
  for (engine::OrderInfo& order : course.orders) {
    const int item = with.was[at(order.item)];
    const auto own = std::ranges::find_if(planned.course.orders, [&](const auto& other) {
      return other.item == item && other.order.commodity == order.order.commodity &&
             other.order.vehicle == order.order.vehicle;
    });
    if (own != planned.course.orders.end()) order.order.amount = own->order.amount;
  }
  return {.plan = std::make_shared<const plan::Plan>(std::move(with.plan)),
          .detours = {},
          .timeline = timeline,
          .course = std::make_shared<const engine::Course>(std::move(course)),
          .kept = kept};
}

LaidTrip keeping_timelines() {
  LaidTrip out;
  out.kept = std::make_shared<KeptTimelines>();
  return out;
}

LaidTrip changed(const LaidTrip& before, std::shared_ptr<const plan::Plan> plan,
                 std::vector<engine::Detour> detours, int day) {
  const engine::Layout layout{
      .detours = detours, .same = before.timeline.get(), .same_days = std::max(0, day)};
  const auto lay = [&] { return engine::lay_timeline(*plan, layout); };
  KeptTimelines::Key key = before.kept_as;
  key.items = plan->itinerary.size();
  key.detours = detours.size();
  const bool is_kept = before.kept && key.mishap != KeptTimelines::Key::no_mishap;
  auto timeline =
      is_kept ? before.kept->get(key, lay) : std::make_shared<const engine::Timeline>(lay());
  if (!timeline->problems.empty()) throw CannotBeLaidOut(timeline->problems.front().what);
  return {.plan = std::move(plan),
          .detours = std::move(detours),
          .timeline = std::move(timeline),
          .course = nullptr,
          .added_stops = before.added_stops,
          .kept = before.kept,
          .kept_as = before.kept_as};
}

std::vector<std::string> borrowed_months(const plan::Plan& plan, std::size_t days) {
  const plan::Date first = plan.trip.start;
  const plan::Date last = first + boost::gregorian::days(static_cast<long>(days) - 1);
  std::vector<std::string> out;
  for (const plan::Climate& climate : plan.climates) {
    std::vector<int> told;
    for (plan::Date date = first; date <= last; date += boost::gregorian::days(1)) {
      const int month = date.month().as_number() - 1;
      if (climate.months.at(static_cast<std::size_t>(month))) continue;
      if (std::ranges::find(told, month) != told.end()) continue;
      told.push_back(month);
      const int nearest = nearest_month(climate, month);
      if (nearest < 0) continue;
      const auto name = [](int m) {
        return boost::gregorian::greg_month(static_cast<unsigned short>(m + 1)).as_long_string();
      };
      out.push_back(
          fmt::format("climate {} has no normals for {}: where a delay runs into it, "
                      "those of {} stand in",
                      units::in_quotes(climate.name), name(month), name(nearest)));
    }
  }
  return out;
}

std::vector<engine::Engine::Standing> stand_before_each_step(const engine::Course& course,
                                                             engine::Record& record) {
  const std::size_t steps = course.timeline->steps.size();
  std::vector<engine::Engine::Standing> out;
  out.reserve(steps);
  engine::Engine::Standing standing = engine::Engine::begin(course, record);
  for (std::size_t s = 0; s < steps; ++s) {
    out.push_back(standing);
    engine::Engine::go_on(course, standing, s + 1);
  }
  return out;
}

Moment last_reading(const PlanRun& planned) {
  return moment_before(laid_trip_of(planned), planned.course.judged_from());
}

int first_morning(const engine::CourseBase& course) {
  return course.readings.empty() ? 0 : course.first_judged_day() + 1;
}

std::size_t morning_step(const engine::Timeline& timeline, int day) {
  auto step = static_cast<std::size_t>(timeline.days[at(day)].first_step);
  if (day > 0) return step;
  while (step + 1 < timeline.steps.size() && timeline.steps[step].stop >= 0 &&
         timeline.steps[step].from_h <= 0) {
    ++step;
  }
  return step;
}

Progress progress_before(const engine::Timeline& timeline, std::size_t step) {
  Progress out;
  for (std::size_t s = step; s > 0; --s) {
    const engine::TimeStep& before = timeline.steps[s - 1];
    if (before.drive < 0) continue;
    if (out.leg >= 0 && before.leg != out.leg) break;
    out.leg = before.leg;
    out.done_km += before.distance_km;
  }
  if (out.leg < 0) return out;
  const double whole_km = timeline.legs[at(out.leg)].distance_km;
  out.under_way = out.done_km < whole_km - tiny_km;
  return out;
}

Moment moment_before(const LaidTrip& laid, std::size_t step) {
  const engine::Timeline& timeline = *laid.timeline;
  Moment out;
  if (step < timeline.steps.size()) {
    out.day = timeline.steps[step].day;
    out.hour = timeline.steps[step].from_h;
  } else {
    out.day = timeline.steps.back().day;
    out.hour = day_h;
  }
  const Progress progress = progress_before(timeline, step);
  if (progress.leg < 0) {
    out.at = timeline.days.front().schedule.from;
    return out;
  }
  const engine::Leg& leg = timeline.legs[at(progress.leg)];
  const auto& drive = std::get<plan::Drive>(laid.plan->itinerary[at(leg.item)]);
  if (!progress.under_way) {
    out.at = {.from = drive.to, .to = drive.to, .share = 0};
    return out;
  }
  out.at = {.from = leg.from, .to = drive.to, .share = progress.done_km / leg.distance_km};
  out.done_km = progress.done_km;
  out.to_go_km = leg.distance_km - progress.done_km;
  return out;
}

}  // namespace drystage::answers
