// What happens on a day by the plan: told on its day, once, and the grave so that it stands out.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "report/card/day_lines.h"
#include "support/card_answer.h"
#include "support/laid_out.h"
#include "support/trip.h"

namespace drystage {
namespace {

using report::day_notes;
using report::DayNote;
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::Field;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

std::vector<DayNote> notes(const std::string& title, std::size_t day) {
  const support::Trip trip = support::travel(support::shipped_plan(title));
  return day_notes(trip, report::told_events(trip), day, units::System::metric);
}

TEST(DayNotes, TellWhatRunsOutAsGrave) {
  // Drinking water goes on for a day out of the kitchen tank, and is gone on day 12.
  EXPECT_THAT(
      notes("Dune mapping, Marrabel to Tessarin", 11),
      Contains(AllOf(
          Field(&DayNote::grave, true),
          Field(&DayNote::words, AllOf(HasSubstr("RUNS OUT: drinking water; "),
                                       HasSubstr("of brackish water is left: do not drink it"))))));
}

TEST(DayNotes, TellWaterThatIsNotFitToCookWithOnItsFirstDayAlone) {
  EXPECT_THAT(notes("Dune mapping, Marrabel to Tessarin", 11),
              Contains(Field(&DayNote::words, AllOf(HasSubstr("no potable utility water left. "),
                                                    HasSubstr("Every day until Sun 21 Mar")))));
  EXPECT_THAT(notes("Dune mapping, Marrabel to Tessarin", 12), IsEmpty());
}

TEST(DayNotes, TellFrostOnItsFirstDayWithTheColdest) {
  const auto list = notes("Ice core store, up to the Teller plateau", 2);
  ASSERT_THAT(list, SizeIs(2));
  EXPECT_THAT(list[0].words, HasSubstr("Day 3: frost, down to -21 °C"));
  EXPECT_THAT(list[0].words, HasSubstr("Every day until Fri 25 Jun; night at 4380 m"));
  EXPECT_FALSE(list[0].grave);
  EXPECT_THAT(list[1].words, HasSubstr("takes no charge"));
  EXPECT_THAT(notes("Ice core store, up to the Teller plateau", 3), IsEmpty());
}

TEST(DayNotes, TellWaterThatMustNotBeDrunk) {
  const auto list = notes("Dune mapping, Marrabel to Tessarin", 2);
  ASSERT_THAT(list, SizeIs(1));
  EXPECT_EQ(list[0].words,
            "Day 3, 08:00: brackish water in body tank: do not drink from it until it is emptied "
            "and cleaned.");
}

TEST(DayNotes, LeaveOutStopsAndCamps) {
  EXPECT_THAT(notes("Dune mapping, Marrabel to Tessarin, with three more cans", 12), IsEmpty());
}

}  // namespace
}  // namespace drystage
