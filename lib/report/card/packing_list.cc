#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "answers/weigh/weighing.h"
#include "drawing/table.h"
#include "report/card/load.h"
#include "report/card/pieces.h"
#include "report/card/writers.h"
#include "report/charts/vehicle_side.h"
#include "report/size/words.h"
#include "report/text/words.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using drawing::Block;
using engine::Family;

constexpr double noise_kg = 1e-6;

/// A mass to a tenth, so that masses stand below each other.
std::string tenths(double mass_kg, units::System system) {
  if (mass_kg <= noise_kg) return "-";
  const double number = units::display(units::Kind::mass, system).number(mass_kg);
  return units::format_number(rounded(number, 1, Toward::up), units::decimals(1));
}

bool is_vessel(Family family) {
  return family == Family::drinking_water || family == Family::utility_water ||
         family == Family::fuel || family == Family::consumable;
}

std::string amount_words(const LoadLine& line, units::System system) {
  if (line.unit.empty()) return {};
  if (line.amount <= 0) return "empty";
  // What is to be put in is rounded up, but not beyond what it holds.
  const Toward toward = line.full ? Toward::down : Toward::up;
  std::string text;
  if (line.kind == units::Kind::volume) {
    text = volume_words(line.amount, system, toward);
  } else if (line.kind == units::Kind::mass) {
    text = mass_words(line.amount, system, toward);
  } else {
    text = units::format_number(rounded(line.amount, 0, toward), units::decimals(0)) + " " +
           (line.kind == units::Kind::meals && rounded(line.amount, 0, toward) == 1 ? "meal"
                                                                                    : line.unit);
  }
  return line.full && is_vessel(line.family) ? "full, " + text : text;
}

const char* heading_words(Family family) {
  // In the order of Family.
  constexpr std::array headings{"Water",   "Water", "Fuel",
                                "Food",    "Cold",  "Battery and charging",
                                "Besides", "Tyres", "Besides"};
  return headings.at(static_cast<std::size_t>(family));
}

/// A vehicle's list: a head, things to tick off under the name of their family, and sums.
class VehicleList {
 public:
  VehicleList(const drawing::Typesetter& typesetter, const plan::Plan& plan,
              const VehicleLoad& load, double width_pt, units::System system)
      : typesetter_(typesetter),
        plan_(plan),
        load_(load),
        width_pt_(width_pt - tick_room_pt),
        system_(system),
        table_(typesetter, width_pt_, columns(), body_font) {
    for (const LoadLine& line : load_.lines) table_.add(cells(line));
    head_ = table_.heading();
    right_pt_ = right_of(head_.front());
  }

  [[nodiscard]] std::vector<Block> heading() const {
    std::vector<Block> out;
    for (const Block& block : head_) out.push_back(set_in(block));
    return out;
  }

