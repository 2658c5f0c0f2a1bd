#include "confidence.h"

#include <fmt/core.h>

#include <algorithm>
#include <boost/program_options.hpp>
#include <limits>
#include <string>

#include "progress.h"
#include "units/parse.h"
#include "usage_error.h"
#include "whole_number.h"

namespace drystage::cli {

std::optional<answers::Confidence> confidence_of(
    const boost::program_options::variables_map& values) {
  if (values.count("confidence") == 0) {
    for (const char* other : {"trips", "seed", "vital"}) {
      if (values.count(other) == 0) continue;
      throw UsageError(
          fmt::format("--{} without --confidence: trips are drawn for that alone", other));
    }
    return std::nullopt;
  }
  const std::string text = values["confidence"].as<std::string>();
  constexpr double least = 0.5;
  constexpr double most = 0.9999;
  const auto chance = units::parse(text, units::Kind::fraction);
  if (!chance || text.find('%') == std::string::npos || *chance < least || *chance > most) {
    throw UsageError(fmt::format(
        "--confidence {}: expected on how many of 100 trips margins are to be kept, as in 95%: "
        "50 to 99.99 %",
        text));
  }
  constexpr std::uint64_t most_trips = 100'000;
  const std::uint64_t fewest = answers::fewest_trips(*chance);
  answers::Confidence out{.chance = *chance, .vital = values.count("vital") > 0};
  // Of the fewest not a single one may break a margin.
  out.trips = std::max(out.trips, std::min(most_trips, 4 * fewest));
  if (values.count("trips") > 0) {
    out.trips = whole_number(values["trips"].as<std::string>(), "trips", 1, most_trips);
  }
  if (out.trips < fewest) {
    throw UsageError(
        fmt::format("--trips {} with --confidence {}: so few trips cannot show it. It takes {} or "
                    "more",
                    out.trips, text, fewest));
  }
  if (values.count("seed") > 0) {
    out.seed = whole_number(values["seed"].as<std::string>(), "seed", 0,
                            std::numeric_limits<std::uint64_t>::max());
  }
  return out;
}

answers::NeedsOnTrips raised(answers::Needs& needs, std::vector<answers::Leaving>& leavings,
                             const answers::PlanRun& planned, const answers::Confidence& asked) {
  ProgressLine line("Trips");
  try {
    return answers::raise_to_confidence(
        needs, leavings, planned, asked,
        {.progress = [&line](std::size_t done, std::size_t total) { line.show(done, total); }});
  } catch (const answers::TooFewOnTime& error) {
    throw UsageError(
        fmt::format("--confidence: only {} of {} trips are on time to the end, the others are held "
                    "up before, and it takes {} to show it. {}",
                    error.on_time, error.of, answers::fewest_trips(asked.chance),
                    error.on_time > 0 ? "More --trips may do, or a lower confidence"
                                      : "A plan with fewer delays may do"));
  }
}

}  // namespace drystage::cli
