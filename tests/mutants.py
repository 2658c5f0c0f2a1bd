#!/usr/bin/env python3
"""Puts small faults into lib/models, lib/engine and lib/answers, one at a time, and lists those that
no test notices.

Usage: python3 tests/mutants.py [--count N] [--seed N] [--jobs N] [--build DIR] [--tests DIR]
       [--slow SECONDS]

All faults are compiled in at once, in a copy of the sources, and one of them is switched on by the
variable MUTANT; so there is one build, and not one for each. A fault is another sign, a dropped
term, a product for a quotient, another bound (< for <=), or the greater for the lesser. Places where
that does not compile are left out. Then the tests that take no longer than SECONDS are run with each
fault until one fails; a fault with which they do not end is noticed too.
"""
import argparse
import concurrent.futures
import json
import os
import pathlib
import random
import re
import shutil
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
PLACES = ("lib/models", "lib/engine", "lib/answers")

# What stands in the text, the operator's letter in mutant.h, and the letters of what may stand in
# its place: l is the left side alone.
OPERATORS = [
    (" + ", "+", "+", "-l"),
    (" - ", "-", "-", "+l"),
    (" * ", "*", "*", "/l"),
    (" / ", "/", "/", "*l"),
    (" < ", "<", "<", "L"),
    (" <= ", "<=", "L", "<"),
    (" > ", ">", ">", "G"),
    (" >= ", ">=", "G", ">"),
]
CALLS = [("std::min(", "mutant::min_or_max"), ("std::max(", "mutant::max_or_min")]
MEANING = {"+": "+", "-": "-", "*": "*", "/": "/", "<": "<", "L": "<=", ">": ">", "G": ">=",
           "l": "nothing"}
LEFT_OUT = re.compile(r'^\s*(//|#|template|using|case|namespace|friend)|constexpr|static_assert|"|'
                      r"operator|requires|noexcept")

HEADER = r"""
#pragma once
#include <algorithm>
#include <cstdlib>
#include <type_traits>
namespace mutant {
inline const long chosen = [] {
  const char* const wanted = std::getenv("MUTANT");
  return wanted == nullptr ? 0L : std::atol(wanted);
}();
template <class T>
concept Number = std::is_arithmetic_v<T> && !std::is_same_v<T, bool>;
template <long n, char op, char instead>
struct At {};
template <class T, long n, char op, char instead>
struct Left {
  T value;
};
template <char op>
auto apply(auto a, auto b) {
  if constexpr (op == '+') return a + b;
  if constexpr (op == '-') return a - b;
  if constexpr (op == '*') return a * b;
  if constexpr (op == '/') return a / b;
  if constexpr (op == '<') return a < b;
  if constexpr (op == 'L') return a <= b;
  if constexpr (op == '>') return a > b;
  if constexpr (op == 'G') return a >= b;
  if constexpr (op == 'l') return a;
}
#define MUTANT_OPERATOR(sign, op)                                            \
  template <Number T, long n, char instead>                                  \
  Left<T, n, op, instead> operator sign(T a, At<n, op, instead>) {           \
    return {a};                                                              \
  }                                                                          \
  template <Number T, Number U, long n, char instead>                        \
  auto operator sign(Left<T, n, op, instead> left, U b)->decltype(left.value sign b) { \
    using Out = decltype(left.value sign b);                                 \
    return chosen == n ? static_cast<Out>(apply<instead>(left.value, b)) : left.value sign b; \
  }
MUTANT_OPERATOR(+, '+')
MUTANT_OPERATOR(-, '-')
MUTANT_OPERATOR(*, '*')
MUTANT_OPERATOR(/, '/')
MUTANT_OPERATOR(<, '<')
MUTANT_OPERATOR(<=, 'L')
MUTANT_OPERATOR(>, '>')
MUTANT_OPERATOR(>=, 'G')
#undef MUTANT_OPERATOR
template <long n, Number T>
T min_or_max(T a, T b) {
  return chosen == n ? std::max(a, b) : std::min(a, b);
}
template <long n, Number T>
T max_or_min(T a, T b) {
  return chosen == n ? std::min(a, b) : std::max(a, b);
}
}  // namespace mutant
"""


