#include "cli/xml.h"

#include <array>
#include <stdexcept>
#include <string_view>
#include <utility>

#include "cli/process.h"

namespace drystage::testing {

std::string xml_faults(const std::string& path) {
  const Outcome outcome = program("xmllint", {"--nonet", "--huge", "--noout", path});
  if (outcome.status == 0) return outcome.err;
  return "xmllint ended with " + std::to_string(outcome.status) + ": " + outcome.err;
}

std::string xpath(const std::string& path, const std::string& expression) {
  const Outcome outcome = program("xmllint", {"--nonet", "--huge", "--xpath", expression, path});
  if (outcome.status != 0) throw std::runtime_error(expression + ": " + outcome.err);
  return outcome.out;
}

std::string without_entities(const std::string& text) {
  constexpr std::array<std::pair<std::string_view, char>, 5> entities{
      {{"&lt;", '<'}, {"&gt;", '>'}, {"&quot;", '"'}, {"&apos;", '\''}, {"&amp;", '&'}}};
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    bool known = false;
    for (const auto& [entity, character] : entities) {
      if (text.compare(at, entity.size(), entity) != 0) continue;
      out += character;
      at += entity.size();
      known = true;
      break;
    }
    if (!known) out += text[at++];
  }
  return out;
}

}  // namespace drystage::testing
