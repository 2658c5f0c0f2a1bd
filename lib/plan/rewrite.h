#pragma once

#include <string>
#include <string_view>

#include "plan/plan.h"

namespace drystage::plan {

/// Writes a changed plan into the text that it was read from. Comments, blank lines, order, quotes,
/// indents, line ends and a byte order mark stay: only what changed is written anew.
///
/// `before` is what `read_text(source)` gave, without overrides. `after` may differ from it in the
/// lists of key_values.h, and in nothing else: fewer things, more of them, and of others what their
/// keys say. A gauge is only taken out, and of a map within a thing only what stands there changes.
/// Things are matched by their names; those that stay keep their order.
///
/// What comes back has been read again and compared with `after` (`difference` in same_plan.h), and
/// its other sections with those of `source`. If there is a difference, which means that `after`
/// differs in something else or that no plan can say it, throws std::logic_error.
///
/// The edits are our own (text_layout.h, text_edit.h), on the places that the parser of the plan
/// gives. libfyaml, tried in version 0.7.12, keeps some comments but lays out the whole text anew;
/// yaml-cpp's emitter keeps none.
std::string rewrite(std::string_view source, const Plan& before, const Plan& after);

}  // namespace drystage::plan
