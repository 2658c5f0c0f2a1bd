#include "plan/write_observed.h"

#include <fmt/core.h>

#include <algorithm>
#include <stdexcept>

#include "plan/log.h"
#include "plan/same_plan.h"
#include "plan/sections.h"
#include "plan/text_edit.h"
#include "plan/tree.h"
#include "plan/word_lists.h"
#include "plan/words.h"
#include "units/format.h"
#include "units/parse.h"

namespace drystage::plan {
namespace {

std::string uses_text(double uses_l_km) {
  return units::format(uses_l_km, units::Kind::fuel_use, units::System::metric,
                       units::significant(3));
}

std::string surface_text(Surface surface) {
  return std::string(surface_words.at(static_cast<std::size_t>(surface)).text);
}

// The list of vehicles, or null.
const Node* vehicles_in(const Node& root) {
  const Node* vehicles = root.find("vehicles");
  return vehicles != nullptr && vehicles->kind == Node::Kind::list ? vehicles : nullptr;
}

void write_one(TextEdit& edit, const Node& node, const TextPart& part,
               const std::vector<FoundUse>& uses) {
  const Node* observed = node.find("observed");
  const TextPart* list = part.find("observed");
  std::vector<NewItem> added;
  const int last = observed == nullptr ? -1 : static_cast<int>(observed->items.size()) - 1;
  for (const FoundUse& use : uses) {
    bool stands = false;
    for (std::size_t i = 0; observed != nullptr && i < observed->items.size(); ++i) {
      const Node* surface = observed->items[i].find("surface");
      if (surface == nullptr || surface_named(surface->text) != use.surface) continue;
      const TextPart& uses_part = *list->items[i].find("uses");
      const auto own = units::parse(uses_part.text, units::Kind::fuel_use);
      edit.set_value(uses_part, uses_text(own ? *own * use.factor : use.uses_l_km));
      stands = true;
      break;
    }
    if (stands) continue;
    added.push_back(
        {.after = last,
         .members = {{"surface", surface_text(use.surface)}, {"uses", uses_text(use.uses_l_km)}},
         .in_this_order = true});
  }
  if (added.empty()) return;
  if (last >= 0) {
    edit.change_list(*list, std::vector<bool>(list->items.size()), added);
  } else {
    edit.begin_list(part, {"observed"}, added, {"tanks", "mass"});
  }
}

}  // namespace

std::string with_observed(std::string_view text, const std::vector<FoundUse>& uses) {
  Log log;
  const auto root = parse_tree(text, {}, log);
  const Node* vehicles = root ? vehicles_in(*root) : nullptr;
  if (vehicles == nullptr) throw std::invalid_argument("there are no vehicles in it");
  const TextPart parts = lay_out(text, *root);
  TextEdit edit(text);
  std::size_t written = 0;
  for (std::size_t v = 0; v < vehicles->items.size(); ++v) {
    const Node* name = vehicles->items[v].find("name");
    std::vector<FoundUse> own;
    std::ranges::copy_if(uses, std::back_inserter(own), [&](const FoundUse& use) {
      return name != nullptr && name->text == use.vehicle;
    });
    write_one(edit, vehicles->items[v], parts.find("vehicles")->items[v], own);
    written += own.size();
  }
  if (written != uses.size()) throw std::invalid_argument("it has not all of these vehicles");
  std::string out = edit.result();
  Log again;
  if (!parse_tree(out, {}, again))
    throw std::logic_error("the plan with own figures reads otherwise");
  return out;
}

}  // namespace drystage::plan
