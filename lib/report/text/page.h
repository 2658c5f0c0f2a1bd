#pragma once

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "answers/base/moment.h"
#include "answers/base/plan_run.h"
#include "report/text/amounts.h"
#include "units/format.h"

namespace drystage::report {

/// How an answer is written for people.
struct TextOptions {
  bool color = false;
  bool all = false;   ///< all there is, not what fits a screen
  bool wide = false;  ///< tables as wide as what stands in them
  units::System system = units::System::metric;
  bool sparklines = false;  ///< of run: a line of blocks for each reserve, in Unicode
};

/// Columns of a page of text, unless it is asked for wide: 80, or as many as a terminal has.
int page_columns();

/// The same of a table, which is no narrower than 80: below that figures would have to go.
int table_columns();

/// From now on pages are so wide. For whoever writes to a terminal, before anything is written.
void set_page_columns(int columns);

/// A place's name has as many columns of a table, at least.
inline constexpr int least_place_columns = 8;

/// Lines of one screen; on a long trip one more for each day that the table has.
inline std::ptrdiff_t screen_lines(std::size_t days) {
  constexpr std::ptrdiff_t lines = 40;
  constexpr std::ptrdiff_t long_trip = 16;
  return lines + std::max<std::ptrdiff_t>(0, static_cast<std::ptrdiff_t>(days) - long_trip);
}

/// A sentence broken to the page, with a line end; nothing stays nothing.
std::string paragraph(const std::string& words);

/// The day's number in the trip and its date: "day 9, Tue 16 Mar 2027".
std::string day_words(const answers::PlanRun& planned, int day);

/// When a moment is: "day 9, Tue 16 Mar, 13:05". Minutes are rounded `down` to an earlier or `up`
/// to a later time: towards the safe side of a time that must not be passed, or be waited for.
std::string when_words(const answers::PlanRun& planned, int day, double hour, Toward toward);

/// Where it is: "at Red Tables", or "85 km after Red Tables, 30 km before Hollow Arch", rounded
/// back or on along the way as the time is.
std::string where_words(const answers::PlanRun& planned, const answers::Moment& moment,
                        Toward toward, units::System system);

/// Both.
std::string moment_words(const answers::PlanRun& planned, const answers::Moment& moment,
                         Toward toward, units::System system);

/// The families of reserves of which a plan does not speak.
std::vector<engine::Family> not_judged(const answers::PlanRun& planned);

/// The same as a sentence: "Not in the plan, so not judged: food, cold." Empty when there is none.
std::string not_judged_words(const answers::PlanRun& planned);

/// What was found last on the way, and how much more or less than planned is used: "As found on day
/// 3, Wed 10 Mar 2027, at 20:00. Use against the plan: drinking water 1.2 times (1.0 to 1.4)."
/// Empty without readings.
std::string reading_words(const answers::PlanRun& planned);

/// What a trip is: its title, how many people and days, from when. A paragraph with a line end.
std::string trip_line(const answers::PlanRun& planned);

/// The same; what was found on the way; and what is not judged. Each a paragraph with a line end.
std::string title_line(const answers::PlanRun& planned);

/// What the reader was warned of, each in a paragraph with a line end.
std::string warning_lines(const std::vector<std::string>& warnings);

/// How an answer was reckoned, each in a sentence of its own under a heading; empty where there is
/// nothing to say of it.
std::string remark_lines(const std::vector<std::string>& remarks);
std::string remark_sentence(const std::string& remark);

/// "2 people, 14 days".
std::string party_words(const answers::PlanRun& planned);

/// The supplies on which the plan leans and which nobody has confirmed: "water at Bir Aslam,
/// diesel at Bir Aslam". Empty when there is none.
std::string unconfirmed_words(const answers::PlanRun& planned);

/// What an answer ends with: on one screen a line, else all that there is to be careful of.
std::string caution_lines(const TextOptions& options);

/// The line that matters, broken to the page, with a line end: green or red where colour is asked.
std::string headline(std::string_view text, bool good, bool color);

/// Text that stands out: red where something lacks, else bold; as it is without colour.
std::string alarming(const std::string& text, bool color);
std::string strong(const std::string& text, bool color);

/// What an answer on the screen ends with. `drystage help cautions` and the card say more.
inline constexpr std::string_view short_cautions =
    "A planning aid. Local rules, licensed practice and medical advice come first.";

/// What whoever relies on an answer must know.
inline constexpr std::string_view cautions =
    "A planning aid, no more. It replaces neither local rules on carrying fuel, vehicle mass and "
    "electrical work, nor licensed practice, nor medical advice. Tell someone where you go and "
    "when to raise the alarm.";

}  // namespace drystage::report
