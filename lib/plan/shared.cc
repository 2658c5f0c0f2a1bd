#include <fmt/format.h>

#include <algorithm>

#include "plan/sections.h"
#include "units/number.h"

namespace drystage::plan {
namespace {

constexpr std::array<Word<Surface>, surface_count> surface_words{
    {{"sealed", Surface::sealed},
     {"worn sealed", Surface::worn_sealed},
     {"packed gravel", Surface::packed_gravel},
     {"gravel", Surface::gravel},
     {"loose gravel", Surface::loose_gravel},
     {"track", Surface::track},
     {"sand", Surface::sand},
     {"soft sand", Surface::soft_sand}}};

std::optional<Surface> surface_at(Log& log, const Spot& spot, const std::string& text) {
  const auto surface = surface_named(text);
  if (!surface) {
    const auto known = texts(surface_words);
    log.error(spot, fmt::format("there is no surface {}", units::in_quotes(text)), one_of(known),
              did_you_mean(text, known));
  }
  return surface;
}

// True if the name says that this is a can that somebody lifts: one of its words is "can" or
// "jerry", alone or with a number or a plural after it.
bool is_called_can(std::string_view name) {
  const std::string lower = units::lower_ascii(name);
  for (const std::string_view word : {"can", "cans", "jerry", "jerrycan", "jerrycans"}) {
    for (std::size_t at = lower.find(word); at != std::string::npos;
         at = lower.find(word, at + 1)) {
      const auto is_letter = [&](std::size_t i) {
        return i < lower.size() && lower[i] >= 'a' && lower[i] <= 'z';
      };
      if (!(at > 0 && is_letter(at - 1)) && !is_letter(at + word.size())) return true;
    }
  }
  return false;
}

}  // namespace

std::optional<Surface> surface_named(std::string_view text) {
  std::string plain(text);
  std::replace(plain.begin(), plain.end(), '_', ' ');
  const auto* const found =
      std::find_if(surface_words.begin(), surface_words.end(),
                   [&](const Word<Surface>& word) { return word.text == plain; });
  if (found == surface_words.end()) return std::nullopt;
  return found->value;
}

std::optional<Surface> read_surface(Log& log, const Node& node, std::string_view name) {
  if (node.kind != Node::Kind::text) {
    log_wrong_form(log, node, name, one_of(texts(surface_words)));
    return std::nullopt;
  }
  return surface_at(log, node.spot, node.text);
}

std::optional<Surface> read_surface_key(Log& log, const Entry& entry) {
  return surface_at(log, entry.spot, entry.key);
}

std::optional<double> read_draw(Log& log, const Node& node, std::string_view name,
                                double voltage_v) {
  static constexpr std::array kinds{units::Kind::power, units::Kind::current};
  const auto read = read_quantity_of(log, node, name, kinds, not_negative);
  if (!read) return std::nullopt;
  return read->kind == units::Kind::current ? read->value * voltage_v : read->value;
}

int vehicle_of(Fields& fields, const Plan& plan, std::string_view key) {
  return fields.reference_or(key, 0, "vehicle", names_of(plan.vehicles), "vehicles");
}

void read_holds(Fields& fields, double& holds_l, double& filled_l) {
  constexpr double most_can_l = 60;  // common practice: more than one person can lift
  const auto holds = fields.need_quantity("holds", units::Kind::volume, positive);
  const auto filled = fields.need_quantity("filled", units::Kind::volume, not_negative);
  holds_l = holds.value_or(0);
  filled_l = filled.value_or(0);
  if (holds && filled && *filled > *holds) {
    fields.log().error(fields.get("filled")->spot,
                       fmt::format("{} is filled with {} but holds {}", fields.what(),
                                   fields.get("filled")->text, fields.get("holds")->text),
                       "no more than it holds");
  }
  const Node* name = fields.get("name");
  if (holds && *holds > most_can_l && name != nullptr && is_called_can(name->text)) {
    fields.log().warning(
        fields.get("holds")->spot,
        fmt::format("{} holds {}: large for a can", fields.what(), fields.get("holds")->text), {},
        "is the number right?");
  }
}

std::optional<double> read_meals(Log& log, const Node& node, std::string_view name,
                                 const Limits& limits) {
  return read_number(log, node, name, limits, "meals");
}

std::string key_name(Log& log, const Entry& entry, std::string_view thing) {
  Node node;
  node.kind = Node::Kind::text;
  node.text = entry.key;
  node.spot = entry.spot;
  return read_text(log, node, thing).value_or(std::string());
}

}  // namespace drystage::plan
