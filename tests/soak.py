#!/usr/bin/env python3
"""Asks a program everything, of plans that are right, wrong, and changed at random.

usage: soak.py --program PATH [--seconds N | --runs N] [--seed S] [--keep FOLDER] [--no-drawing]

Runs one question after the other until the time is up or so many were asked. A question is a
command with some options on a scenario, a wrong plan or a frozen one, half of the time with faults
put in: a line lost, doubled or moved, a number or a letter changed. It is a fault of the program if

  - it ends with another status than 0 to 3, or by a signal;
  - it says anything that a sanitizer says;
  - what it prints is no UTF-8, or would be obeyed by a terminal;
  - JSON or SVG that it wrote is not well-formed.

The plan and the question of each fault are kept. Ends with 1 if there was one.
"""
import argparse
import gzip
import json
import os
import random
import re
import subprocess
import sys
import tempfile
import time
import xml.etree.ElementTree as xml
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent

QUESTIONS = [
    "check", "run", "run --all --wide", "run --format json", "run --format csv", "run --weather hot",
    "run --weather dull --format json", "run --chart OUT.svg", "run --chart OUT.pdf", "needs",
    "needs --format json", "mishaps", "mishaps --format json", "mishaps --chart OUT.svg",
    "size", "size --format json", "size --survive mishap", "size --write OUT.yaml",
    "size --confidence 80% --trips 40", "odds --trips 20", "odds --trips 20 --format json",
    "odds --trips 20 --chart OUT.svg", "odds --trip 3", "weigh", "weigh --format json",
    "weigh --chart OUT.svg", "resume --evening 2 --drinking 20L", "resume --finish",
    "card --output OUT.pdf", "card --with all --output OUT.svg", "card --output OUT.html",
    "card --output OUT.png", "run --set people.1.age=200 --format json",
]
SANITIZERS = re.compile(rb"AddressSanitizer|LeakSanitizer|ThreadSanitizer|runtime error:")
OBEYED = re.compile(r"[\x00-\x08\x0b-\x1f\x7f\u0080-\u009f\u2028-\u202e\u2066\u2067\u2069]")
LONGEST_S = 120


def plans():
    """Texts of plans by name."""
    found = {p.name: p.read_bytes() for p in sorted((ROOT / "scenarios").glob("*.yaml"))}
    found |= {"wrong/" + p.name: p.read_bytes() for p in sorted((ROOT / "tests/wrong").glob("*.yaml"))}
    frozen = gzip.decompress((ROOT / "tests/frozen_plans.yaml.gz").read_bytes())
    for number, text in enumerate(frozen.split(b"\n---\n")):
        found[f"frozen-{number}"] = text
    return found


def with_faults(text, chance):
    lines = text.split(b"\n")
    for _ in range(chance.randint(1, 3)):
        at = chance.randrange(len(lines))
        line = lines[at]
        kind = chance.randrange(6)
        if kind == 0:
            del lines[at]
        elif kind == 1:
            lines.insert(at, line)
        elif kind == 2:
            lines.insert(chance.randrange(len(lines) + 1), lines.pop(at))
        elif kind == 3 and re.search(rb"\d+", line):
            new = chance.choice([b"0", b"-1", b"1e9", b"3.7", b"nan", b"99999999999999999999"])
            lines[at] = re.sub(rb"\d+", new, line, count=1)
        elif line:
            place = chance.randrange(len(line))
            new = bytes([chance.randrange(256)]) if kind == 4 else chance.choice([b"", b"{", b"]", b":", b"'", b"\\"])
            lines[at] = line[:place] + new + line[place + 1 :]
        if not lines:
            lines = [b""]
    return b"\n".join(lines)


def faults_of(words, outcome, folder):
    found = []
    if outcome.returncode not in (0, 1, 2, 3):
        found.append(f"status {outcome.returncode}")
    if SANITIZERS.search(outcome.stderr) or SANITIZERS.search(outcome.stdout):
        found.append("a sanitizer complains")
    for name, printed in (("output", outcome.stdout), ("errors", outcome.stderr)):
        try:
            if OBEYED.search(printed.decode().replace("\r\n", "\n")):
                found.append(f"{name}: a character that is obeyed")
        except UnicodeDecodeError:
            found.append(f"{name}: no UTF-8")
    if "json" in words and outcome.returncode in (0, 1):
        try:
            json.loads(outcome.stdout)
        except ValueError as error:
            found.append(f"JSON: {error}")
    for drawn in folder.glob("out.svg"):
        try:
            xml.parse(drawn)
        except xml.ParseError as error:
            found.append(f"SVG: {error}")
    return found


def main():
    reader = argparse.ArgumentParser()
    reader.add_argument("--program", required=True)
    reader.add_argument("--seconds", type=float)
    reader.add_argument("--runs", type=int)
    reader.add_argument("--seed", type=int, default=1)
    reader.add_argument("--keep", default="build/soak")
    reader.add_argument("--no-drawing", action="store_true", help="nothing that Pango draws")
    asked = reader.parse_args()
    program = os.path.abspath(asked.program)
    chance = random.Random(asked.seed)
    end = time.monotonic() + asked.seconds if asked.seconds else None
    known = plans()
    drawn = re.compile(r"OUT\.(svg|pdf|png)")
    questions = [q for q in QUESTIONS if not (asked.no_drawing and drawn.search(q))]
    kept = Path(asked.keep)
    done, bad, slow = 0, 0, 0
    while (end is None or time.monotonic() < end) and (asked.runs is None or done < asked.runs):
        name = chance.choice(list(known))
        text = known[name]
        if chance.random() < 0.5:
            text = with_faults(text, chance)
        question = chance.choice(questions)
        with tempfile.TemporaryDirectory() as place:
            folder = Path(place)
            (folder / "plan.yaml").write_bytes(text)
            for other in (ROOT / "tests/wrong/kits", ROOT / "scenarios"):
                (folder / other.name).symlink_to(other)
            words = question.replace("OUT", str(folder / "out")).split()
            words.insert(1, str(folder / "plan.yaml"))
            try:
                outcome = subprocess.run(
                    [program, *words], capture_output=True, timeout=LONGEST_S, stdin=subprocess.DEVNULL, check=False)
            except subprocess.TimeoutExpired:
                slow += 1
                print(f"not ended in {LONGEST_S} s: {question} of {name}", flush=True)
                continue
            found = faults_of(words, outcome, folder)
        done += 1
        if found:
            bad += 1
            kept.mkdir(parents=True, exist_ok=True)
            (kept / f"fault-{bad}.yaml").write_bytes(text)
            told = f"{question} of {name}: {'; '.join(found)}"
            (kept / f"fault-{bad}.txt").write_bytes(told.encode() + b"\n" + outcome.stdout[-2000:] + outcome.stderr[-8000:])
            print(f"FAULT {bad}: {told}", flush=True)
    print(f"{done} questions asked, {bad} faults, {slow} not ended in {LONGEST_S} s (seed {asked.seed})")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
