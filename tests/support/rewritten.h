#pragma once

#include <algorithm>
#include <functional>
#include <string>
#include <vector>

#include "plan/plan.h"

namespace drystage::support {

/// What is changed of a plan before it is written back.
using Change = std::function<void(plan::Plan&)>;

/// A plan's text: the plainest that will do, with these sections in its midst.
std::string plan_around(const std::string& sections);

/// A plan's text after a change, as plan::rewrite writes it; expects that it reads as the changed
/// plan. Throws when the text is not right.
std::string rewritten(const std::string& text, const Change& change);

/// The same of the sections that `plan_around` stands around, by themselves. Where what stands
/// around them does not stay, the whole text.
std::string sections_after(const std::string& sections, const Change& change);

/// A section `vehicles` with a truck of one tank.
std::string one_truck();

/// A full can that weighs 1.2 kg when empty.
plan::Container can(const std::string& name, double holds_l);

/// Takes the things of a name out of a list.
template <class Thing>
void take_out(std::vector<Thing>& things, const std::string& name) {
  std::erase_if(things, [&](const Thing& thing) { return thing.name == name; });
}

/// The first thing of a name; there must be one.
template <class Thing>
Thing& named(std::vector<Thing>& things, const std::string& name) {
  return *std::ranges::find(things, name, &Thing::name);
}

}  // namespace drystage::support
