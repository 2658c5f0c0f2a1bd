#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "answers/base/plan_run.h"
#include "engine/event.h"
#include "report/text/page.h"
#include "units/format.h"

namespace drystage::report {

/// An event in plain words, without day and hour.
std::string event_words(const plan::Plan& plan, const engine::CourseBase& course,
                        const engine::Event& event, units::System system);

/// ", next open Tue 11 May", if a supply that is shut on a day is open again within a month.
std::string next_open(const plan::Supply& supply, plan::Date day);

/// So much of what an order is for: "72 L", "12 meals".
std::string taken_words(const plan::Plan& plan, const engine::OrderInfo& order, double taken,
                        units::System system);

/// How often the same may come: switches go back and forth within a day; weather stays for days,
/// and so do waiting for light and the lack of water fit to cook with.
enum class Repeats : std::uint8_t { never, in_a_day, by_day };

/// The last is what goes as planned, and what other lines say.
enum class Weight : std::uint8_t { danger, change, told_elsewhere };

/// Whether the card tells it; gravely, where somebody may go without.
enum class OnCard : std::uint8_t { no, told, grave };

/// What all events of a kind have in common.
struct EventTraits {
  engine::EventKind kind{};
  std::string_view name;  ///< for machines: "shut", "spoiled"
  Repeats repeats{};
  Weight weight{};
  OnCard on_card{};
};
const EventTraits& traits_of(engine::EventKind kind);

/// All events of a run in time order: those known before, warnings of the weather among them, and
/// those found while stepping.
std::vector<engine::Event> all_events(const answers::PlanRun& planned);

/// An event, and what came after it of the same on that day or day after day.
struct ToldEvent {
  engine::Event first;  ///< of weather, with the worst amount
  int times = 1;
  int last_day = 0;
};

/// The events of a run in time order; what comes again is told once.
std::vector<ToldEvent> told_events(const answers::PlanRun& planned);

/// One of them in words, with how often or until when it comes again.
std::string told_words(const answers::PlanRun& planned, const ToldEvent& told,
                       units::System system);

/// Something that befell a trip on a day and is no event of the run itself.
struct Befell {
  int day = 0;  ///< 0-based
  std::string what;
};

/// Which of the trips that are drawn is shown, and how it differs from the plan.
struct DrawnTrip {
  std::uint64_t trip = 0;
  std::uint64_t seed = 0;
  std::string story{};           ///< the same in words
  std::vector<Befell> befell{};  ///< what happened, in time order
};

/// The events of a run under a heading, one to a line with date and hour, within 80 columns. What
/// comes again the same day, or day after day, is told once, with how often or until when. On one
/// screen dangers have eight lines, and changes what is left of those and of `room`; what goes as
/// planned or is told elsewhere is left out. `befell`, in time order, is always told, first of its
/// day. Empty when there is none.
std::string event_list(const answers::PlanRun& planned, const TextOptions& options,
                       std::ptrdiff_t room = 40, const std::vector<Befell>& befell = {});

}  // namespace drystage::report
