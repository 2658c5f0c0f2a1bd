#!/bin/sh
# Installs what is missing, compiles the tests (clang), builds drystage with warnings as errors (g++)
# and runs every test; installs it and builds a program against what was installed; then runs every
# test once more with the library and the program built by clang under the address and
# undefined-behaviour sanitizers.
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

# suite NAME BUILD_DIR: every test with the library and the program of that build, many in one
# process; always says how many passed.
suite() {
  export DRYSTAGE_PROGRAM="$PWD/$2/drystage"
  step "$1" sh tests/sharded.sh "$2/tests/drystage_tests" "$jobs" "$2/test-times"
  tail -n 1 "$log"
}

# configure BUILD_DIR OPTION...: for building all of it, in units that two processors share evenly.
configure() {
  directory=$1
  shift
  cmake -S . -B "$directory" -G Ninja -DCMAKE_BUILD_TYPE=Release -DDRYSTAGE_WERROR=ON \
    -DDRYSTAGE_UNITY_FILES=35 "$@"
}

# Without the sanitizers, in the tree of the sanitized build. Both builds link all that lie there, so
# nothing may be left of tests that are gone.
compile_tests() {
  configure build/sanitized-clang -DCMAKE_CXX_COMPILER=clang++ \
    -DDRYSTAGE_SANITIZE=address,undefined -DDRYSTAGE_BENCH=OFF -DDRYSTAGE_PCH=ON &&
    ninja -C build/sanitized-clang -t cleandead &&
    cmake --build build/sanitized-clang --parallel "$jobs" --target drystage_test_objects drystage_failing_calls
}

# GCC collects its garbage too eagerly where there is memory enough: a tenth of the time.
build_checked() {
  configure build/checked -DCMAKE_CXX_FLAGS=--param=ggc-min-heapsize=500000 \
    -DDRYSTAGE_TEST_OBJECTS="$PWD/build/sanitized-clang/tests/CMakeFiles/drystage_test_objects.dir" &&
    cmake --build build/checked --parallel "$jobs"
}

check_format() {
  find lib cli tests \( -name '*.cc' -o -name '*.h' \) -print0 |
    xargs -0 -P "$jobs" -n 100 clang-format --dry-run -Werror
}

check_tidy() {
  # As g++ is told to read it, in the fewest units, for every one has all headers; the largest first.
  configure build/tidy -DDRYSTAGE_TESTS=OFF -DDRYSTAGE_BENCH=OFF -DDRYSTAGE_UNITY_FILES=100 &&
    mkdir -p build/tidy/generated && cp build/checked/generated/*.inc build/tidy/generated/ &&
    sed -n 's/^ *"file": "\(.*\)",\{0,1\}$/\1/p' build/tidy/compile_commands.json | xargs ls -S |
    xargs -P "$jobs" -n 1 clang-tidy -p build/tidy --quiet
}

# What a user of the library does: install it, find it, link it, run it.
check_package() {
  rm -rf build/installed build/package
  cmake --install build/checked --prefix "$PWD/build/installed" &&
    cmake -S tests/package -B build/package -G Ninja -DCMAKE_BUILD_TYPE=Debug \
      -DCMAKE_PREFIX_PATH="$PWD/build/installed" &&
    cmake --build build/package --parallel "$jobs" &&
    build/package/consumer scenarios/desert-crossing-mended.yaml &&
    build/installed/bin/drystage card scenarios/desert-crossing-mended.yaml \
      --output build/package/card.pdf
}

packages="$build_packages $test_packages"
[ "$quick" = yes ] || packages="$packages $sanitizer_packages"
[ "$lint" = no ] || packages="$packages $lint_packages"
install_packages $packages
jobs=$(job_count)

[ "$lint" = no ] || step "formatting" check_format
[ "$lint" = no ] || step "includes of the tests" sh tests/includes.sh
[ "$lint" = no ] || step "which way includes go" sh tests/rooms.sh
step "compile the tests" compile_tests
step "build, warnings as errors" build_checked
# In another order than the one they are written in: none may lean on those before it.
export GTEST_SHUFFLE=1 GTEST_RANDOM_SEED=1
# Where it must be quick, fewer random cases of each property; without CI=true all of them.
cases=$RC_PARAMS
[ "${CI:-}" != true ] || RC_PARAMS="$cases max_success=12"
suite "tests" build/checked
unset GTEST_SHUFFLE

if [ "$quick" = no ]; then
  step "install and use as a package" check_package
fi
[ "$lint" = no ] || step "clang-tidy" check_tidy
if [ "$quick" = no ]; then
  step "build, address and undefined-behaviour sanitizers" \
    cmake --build build/sanitized-clang --parallel "$jobs"
  # Slower by far; fewer of the random cases show the same.
  RC_PARAMS="$cases max_success=5"
  # What Chromium and the validator of schemas look at, which are not under the sanitizers. And what
  # took long: it asks the same of more plans, or runs the program, as the questions below do.
  slow_ms=1000
  [ "${CI:-}" != true ] || slow_ms=35
  GTEST_FILTER="-*InABrowser.*:Shipped/Screen.*:Browser.*:Schema.TakesScenarios*:Schema.SeesTheWrong*:\
Schema.AgreesWith*:RicherPlan.*:FailingCalls.*$(awk -v most=$slow_ms '$1 > most { printf ":%s", $2 }' \
    build/checked/test-times)"
  export GTEST_FILTER
  export UBSAN_OPTIONS=print_stacktrace=1
  # Said of each suppression that it was used, it would stand among what the command says.
  export LSAN_OPTIONS="suppressions='$PWD/tests/lsan.supp':print_suppressions=0"
  suite "tests under the sanitizers" build/sanitized-clang
  unset GTEST_FILTER
  # A short part of tests/soak.sh.
  step "questions of all kinds under the sanitizers" python3 tests/soak.py \
    --program build/sanitized-clang/drystage --runs 60
  tail -n 1 "$log"
fi
echo "All checks passed in $(($(date +%s) - began)) s."
