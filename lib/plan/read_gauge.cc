#include <fmt/core.h>

#include <cmath>

#include "plan/sections.h"
#include "units/format.h"

namespace drystage::plan {
namespace {

constexpr auto gauge_shapes =
    std::to_array<Key>({"shape.box", "shape.lying_cylinder", "shape.standing_cylinder"});
constexpr std::string_view shape_example = "{box: {length: 80 cm, width: 40 cm, height: 35 cm}}";
constexpr std::string_view dip_example = Key("vessel.dip")->example;

std::string litres(double volume_l) { return units::format(volume_l, units::Kind::volume); }

// The measures of one shape; no shape if one of them is missing or wrong.
Shape read_measures(Log& log, Key shape, const Node& node) {
  Shape made;
  Fields fields(log, node, fmt::format("the {}", shape.name()));
  if (shape.name() == "box") {
    made = Box{.length_m = fields.number("shape.box.length"),
               .width_m = fields.number("shape.box.width"),
               .height_m = fields.number("shape.box.height")};
  } else if (shape.name() == "lying_cylinder") {
    made = LyingCylinder{.diameter_m = fields.number("shape.lying_cylinder.diameter"),
                         .length_m = fields.number("shape.lying_cylinder.length")};
  } else {
    made = StandingCylinder{.diameter_m = fields.number("shape.standing_cylinder.diameter"),
                            .height_m = fields.number("shape.standing_cylinder.height")};
  }
  fields.finish();
  return room_l(made) > 0 ? made : Shape{};
}

Shape read_shape(Log& log, const Node& node, const std::string& whose) {
  if (node.kind == Node::Kind::text) {
    std::vector<std::string> words;
    words.reserve(gauge_shapes.size());
    for (const Key key : gauge_shapes) words.emplace_back(key.name());
    log.error(node.origin, fmt::format("shape: {} has no measures", units::in_quotes(node.text)),
              std::string(shape_example), did_you_mean(node.text, words));
    return {};
  }
  Shape made;
  std::string_view first;
  Fields fields(log, node, fmt::format("the shape of {}", whose));
  for (const Key key : gauge_shapes) {
    const Node* measures = fields.get(key);
    if (measures == nullptr) continue;
    if (!first.empty()) {
      log.error(measures->origin,
                fmt::format("{} is a {} and a {}", fields.what(), first, key.name()), "one of them",
                "a vessel of two parts wants dip marks instead");
      continue;
    }
    first = key.name();
    made = read_measures(log, key, *measures);
  }
  if (fields.usable() && node.entries.empty()) {
    log.error(node.origin, fmt::format("{} is not said", fields.what()),
              std::string(shape_example));
  }
  fields.finish();
  return made;
}

// Inside measures are taken with a rule, what it holds is often what the maker says: they never
// agree to the litre.
void check_room(Log& log, const Node& node, const std::string& whose, const Shape& shape,
                double holds_l) {
  constexpr double most_apart = 0.10;
  const double room = room_l(shape);
  if (room <= 0 || holds_l <= 0 || std::abs(room - holds_l) <= most_apart * holds_l) return;
  log.error(node.origin,
            fmt::format("the shape of {} has room for {}, but it holds {}", whose, litres(room),
                        litres(holds_l)),
            "inside measures that make what it holds, within 10 %",
            "where no plain shape fits, give dip marks instead, such as dip: {5 cm: 9 L}");
}

// Reads one mark; nothing if it is wrong, by itself or after the one before it.
std::optional<DipMark> read_mark(Log& log, const Entry& entry, const DipMark* before,
                                 const Node* holds, double holds_l) {
  const auto depth_m = read_quantity(log, key_node(entry), "dip.depth.*", "dip");
  const auto volume_l = read_quantity(log, entry.value, "dip.*", "dip");
  if (!depth_m || !volume_l) return std::nullopt;
  const std::string& at = entry.key;
  const std::string& volume = entry.value.text;
  if (*volume_l == 0 && *depth_m > 0) {
    log.error(entry.value.origin, fmt::format("dip: nothing is in it at {}", at),
              "a volume that is more than 0", "leave this mark out");
    return std::nullopt;
  }
  // Nobody reads a stick more closely.
  constexpr double least_apart_m = 0.001;
  const double before_m = before == nullptr ? 0 : before->depth_m;
  if (before != nullptr && *depth_m <= before_m) {
    log.error(entry.origin, fmt::format("dip: {} is no deeper than the mark before it", at),
              "marks from the bottom up");
    return std::nullopt;
  }
  if (*depth_m > 0 && *depth_m < before_m + least_apart_m * (1 - 1e-9)) {
    log.error(entry.origin,
              fmt::format("dip: {} is hardly deeper than {}", at,
                          before == nullptr ? "the bottom" : "the mark before it"),
              "marks 1 mm apart or more");
    return std::nullopt;
  }
  if (before != nullptr && *volume_l <= before->volume_l) {
    log.error(entry.value.origin,
              fmt::format("dip: {} at {} is no more than at the mark before it", volume, at),
              "more at every mark");
    return std::nullopt;
  }
  if (holds_l > 0 && *volume_l > holds_l) {
    log.error(entry.value.origin,
              fmt::format("dip: {} at {}, but it holds {}", volume, at,
                          holds == nullptr ? litres(holds_l) : holds->text),
              "no more than it holds", "is what it holds right?");
    return std::nullopt;
  }
  return DipMark{.depth_m = *depth_m, .volume_l = *volume_l};
}

std::vector<DipMark> read_marks(Log& log, const Node& node, const Node* holds, double holds_l) {
  std::vector<DipMark> made;
  if (node.kind != Node::Kind::map && node.kind != Node::Kind::empty) {
    log_wrong_form(log, node, "dip",
                   fmt::format("depths, each with what is in it then: {}", dip_example));
    return made;
  }
  for (const Entry& entry : node.entries) {
    const DipMark* before = made.empty() ? nullptr : &made.back();
    if (const auto mark = read_mark(log, entry, before, holds, holds_l)) made.push_back(*mark);
  }
  const bool only_at_0 = node.entries.size() == 1 && made.size() == 1 && made[0].depth_m == 0;
  if (node.entries.empty() || only_at_0) {
    log.error(node.origin, "dip: there is no mark above the bottom", std::string(dip_example));
  }
  return made;
}

}  // namespace

Gauge read_gauge(Fields& fields, double holds_l) {
  Log& log = fields.log();
  const Node* shape = fields.get("vessel.shape");
  const Node* dip = fields.get("vessel.dip");
  Gauge made;
  if (shape != nullptr && dip != nullptr) {
    log.error(shape->origin, fmt::format("{} has a shape and dip marks", fields.what()),
              "one of them", "what was measured is better: leave the shape out");
  }
  if (shape != nullptr) {
    made.shape = read_shape(log, *shape, fields.what());
    check_room(log, *shape, fields.what(), made.shape, holds_l);
  }
  if (dip != nullptr) made.marks = read_marks(log, *dip, fields.get("vessel.holds"), holds_l);
  return made;
}

}  // namespace drystage::plan
