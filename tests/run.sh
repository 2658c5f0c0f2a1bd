#!/bin/sh
# Installs what is missing, builds drystage with warnings as errors and runs every test, then
# once more under the address and undefined-behaviour sanitizers; installs it and builds a
# program against what was installed.
# Usage: sh tests/run.sh [--quick] [--lint]
#   --quick   the plain build and its tests alone
#   --lint    also check formatting and run clang-tidy (always done when CI=true)
# shellcheck disable=SC2086,SC1091
set -eu
LC_ALL=C
# Property tests choose the same cases each time; RC_PARAMS=seed=N sh tests/run.sh tries others.
RC_PARAMS=${RC_PARAMS:-seed=1}
export LC_ALL RC_PARAMS

quick=no
lint=no
[ "${CI:-}" != true ] || lint=yes
for argument in "$@"; do
  case "$argument" in
    --quick) quick=yes ;;
    --lint) lint=yes ;;
    -h | --help)
      sed -n '2,/^# shellcheck/s/^# \{0,1\}//p' "$0" | sed '$d'
      exit 0
      ;;
    *)
      echo "tests/run.sh: unknown option '$argument' (--quick, --lint)" >&2
      exit 2
      ;;
  esac
done

cd "$(dirname "$0")/.."
. cli/packages.sh

logs=build/logs
mkdir -p "$logs"
began=$(date +%s)

# step NAME COMMAND...: runs the command quietly; shows what it printed only if it fails.
step() {
  name=$1
  shift
  since=$(date +%s)
  log=$logs/$(printf '%s' "$name" | tr -c 'a-z0-9' '-').log
  printf '%s ... ' "$name"
  if "$@" >"$log" 2>&1; then
    echo "$(($(date +%s) - since)) s"
  else
    echo "FAILED"
    cat "$log"
    echo "FAILED: $name"
    exit 1
  fi
}

# suite NAME BUILD_DIR: every test of that build; always shows ctest's own closing lines.
suite() {
  step "$1" ctest --test-dir "$2" --output-on-failure --no-tests=error --parallel "$jobs"
  grep -E '^(100%|[0-9]+%) tests passed|^Total Test time' "$log"
}

# build BUILD_DIR OPTION...
build() {
  directory=$1
  shift
  cmake -S . -B "$directory" -G Ninja -DCMAKE_BUILD_TYPE=Release -DDRYSTAGE_WERROR=ON "$@" &&
    cmake --build "$directory" --parallel "$jobs"
}

check_format() {
  find lib cli tests \( -name '*.cc' -o -name '*.h' \) -print0 |
    xargs -0 clang-format --dry-run -Werror
}

check_tidy() {
  find lib cli -name '*.cc' -print0 |
    xargs -0 -P "$jobs" -n 1 clang-tidy -p build/checked --quiet
}

# What a user of the library does: install it, find it, link it, run it.
check_package() {
  rm -rf build/installed build/package
  cmake --install build/checked --prefix "$PWD/build/installed" &&
    cmake -S tests/package -B build/package -G Ninja -DCMAKE_BUILD_TYPE=Debug \
      -DCMAKE_PREFIX_PATH="$PWD/build/installed" &&
    cmake --build build/package --parallel "$jobs" &&
    build/package/consumer scenarios/desert-crossing-mended.yaml &&
    build/installed/bin/drystage --version
}

packages="$build_packages $test_packages"
[ "$lint" = no ] || packages="$packages $lint_packages"
install_packages $packages
jobs=$(job_count)

[ "$lint" = no ] || step "formatting" check_format
step "build, warnings as errors" build build/checked
suite "tests" build/checked

if [ "$quick" = no ]; then
  step "install and use as a package" check_package
fi
[ "$lint" = no ] || step "clang-tidy" check_tidy
if [ "$quick" = no ]; then
  step "build, address and undefined-behaviour sanitizers" build build/sanitized \
    -DDRYSTAGE_SANITIZE=address,undefined -DDRYSTAGE_BENCH=OFF -DDRYSTAGE_PCH=ON
  # Slower by far; fewer of the random cases show the same.
  RC_PARAMS="$RC_PARAMS max_success=40"
  suite "tests under the sanitizers" build/sanitized
fi
echo "All checks passed in $(($(date +%s) - began)) s."
