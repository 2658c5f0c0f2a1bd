#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "plan/utf8.h"
#include "report/text/amounts.h"
#include "report/text/layout.h"
#include "report/text/words.h"
#include "report/weigh/words.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using answers::VehicleWeighing;
using answers::Weighed;
using engine::Scale;
using engine::ScaleKind;

constexpr int label_columns = 27;
constexpr int figure_columns = 10;
constexpr int day_columns = 13;

std::string label(const plan::Plan& plan, const Scale& scale) {
  return scale.kind == ScaleKind::total ? "in all" : engine::scale_name(plan, scale);
}

/// The scales that have a column in the table of days.
bool is_in_day_table(ScaleKind kind) {
  return kind == ScaleKind::total || kind == ScaleKind::front || kind == ScaleKind::rear ||
         kind == ScaleKind::roof || kind == ScaleKind::ball || kind == ScaleKind::trailer;
}

class VehiclePage {
 public:
  VehiclePage(const WeighAnswer& answer, std::size_t vehicle, const TextOptions& options)
      : answer_(answer),
        plan_(answer.planned.plan),
        its_(answer.weighing.vehicles[vehicle]),
        vehicle_(vehicle),
        options_(options) {}

  /// Its scales over the trip.
  [[nodiscard]] std::string summary() const {
    const plan::Vehicle& of = plan_.vehicles[vehicle_];
    const std::string unit = std::string(units::display(units::Kind::mass, options_.system).unit);
    std::string text = left(name_words(of.name) + ", " + unit, label_columns);
    for (const char* head : {"limit", "most, day", "least, day", "room"}) {
      text += right(head, std::string_view(head).ends_with("day") ? day_columns : figure_columns);
    }
    text = strong(text, options_.color) + "\n";
    for (std::size_t i = 0; i < its_.scales.size(); ++i) {
      if (is_shown(i) && its_.trip[i].there) text += row(i);
    }
    text += paragraph(share_words());
    text += paragraph(centre_words(its_, options_.system));
    if (answer_.weighing.over.empty()) {
      text += paragraph(room_words(answer_, vehicle_, options_.system));
    }
    return text + notes();
  }

  /// A row for each day: most and least of what matters most.
  [[nodiscard]] std::string days() const {
    std::vector<std::size_t> shown;
    for (std::size_t i = 0; i < its_.scales.size(); ++i) {
      if (is_in_day_table(scale(i).kind)) shown.push_back(i);
    }
    std::string text = left("day", date_columns);
    for (const std::size_t i : shown) text += right(label(plan_, scale(i)), cell_columns);
    text = strong(text, options_.color) + "\n";
    for (std::size_t d = 0; d < its_.days.size(); ++d) {
      const auto& date = answer_.planned.course.timeline->days[d].schedule.date;
      text += left(fmt::format("{:>2} {}", d + 1, short_date(date)), date_columns);
      for (const std::size_t i : shown) text += day_cell(d, i);
      text += "\n";
    }
    return text;
  }

 private:
  /// On one screen no bays without a limit, and of the wheels of an axle the one that bears most.
  [[nodiscard]] bool is_shown(std::size_t i) const {
    const ScaleKind kind = scale(i).kind;
    if (options_.all) return true;
    if (kind == ScaleKind::bay) return std::isfinite(scale(i).limit_kg);
    const auto other = kind == ScaleKind::front_left    ? ScaleKind::front_right
                       : kind == ScaleKind::front_right ? ScaleKind::front_left
                       : kind == ScaleKind::rear_left   ? ScaleKind::rear_right
                       : kind == ScaleKind::rear_right  ? ScaleKind::rear_left
                                                        : kind;
    if (other == kind) return true;
    for (std::size_t j = 0; j < its_.scales.size(); ++j) {
      if (scale(j).kind != other) continue;
      const double more_kg = its_.trip[j].most_kg - its_.trip[i].most_kg;
      return more_kg < 0 || (more_kg == 0 && i < j);
    }
    return true;
  }

  static constexpr int date_columns = 14;
  static constexpr int cell_columns = 11;

  [[nodiscard]] const Scale& scale(std::size_t i) const {
    return answer_.weighing.scales[its_.scales[i]];
  }

  /// Rounded to the nearest: most and least of what does not change are the same. Whether something
  /// is over is asked of the figure itself.
  [[nodiscard]] std::string kg(double mass_kg) const {
    const double number = units::display(units::Kind::mass, options_.system).number(mass_kg);
    return units::format_number(std::round(number) + 0.0, units::decimals(0));
  }

  [[nodiscard]] std::string row(std::size_t i) const {
    const Weighed& trip = its_.trip[i];
    const double limit_kg = scale(i).limit_kg;
    const bool limited = std::isfinite(limit_kg);
    const bool over = limited && trip.most_kg > limit_kg + 1e-6;
    std::string text = left(label(plan_, scale(i)), label_columns);
    text += right(limited ? kg(limit_kg) : "-", figure_columns);
    text += right(fmt::format("{} ({})", kg(trip.most_kg), trip.most_day + 1), day_columns);
    text += right(fmt::format("{} ({})", kg(trip.least_kg), trip.least_day + 1), day_columns);
    text += right(
        over ? "!over " + mass_number(trip.most_kg - limit_kg, options_.system, Toward::up)
        : limited
            ? mass_number(std::max(0.0, limit_kg - trip.most_kg), options_.system, Toward::down)
            : "-",
        figure_columns + 3);
    return (over ? alarming(text, options_.color) : text) + "\n";
  }

