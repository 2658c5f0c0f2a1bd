#!/bin/sh
# Installs what is missing, builds drystage in ./build and runs a shipped scenario.
# Usage: sh cli/try.sh [PLAN.yaml]
# shellcheck disable=SC2086,SC1091
set -eu
LC_ALL=C
export LC_ALL

plan=${1:-}
case "$plan" in
  -h | --help)
    sed -n 's/^# //p' "$0" | head -n 2
    exit 0
    ;;
  "" | /*) ;;
  *) plan=$PWD/$plan ;;
esac
cd "$(dirname "$0")/.."
plan=${plan:-scenarios/desert-crossing.yaml}
. cli/packages.sh

install_packages $build_packages

log=build/try.log
mkdir -p build
echo "Building drystage in ./build (a few minutes the first time) ..."
if ! cmake -S . -B build -G Ninja -DCMAKE_BUILD_TYPE=Release -DDRYSTAGE_TESTS=OFF \
  -DDRYSTAGE_BENCH=OFF -DDRYSTAGE_PCH=ON -DDRYSTAGE_UNITY_FILES=35 >"$log" 2>&1 ||
  ! cmake --build build --parallel "$(job_count)" --target drystage-bin >>"$log" 2>&1; then
  cat "$log" >&2
  echo "drystage could not be built (see above)." >&2
  exit 1
fi

echo "\$ build/drystage run $plan"
echo
output=build/try.txt
status=0
build/drystage run "$plan" >"$output" || status=$?
cat "$output"
echo
# 0 and 1 are both answers: the plan holds, or it does not. Anything else is a failure.
case $status in
  0 | 1)
    echo "The verdict, once more:"
    sed '/^$/q' "$output"
    ;;
  *)
    echo "drystage ended with exit status $status." >&2
    exit "$status"
    ;;
esac
