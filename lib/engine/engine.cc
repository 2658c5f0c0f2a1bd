#include "engine/engine.h"

#include <algorithm>
#include <cmath>

namespace drystage::engine {
namespace {

// An order's amount changes the load, and the load the use of fuel, so the amounts are found by
// running and mending until nothing moves any more. Each round leaves an error about a hundredth of
// the one before; orders that depend on each other take a few more.
constexpr int most_rounds = 60;
constexpr double settled = 1e-9;

// What then still goes to and fro is taken at its most: of brackish water a little spoils what
// would be drunk without it.
constexpr int free_rounds = 30;

// Taken on top, so that rounding breaks no margin: a tenth of a microlitre.
constexpr double spare = 1e-7;

// More than any vehicle takes on, L or meals.
constexpr double plenty = 1e4;

bool is_needed(const OrderInfo& order) { return order.order.take == plan::Take::needed; }

/// The same course with unconfirmed supplies shut: what is taken on must reach past them.
Course on_confirmed_only(Course course) {
  for (OrderInfo& order : course.orders) order.open = order.open && order.supply.confirmed;
  return course;
}

/// What a "needed" order should have taken in a run, to leave its reserve exactly at its margin at
/// the tightest moment before the next supply of it; nothing where that run knows no such moment.
double needed_by(const Record& record, std::size_t order) {
  if (record.order_slack[order] >= without_limit) return 0;
  const double needed = record.order_taken[order] - record.order_slack[order];
  return needed > rounding ? needed + spare : 0;
}

/// Sets the "needed" orders, from one on, to what keeps the margin both with and without the
/// supplies that nobody has confirmed. (With them the vehicle may be heavier.)
void resolve_needed(Course& course, std::size_t first) {
  for (std::size_t o = first; o < course.orders.size(); ++o) {
    if (is_needed(course.orders[o])) course.orders[o].order.amount = plenty;
  }
  double moved = plenty;
  for (int round = 0; round < most_rounds && moved > settled; ++round) {
    moved = 0;
    const Record hopeful = Engine::run(course);
    const Record careful = Engine::run(on_confirmed_only(course));
    for (std::size_t o = first; o < course.orders.size(); ++o) {
      OrderInfo& order = course.orders[o];
      if (!is_needed(order)) continue;
      const double at_least = round < free_rounds ? 0.0 : order.order.amount;
      const double amount = std::max({at_least, needed_by(hopeful, o), needed_by(careful, o)});
      moved = std::max(moved, std::abs(amount - order.order.amount));
      order.order.amount = amount;
    }
  }
}

/// How many orders are made before a step.
std::size_t orders_before(const Course& course, std::size_t step) {
  int last = -1;
  for (std::size_t s = 0; s < step; ++s) last = std::max(last, course.timeline->steps[s].stop);
  const auto later = std::ranges::find_if(
      course.orders, [last](const OrderInfo& order) { return order.item > last; });
  return static_cast<std::size_t>(later - course.orders.begin());
}

}  // namespace

Course compile(const plan::Plan& plan, std::shared_ptr<const Timeline> timeline, const Course* like,
               CourseOptions options) {
  Course course = Engine::compile(plan, std::move(timeline), std::move(options), like);
  if (std::ranges::none_of(course.orders, is_needed)) return course;
  const std::size_t past = orders_before(course, course.judged_from());
  if (past > 0) {
    // Of stops gone by it was taken what the plan had.
    Course unread = course;
    unread.readings.clear();
    unread.learned.clear();
    resolve_needed(unread, 0);
    std::copy_n(unread.orders.begin(), past, course.orders.begin());
  }
  resolve_needed(course, past);
  return course;
}

void take_as_much(CourseBase& course, const CourseBase& like) {
  const auto same = [](const OrderInfo& a, const OrderInfo& b) {
    return a.item == b.item && a.order.commodity == b.order.commodity &&
           a.order.vehicle == b.order.vehicle;
  };
  std::size_t next = 0;
  for (OrderInfo& order : course.orders) {
    // Both are in the order of the itinerary.
    std::size_t o = next;
    while (o < like.orders.size() && !same(order, like.orders[o])) ++o;
    if (o == like.orders.size()) continue;
    next = o + 1;
    order.order.amount = like.orders[o].order.amount;
    order.up_to = like.orders[o].up_to;
  }
}

Course recompile(const plan::Plan& plan, std::shared_ptr<const Timeline> timeline,
                 const Course& like, std::size_t first_step, const Damage& more) {
  CourseOptions options = like;
  options.first_step = first_step;
  options.damage.add(more);
  Course course = Engine::compile(plan, std::move(timeline), std::move(options), &like);
  take_as_much(course, like);
  return course;
}

void make_up(Course& course, const Record& run) {
  for (std::size_t o = 0; o < course.orders.size(); ++o) {
    OrderInfo& order = course.orders[o];
    if (!order.open || order.reserve < 0) continue;
    const auto reserve = static_cast<std::size_t>(order.reserve);
    // Of cold, which is a temperature, nobody takes up to a level.
    if (course.reserves[reserve].sense == Sense::keep_above) order.up_to = run.order_left[o];
  }
}

}  // namespace drystage::engine
