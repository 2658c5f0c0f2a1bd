#include <fmt/core.h>

#include "plan/sections.h"

namespace drystage::plan {
namespace {

using units::Kind;

constexpr std::array<Word<Sex>, 2> sex_words{{{"female", Sex::female}, {"male", Sex::male}}};

ObservedIn read_observed_in(Log& log, const Node& node, const Plan& plan) {
  static constexpr Limits elevations{-500, 9000, false, "from -500 m to 9000 m"};
  ObservedIn made;
  Fields fields(log, node, "observed.at");
  const auto max_c = fields.need_quantity("max", Kind::temperature, air_temperature);
  const auto min_c = fields.need_quantity("min", Kind::temperature, air_temperature);
  if (max_c && min_c && *max_c < *min_c) {
    log.error(fields.get("max")->spot,
              fmt::format("the maximum {} is lower than the minimum {}", fields.get("max")->text,
                          fields.get("min")->text),
              "max at or above min");
  }
  made.max_c = max_c.value_or(0);
  made.min_c = min_c.value_or(0);
  made.elevation_m = fields.quantity("elevation", Kind::length, elevations);
  if (const Node* activity = fields.get("activity")) {
    made.activity =
        read_reference(log, *activity, "activity", names_of(plan.activities), "activities");
  }
  fields.finish();
  return made;
}

void read_observed(Log& log, const Node& node, const Plan& plan, Person& person) {
  Fields fields(log, node, "observed");
  person.drinking_l_day = fields.quantity("drinking", Kind::volume_per_day, not_negative);
  if (const Node* at = fields.get("at")) {
    person.drinking_at = read_observed_in(log, *at, plan);
    if (fields.get("drinking") == nullptr) {
      log.error(at->spot, "\"at\" says where drinking was observed, but there is no \"drinking\"",
                "drinking: 5 L/day beside it");
    }
  }
  if (const Node* meals = fields.get("meals")) {
    static constexpr Limits limits{0, 20, false, "from 0 to 20 a day"};
    // "3", "3 meals" and "3 /day" all say the same.
    if (meals->kind == Node::Kind::text && meals->text.find('/') != std::string::npos) {
      person.meals_day = read_quantity(log, *meals, "meals", Kind::meals_per_day, limits);
    } else {
      person.meals_day = read_meals(log, *meals, "meals", limits);
    }
  }
  fields.finish();
}

void read_age(Log& log, Fields& fields, Person& person) {
  static constexpr Limits limits{0, 120, false, "years from 0 to 120"};
  if (const Node* age = fields.need("age", "35")) {
    person.age_years = read_number(log, *age, "age", limits, "years").value_or(35);
  }
}

Person read_person(Log& log, const Node& node, const Plan& plan) {
  static constexpr Limits height_limits{0.3, 2.6, false, "from 0.3 m to 2.6 m"};
  static constexpr Limits mass_limits{0, 400, true, "more than 0 kg, up to 400 kg"};
  Person person;
  person.mark = node.spot.mark;
  Fields fields(log, node, "a person");
  person.name = fields.name();
  refuse_same_name(log, node.spot, "people", person.name, plan.people);
  if (const auto mass = fields.need_quantity("mass", Kind::mass, mass_limits)) {
    person.mass_kg = *mass;
    if (*mass > 150 || *mass < 5) {
      log.warning(fields.get("mass")->spot,
                  fmt::format("{} has a mass of {}", fields.what(), fields.get("mass")->text), {},
                  "is the number right?");
    }
  }
  if (const auto height = fields.need_quantity("height", Kind::length, height_limits)) {
    person.height_m = *height;
  }
  read_age(log, fields, person);
  person.sex = fields.need_word("sex", sex_words).value_or(Sex::male);
  person.acclimatised = fields.yes_no_or("acclimatised", true);
  person.vehicle = vehicle_of(fields, plan, "rides_in");
  if (const Node* observed = fields.get("observed")) read_observed(log, *observed, plan, person);
  fields.finish();
  return person;
}

Activity read_activity(Log& log, const Entry& entry, const Plan& plan) {
  static constexpr std::array<std::string_view, 5> classes{"resting", "low", "moderate", "high",
                                                           "very_high"};
  Activity activity;
  activity.mark = entry.spot.mark;
  activity.name = key_name(log, entry, "activity");
  refuse_same_name(log, entry.spot, "activities", activity.name, plan.activities);
  Fields fields(log, entry.value, "activity " + units::in_quotes(entry.key));
  double sum_h = 0;
  for (std::size_t i = 0; i < classes.size(); ++i) {
    activity.hours[i] = fields.quantity_or(classes[i], Kind::time_h, 0, day_hours);
    sum_h += activity.hours[i];
  }
  if (sum_h > 24 + 1e-9) {
    log.error(
        entry.spot,
        fmt::format("activity {} has {:.4g} h in a day", units::in_quotes(activity.name), sum_h),
        "at most 24 h together; what is left is rest");
  }
  activity.in_sun = fields.quantity_or("in_sun", Kind::fraction, 0, a_share);
  fields.finish();
  return activity;
}

int find_or_add(Plan& plan, std::string_view name, double low_h, double moderate_h) {
  for (std::size_t i = 0; i < plan.activities.size(); ++i) {
    if (plan.activities[i].name == name) return static_cast<int>(i);
  }
  Activity activity;
  activity.name = name;
  activity.hours = {0, low_h, moderate_h, 0, 0};
  plan.activities.push_back(activity);
  return static_cast<int>(plan.activities.size()) - 1;
}

}  // namespace

void read_people(Log& log, const Node& node, Plan& plan) {
  const std::size_t errors = log.errors();
  for (const Node& item : list_items(log, node, "people")) {
    plan.people.push_back(read_person(log, item, plan));
  }
  if (plan.people.empty() && log.errors() == errors) {
    log.error(node.spot, "there are no people", "at least one person");
  }
}

void read_activities(Log& log, const Node* node, Plan& plan) {
  if (node != nullptr) {
    for (const Entry& entry : map_entries(log, *node, "activities")) {
      plan.activities.push_back(read_activity(log, entry, plan));
    }
  }
  plan.road_activity = find_or_add(plan, "on_the_road", 7, 1);
  plan.camp_activity = find_or_add(plan, "camp", 4, 1);
}

}  // namespace drystage::plan
