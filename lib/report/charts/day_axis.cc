#include "report/charts/day_axis.h"

#include <fmt/core.h>

#include <algorithm>
#include <boost/date_time/gregorian/gregorian_types.hpp>
#include <cmath>
#include <string>

#include "drawing/page.h"
#include "report/charts/picture.h"
#include "report/text/words.h"
#include "units/day.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using drawing::Label;

constexpr int whole_day_h = 24;
constexpr double label_gap_pt = 4;

double hour_pt(const drawing::Plot& plot) {
  return plot.across().at_pt(1) - plot.across().at_pt(0);
}

/// Labels at the middle of each day.
template <class Words>
std::vector<Label> labels(const drawing::Plot& plot, const DayPiece& piece, const Words& words) {
  std::vector<Label> out;
  for (int day = piece.first; day < piece.first + piece.count; ++day) {
    out.push_back({.at_pt = plot.across().at_pt(whole_day_h * (day + 0.5)), .words = words(day)});
  }
  return out;
}

std::vector<Label> hour_labels(const drawing::Plot& plot, const DayPiece& piece) {
  constexpr int every_h = 6;
  std::vector<Label> out;
  for (int hour = whole_day_h * piece.first; hour <= whole_day_h * (piece.first + piece.count);
       hour += every_h) {
    out.push_back({.at_pt = plot.across().at_pt(hour), .words = clock(hour % whole_day_h)});
  }
  return out;
}

constexpr double left_of_frames_pt = 122;
constexpr double right_of_frames_pt = 4;

}  // namespace

std::vector<DayPiece> day_pieces(int days, double width_pt, double least_day_pt) {
  const int most = std::max(1, static_cast<int>(std::floor(width_pt / least_day_pt)));
  const int pieces = (days + most - 1) / most;
  const int each = (days + pieces - 1) / std::max(1, pieces);
  std::vector<DayPiece> out;
  for (int first = 0; first < days; first += each) {
    out.push_back({.first = first, .count = std::min(each, days - first)});
  }
  return out;
}

void day_lines(drawing::Plot& plot, const DayPiece& piece, const drawing::Stroke& midnight,
               const drawing::Stroke& finer) {
  constexpr double least_pt = 6.5;
  int every_h = whole_day_h;
  for (const int hours : {12, 6, 3, 2, 1}) {
    if (hours * hour_pt(plot) >= least_pt) every_h = hours;
  }
  std::vector<double> fine;
  std::vector<double> strong;
  for (int hour = whole_day_h * piece.first; hour <= whole_day_h * (piece.first + piece.count);
       hour += every_h) {
    (hour % whole_day_h == 0 ? strong : fine).push_back(hour);
  }
  plot.upright_lines(fine, finer);
  plot.upright_lines(strong, midnight);
}

double day_labels(drawing::Plot& plot, const drawing::Typesetter& typesetter,
                  const answers::PlanRun& planned, const DayPiece& piece, double top_pt,
                  double block_pt) {
  double y = top_pt;
  const auto row = [&](const std::vector<Label>& of, std::size_t every, const drawing::Font& font) {
    plot.add(row_of(typesetter, of, every, font, y, 0, block_pt));
    y += typesetter.size("0", font, block_pt).height_pt;
  };
  const auto apart = [&](const std::vector<Label>& of, const drawing::Font& font) {
    return stride(typesetter, of, font, label_gap_pt);
  };
  const std::vector<Label> hours = hour_labels(plot, piece);
  if (apart(hours, body_font) == 1) row(hours, 1, body_font);
  const auto date = [&](int day) {
    return short_date(planned.plan.trip.start + boost::gregorian::days(day));
  };
  // "Mon 08 Feb" is always of ten letters.
  constexpr std::size_t weekday_letters = 3;
  const std::vector<Label> numbers =
      labels(plot, piece, [](int day) { return fmt::format("{}", day + 1); });
  const std::vector<Label> named =
      labels(plot, piece, [](int day) { return fmt::format("day {}", day + 1); });
  const bool room = apart(named, strong_font) == 1;
  row(room ? named : numbers, room ? 1 : apart(numbers, strong_font), strong_font);
  const std::vector<Label> whole = labels(plot, piece, date);
  const std::vector<Label> weekdays =
      labels(plot, piece, [&](int day) { return date(day).substr(0, weekday_letters); });
  const std::vector<Label> dates =
      labels(plot, piece, [&](int day) { return date(day).substr(weekday_letters + 1); });
  // On two lines where more fit so.
  const std::size_t every = std::max(apart(weekdays, body_font), apart(dates, body_font));
  if (apart(whole, body_font) <= every) {
    row(whole, apart(whole, body_font), body_font);
  } else {
    row(weekdays, every, body_font);
    row(dates, every, body_font);
  }
  return y - top_pt;
}

std::string day_list(const std::vector<int>& days) {
  if (days.empty()) return {};
  std::vector<std::string> ranges;
  for (std::size_t i = 0; i < days.size();) {
    std::size_t last = i;
    while (last + 1 < days.size() && days[last + 1] == days[last] + 1) ++last;
    // Two in a row are not worth a range.
    if (last == i + 1) last = i;
    ranges.push_back(last == i ? fmt::format("{}", days[i] + 1)
                               : fmt::format("{} to {}", days[i] + 1, days[last] + 1));
    i = last + 1;
  }
  return (days.size() == 1 ? "day " : "days ") + units::listed(ranges, " and ");
}

double across_pt() { return picture.column_pt() - left_of_frames_pt - right_of_frames_pt; }

Across across(double from, double to, double share) {
  return {.scale = {.from = from,
                    .to = to,
                    .from_pt = left_of_frames_pt,
                    .to_pt = left_of_frames_pt + share * across_pt()}};
}

std::vector<drawing::Mark> night_marks(const Across& across, double top_pt, double foot_pt) {
  std::vector<drawing::Mark> out;
  for (const Stretch& night : across.nights) {
    const double from = across.scale.at_pt(std::max(night.from, across.scale.from));
    const double to = across.scale.at_pt(std::min(night.to, across.scale.to));
    if (to <= from) continue;
    out.emplace_back(drawing::filled(
        {.x = from, .y = top_pt, .width = to - from, .height = foot_pt - top_pt}, night_grey));
  }
  return out;
}

std::vector<DaysAcross> across_days(const answers::PlanRun& planned, const TripLine& line) {
  constexpr double narrowest_day_pt = 4 * drawing::points_per_mm;
  const auto days = static_cast<int>(planned.record.days());
  const std::vector<DayPiece> pieces = day_pieces(days, across_pt(), narrowest_day_pt);
  std::vector<DaysAcross> out;
  for (const DayPiece& piece : pieces) {
    const double share = static_cast<double>(piece.count) / pieces.front().count;
    const int end = piece.first + piece.count;
    DaysAcross now{.piece = piece, .across = across(day_h * piece.first, day_h * end, share)};
    now.across.nights = line.nights;
    for (int day = piece.first + 1; day < end; ++day) now.across.lines.push_back(day_h * day);
    out.push_back(std::move(now));
  }
  return out;
}

}  // namespace drystage::report
