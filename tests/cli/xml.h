#pragma once

#include <string>

namespace drystage::testing {

/// What libxml2's xmllint finds wrong with a file; empty when it is well-formed XML.
std::string xml_faults(const std::string& path);

/// The text that an XPath expression comes to, as xmllint finds it. Throws when it finds fault.
std::string xpath(const std::string& path, const std::string& expression);

/// Text with the five entities that XML knows made the characters they stand for.
std::string without_entities(const std::string& text);

}  // namespace drystage::testing
