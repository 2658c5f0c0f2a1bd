#!/bin/sh
# Writes tests/cli/expected anew from what BINARY prints, the run that README.md shows, and the manual
# page. Read the changes before keeping them.
set -eu

if [ $# -ne 1 ] || [ ! -x "$1" ]; then
  echo "usage: accept.sh BINARY" >&2
  exit 2
fi
binary=$(CDPATH= cd -- "$(dirname -- "$1")" && pwd)/$(basename -- "$1")
here=$(CDPATH= cd -- "$(dirname -- "$0")" && pwd)
scenarios=$here/../../scenarios
new=$(mktemp -d)
trap 'rm -rf "$new"' EXIT

for plan in "$scenarios"/*.yaml; do
  name=$(basename -- "$plan" .yaml)
  status=0
  "$binary" run "$plan" >"$new/$name.txt" || status=$?
  if [ "$status" -gt 1 ]; then
    echo "accept.sh: $name ends with exit status $status; nothing was changed" >&2
    exit 1
  fi
  echo "$name $status" >>"$new/statuses"
  "$binary" run "$plan" --wide >"$new/$name.wide.txt" || :
  # What reserves do each day is in the CSV; one scenario has it in JSON too.
  within='^      "reserves": {$'
  [ "$name" != family-two-vehicles ] || within='^$'
  "$binary" run "$plan" --format json | sed "/$within/,/^      },\$/d" >"$new/$name.json"
  "$binary" run "$plan" --format csv >"$new/$name.csv" || :
done

rm -rf "$here/expected"
mkdir "$here/expected"
cp "$new"/* "$here/expected/"
# The block of README.md that shows a run: its first line is the command.
readme=$here/../../README.md
awk -v shown="$new/desert-crossing.txt" '
  skipping && /^```$/ { skipping = 0 }
  !skipping { print }
  /^\$ drystage run scenarios\/desert-crossing.yaml$/ {
    while ((getline line < shown) > 0) print line
    skipping = 1
  }' "$readme" >"$new/README.md"
cat "$new/README.md" >"$readme"
"$binary" help man >"$here/../../docs/drystage.1"

echo "accept.sh: written for $(wc -l <"$new/statuses") scenarios"