  [[nodiscard]] std::string day_cell(std::size_t day, std::size_t i) const {
    if (!its_.days[day] || !its_.days[day]->scales[i].there) return right("-", cell_columns);
    const Weighed& of = its_.days[day]->scales[i];
    const std::string most = kg(of.most_kg);
    const std::string least = kg(of.least_kg);
    const bool over = of.most_kg > scale(i).limit_kg + 1e-6;
    const std::string text = (over ? "!" : "") + (most == least ? most : most + "-" + least);
    const std::string cell = right(text, cell_columns);
    return over ? alarming(cell, options_.color) : cell;
  }

  [[nodiscard]] std::string share_words() const {
    if (!its_.full || !its_.light) return {};
    const auto percent = [](double share) { return std::lround(100 * share); };
    return fmt::format("The front axle bears {} % when it is heaviest, {} % when it is lightest.",
                       percent(its_.full->front), percent(its_.light->front));
  }

  /// An axle that bears so little that the vehicle hardly steers, or brakes.
  [[nodiscard]] std::string light_axle_words() const {
    constexpr double too_light = 0.2;  // of all; common practice: no less on the front axle
    std::string text;
    for (std::size_t i = 0; i < its_.scales.size(); ++i) {
      const ScaleKind kind = scale(i).kind;
      if (kind != ScaleKind::front && kind != ScaleKind::rear) continue;
      if (its_.trip[i].least_kg >= too_light * its_.trip[0].least_kg) continue;
      units::add_to(text,
                    fmt::format("The {} bears only {} at its least: too little to drive with.",
                                engine::scale_name(plan_, scale(i)), kg(its_.trip[i].least_kg)),
                    " ");
    }
    return text;
  }

  /// The first of some names, and how many more there are.
  static std::string named(const std::vector<std::string>& all) {
    constexpr std::size_t most_names = 6;
    std::string names;
    for (std::size_t i = 0; i < all.size() && i < most_names; ++i) {
      units::add_to(names, name_words(all[i]));
    }
    if (all.size() > most_names) names += fmt::format(" and {} more", all.size() - most_names);
    return names;
  }

  /// What the figures rest on.
  [[nodiscard]] std::string notes() const {
    const plan::Vehicle& of = plan_.vehicles[vehicle_];
    std::string text;
    if (of.tickets.empty() || !of.chassis.wheelbase_m) {
      text += paragraph(fmt::format(
          "Axles of {} are not known. They need its wheelbase, and what a weighbridge said.",
          name_words(of.name)));
    }
    if (!its_.unplaced.empty()) {
      text += paragraph(fmt::format("No place is given, so halfway between the axles: {} ({}).",
                                    named(its_.unplaced),
                                    mass_words(its_.unplaced_kg, options_.system, Toward::up)));
    }
    if (its_.full && its_.full->height_m && !its_.without_height.empty()) {
      text +=
          paragraph(fmt::format("No height is given, so as high as the empty vehicle's centre: {}.",
                                named(its_.without_height)));
    }
    return text + paragraph(light_axle_words()) + paragraph(ball_words(of, options_.system));
  }

  const WeighAnswer& answer_;
  const plan::Plan& plan_;
  const VehicleWeighing& its_;
  std::size_t vehicle_;
  const TextOptions& options_;
};

}  // namespace

std::string weigh_text(const WeighAnswer& answer, const TextOptions& options) {
  std::string text = headline(weigh_verdict_words(answer, options.system),
                              answer.weighing.over.empty(), options.color);
  text += paragraph(nearest_words(answer, options.system));
  for (const std::string& one : moves_sentences(answer, options.system)) text += paragraph(one);
  text += title_line(answer.planned);
  text += warning_lines(answer.warnings);
  for (std::size_t v = 0; v < answer.weighing.vehicles.size(); ++v) {
    text += "\n" + VehiclePage(answer, v, options).summary();
  }
  std::string days;
  for (std::size_t v = 0; v < answer.weighing.vehicles.size(); ++v) {
    days += "\n" + (answer.weighing.vehicles.size() > 1
                        ? name_words(answer.planned.plan.vehicles[v].name) + "\n"
                        : std::string());
    days += VehiclePage(answer, v, options).days();
  }
  // Two lines of cautions, and blank ones, stand below.
  const auto lines = [](const std::string& of) { return std::ranges::count(of, '\n'); };
  constexpr std::ptrdiff_t below = 4;
  const bool fits = lines(text) + lines(days) + below <= screen_lines(answer.planned.record.days());
  if (options.all || fits) {
    text += days + "Most and least of each day. ! over its limit.\n";
  } else {
    text += "\nA row for each day: --all.\n";
  }
  return text + "\n" + paragraph(std::string(weigh_cautions)) + caution_lines(options);
}

}  // namespace drystage::report
