#pragma once

#include <fmt/core.h>

#include <algorithm>
#include <concepts>
#include <functional>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

#include "plan/sections.h"
#include "units/format.h"

namespace drystage::plan {

/// How an offer of one sort is written under `size:`.
template <class Offer>
struct OfferForm {
  std::string_view key;  ///< under which the list stands: a name of the plan, or "drinking"
  double Offer::*size = nullptr;             ///< what a bare quantity says ...
  Key size_key;                              ///< ... and the key for it in a map
  std::string_view example;                  ///< "20 L, {holds: 20 L, cost: 25}"
  double more_than = 0;                      ///< each size must be more than so much ...
  std::string_view why{};                    ///< ... in words
  std::string_view once = "each size once";  ///< what is not to be listed twice
  std::string_view unit{};                   ///< of a consumable: its own
  /// How a size is read, where it has a unit of its own.
  std::function<std::optional<double>(Log&, const Node&, Key, std::string_view)> read_size =
      read_quantity;
};

/// An offer: a bare quantity, or a map whose other keys `more` reads. Nothing if its size is wrong.
template <class Offer, std::invocable<Fields&, Offer&> More>
std::optional<Offer> read_offer(Log& log, const Node& node, const OfferForm<Offer>& form,
                                const More& more) {
  Offer made;
  made.mark = node.origin.mark;
  std::optional<double> size;
  if (node.kind == Node::Kind::text) {
    size = form.read_size(log, node, form.size_key, form.key);
  } else if (node.kind == Node::Kind::map) {
    Fields fields(log, node, fmt::format("an offer under {}", units::in_quotes(form.key)));
    const Node* said = fields.get(form.size_key);
    if (said != nullptr) size = form.read_size(log, *said, form.size_key, form.size_key.name());
    made.*form.size = size.value_or(0);
    more(fields, made);
    fields.finish();
  } else {
    log_wrong_form(log, node, form.key, fmt::format("a size, such as {}", form.example));
  }
  if (size && *size <= form.more_than && form.more_than > 0) {
    log.error(node.origin,
              fmt::format("{}: {} is too little", form.key,
                          in_its_unit(form.size_key.ranges().front(), *size)),
              std::string(form.why));
    size.reset();
  }
  if (!size) return std::nullopt;
  made.*form.size = *size;
  return made;
}

/// A list of them. Two that are the `same` could not be told apart in the answer.
template <class Offer, std::invocable<Fields&, Offer&> More,
          std::predicate<const Offer&, const Offer&> Same>
std::vector<Offer> read_offers(Log& log, const Node& node, const OfferForm<Offer>& form,
                               const More& more, const Same& same) {
  std::vector<Offer> made;
  if (node.kind != Node::Kind::list || node.items.empty()) {
    const auto expected = fmt::format("a list of sizes, such as [{}]", form.example);
    if (node.kind == Node::Kind::list) {
      log.error(node.origin, fmt::format("{}: the list is empty", form.key), expected,
                "or leave the key out");
    } else {
      log_wrong_form(log, node, form.key, expected);
    }
    return made;
  }
  for (const Node& item : node.items) {
    auto offer = read_offer(log, item, form, more);
    if (!offer) continue;
    const auto first =
        std::ranges::find_if(made, [&](const Offer& other) { return same(other, *offer); });
    if (first == made.end()) {
      made.push_back(std::move(*offer));
      continue;
    }
    const std::string line = log.line_of(first->mark, item.origin);
    log.error(item.origin,
              fmt::format("{}: {} is on offer twice", form.key,
                          form.unit.empty()
                              ? in_its_unit(form.size_key.ranges().front(), (*offer).*form.size)
                              : fmt::format("{:g} {}", (*offer).*form.size, form.unit)),
              std::string(form.once), line.empty() ? line : "the first one is on " + line);
  }
  return made;
}

/// What one costs, in whatever money the plan reckons in.
inline std::optional<double> read_cost(Fields& fields) { return fields.number_if("offer.cost"); }

/// The outside volume of what holds `inside_l`.
inline std::optional<double> read_space(Fields& fields, double inside_l = 0) {
  const auto space = fields.number_if("bulk.space");
  if (space && *space < inside_l) {
    fields.log().error(fields.get("bulk.space")->origin,
                       fmt::format("{} takes up {}, less than it holds", fields.what(),
                                   fields.get("bulk.space")->text),
                       "its outside volume");
  }
  return space;
}

/// Battery, panel, cabinet and food offers each from the entry of one thing
/// (read_size_equipment.cc).
void read_battery_offers(Log& log, const Entry& entry, Plan& plan);
void read_panel_offers(Log& log, const Entry& entry, Plan& plan);
void read_cabinet_offers(Log& log, const Entry& entry, Plan& plan);
void read_food_offer(Log& log, const Entry& entry, Plan& plan);

/// Logs, and says, that a thing is there already: the same name written in two ways.
template <class Things, class Thing, class Which>
bool is_twice(Log& log, const Entry& entry, std::string_view key, const Things& things,
              const Thing& thing, Which which) {
  if (std::ranges::find(things, thing, which) == things.end()) return false;
  log.error(entry.origin, fmt::format("{}: {} is named twice", key, units::in_quotes(entry.key)),
            "each one once");
  return true;
}

}  // namespace drystage::plan
