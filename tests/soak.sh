#!/bin/sh
# For a night: the whole program under the sanitizers, asked everything of plans that are right, wrong
# and changed at random (tests/soak.py), half of the time under the address and undefined-behaviour
# sanitizers and half under the thread sanitizer.
# Usage: sh tests/soak.sh [MINUTES] [SEED]     60 minutes and seed 1 without
# Faults are kept in build/soak. Ends with 1 if there was one.
set -eu
minutes=${1:-60}
seed=${2:-1}
cd "$(dirname "$0")/.."
# shellcheck disable=SC1091
. cli/packages.sh
# shellcheck disable=SC2086
install_packages $build_packages $test_packages $sanitizer_packages
jobs=$(job_count)
mkdir -p build
status=0
export UBSAN_OPTIONS=print_stacktrace=1
export LSAN_OPTIONS="suppressions='$PWD/tests/lsan.supp':print_suppressions=0"
for sanitizer in address,undefined thread; do
  tree=build/soak-$(echo "$sanitizer" | cut -d, -f1)
  cmake -S . -B "$tree" -G Ninja -DCMAKE_BUILD_TYPE=Release -DCMAKE_CXX_COMPILER=clang++ \
    -DDRYSTAGE_SANITIZE=$sanitizer -DDRYSTAGE_TESTS=OFF -DDRYSTAGE_BENCH=OFF >"$tree.log" 2>&1 &&
    cmake --build "$tree" --parallel "$jobs" --target drystage-bin >>"$tree.log" 2>&1 ||
    { cat "$tree.log"; exit 1; }
  echo "under the sanitizers $sanitizer:"
  no_drawing=
  [ "$sanitizer" != thread ] || no_drawing=--no-drawing
  # shellcheck disable=SC2086
  python3 tests/soak.py $no_drawing --program "$tree/drystage" --seconds "$((minutes * 30))" \
    --seed "$seed" --keep "build/soak/$sanitizer" || status=1
done
exit $status
