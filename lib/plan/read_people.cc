#include <fmt/core.h>

#include "plan/sections.h"

namespace drystage::plan {
namespace {

ObservedIn read_observed_in(Log& log, const Node& node, const Plan& plan) {
  ObservedIn made;
  Fields fields(log, node, "observed.at");
  const auto max_c = fields.number_if("people.observed.at.max");
  const auto min_c = fields.number_if("people.observed.at.min");
  if (max_c && min_c && *max_c < *min_c) {
    log.error(fields.get("people.observed.at.max")->origin,
              fmt::format("the maximum {} is lower than the minimum {}",
                          fields.get("people.observed.at.max")->text,
                          fields.get("people.observed.at.min")->text),
              "max at or above min");
  }
  made.max_c = max_c.value_or(0);
  made.min_c = min_c.value_or(0);
  made.elevation_m = fields.number_if("people.observed.at.elevation");
  made.activity = fields.reference_if("people.observed.at.activity", names_of(plan.activities));
  fields.finish();
  return made;
}

void read_observed(Log& log, const Node& node, const Plan& plan, Person& person) {
  Fields fields(log, node, "observed");
  person.drinking_l_day = fields.number_if("people.observed.drinking");
  if (const Node* at = fields.get("people.observed.at")) {
    person.drinking_at = read_observed_in(log, *at, plan);
    if (fields.get("people.observed.drinking") == nullptr) {
      log.error(at->origin, "\"at\" says where drinking was observed, but there is no \"drinking\"",
                "drinking: 5 L/day beside it");
    }
  }
  // "3", "3 meals" and "3 /day" all say the same.
  person.meals_day = fields.number_if("people.observed.meals");
  fields.finish();
}

Person read_person(Log& log, const Node& node, const Plan& plan) {
  Person person;
  person.mark = node.origin.mark;
  Fields fields(log, node, "a person");
  person.name = fields.name("people.name");
  refuse_same_name(log, node.origin, "people", person.name, plan.people);
  person.mass_kg = fields.number("people.mass");
  person.height_m = fields.number("people.height");
  person.age_years = fields.number("people.age");
  person.sex = fields.word("people.sex", sex_words);
  person.acclimatised = fields.yes_no("people.acclimatised");
  const Carrier ride = read_carrier(fields, "people.rides_in", plan);
  person.vehicle = ride.index;
  if (ride.vehicle != nullptr) {
    person.seat = fields.reference_if("people.seat", names_of(ride.vehicle->bays));
  } else {
    fields.get("people.seat");
  }
  // read_company reads them, once it is known where the trip goes.
  fields.get("people.from");
  fields.get("people.until");
  if (const Node* observed = fields.get("people.observed"))
    read_observed(log, *observed, plan, person);
  fields.finish();
  return person;
}

Activity read_activity(Log& log, const Entry& entry, const Plan& plan) {
  static constexpr std::array<Key, 5> classes{"activities.resting", "activities.low",
                                              "activities.moderate", "activities.high",
                                              "activities.very_high"};
  Activity activity;
  activity.mark = entry.origin.mark;
  activity.name = key_name(log, entry, "activity");
  refuse_same_name(log, entry.origin, "activities", activity.name, plan.activities);
  Fields fields(log, entry.value, "activity " + units::in_quotes(entry.key));
  double sum_h = 0;
  for (std::size_t i = 0; i < classes.size(); ++i) {
    activity.hours[i] = fields.number(classes[i]);
    sum_h += activity.hours[i];
  }
  if (sum_h > 24 + 1e-9) {
    log.error(
        entry.origin,
        fmt::format("activity {} has {:.4g} h in a day", units::in_quotes(activity.name), sum_h),
        "at most 24 h together; what is left is rest");
  }
  activity.in_sun = fields.number("activities.in_sun");
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
    log.error(node.origin, "there are no people", "at least one person");
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
