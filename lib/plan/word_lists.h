#pragma once

#include <array>
#include <string_view>

#include "plan/cold.h"
#include "plan/food.h"
#include "plan/food_kinds.h"
#include "plan/itinerary.h"
#include "plan/mishaps.h"
#include "plan/people.h"
#include "plan/power.h"
#include "plan/vehicle.h"
#include "plan/water.h"
#include "plan/weather.h"
#include "plan/words.h"

namespace drystage::plan {

/// The words of the plan file and what they stand for; those of spells, mishaps and kinds of food
/// stand beside their types.

inline constexpr std::array<Word<bool>, 4> yes_no_words{
    {{"yes", true}, {"no", false}, {"true", true}, {"false", false}}};
/// An underscore will do for the blank: surface_named().
inline constexpr std::array<Word<Surface>, surface_count> surface_words{
    {{"sealed", Surface::sealed},
     {"worn sealed", Surface::worn_sealed},
     {"packed gravel", Surface::packed_gravel},
     {"gravel", Surface::gravel},
     {"loose gravel", Surface::loose_gravel},
     {"track", Surface::track},
     {"rock", Surface::rock},
     {"sand", Surface::sand},
     {"soft sand", Surface::soft_sand}}};
inline constexpr std::array<Word<FuelKind>, 2> fuel_words{
    {{"diesel", FuelKind::diesel}, {"petrol", FuelKind::petrol}}};
inline constexpr std::array<Word<Stock>, 2> stock_words{
    {{"water", Stock::water}, {"food", Stock::food}}};
inline constexpr std::array<Word<Commodity>, commodity_count> commodity_words{
    {{"drinking_water", Commodity::drinking_water},
     {"utility_water", Commodity::utility_water},
     {"diesel", Commodity::diesel},
     {"petrol", Commodity::petrol},
     {"food", Commodity::food},
     {"ice", Commodity::ice},
     {"mains", Commodity::mains},
     {"tyres", Commodity::tyres}}};
inline constexpr std::array<Word<Sex>, 2> sex_words{{{"female", Sex::female}, {"male", Sex::male}}};
inline constexpr std::array<Word<WaterUse>, 2> use_words{
    {{"drinking", WaterUse::drinking}, {"utility", WaterUse::utility}}};
inline constexpr std::array<Word<WaterQuality>, 2> quality_words{
    {{"potable", WaterQuality::potable}, {"brackish", WaterQuality::brackish}}};
inline constexpr std::array<Word<bool>, 2> opened_words{{{"last", true}, {"in order", false}}};
inline constexpr std::array<Word<bool>, 2> whom_words{{{"person", true}, {"party", false}}};
inline constexpr std::array<Word<Kept>, 3> kept_words{
    {{"frozen", Kept::frozen}, {"chilled", Kept::chilled}, {"dry", Kept::dry}}};
inline constexpr std::array<Word<BatteryKind>, 3> battery_words{
    {{"flooded", BatteryKind::flooded}, {"agm", BatteryKind::agm}, {"lfp", BatteryKind::lfp}}};
/// "standing" is another word for "parked".
inline constexpr std::array<Word<While>, 5> while_words{{{"always", While::always},
                                                         {"driving", While::driving},
                                                         {"parked", While::parked},
                                                         {"camp", While::camp},
                                                         {"standing", While::parked}}};
/// Where a panel faces, in degrees from north, eastward.
inline constexpr std::array<Word<double>, 16> compass_words{{{"north", 0},
                                                             {"north-east", 45},
                                                             {"east", 90},
                                                             {"south-east", 135},
                                                             {"south", 180},
                                                             {"south-west", 225},
                                                             {"west", 270},
                                                             {"north-west", 315},
                                                             {"N", 0},
                                                             {"NE", 45},
                                                             {"E", 90},
                                                             {"SE", 135},
                                                             {"S", 180},
                                                             {"SW", 225},
                                                             {"W", 270},
                                                             {"NW", 315}}};
/// What depends on a consumable: life, or the way home; else comfort alone.
inline constexpr std::array<Word<bool>, 2> matters_words{{{"life", true}, {"comfort", false}}};
inline constexpr std::array<Word<Tyres>, 2> tyre_words{
    {{"road_pressure", Tyres::road_pressure}, {"lowered", Tyres::lowered}}};
inline constexpr std::array<Word<Take>, 2> take_words{
    {{"fill", Take::fill}, {"to next", Take::needed}}};
/// Of a consumable: what fills with use is emptied.
inline constexpr std::array<Word<Take>, 3> consumable_take_words{
    {{"fill", Take::fill}, {"empty", Take::fill}, {"to next", Take::needed}}};

/// The first three letters will do too, and capitals.
inline constexpr std::array<std::string_view, 7> weekdays{
    "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"};
inline constexpr std::array<std::string_view, 12> month_names{
    "january", "february", "march",     "april",   "may",      "june",
    "july",    "august",   "september", "october", "november", "december"};

}  // namespace drystage::plan
