# shellcheck shell=sh disable=SC2034,SC2086
# What drystage needs from Debian 12, and how to get it. Sourced by cli/try.sh and tests/run.sh.

# To build the program.
build_packages="g++ cmake ninja-build libboost-date-time-dev libboost-program-options-dev
  libyaml-cpp-dev libfmt-dev nlohmann-json3-dev libudunits2-dev libtbb-dev librandom123-dev pkgconf
  libcairomm-1.16-dev libpangomm-2.48-dev fonts-noto-core"

# To build and run the tests as well. clang takes a third as long as g++ to compile them.
test_packages="clang libgtest-dev libgmock-dev librapidcheck-dev libsundials-dev libbenchmark-dev
  ccache locales tzdata chromium poppler-utils libxml2-utils fonts-droid-fallback
  fonts-noto-color-emoji python3-jsonschema python3-yaml mandoc fish
  zsh"

# To build under the sanitizers of clang, which takes half as long as g++ there, and warns of other
# things. llvm has the symbolizer, without which they complain of themselves in what the program
# prints.
sanitizer_packages="libclang-rt-14-dev llvm"

# To check how the code is written.
lint_packages="clang-format clang-tidy"

# Prints the packages among the arguments that are not installed.
missing_packages() {
  for package in "$@"; do
    status=$(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null) || status=
    [ "$status" = installed ] || printf '%s ' "$package"
  done
}

# Runs a command as root, by sudo where needed. Fails where there is no way to be root.
as_root() {
  if [ "$(id -u)" -eq 0 ]; then
    "$@"
  elif command -v sudo >/dev/null 2>&1; then
    sudo "$@"
  else
    return 1
  fi
}

# Installs what is missing among the packages given; touches neither apt nor the network when
# nothing is. Ends the script, saying what is missing, when it cannot.
install_packages() {
  if ! command -v dpkg-query >/dev/null 2>&1; then
    echo "This is not a Debian system, so nothing is installed. Needed, by their Debian names:"
    echo "  $*"
    return 0
  fi
  missing=$(missing_packages "$@")
  [ -n "$missing" ] || return 0
  if [ "$(id -u)" -ne 0 ] && ! command -v sudo >/dev/null 2>&1; then
    echo "These packages are missing, and installing them needs root or sudo." >&2
    echo "Ask whoever runs this machine for:" >&2
    echo "  apt-get install --no-install-recommends $missing" >&2
    exit 1
  fi
  echo "Installing: $missing"
  apt="env DEBIAN_FRONTEND=noninteractive LC_ALL=C apt-get -q -y -o DPkg::Lock::Timeout=300"
  apt="$apt -o Dpkg::Use-Pty=0 -o Acquire::Retries=3"
  log=$(mktemp)
  # An index that cannot be refreshed is no reason to stop: the one at hand may do.
  as_root $apt update >"$log" 2>&1 ||
    echo "The package index could not be refreshed; going on with the one at hand." >&2
  if ! as_root $apt install --no-install-recommends $missing >>"$log" 2>&1; then
    cat "$log" >&2
    rm -f "$log"
    echo "Installing failed (see above). Needed: $missing" >&2
    exit 1
  fi
  rm -f "$log"
}

# How many jobs to run at once: one per processor, and no more than memory bears (2 GB each).
job_count() {
  jobs=$(nproc)
  fit=$(awk '/^MemAvailable:/ { n = int($2 / 2000000); print n < 1 ? 1 : n }' \
    /proc/meminfo 2>/dev/null) || fit=
  if [ -n "$fit" ] && [ "$fit" -lt "$jobs" ]; then jobs=$fit; fi
  echo "$jobs"
}
