// The ways on from each evening, as they stand on the sheet: figures rounded up, where they lead,
// and nothing that is cut or meets.
#include "report/card/way_out_table.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <limits>

#include "support/card_answer.h"
#include "support/laid_out.h"
#include "support/needs_answer.h"
#include "support/overlaps.h"
#include "support/random_plan.h"

namespace drystage {
namespace {

using drawing::Page;
using report::CardAnswer;
using support::PlanText;
using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

constexpr units::System metric = units::System::metric;

std::vector<Page> pages_of(const CardAnswer& answer, const drawing::Paper& paper,
                           units::System system = metric) {
  const drawing::Typesetter typesetter;
  drawing::Flow flow(paper);
  report::write_way_out(flow, typesetter, answer, system);
  return flow.pages(typesetter, answer.needs.trial.plan.trip.title);
}

/// All words, with blanks for no-break spaces.
std::string words_of(const CardAnswer& answer, const drawing::Paper& paper = drawing::a4,
                     units::System system = metric) {
  std::string out;
  for (const std::string& words : support::words_on(pages_of(answer, paper, system))) {
    out += words + " ";
  }
  constexpr std::string_view no_break = "\u00a0";
  for (std::size_t at = 0; (at = out.find(no_break, at)) != std::string::npos;) {
    out.replace(at, no_break.size(), " ");
  }
  return out;
}

std::vector<std::string> faults(const CardAnswer& answer, const drawing::Paper& paper,
                                units::System system) {
  const drawing::Typesetter typesetter;
  std::vector<std::string> out;
  for (const Page& page : pages_of(answer, paper, system)) {
    for (std::string& fault : support::faults(typesetter, page, paper.margin_pt)) {
      out.push_back(std::move(fault));
    }
  }
  return out;
}

/// The ways of water on the evening of a day, to be changed.
answers::WaysOut& water(CardAnswer& answer, std::size_t day) {
  return answer.ways_out.table[day * answer.ways_out.reserves.size()];
}

TEST(WayOutTable, HasEachEveningsFiguresRoundedUp) {
  CardAnswer answer = support::card_answer(support::three_places());
  ASSERT_EQ(
      answer.needs.trial.course.reserves[static_cast<std::size_t>(answer.ways_out.reserves.front())]
          .name,
      "drinking_water");
  water(answer, 1) = {
      .as_planned = {.least = 31.2, .bare = 0, .fits = true, .place = 2, .day = 3, .km = 115},
      .at_once = {.least = 20.1, .bare = 12.01, .fits = true, .place = 2, .day = 1, .km = 115},
      .back = answers::WayOut{
          .least = 190.5, .bare = 44.1, .fits = false, .place = 0, .day = 1, .km = 199.6}};
  for (const auto& paper : {drawing::a4, drawing::strip}) {
    const std::string words = words_of(answer, paper);
    EXPECT_THAT(words,
                AllOf(HasSubstr("The way out, evening by evening"), HasSubstr("Drinking water, L"),
                      HasSubstr("32"), HasSubstr("21 (13)"), HasSubstr("+191 (45)"),
                      HasSubstr("On to Far Well, 115 km, day 4 (at once day 2); back to Base, 200 "
                                "km, day 2")));
  }
}

TEST(WayOutTable, SaysWhereNoWayIs) {
  CardAnswer answer = support::card_answer(support::three_places());
  water(answer, 1) = {
      .as_planned = {.least = std::numeric_limits<double>::infinity(),
                     .bare = 0,
                     .fits = false,
                     .place = -1,
                     .day = 3,
                     .km = 115},
      .at_once = {.least = 8.04, .bare = 5, .fits = true, .place = 2, .day = 1, .km = 80},
      .back = std::nullopt};
  EXPECT_THAT(words_of(answer),
              AllOf(HasSubstr("no amount"), HasSubstr("8.1 (5.0)"),
                    HasSubstr("On to the end of the trip, 115 km, day 4; at once to Far Well, 80 "
                              "km, day 2; no sure supply behind")));
}

TEST(WayOutTable, SaysWhereAnotherRoadLeadsBackAndWhereToWait) {
  CardAnswer answer = support::card_answer(support::three_places());
  water(answer, 1).back = answers::WayOut{
      .least = 10, .bare = 5, .fits = true, .place = 0, .day = 1, .km = 90, .own_road = true};
  water(answer, 2).back =
      answers::WayOut{.least = 10, .bare = 5, .fits = true, .place = 1, .day = 2, .km = 0};
  EXPECT_THAT(words_of(answer),
              AllOf(HasSubstr("back to Base, 90 km, day 2, in part by another road than you came"),
                    HasSubstr("wait at Red Tables, day 3")));
}

TEST(WayOutTable, IsInTheUnitsOfTheReader) {
  EXPECT_THAT(
      words_of(support::card_answer(support::three_places()), drawing::a4, units::System::us),
      AllOf(HasSubstr("US gal"), HasSubstr(" mi"), Not(HasSubstr(" km"))));
}

TEST(WayOutTable, HasARowForEachEveningBetweenDays) {
  const CardAnswer answer = support::card_answer(support::three_places());
  const std::string words = words_of(answer, drawing::strip);
  const std::size_t days = answer.needs.trial.record.days();
  for (std::size_t day = 1; day < days; ++day) {
    EXPECT_THAT(words, HasSubstr("Evening of day " + std::to_string(day) + ","));
  }
  EXPECT_THAT(words, Not(HasSubstr("Evening of day " + std::to_string(days) + ",")));
}

TEST(WayOutTable, IsLeftOutWhereNothingIsDriven) {
  EXPECT_THAT(words_of(support::card_answer(PlanText{})), Not(HasSubstr("The way out")));
}

TEST(WayOutTable, OfShippedPlansHasNothingThatIsCutOrMeets) {
  for (const plan::Plan& plan : support::all_scenarios()) {
    SCOPED_TRACE(plan.trip.title);
    const CardAnswer answer = support::card_answer(plan);
    for (const auto& [name, paper] : support::papers()) {
      EXPECT_THAT(faults(answer, paper, metric), IsEmpty()) << name;
    }
  }
}

RC_GTEST_PROP(WayOutTable, OfAnyPlanHasNothingThatIsCutOrMeets, ()) {
  const CardAnswer answer = support::card_answer(support::random_plan(support::rapidcheck_pick()));
  const auto papers = support::papers();
  const drawing::Paper paper = papers[*rc::gen::inRange<std::size_t>(0, papers.size())].paper;
  const auto system = *rc::gen::element(metric, units::System::us, units::System::imperial);
  RC_ASSERT(faults(answer, paper, system) == std::vector<std::string>{});
}

TEST(WayOutTable, HasRoomForManyReservesWithLongNames) {
  PlanText plan = support::three_places();
  plan.vehicles.clear();
  for (int v = 1; v <= 6; ++v) {
    plan.vehicles.push_back(
        "{name: an exceedingly long lorry of the expedition's northern party " + std::to_string(v) +
        ", fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 180 L, filled: 180 L, "
        "unusable: 2 L}]}");
  }
  const CardAnswer answer = support::card_answer(plan);
  for (const auto& [name, paper] : support::papers()) {
    EXPECT_THAT(faults(answer, paper, metric), IsEmpty()) << name;
  }
  EXPECT_THAT(words_of(answer), HasSubstr("northern party 6"));
}

}  // namespace
}  // namespace drystage
