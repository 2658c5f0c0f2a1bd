#!/bin/sh
# Compares what two programs answer, on every scenario and on 200 frozen plans of all kinds: the
# structure and every word must be the same, numbers in JSON within a billionth. A change that is to
# change no answer is shown by this. (The plans were drawn once by tests/support/random_plan.h and
# by_hand_plans.h, those left out for which some answer takes more than two seconds.)
# Usage: sh tests/same_behaviour.sh OLD NEW [FILTER]
#   OLD, NEW  programs; OLD may also be a revision of the repository, which is then built
#   FILTER    a pattern of grep: only answers whose name matches it, for instance '/needs\.'
# Answers are kept in build/behaviour, by the program's checksum, and not asked for twice.
set -eu
LC_ALL=C
NO_COLOR=1
COLUMNS=80
export LC_ALL NO_COLOR COLUMNS
case "${1:-}" in
  '' | -h | --help) sed -n '2,/^set -eu/s/^# \{0,1\}//p' "$0" | sed '$d'; exit 2 ;;
esac
[ $# -ge 2 ] || { echo "usage: same_behaviour.sh OLD NEW [FILTER]" >&2; exit 2; }

absolute() { (cd "$(dirname -- "$1")" && printf '%s/%s\n' "$PWD" "$(basename -- "$1")"); }
old=$1
[ ! -x "$1" ] || old=$(absolute "$1")
new=$(absolute "$2")
filter=${3:-.}
cd "$(dirname "$0")/.."
root=$PWD
kept=$root/build/behaviour
mkdir -p "$kept/plans"
jobs=$(nproc 2>/dev/null || echo 2)

if [ ! -x "$old" ]; then
  revision=$(git rev-parse --verify "$old^{commit}")
  tree=$kept/$revision
  if [ ! -x "$tree/build/drystage" ]; then
    mkdir -p "$tree"
    git archive "$revision" | tar -x -C "$tree"
    cmake -S "$tree" -B "$tree/build" -G Ninja -DDRYSTAGE_TESTS=OFF >"$tree/log" &&
      cmake --build "$tree/build" --target drystage-bin >>"$tree/log" || { cat "$tree/log"; exit 2; }
  fi
  old=$tree/build/drystage
fi

# The plans, each in a file; the scenarios under their names.
cp scenarios/*.yaml "$kept/plans/"
gunzip -c tests/frozen_plans.yaml.gz | awk -v folder="$kept/plans" '
  /^---$/ { if (file) close(file); file = sprintf("%s/frozen-%03d.yaml", folder, ++n); next }
  { print >file }'

# What is asked: NAME PLAN COMMAND OPTIONS. Slow answers of some plans only.
questions() {
  for plan in "$kept"/plans/*.yaml; do
    name=$(basename -- "$plan" .yaml)
    echo "$name/check.txt $name check"
    echo "$name/run.txt $name run --wide"
    for command in run needs mishaps size; do
      echo "$name/$command.json $name $command --format json"
      echo "$name/$command.csv $name $command --format csv"
      [ "$command" = run ] || echo "$name/$command.txt $name $command"
    done
    case "$name" in
      frozen-?[02468]?) continue ;;
      frozen-*) echo "$name/two.json $name mishaps --two --format json" && continue ;;
      long-loop) ;;
      *) echo "$name/two.json $name mishaps --two --format json" ;;
    esac
    echo "$name/hot.json $name run --weather hot --format json"
    echo "$name/card.html $name card --output -.html"
    echo "$name/chart.svg $name run --chart -.svg"
    case "$name" in
      coast-road | long-loop) ;;
      *) echo "$name/survive.json $name size --survive mishap --format json" ;;
    esac
  done
}
questions | grep -E -- "$filter" >"$kept/questions"

# answers PROGRAM: asks it all that it has not been asked before. Says where the answers are.
answers() {
  mine=$kept/$(cksum <"$1" | tr -d ' ')
  mkdir -p "$mine"
  program=$1
  export program mine kept
  # shellcheck disable=SC2016
  xargs -P "$jobs" -L 1 sh -c '
    answer=$mine/$1 plan=$2
    [ ! -e "$answer" ] || exit 0
    mkdir -p "${answer%/*}"
    shift 2
    cd "$kept/plans"
    command=$1
    shift
    # A picture goes to a file beside the answer.
    for option; do
      shift
      case "$option" in -.*) option=$answer.picture${option#-} ;; esac
      set -- "$@" "$option"
    done
    status=0
    "$program" "$command" "$plan.yaml" "$@" >"$answer.part" 2>&1 || status=$?
    for picture in "$answer".picture.*; do
      [ -e "$picture" ] || continue
      sed "s|$answer.picture|picture|" "$answer.part" >"$answer.words"
      cat "$answer.words" "$picture" >"$answer.part"
      rm "$answer.words" "$picture"
    done
    echo "status $status" >>"$answer.part"
    mv "$answer.part" "$answer"' question <"$kept/questions"
  echo "$mine"
}
was=$(answers "$old")
is=$(answers "$new")

# Line by line: the same, but for a number at the end of a line of JSON.
compare() {
  awk -v name="$1" -v was="$2" -v is="$3" '
    function number(line) { return match(line, /-?[0-9]+(\.[0-9]+)?(e[-+]?[0-9]+)?,?$/) }
    function near(a, b,   size) {
      a += 0; b += 0
      size = a < 0 ? -a : a
      if (size < 1) size = 1
      return (a > b ? a - b : b - a) <= 1e-9 * size
    }
    function tell(a, b) {
      if (told++ == 0) print name ":"
      if (told <= 3) { print "  was: " a; print "  is:  " b }
    }
    BEGIN {
      json = name ~ /\.json$/
      while ((more = (getline a <was)) > 0) {
        if ((getline b <is) <= 0) { tell(a, "(nothing)"); break }
        if (a == b) continue
        if (json && number(a)) {
          x = substr(a, RSTART); head = substr(a, 1, RSTART - 1)
          if (number(b) && substr(b, 1, RSTART - 1) == head && near(x, substr(b, RSTART))) continue
        }
        tell(a, b)
      }
      if (more <= 0 && (getline b <is) > 0) tell("(nothing)", b)
      exit told > 0
    }'
}
different=0
total=0
while read -r name _; do
  total=$((total + 1))
  cmp -s "$was/$name" "$is/$name" || compare "$name" "$was/$name" "$is/$name" ||
    different=$((different + 1))
done <"$kept/questions"
echo "$((total - different)) of $total answers are the same."
[ "$different" -eq 0 ]
