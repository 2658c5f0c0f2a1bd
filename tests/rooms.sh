#!/bin/sh
# Checks that data flows one way, as DEVELOPERS.md says. The folders of its table are the rooms: a
# file may include only what lies in its own room, in a room within that, or in one above it in the
# table. And within and between rooms nothing may go round in a circle: a header and the source of the same name count as
# one. Ends with 1 if something does.
# Usage: sh tests/rooms.sh
set -eu
cd "$(dirname "$0")/.."

{
  sed -n 's/^| `\(\(lib\|cli\)\/[a-z_/]*\)` .*/room \1/p' DEVELOPERS.md
  find lib cli \( -name '*.h' -o -name '*.cc' \) -exec grep -Ho '^#include "[^"]*\.h"' {} + |
    sed 's/:#include "/ /; s/"$//' | sort
} | awk '
    function room_of(path) { sub(/[^\/]*$/, "", path); return path }
    function part_of(path) { sub(/\.[a-z]*$/, "", path); return path }
    function below(path) { return path ~ /^cli\// ? path : "lib/" path }
    # Whether one thing includes another, at any remove.
    function leads(from, to,   seen, open, first, last, n, i, list) {
      delete seen
      open[last = 1] = from
      for (first = 1; first <= last; ++first) {
        if (open[first] == to) return 1
        n = split(targets[open[first]], list, " ")
        for (i = 1; i <= n; ++i)
          if (list[i] in part && !(list[i] in seen)) { seen[list[i]]; open[++last] = list[i] }
      }
      return 0
    }
    $1 == "room" { order[$2] = ++rooms; next }
    {
      from = part_of($1); room = room_of($1)
      to = below($2)
      if ($2 !~ /\//) to = "cli/" $2
      if (!(room in order)) { print $1 ": its folder is not in the table of DEVELOPERS.md"; bad = 1; order[room] = 999 }
      other = room_of(to)
      if (other in order && order[other] > order[room] && index(other, room) != 1) {
        print $1 ": includes " $2 ", which lies below it in the table of DEVELOPERS.md"
        bad = 1
      }
      to = part_of(to)
      if (from == to || (from, to) in edge) next
      edge[from, to] = 1
      targets[from] = targets[from] " " to
      part[from]; part[to]
    }
    END {
      # Take away whatever includes nothing that is left, until nothing more goes.
      do {
        went = 0
        for (p in part) {
          n = split(targets[p], list, " ")
          waits = 0
          for (i = 1; i <= n; ++i) if (list[i] in part) waits = 1
          if (!waits) { delete part[p]; went = 1 }
        }
      } while (went)
      for (p in part) {
        line = ""
        n = split(targets[p], list, " ")
        for (i = 1; i <= n; ++i) if (leads(list[i], p)) line = line " " list[i]
        if (line) { print "in a circle: " p " includes" line; bad = 1 }
      }
      exit bad
    }'
