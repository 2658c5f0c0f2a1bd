#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <iterator>
#include <random>

#include "plan_text.h"
#include "support/cases.h"

namespace drystage::plan {
namespace {

// A number below `limit` from a generator whose output the standard fixes.
std::size_t below(std::mt19937& random, std::size_t limit) { return random() % limit; }

// One random slip of the keyboard somewhere in the text.
void damage(std::string& text, std::mt19937& random) {
  static constexpr std::array<std::string_view, 24> pieces{
      "\n", " ",  ":",   ": ",  "- ", "{", "}",  "[",    "]",    ",",   "#",   "\"",
      "'",  "\t", "&a ", "*a ", "!",  "0", "-1", "1e99", "\xC3", "nan", "gal", "°"};
  const std::size_t at = below(random, text.size());
  const std::size_t digit = text.find_first_of("0123456789", at);
  switch (below(random, 6)) {
    case 0:
      text.erase(at, 1 + below(random, 12));
      break;
    case 1:
      text.insert(at, pieces[below(random, pieces.size())]);
      break;
    case 2:
      text[at] = static_cast<char>(below(random, 256));
      break;
    case 3:
    case 4:
      if (digit != std::string::npos) text[digit] = static_cast<char>('0' + below(random, 10));
      break;
    default:
      text.insert(below(random, text.size()), text.substr(at, 1 + below(random, 40)));
      break;
  }
}

// Whether it keeps what Gauge promises.
bool keeps_promises(const Gauge& gauge, double holds_l) {
  if (!gauge.marks.empty() && height_m(gauge.shape) > 0) return false;
  const double room = room_l(gauge.shape);
  if (height_m(gauge.shape) > 0 && std::abs(room - holds_l) > 0.1 * holds_l) return false;
  for (std::size_t m = 0; m < gauge.marks.size(); ++m) {
    const DipMark& mark = gauge.marks[m];
    if (mark.depth_m < 0 || mark.volume_l < 0 || mark.volume_l > holds_l) return false;
    if (m > 0 && mark.depth_m <= gauge.marks[m - 1].depth_m) return false;
    if (m > 0 && mark.volume_l <= gauge.marks[m - 1].volume_l) return false;
  }
  return gauge.marks.empty() || gauge.marks.back().depth_m > 0;
}

TEST(AnyText, GivesAPlanOrSaysWhyNot) {
  const std::string whole = whole_plan();
  std::mt19937 random(20270208);
  int plans = 0;
  int refused = 0;
  for (int round = 0; round < support::cases(1500); ++round) {
    std::string text = whole;
    const std::size_t slips = 1 + below(random, 3);
    for (std::size_t i = 0; i < slips; ++i) damage(text, random);
    const ReadPlan reading = read_text(text);
    ASSERT_EQ(reading.plan.has_value(), !has_error(reading.diagnostics)) << text;
    for (const Diagnostic& d : reading.diagnostics) {
      ASSERT_FALSE(d.what.empty());
      ASSERT_EQ(render(d, reading, "plan.yaml", true).back(), '\n');
    }
    if (!reading.plan) {
      ++refused;
      continue;
    }
    ++plans;
    // What is let through keeps the promises of Plan.
    const Plan& plan = *reading.plan;
    for (const Container& c : plan.water.containers) {
      ASSERT_LE(c.filled_l, c.holds_l) << text;
      ASSERT_TRUE(keeps_promises(c.gauge, c.holds_l)) << text;
    }
    for (const Vehicle& v : plan.vehicles) {
      for (const Tank& t : v.tanks) ASSERT_TRUE(keeps_promises(t.gauge, t.holds_l)) << text;
    }
    for (const FoodItem& f : plan.food) {
      ASSERT_LT(f.cabinet, static_cast<int>(plan.cold.size())) << text;
      ASSERT_EQ(f.cabinet < 0, f.kept == Kept::dry) << text;
    }
    for (const ItineraryItem& item : plan.itinerary) {
      const auto* drive = std::get_if<Drive>(&item);
      if (drive == nullptr) continue;
      double sum_km = 0;
      for (const SurfacePart& part : drive->surfaces) sum_km += part.distance_km;
      ASSERT_NEAR(sum_km, drive->distance_km, 1e-6) << text;
      ASSERT_LT(drive->to, static_cast<int>(plan.places.size())) << text;
      if (!drive->back) continue;
      ASSERT_GT(drive->back->distance_km, 0) << text;
      double back_km = 0;
      for (const SurfacePart& part : drive->back->surfaces) back_km += part.distance_km;
      ASSERT_NEAR(back_km, drive->back->distance_km, 1e-6) << text;
    }
    ASSERT_LE(plan.uncertainty.distance.usual, plan.uncertainty.distance.high) << text;
    for (const OwnMishap& own : plan.mishaps.own) {
      for (const int c : own.containers) ASSERT_LT(c, std::ssize(plan.water.containers)) << text;
      for (const int c : own.cabinets) ASSERT_LT(c, std::ssize(plan.cold)) << text;
      for (const int c : own.chargers) ASSERT_LT(c, std::ssize(plan.power.chargers)) << text;
      ASSERT_EQ(own.hotter_k > 0, own.hot_days > 0) << text;
    }
  }
  EXPECT_GT(plans, support::cases(50));
  EXPECT_GT(refused, support::cases(500));
}

}  // namespace
}  // namespace drystage::plan
