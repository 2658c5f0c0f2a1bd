#pragma once

#include <array>
#include <string>
#include <vector>

#include "plan/override.h"
#include "plan/plan.h"
#include "plan/text_edit.h"

namespace drystage::cli {

/// An option of `resume` that says what was found, and a question in its dialogue.
struct ReadingOption {
  const char* name;   ///< "--drinking"
  const char* key;    ///< of a reading in the plan
  const char* value;  ///< as the help has it
  bool of_things;     ///< NAME=VALUE, and may be repeated
  const char* about;
};

/// In the order in which one walks round the vehicle.
inline constexpr std::array<ReadingOption, 17> reading_options{{
    {"evening", "evening", "DAY", false, "read in the evening of this day of the trip, from 1"},
    {"day", "day", "DAY", false, "read on this day; with --hour"},
    {"hour", "hour", "HH:MM", false, "read at this time of that day"},
    {"at", "at", "PLACE", false, "you are at this place"},
    {"towards", "towards", "PLACE", false, "you are on the drive that ends there; with --km"},
    {"km", "after", "DISTANCE", false, "so much of that drive is done"},
    {"drinking", "drinking", "LITRES", false, "in all drinking containers together"},
    {"utility", "utility", "LITRES", false, "in all utility containers together"},
    {"container", "containers", "NAME=LITRES", true,
     "in one water container, or how deep: 12 cm; may be repeated"},
    {"fuel", "fuel", "LITRES", true,
     "in all tanks and cans that can be used; of several vehicles NAME=LITRES"},
    {"tank", "tanks", "NAME=LITRES", true,
     "in one tank or can, all of it, or how deep: 23 cm; may be repeated"},
    {"spare-wheels", "spare_wheels", "N", true,
     "that can still be driven on; of several vehicles NAME=N"},
    {"repairs", "repairs", "N", true, "holes that can be mended; of several vehicles NAME=N"},
    {"battery", "batteries", "NAME=CHARGE", true,
     "80 %, 62 Ah, or lead-acid volts at rest; may be repeated"},
    {"cabinet", "cabinets", "NAME=TEMPERATURE", true, "inside, such as 4 °C; may be repeated"},
    {"meals", "meals", "N", false, "meals for one person that are left"},
    {"consumable", "consumables", "NAME=AMOUNT", true, "of it, in all its stores; may be repeated"},
}};

/// An option of `resume` that says what is otherwise than planned from tonight on.
struct ChangeOption {
  const char* name;
  const char* key;  ///< of a change in the plan
  const char* value;
  const char* about;
};
inline constexpr std::array<ChangeOption, 6> change_options{{
    {"wait", "wait", "DAYS", "you stay where you are for so long: 2 days"},
    {"shut", "shut", "PLACE", "the road to this place is shut; may be repeated"},
    {"no-supply", "no_supply", "PLACE", "nothing is to be had there; may be repeated"},
    {"joins", "joins", "NAME", "this person comes along from now on; may be repeated"},
    {"leaves", "leaves", "NAME", "this person goes home; may be repeated"},
    {"lost", "lost", "NAME", "this container, tank or can is lost; may be repeated"},
}};

/// One of those as it was given.
struct GivenChange {
  const ChangeOption* option = nullptr;
  std::string value;
};

/// One of them as it was given.
struct GivenReading {
  const ReadingOption* option = nullptr;
  std::string value;
};

/// The plan's changes that make one reading of what was given: a new one, or more of the one that
/// it has of that moment already. What is said of no thing by name is of the only one that there
/// is. Throws UsageError where there are several.
std::vector<plan::Override> reading_overrides(const std::vector<GivenReading>& given,
                                              const plan::Plan& before);

/// The day that the reading is of, from 0: of what is given, else of the plan's last one.
int day_of(const std::vector<GivenReading>& given, const plan::Plan& before);

/// A change of the plan on a day, from 0: its keys and values as they are to stand in the text.
std::vector<plan::NewMember> change_members(const GivenChange& change, int day);

/// The same as a change of the plan for this run.
plan::Override change_override(const GivenChange& change, int day);

}  // namespace drystage::cli
