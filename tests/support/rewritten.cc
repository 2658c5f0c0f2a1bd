#include "support/rewritten.h"

#include <gtest/gtest.h>

#include "plan/rewrite.h"
#include "plan/same_plan.h"
#include "support/plan_text.h"

namespace drystage::support {
namespace {

std::string head() {
  return "drystage: 1\n"
         "trip: {title: A test, start: 2027-03-01, time_zone: \"+00:00\"}\n"
         "people:\n"
         "  - " +
         PlanText::person("Ada", "4 L/day") + "\n";
}

std::string tail() {
  return "climate:\n  " + PlanText::steady_climate("air", 20) + "\nplaces:\n  " +
         PlanText::place("Base", "air") + "\nitinerary:\n  - {at: Base}\n  - stay: {nights: 5}\n";
}

}  // namespace

std::string plan_around(const std::string& sections) { return head() + sections + tail(); }

std::string rewritten(const std::string& text, const Change& change) {
  const plan::Plan before = read_plan(text);
  plan::Plan after = before;
  change(after);
  const std::string made = plan::rewrite(text, before, after);
  EXPECT_EQ(plan::difference(read_plan(made), after), "");
  return made;
}

std::string sections_after(const std::string& sections, const Change& change) {
  const std::string made = rewritten(plan_around(sections), change);
  const std::size_t before = head().size();
  const std::size_t around = before + tail().size();
  if (!made.starts_with(head()) || !made.ends_with(tail())) return made;
  return made.substr(before, made.size() - around);
}

std::string one_truck() {
  return "vehicles:\n"
         "  - name: truck\n"
         "    fuel: diesel\n"
         "    tanks: [{name: tank, holds: 80 L, filled: 80 L, unusable: 4 L}]  # one\n"
         "    mass: {empty: 2500 kg}\n";
}

plan::Container can(const std::string& name, double holds_l) {
  return {.name = name, .holds_l = holds_l, .filled_l = holds_l, .empty_kg = 1.2};
}

}  // namespace drystage::support
