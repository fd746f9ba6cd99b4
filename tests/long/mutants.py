"""Break the kit in hundreds of small ways and see whether the short suite notices each.

    python -m tests.long.mutants --count 300 --seed 1 [--rooms physics,units] [--patience 120] [--out FILE]

Each change is made in a copy of the project, so the checkout stays as it is, and the part of the short suite that can
reach it runs: with `--reach TRACED ...` at first the tests that are known to run the line (see reached.py). What is
done is kept in FILE, so the same command goes on where it was stopped. Changes that no test can see, because they
change nothing, are listed with their reasons in equivalent_mutants.toml.
"""

import argparse
import importlib.util
import json
import os
import queue
import random
import shutil
import subprocess
import sys
import tempfile
import time
import tomllib
from collections import Counter
from concurrent.futures import ThreadPoolExecutor, as_completed
from pathlib import Path

from tests.long.mutations import mutants, source_line
from tests.long.reached import Reach

PROJECT = Path(__file__).parents[2]
EQUIVALENT = Path(__file__).with_name("equivalent_mutants.toml")
COPIED = ("turbomath", "tests", "data", "lessons", "pyproject.toml", "README.md", "DEVELOPERS.md")
SHORT = ["-m", "not (long or process or browser)", "-x", "-q", "-n0", "-p", "no:cacheprovider"]
WORKERS, PATIENCE = 2, 120  # seconds that the tests of one change may take; a busy machine needs more
KILLED, SURVIVED, TIMED_OUT = "killed", "survived", "timed out"
VERDICTS = {0: SURVIVED, 1: KILLED, 2: KILLED}  # what pytest ends with: passed, failed, could not be collected

# Room -> (its files, the tests that reach them). "{folder}" is that of the change. What a lesson's
# pictures place where is looked at in a browser, so files that begin with "picture" are left out.
ROOMS = {
    "physics": (["physics/*.py"], ["tests/physics", "tests/published"]),
    "units": (["units/*.py"], ["tests/units", "tests/table"]),
    "uncertainty": (["uncertainty.py"], ["tests/test_uncertainty.py", "tests/lab/reduction"]),
    "lab": (["lab/**/*.py"], ["tests/{folder}", "tests/lab"]),
    "marking": (["homework/marking/*.py"], ["tests/homework/marking", "tests/homework"]),
    "path": (["engine/path.py", "engine/charge_*.py"], ["tests/engine/test_path.py", "tests/engine"]),
    "balance": (
        ["engine/balance.py", "engine/gas_path.py", "engine/settling.py", "engine/newton.py", "engine/guessing.py"],
        ["tests/engine"],
    ),
    "moist": (["air/moist.py", "air/moist_terms.py"], ["tests/air/test_moist.py", "tests/air", "tests/engine"]),
    "lessons": (["panels/*/[!p]*.py", "panels/*/p[!i]*.py"], ["tests/{folder}", "tests/panels"]),
}


def chosen(rooms, count, seed):
    """Return (room, mutant) pairs: as many of each room as of any other, drawn by the seed."""
    draw, picked = random.Random(seed), []
    for place, room in enumerate(rooms):
        files = sorted({path for glob in ROOMS[room][0] for path in (PROJECT / "turbomath").glob(glob)})
        texts = {path.relative_to(PROJECT).as_posix(): path.read_text(encoding="utf-8") for path in files}
        all_of_it = [one for file, text in texts.items() for one in mutants(file, text)]
        share = count // len(rooms) + (place < count % len(rooms))
        picked += [(room, one) for one in draw.sample(all_of_it, min(share, len(all_of_it)))]
    return picked


def tests_of(room, file):
    """Return the tests that can reach a file: its own examples, the tests that bear its name, then the rest."""
    inside = Path(file).relative_to("turbomath")
    namesakes = sorted(
        path.relative_to(PROJECT).as_posix() for path in PROJECT.glob(f"tests/**/test_{inside.stem}*.py")
    )
    named = [one.format(folder=inside.parent) for one in [f"turbomath/{inside}", *namesakes, *ROOMS[room][1]]]
    return [one for one in dict.fromkeys(named) if (PROJECT / one).exists()]


def copy_of_the_project(folder):
    """Return a copy that runs by itself, once it is sure that it imports itself and not the checkout."""
    for name in COPIED:
        source, place = PROJECT / name, folder / name
        shutil.copytree(source, place) if source.is_dir() else shutil.copy(source, place)
    found = run(folder, ["-c", "import turbomath; print(turbomath.__file__)"])
    assert Path(found.stdout.strip()).is_relative_to(folder), found.stdout + found.stderr
    return folder