class Fault:
    def __init__(self, number, path, line, column, length, text, meaning):
        self.number, self.path, self.line, self.column = number, path, line, column
        self.length, self.text, self.meaning = length, text, meaning

    def __str__(self):
        return f"{self.path}:{self.line}:{self.column + 1}: {self.meaning}"


def candidates():
    """Every place at which a fault may be put, with what may stand there."""
    out = []
    for place in PLACES:
        for path in sorted((ROOT / place).rglob("*.cc")):
            if "generate" in path.parts:
                continue
            name = str(path.relative_to(ROOT))
            for at, line in enumerate(path.read_text().splitlines(), 1):
                if LEFT_OUT.search(line):
                    continue
                code = line.split("//")[0]
                for spelt, sign, op, others in OPERATORS:
                    for found in re.finditer(re.escape(spelt), code):
                        for other in others:
                            out.append((name, at, found.start(), len(spelt),
                                        f" {sign} mutant::At<NUMBER, '{op}', '{other}'>{{}} {sign} ",
                                        f"{sign} becomes {MEANING[other]}"))
                for spelt, call in CALLS:
                    for found in re.finditer(re.escape(spelt), code):
                        out.append((name, at, found.start(), len(spelt), f"{call}<NUMBER>(",
                                    f"{spelt[:-1]} becomes the other"))
    return out


def choose(count, seed):
    """So many of them, from all files; never two at one place."""
    pick = random.Random(seed)
    all_places = candidates()
    pick.shuffle(all_places)
    by_file = {}
    for place in all_places:
        by_file.setdefault(place[0], []).append(place)
    files = list(by_file)
    pick.shuffle(files)
    faults, taken = [], set()
    while len(faults) < count and any(by_file.values()):
        for name in files:
            while by_file[name]:
                place = by_file[name].pop()
                if (place[0], place[1]) not in taken:
                    taken.add((place[0], place[1]))
                    number = len(faults) + 1
                    faults.append(Fault(number, *place[:4], place[4].replace("NUMBER", str(number)),
                                        place[5]))
                    break
            if len(faults) >= count:
                break
    return faults


def write(tree, faults):
    by_file = {}
    for fault in faults:
        by_file.setdefault(fault.path, []).append(fault)
    for place in PLACES:
        for path in (ROOT / place).rglob("*.cc"):
            name = str(path.relative_to(ROOT))
            lines = path.read_text().split("\n")
            for fault in by_file.get(name, []):
                line = lines[fault.line - 1]
                lines[fault.line - 1] = (line[:fault.column] + fault.text
                                         + line[fault.column + fault.length:])
            text = "\n".join(lines)
            if (tree / name).read_text() != text:
                (tree / name).write_text(text)


def build(tree, out, faults, jobs, tests):
    """Builds with all faults in; drops those that do not compile."""
    objects = [f"-DDRYSTAGE_TEST_OBJECTS={tests.resolve()}"] if tests else []
    subprocess.run(["cmake", "-S", tree, "-B", out, "-G", "Ninja", "-DCMAKE_BUILD_TYPE=Release",
                    "-DCMAKE_CXX_COMPILER=clang++", "-DDRYSTAGE_BENCH=OFF", "-DDRYSTAGE_PCH=TESTS",
                    "-DDRYSTAGE_UNITY_FILES=12",
                    f"-DCMAKE_CXX_FLAGS=-std=c++20 -O1 -w -include {tree}/mutant.h", *objects],
                   check=True, stdout=subprocess.DEVNULL)
    while True:
        write(tree, faults)
        made = subprocess.run(["ninja", "-C", out, "-k", "0", "-j", str(jobs), "drystage-bin",
                               "drystage_tests"], capture_output=True, text=True)
        if made.returncode == 0:
            return faults
        wrong = set()
        for path, line in re.findall(r"^(\S+?):(\d+):\d+: (?:error|note)", made.stdout, re.M):
            if str(tree) in path:
                wrong.add((str(pathlib.Path(path).relative_to(tree)), int(line)))
        kept = [f for f in faults if (f.path, f.line) not in wrong]
        if len(kept) == len(faults):
            near = {(path, line + off) for path, line in wrong for off in range(-20, 21)}
            kept = [f for f in faults if (f.path, f.line) not in near]
        if len(kept) == len(faults):
            sys.exit(made.stdout[-4000:])
        print(f"{len(faults) - len(kept)} do not compile", flush=True)
        faults = kept