  [[nodiscard]] std::vector<Block> rows() const {
    std::vector<Block> out;
    const std::vector<Block> lines = table_.rows();
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const std::string title = group_words(load_.lines[i]);
      if (i == 0 || group_words(load_.lines[i - 1]) != title) {
        out.push_back(group_title(title));
      }
      out.push_back(ticked(lines[i]));
    }
    if (load_.vehicle >= 0) add_sums(out);
    return out;
  }

 private:
  /// What a line stands under: its bay, in a vehicle that has some, else what it is of.
  [[nodiscard]] std::string group_words(const LoadLine& line) const {
    const bool has_bays = load_.vehicle >= 0 && !plan_.vehicles[at(load_.vehicle)].bays.empty();
    if (!has_bays) return heading_words(line.family);
    const std::string kg = mass_words(load_.bay_kg(line.bay), system_, Toward::up);
    if (line.bay < 0) return fmt::format("In no bay: {}", kg);
    const plan::Bay& bay = plan_.vehicles[at(load_.vehicle)].bays[at(line.bay)];
    if (!bay.limit_kg) return fmt::format("{}: {}", capital(bay.name), kg);
    return fmt::format("{}: {}, limit {}", capital(bay.name), kg,
                       mass_words(*bay.limit_kg, system_, Toward::down));
  }

  [[nodiscard]] std::vector<drawing::Column> columns() const {
    const std::string unit = ", " + std::string(units::display(units::Kind::mass, system_).unit);
    constexpr drawing::Align right = drawing::Align::right;
    return {{.heading = "What"},
            {.heading = "For, kept"},
            {.heading = "How much"},
            {.heading = "Content" + unit, .align = right},
            {.heading = "Empty" + unit, .align = right},
            {.heading = "Both" + unit, .align = right}};
  }

  [[nodiscard]] std::vector<std::string> cells(const LoadLine& line) const {
    const std::string amount = amount_words(line, system_);
    const std::string content = tenths(line.content_kg, system_);
    const std::string empty = tenths(line.empty_kg, system_);
    const std::string both = tenths(line.content_kg + line.empty_kg, system_);
    return {line.name, line.note, amount, content, empty, both};
  }

  /// How far to the right the words of a head go.
  static double right_of(const Block& head) {
    double right = 0;
    for (const drawing::Mark& mark : head.marks) {
      if (const auto* text = std::get_if<drawing::Text>(&mark)) {
        right = std::max(right, text->box.right());
      }
    }
    return right;
  }

  static Block set_in(const Block& block) {
    Block out;
    put(out, block, tick_room_pt, 0);
    return out;
  }

  void underline(Block& block, double stroke_pt) const {
    block.marks.emplace_back(drawing::line({.x = 0, .y = block.height_pt},
                                           {.x = width_pt_, .y = block.height_pt},
                                           {.width_pt = stroke_pt}));
  }

  [[nodiscard]] Block group_title(const std::string& title) const {
    Block block;
    drawing::Text text = typesetter_.text(title, strong_font, {.x = side_pt, .y = 4}, width_pt_);
    block.height_pt = text.box.bottom() + 1;
    block.marks.emplace_back(std::move(text));
    underline(block, 0.8);
    Block out = set_in(block);
    out.with_next = true;
    return out;
  }

  void add_sum(std::vector<Block>& out, const std::string& words, double mass_kg, bool bold) const {
    const drawing::Font& font = bold ? strong_font : body_font;
    constexpr double gap_pt = 8;
    Block block;
    const std::string number = tenths(mass_kg, system_);
    const double number_pt = typesetter_.width(number, font) + 1;
    const double left_pt = right_pt_ - number_pt;
    block.marks.emplace_back(
        typesetter_.text(number, font, {.x = left_pt, .y = 2}, number_pt, drawing::Align::right));
    drawing::Text text =
        typesetter_.text(words, font, {.x = side_pt, .y = 2}, left_pt - side_pt - gap_pt);
    block.height_pt = text.box.bottom() + 2;
    block.marks.emplace_back(std::move(text));
    underline(block, bold ? 0.8 : 0.3);
    out.push_back(set_in(block));
    out.back().with_next = true;
  }

  void add_sums(std::vector<Block>& out) const {
    add_sum(out, "All of this", load_.lines_kg(), true);
    add_sum(out, "The vehicle, empty", load_.vehicle_kg, false);
    if (load_.gear_kg > 0) add_sum(out, "Other gear", load_.gear_kg, false);
    if (!load_.people.empty()) {
      add_sum(out, "People: " + units::listed(load_.people), load_.people_kg, false);
    }
    if (load_.on_ball_kg > 0) add_sum(out, "Trailer on the ball", load_.on_ball_kg, false);
    add_sum(out, "When setting out", load_.total_kg() + load_.on_ball_kg, true);
  }

  static constexpr double side_pt = 3;

  const drawing::Typesetter& typesetter_;
  const plan::Plan& plan_;
  const VehicleLoad& load_;
  double width_pt_;
  units::System system_;
  drawing::Table table_;
  std::vector<Block> head_{};
  double right_pt_ = 0;
};

/// Whether a vehicle is ever heavier than it may be.
bool is_too_heavy(const answers::PlanRun& planned, const VehicleLoad& load) {
  const auto v = at(load.vehicle);
  const std::optional<double>& limit = planned.plan.vehicles[v].limit_kg;
  return limit && planned.record.heaviest[v].kg > *limit + noise_kg;
}

/// What a vehicle weighs at its heaviest, and what it may.
std::string weight_words(const answers::PlanRun& planned, const VehicleLoad& load,
                         units::System system) {
  const auto v = at(load.vehicle);
  const engine::Heaviest& most = planned.record.heaviest[v];
  const std::string name = capital(planned.plan.vehicles[v].name);
  std::string text = fmt::format("{} weighs {} when setting out", name,
                                 mass_words(load.total_kg() + load.on_ball_kg, system, Toward::up));
  if (most.kg > load.total_kg() + load.on_ball_kg + noise_kg) {
    text += fmt::format(", and {} at its heaviest, on day {}",
                        mass_words(most.kg, system, Toward::up), most.day + 1);
  }
  const std::optional<double>& limit = planned.plan.vehicles[v].limit_kg;
  if (!limit) return text + "; the plan gives no limit.";
  const std::string limit_words = mass_words(*limit, system, Toward::down);
  return text + (is_too_heavy(planned, load) ? fmt::format(": OVER its limit of {}.", limit_words)
                                             : fmt::format("; its limit is {}.", limit_words));
}

