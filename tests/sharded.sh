#!/bin/sh
# Runs every test of a GoogleTest program, many in one process: under the sanitizers a process
# takes longer to start than most tests last. Says how many passed; fails unless all that are
# listed ran and passed, and when none are listed.
# Usage: sh tests/sharded.sh PROGRAM JOBS [TIMES]
# Into the file TIMES goes how long each test took: milliseconds, and its name.
set -eu
program=$1
jobs=$2
# Some more than there are jobs, so that no job is left with all that is slow.
GTEST_TOTAL_SHARDS=$((jobs * 12))
logs=$(mktemp -d)
times=${3:-$logs.times}
trap 'rm -rf "$logs" "$logs.times"' EXIT
export program logs GTEST_TOTAL_SHARDS

listed=$(env -u GTEST_TOTAL_SHARDS "$program" --gtest_list_tests | grep -c '^  ') || true

# shellcheck disable=SC2016
seq 0 $((GTEST_TOTAL_SHARDS - 1)) | xargs -P "$jobs" -n 1 sh -c '
  export GTEST_SHARD_INDEX="$1"
  if timeout 900 "$program" >"$logs/$1" 2>&1; then
    : >"$logs/$1.held"
  else
    echo "Status $? after the tests with index $1 of $GTEST_TOTAL_SHARDS" >>"$logs/$1"
  fi' shard

# Of a process that failed: all but what belongs to the tests that passed.
for log in "$logs"/*; do
  case "$log" in *.held) continue ;; esac
  [ -e "$log.held" ] || awk '
    /^$/ || /^\[----------\]/ { next }
    /^\[ RUN      \]/ { flush(); within = 1 }
    { if (within) block = block $0 "\n"; else print }
    /^\[       OK \]/ { block = ""; within = 0 }
    function flush() { printf "%s", block; block = ""; within = 0 }
    END { flush() }' "$log"
done

count() {
  cat "$logs"/* | sed -n "s/$1/\\1/p" | awk '{ sum += $1 } END { print sum + 0 }'
}
ran=$(count '^\[==========\] \([0-9]*\) tests\{0,1\} from .* ran\..*')
passed=$(count '^\[  PASSED  \] \([0-9]*\) tests\{0,1\}\..*')
held=$(find "$logs" -name '*.held' | wc -l)
sed -n 's/^\[       OK \] \([^ ,]*\).* (\([0-9]*\) ms)$/\2 \1/p' "$logs"/* | sort -rn >"$times"
echo "Slowest, in milliseconds:"
head -n 10 "$times"
echo "$passed of $listed tests passed, $ran ran"
[ "$listed" -gt 0 ] && [ "$ran" -eq "$listed" ] && [ "$passed" -eq "$listed" ] &&
  [ "$held" -eq "$GTEST_TOTAL_SHARDS" ]
