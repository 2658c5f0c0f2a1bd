#pragma once

namespace drystage::support {

/// How many of so many cases a test tries: all of them; as much fewer as RC_PARAMS asks RapidCheck
/// for (max_success=20 is a fifth of its hundred). At least one.
int cases(int all);

}  // namespace drystage::support