/// What the trailer has, and which limits are passed on the trip.
std::vector<std::string> trailer_and_over(const answers::PlanRun& planned,
                                          const answers::Weighing& weighing,
                                          const VehicleLoad& load, units::System system) {
  std::vector<std::string> out;
  const plan::Vehicle& vehicle = planned.plan.vehicles[at(load.vehicle)];
  if (vehicle.trailer) {
    std::string text = "In the trailer: ";
    for (const plan::Trailer::Gear& one : vehicle.trailer->gear) {
      text += fmt::format("{} {}, ", one.name, mass_words(one.mass_kg, system, Toward::up));
    }
    text += fmt::format("in all {}, and {} of it on the ball.",
                        mass_words(vehicle.trailer->loaded_kg(), system, Toward::up),
                        mass_words(vehicle.trailer->on_ball_kg(), system, Toward::up));
    out.push_back(std::move(text));
  }
  for (const answers::Overload& over : weighing.over) {
    const engine::Scale& scale = weighing.scales[over.scale];
    if (scale.vehicle != load.vehicle || scale.kind == engine::ScaleKind::total) continue;
    out.push_back(fmt::format("OVER: {} by {}, from day {}.", scale_words(planned.plan, scale),
                              mass_words(over.kg, system, Toward::up), over.day + 1));
  }
  return out;
}

/// What was calculated, each with room beside it for what a weighbridge says.
std::vector<std::string> weighbridge_words(const VehicleLoad& load, units::System system) {
  const auto words = [system](const char* what, std::optional<double> kg) {
    return kg ? fmt::format("{} {}:", what, mass_words(*kg, system, Toward::up))
              : fmt::format("{}:", what);
  };
  return {words("front", load.front_kg), words("rear", load.rear_kg),
          words("in all", load.total_kg() + load.on_ball_kg)};
}

}  // namespace

void write_packing_list(const Sheet& sheet) {
  const answers::PlanRun& planned = sheet.planned();
  drawing::Flow& flow = sheet.flow;
  const drawing::Typesetter& typesetter = sheet.typesetter;
  const units::System system = sheet.system;
  const double width = sheet.width_pt();
  flow.add(part_title(typesetter, "Packing list", width));
  flow.add(with_next(
      sentences(typesetter,
                "As it is when setting out, with all that is taken on where the trip begins. "
                "Masses are rounded up, each by itself. Weigh the loaded vehicle, each axle by "
                "itself, and write it in: a weighbridge decides.",
                width)));
  const answers::Weighing weighing = answers::weigh(planned);
  for (const VehicleLoad& load : loads_at_outset(planned)) {
    const bool carried = load.vehicle >= 0;
    const std::string name =
        carried ? planned.plan.vehicles[at(load.vehicle)].name : std::string("In no vehicle");
    const VehicleList list(typesetter, planned.plan, load, width, system);
    std::vector<Block> heading{small_title(typesetter, capital(name), width)};
    for (Block& block : list.heading()) heading.push_back(std::move(block));
    flow.repeat(std::move(heading));
    flow.add(kept_together(list.rows()));
    if (carried) {
      const std::string words = weight_words(planned, load, system);
      flow.add(drawing::space(2));
      flow.add(drawing::paragraph(typesetter, words,
                                  is_too_heavy(planned, load) ? strong_font : body_font, width));
      for (const std::string& one : trailer_and_over(planned, weighing, load, system)) {
        flow.add(drawing::paragraph(typesetter, one, strong_font, width));
      }
      flow.add(drawing::space(3));
      flow.add(named_blanks(typesetter, "Weighbridge", weighbridge_words(load, system), width));
    }
    flow.repeat_nothing();
    if (!carried) continue;
    Block side = vehicle_side(typesetter, planned, weighing, at(load.vehicle), width, system);
    if (side.height_pt <= 0) continue;
    flow.add(small_title(typesetter, capital(name) + " from the side, at its most", width));
    flow.add(std::move(side));
  }
}

}  // namespace drystage::report