def environment(out, number, leave_out=()):
    env = dict(os.environ, MUTANT=str(number), DRYSTAGE_PROGRAM=f"{out}/drystage",
               RC_PARAMS="seed=1 max_success=10")
    if leave_out:
        env["GTEST_FILTER"] = "-" + ":".join(leave_out)
    return env


def tests_to_leave_out(out, slow_s):
    """Those that are slow, or fail without any fault."""
    report = out / "tests.json"
    subprocess.run([out / "tests/drystage_tests", f"--gtest_output=json:{report}"],
                   env=environment(out, 0), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    left_out, count = [], 0
    for suite in json.loads(report.read_text())["testsuites"]:
        for test in suite["testsuite"]:
            count += 1
            if float(test["time"][:-1]) > slow_s or test.get("failures"):
                left_out.append(f"{suite['name']}.{test['name']}")
    print(f"{count - len(left_out)} of {count} tests are asked", flush=True)
    return left_out


def noticed_by(out, fault, left_out):
    """The test that notices a fault; None where none does."""
    try:
        ran = subprocess.run([out / "tests/drystage_tests", "--gtest_fail_fast", "--gtest_brief=1"],
                             env=environment(out, fault.number, left_out), capture_output=True,
                             text=True, errors="replace", timeout=400)
    except subprocess.TimeoutExpired:
        return "does not end"
    if ran.returncode == 0:
        return None
    failed = re.search(r"^\[  FAILED  \] (\S+)", ran.stdout, re.M)
    return failed.group(1) if failed else f"status {ran.returncode}"


def main():
    ask = argparse.ArgumentParser(description=__doc__.split("\n\n")[0])
    ask.add_argument("--count", type=int, default=240)
    ask.add_argument("--seed", type=int, default=1)
    ask.add_argument("--jobs", type=int, default=os.cpu_count())
    ask.add_argument("--build", type=pathlib.Path, default=ROOT / "build/mutants")
    ask.add_argument("--tests", type=pathlib.Path, help="objects of tests compiled before: the "
                     "folder .../tests/CMakeFiles/drystage_test_objects.dir of another build")
    ask.add_argument("--slow", type=float, default=0.3)
    asked = ask.parse_args()
    out = asked.build.resolve()
    tree = out / "tree"
    shutil.rmtree(tree, ignore_errors=True)
    tree.mkdir(parents=True)
    for name in subprocess.run(["git", "-C", ROOT, "ls-files"], capture_output=True, text=True,
                               check=True).stdout.split("\n"):
        if name and (ROOT / name).exists():
            (tree / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(ROOT / name, tree / name)
    (tree / "mutant.h").write_text(HEADER)
    faults = build(tree, out / "build", choose(asked.count, asked.seed), asked.jobs,
                   asked.tests)
    print(f"{len(faults)} faults", flush=True)
    left_out = tests_to_leave_out(out / "build", asked.slow)
    survivors = []
    with concurrent.futures.ThreadPoolExecutor(asked.jobs) as pool:
        asking = {pool.submit(noticed_by, out / "build", f, left_out): f for f in faults}
        for done, each in enumerate(concurrent.futures.as_completed(asking), 1):
            fault = asking[each]
            if each.result() is None:
                survivors.append(fault)
                print(f"{done}: NOT NOTICED {fault}", flush=True)
            else:
                print(f"{done}: {fault}: {each.result()}", flush=True)
    print(f"{len(faults) - len(survivors)} of {len(faults)} faults are noticed")
    for fault in sorted(survivors, key=str):
        print(f"not noticed: {fault}")
    return 1 if survivors else 0


if __name__ == "__main__":
    sys.exit(main())