def run(folder, arguments, patience=PATIENCE):
    """Run Python in a copy of the project; what it leaves behind stays there."""
    env = os.environ | {"PYTHONPATH": str(folder), "TURBOMATH_WORK": str(folder / "work"), "OMP_NUM_THREADS": "1"}
    command = [sys.executable, *arguments]
    return subprocess.run(command, cwd=folder, env=env, capture_output=True, text=True, timeout=patience)


def verdict(folder, room, mutant, patience, reach):
    """Make one change in a copy, run what can see it, and put the file back."""
    place = folder / mutant.file
    text = place.read_text(encoding="utf-8")
    try:
        _write(place, mutant.applied(text))
        for tests in filter(None, (reach.tests(mutant.file, mutant.line), tests_of(room, mutant.file))):
            done = run(folder, ["-m", "pytest", *SHORT, *tests], patience)
            if done.returncode not in VERDICTS:
                sys.exit(f"{mutant.name}: pytest ended with {done.stdout[-2000:]}")
            if VERDICTS[done.returncode] == KILLED:
                return KILLED
        return SURVIVED
    except subprocess.TimeoutExpired:
        return TIMED_OUT
    finally:
        _write(place, text)


def _write(place, text):
    """Write a source file, and drop what Python kept of it: two versions within a second look alike to it."""
    place.write_text(text, encoding="utf-8")
    Path(importlib.util.cache_from_source(place)).unlink(missing_ok=True)


def equivalents():
    """Return (file, line of the source, change) -> why no test can see it."""
    listed = tomllib.loads(EQUIVALENT.read_text(encoding="utf-8")).get("mutant", [])
    return {(one["file"], one["line"], one["change"]): one["reason"] for one in listed}


def report(results):
    """Print a line a room, then each change that nothing saw."""
    known = equivalents()
    for one in results:
        if one["verdict"] == SURVIVED and (one["file"], one["source"], one["change"]) in known:
            one["verdict"] = "equivalent"
    for room in dict.fromkeys(one["room"] for one in results):
        counts = Counter(one["verdict"] for one in results if one["room"] == room)
        real = counts.total() - counts["equivalent"]
        seen = counts[KILLED] + counts[TIMED_OUT]
        share = f"{seen / real:.0%}" if real else "-"
        print(f"{room:12} {share:>5} seen of {real}: " + ", ".join(f"{n} {what}" for what, n in counts.items()))
    for one in results:
        if one["verdict"] == SURVIVED:
            print(f"survived  {one['file']}:{one['at']}  {one['change']}\n          {one['source']}")


def main():
    """Choose, run what is not yet done, and report."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--count", type=int, default=300, help="how many changes (300)")
    parser.add_argument("--seed", type=int, default=1, help="which ones: the same seed draws the same (1)")
    parser.add_argument("--rooms", default=",".join(ROOMS), help=f"of {', '.join(ROOMS)} (all)")
    parser.add_argument("--patience", type=float, default=PATIENCE, help=f"seconds a change may take ({PATIENCE})")
    parser.add_argument("--out", type=Path, default=Path("mutants.jsonl"), help="where results are kept (%(default)s)")
    parser.add_argument("--reach", type=Path, nargs="*", default=[], help="traced runs: what tests run which line")
    asked = parser.parse_args()
    reach = Reach(PROJECT, asked.reach)
    picked = chosen(asked.rooms.split(","), asked.count, asked.seed)
    lines = asked.out.read_text(encoding="utf-8").splitlines() if asked.out.exists() else []
    done = {one["name"]: one for one in map(json.loads, lines)}
    left = [(room, mutant) for room, mutant in picked if mutant.name not in done]
    print(f"seed {asked.seed}: {len(picked)} changes, {len(left)} to do", flush=True)
    with tempfile.TemporaryDirectory() as temporary, ThreadPoolExecutor(WORKERS) as pool:
        copies = queue.SimpleQueue()
        for number in range(WORKERS):
            copies.put(copy_of_the_project(Path(temporary, str(number)).resolve()))

        def judged(room, mutant):
            folder, start = copies.get(), time.monotonic()
            try:
                found = verdict(folder, room, mutant, asked.patience, reach)
            finally:
                copies.put(folder)
            kept = {"name": mutant.name, "room": room, "file": mutant.file, "at": mutant.line, "change": mutant.change}
            return kept | {"source": source_line(PROJECT, mutant), "verdict": found, "s": time.monotonic() - start}

        with asked.out.open("a", encoding="utf-8") as file:
            for ended in as_completed([pool.submit(judged, *pair) for pair in left]):
                one = ended.result()
                done[one["name"]] = one
                file.write(json.dumps(one, ensure_ascii=False) + "\n")
                file.flush()
                print(f"{one['verdict']:10} {one['s']:5.0f} s  {one['name']}", flush=True)
    report([done[mutant.name] for _, mutant in picked])


if __name__ == "__main__":
    main()
