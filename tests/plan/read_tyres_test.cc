// What a plan says of tyres, and of what is left of the spares on the way.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

#include "plan/read.h"
#include "plan/write_reading.h"
#include "support/plan_text.h"

namespace drystage::plan::read_tyres_test {
namespace {

using support::PlanText;

std::string plan_text(const std::string& tyres, const std::string& more = "") {
  PlanText text;
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 90 L, "
      "filled: 90 L}]" +
          (tyres.empty() ? "" : ", tyres: {" + tyres + "}") + "}",
      "{name: van, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 90 L, filled: "
      "90 L}]}"};
  return text.text() + more;
}

std::string said(const std::string& text, Severity severity) {
  std::string out;
  for (const Diagnostic& one : read_text(text).diagnostics) {
    if (one.severity == severity) out += one.what + "; " + one.expected + "\n";
  }
  return out;
}
std::string errors(const std::string& text) { return said(text, Severity::error); }

TEST(ReadTyres, HaveTheirUsualValuesWhereNothingElseIsSaid) {
  const Plan plan = read_text(plan_text("spare_wheels: 2")).plan.value();
  const TyreKit& tyres = plan.vehicles[0].tyres.value();
  EXPECT_EQ(tyres.spare_wheels, 2);
  EXPECT_EQ(tyres.repairs, 0);
  EXPECT_DOUBLE_EQ(tyres.wheel_kg, 35);
  EXPECT_DOUBLE_EQ(tyres.beyond_repair, 0.25);
  for (const auto& own : tyres.own_per_1000_km) EXPECT_FALSE(own);
  EXPECT_FALSE(plan.vehicles[1].tyres);
}

TEST(ReadTyres, HaveWhatIsSaid) {
  const Plan plan = read_text(plan_text("spare_wheels: 1, repairs: 6, wheel_mass: 0 kg, "
                                        "beyond_repair: 40 %, punctures: {rock: 5, soft_sand: 0}"))
                        .plan.value();
  const TyreKit& tyres = plan.vehicles[0].tyres.value();
  EXPECT_EQ(tyres.repairs, 6);
  EXPECT_DOUBLE_EQ(tyres.wheel_kg, 0);
  EXPECT_DOUBLE_EQ(tyres.beyond_repair, 0.4);
  EXPECT_EQ(tyres.own_per_1000_km.at(static_cast<std::size_t>(Surface::rock)), 5);
  EXPECT_EQ(tyres.own_per_1000_km.at(static_cast<std::size_t>(Surface::soft_sand)), 0);
  EXPECT_FALSE(tyres.own_per_1000_km.at(static_cast<std::size_t>(Surface::track)));
}

TEST(ReadTyres, MoreSparesThanAnybodyCarriesAreQuestioned) {
  EXPECT_THAT(said(plan_text("spare_wheels: 21"), Severity::warning),
              ::testing::HasSubstr("spare_wheels: 21"));
  EXPECT_EQ(said(plan_text("spare_wheels: 2"), Severity::warning).find("spare_wheels"),
            std::string::npos);
  EXPECT_THAT(errors(plan_text("spare_wheels: 2000")), ::testing::HasSubstr("2000"));
}

TEST(ReadTyres, OfAReadingAreNoMoreThanThereWere) {
  const std::string two = "spare_wheels: 2, repairs: 3";
  EXPECT_EQ(errors(plan_text(two, "readings: [{evening: 1, spare_wheels: {truck: 3}}]\n")),
            "truck: 3 found, but \"truck\" set out with 2; no more than there can be\n");
  EXPECT_EQ(errors(plan_text(two, "readings: [{evening: 1, repairs: {van: 3}}]\n")),
            "van: \"van\" has no \"tyres\"; no \"repairs\", or tyres: {spare_wheels: 3} under the "
            "vehicle\n");
  EXPECT_EQ(errors(plan_text(two, "readings: [{evening: 1, repairs: 3}]\n")),
            "repairs: it is not said of which vehicle; repairs: {truck: 3}\n");
  EXPECT_EQ(errors(plan_text(two, "readings: [{evening: 1, repairs: {truck: 3}}]\n")), "");
}

TEST(ReadTyres, OfAReadingAreWrittenIntoThePlan) {
  const std::string text = plan_text("spare_wheels: 2, repairs: 3");
  Reading reading{.day = 1, .in_the_evening = true};
  reading.tyres = {{.vehicle = 0, .spare_wheels = 1, .repairs = {}}};
  EXPECT_THAT(with_reading(text, reading), ::testing::HasSubstr("spare_wheels: {truck: 1}"));
  reading.tyres = {{.vehicle = 0, .spare_wheels = 0, .repairs = 2}};
  EXPECT_EQ(read_text(with_reading(text, reading)).plan->readings[0].tyres, reading.tyres);
}

}  // namespace
}  // namespace drystage::plan::read_tyres_test
