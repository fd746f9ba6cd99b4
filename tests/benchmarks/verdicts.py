"""What the verdicts say of simulated engines, sound or with one thing wrong; the simulator is no code of the kit.

    python -m tests.benchmarks.verdicts [ENGINES]

Bars: of sound engines at most 5 % are told "does not hold", for each of the three verdicts, with the maker's figure and
an earlier run, with one of the two, and with neither; of engines that have lost 15 % of their boost, of compressors
0.08 below their design and of aftercoolers 0.10 below theirs at least 95 % are seen. Pressure gauges are 1A and 2A of
ASME B40.100, thermocouples K and T with the standard limits of ASTM E230. A last line tells what a B gauge does: it is
judged by no bar. Exits with 1 where a bar is missed.
"""

import sys

from tests.lab.verdicts.many_runs import LOST_BOOST, answers, share
from turbomath.lab import verdicts

SOUND, FAULTY = 2_000, 400
MOST_FALSE, LEAST_SEEN = 0.05, 0.95
QUESTIONS = ("boost", "machines", "charge")
SOURCES = {
    "maker and earlier run": {},
    "earlier run only": {"rated": False},
    "maker only": {"earlier": False},
}


def main(count=SOUND):
    """Print every bar; return 1 if one is missed."""
    faulty = max(20, count * FAULTY // SOUND)
    held = [_sound(name, options, count if not options else faulty) for name, options in SOURCES.items()]
    held += [_seen(wrong, "boost", faulty, rated=False) for wrong in LOST_BOOST]
    held += [_seen(wrong, "machines", faulty) for wrong in ("compressor", "aftercooler")]
    coarse = share(answers(faulty, "slack wastegate", rated=False, grade="B"), "boost")
    print(f"slack wastegate, grade B boost gauge ({faulty}): boost seen {coarse:.1%}; no bar")
    return int(not all(held))


def _sound(name, options, count):
    found = answers(count, **options)
    false = {question: share(found, question) for question in QUESTIONS}
    unsure = {question: share(found, question, verdicts.UNKNOWN) for question in QUESTIONS}
    ok = all(value <= MOST_FALSE for value in false.values())
    print(
        f"sound, {name} ({count}): called wrong {_texts(false)}; cannot tell {_texts(unsure)}; {_bar(ok)}", flush=True
    )
    return ok


def _seen(wrong, question, count, **options):
    engines = "with an aftercooler" if wrong == "aftercooler" else ""
    found = [one for one in answers(count, wrong, **options) if not engines or _cooled(one)]
    seen = share(found, question)
    ok = seen >= LEAST_SEEN
    print(f"{wrong} ({len(found)} {engines}): {question} seen {seen:.1%}; {_bar(ok)}".replace(" )", ")"), flush=True)
    return ok


def _cooled(one):
    return any(point.quantity == "effectiveness" for point in one.machines.points)


def _texts(shares):
    return ", ".join(f"{name} {value:.1%}" for name, value in shares.items())


def _bar(ok):
    return "ok" if ok else "MISSED"


if __name__ == "__main__":
    sys.exit(main(*(int(word) for word in sys.argv[1:])))
