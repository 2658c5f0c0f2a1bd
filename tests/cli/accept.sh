#!/bin/sh
# Writes tests/cli/expected anew from what BINARY prints, what README.md, docs/guide.md and
# docs/evening.md show of it, the picture in README.md, and the manual page. Read the changes before
# keeping them.
set -eu

if [ $# -ne 1 ] || [ ! -x "$1" ]; then
  echo "usage: accept.sh BINARY" >&2
  exit 2
fi
binary=$(CDPATH= cd -- "$(dirname -- "$1")" && pwd)/$(basename -- "$1")
here=$(CDPATH= cd -- "$(dirname -- "$0")" && pwd)
project=$here/../..
scenarios=$project/scenarios
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

# drystage ARGUMENT...: the program, as the pages call it.
drystage() {
  "$binary" "$@" || :
}

# refresh PAGE FOLDER FILTER: in each block of a page that begins with a command, what it prints now
# in that folder, through the filter.
refresh() {
  shown=
  while IFS= read -r line; do
    case $line in
      '$ drystage '*)
        printf '%s\n' "$line"
        (cd "$2" && eval "${line#\$ }" </dev/null | eval "$3")
        shown=yes
        ;;
      '```')
        shown=
        printf '%s\n' "$line"
        ;;
      *) [ -n "$shown" ] || printf '%s\n' "$line" ;;
    esac
  done <"$1" >"$new/page"
  cat "$new/page" >"$1"
}

refresh "$project/README.md" "$project" "sed '/^\$/,\$d'"
"$binary" start --defaults >"$new/trip.yaml"
refresh "$project/docs/guide.md" "$new" cat
refresh "$project/docs/evening.md" "$project" cat

"$binary" card "$scenarios/desert-crossing-mended.yaml" --output "$new/card.pdf" >/dev/null
pdftoppm -r 80 -gray -f 1 -l 1 -singlefile -png "$new/card.pdf" "$project/docs/card"
"$binary" help man >"$project/docs/drystage.1"

echo "accept.sh: written for $(wc -l <"$new/statuses") scenarios"
