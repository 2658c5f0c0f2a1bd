#!/bin/sh
# GCC builds the tests with their most used headers precompiled (tests/CMakeLists.txt), and so does
# not see that a file forgot to include one of them. This says which file uses something of such a
# header and does not include it; ends with 1 if there is one. Strings, vectors and dates come with
# the headers of ours and are not asked for.
# Usage: sh tests/includes.sh
set -eu
cd "$(dirname "$0")/.."

# needs WHAT_IS_USED HEADER: two extended regular expressions.
needs() {
  find tests \( -name '*.cc' -o -name '*.h' \) -not -path 'tests/package/*' -exec \
    awk -v used="$1" -v header="^#include <($2)>" '
      FNR == 1 { tell(); file = FILENAME; line = 0; included = 0 }
      $0 ~ header { included = 1 }
      { sub(/\/\/.*/, "") }
      !line && $0 ~ "(^|[^A-Za-z0-9_:])" used { line = FNR; text = $0 }
      function tell() {
        if (line && !included) { print file ":" line ": includes no <" name ">:" text; bad = 1 }
      }
      BEGIN { name = header; gsub(/^\^#include <\(|\)>$|\\/, "", name) }
      END { tell(); exit bad }' {} + || status=1
}

status=0
needs '(TEST(_F|_P)?\(|(EXPECT|ASSERT)_[A-Z]+\(|testing::)' 'g(test/gtest|mock/gmock)\.h'
needs '((EXPECT|ASSERT)_THAT\(|MATCHER(_P[0-9]*)?\()' 'gmock/gmock\.h'
needs '(RC_[A-Z_]+\(|rc::)' 'rapidcheck(/gtest)?\.h'
needs 'fmt::' 'fmt/[a-z]+\.h'
needs 'std::ranges::' 'algorithm|ranges'
exit "$status"
