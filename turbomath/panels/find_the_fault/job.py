"""Lesson 09: a job ticket. Readings and tests cost minutes; before each stands a guess, and its reason."""

from functools import cache, partial
from typing import Any

from turbomath.engine.faults.observed import FUEL
from turbomath.lab.faults import in_part
from turbomath.lab.faults.told import name_of, percent, shows
from turbomath.panels.find_the_fault import LESSON
from turbomath.panels.find_the_fault.job_desk import JobDesk
from turbomath.panels.find_the_fault.picture_change import Change, picture_change
from turbomath.panels.find_the_fault.readings import outside, readings
from turbomath.panels.find_the_fault.told import (
    ANSWER,
    BECAUSE,
    EARLIER,
    HEADS,
    MINUTES,
    OF_TEST,
    PRICES,
    RUNS,
    SUSPECTS,
    WORDS,
    name_of_item,
)
from turbomath.table.quantities import QUANTITIES
from turbomath.widgets.answers import Answer, Readout, Table
from turbomath.widgets.controls import Choice
from turbomath.widgets.panel import Panel

GIVEN = ("power",)
ON_TICKET = (FUEL, *GIVEN)
LIKELY = 3
SEEN = 0.01
PART = -3  # of the loads from the hardest down: the table has that and a part load


def _choice(name, options):
    return Choice(name, WORDS[name], (("", WORDS["none"]), *options), "")


CONTROLS = (
    _choice("guess", tuple(SUSPECTS.items())),
    _choice(
        "buy",
        (
            *(
                (key, WORDS["priced"].format(item=name_of_item(key), minutes=MINUTES[key]))
                for key in (*PRICES, *OF_TEST)
            ),
            (ANSWER, WORDS["name_it"]),
        ),
    ),
    _choice("because", tuple(BECAUSE.items())),
)
JUDGES = {  # on a phone, where there is no bill, a guess and what is picked count
    "paid": lambda record: bool(record.bought or (record.guess and record.buy)),
    "opened": lambda record: _is_open(record) or bool(record.guess and record.buy == ANSWER),
}


def panel(name: str) -> Panel:
    """Return the live panel of a job."""
    return Panel(LESSON.words[name].sheet(CONTROLS, partial(answer, RUNS[name]), judges=JUDGES), JobDesk)


def answer(run: str, controls: Any, system: str) -> Answer:
    """Return what the panel shows: the readings paid for, the bill, and what they say; at the end the cheapest way."""
    items = [one for one, *_ in controls.bought if one != ANSWER]
    gauges, tests = frozenset(items).intersection(PRICES), tuple(OF_TEST[one] for one in items if one in OF_TEST)
    found = in_part.in_part(run, EARLIER, gauges | frozenset(GIVEN), tests)
    spent = sum(MINUTES[one] for one in items)
    sentence = _ending(run, controls) if _is_open(controls) else _sentence(run, controls, items, found, system)
    readouts = (
        Readout("spent", str(spent), "minutes"),
        Readout("paid for", str(len(items)), ""),
        Readout("likeliest, simulated", percent(found.best.probability), ""),
    )
    seen = frozenset(PRICES) if _is_open(controls) else gauges
    tables = [_bill(run, controls), _readings(run, seen, system), _suspects(found), *_of_tests(tests)]
    return Answer((_picture(run, seen, system),), sentence, readouts, tuple(one for one in tables if one.rows))


@cache
def ways(run: str) -> tuple[Any, Any]:
    """Return the cheapest way to the fault of a job, and what would have fooled one."""
    given = frozenset(GIVEN)
    return in_part.cheapest(run, EARLIER, PRICES, given), in_part.fooled(run, EARLIER, tuple(PRICES), given)


def suspect_of(run: str) -> str:
    """Return the suspect that a job's fault is, by its key in `job.toml`."""
    fault = in_part.fault_of(run, EARLIER)
    return "gauge" if fault.sort == "gauge" else fault.name


def _is_open(controls):
    return any(item == ANSWER for item, *_ in controls.bought)


def _sentence(run, controls, items, found, system):
    if controls.buy:
        return WORDS["wait"]
    names = "; ".join(
        WORDS["one"].format(name=name_of(one), chance=percent(one.probability)) for one in found.named[:LIKELY]
    )
    now, before = outside(run, system)
    parts = [WORDS["nothing"].format(now=now, before=before)]
    if items:
        spent = sum(MINUTES[one] for one in items)
        parts = [WORDS["bought"].format(minutes=spent, item=name_of_item(items[-1]))]
        if test := OF_TEST.get(items[-1]):
            parts.append(WORDS["shows" if in_part.shows(test, run, EARLIER) else "shows_not"])
            parts += [WORDS["caution"].format(hazard=one.hazard.lower(), text=one.text) for one in test.cautions]
    return " ".join([*parts, WORDS["likely"].format(names=names)])


def _ending(run, controls):
    guess = next(guess for item, guess, _ in controls.bought if item == ANSWER)
    name, (way, (wrong, other)) = name_of(in_part.fault_of(run, EARLIER)), ways(run)
    said = "unnamed" if not guess else "right" if guess == suspect_of(run) else "wrong"
    parts = [WORDS[said].format(name=name, guess=SUSPECTS.get(guess, ""))]
    if way:
        paid = [*map(name_of_item, way.gauges), *([f'"{way.test.name}"'] if way.test else [])]
        parts.append(WORDS["path"].format(items=_listed(paid), minutes=way.minutes))
    fooled = WORDS["fooled" if other.probability > 1 / LIKELY else "not_fooled"]
    alone = _listed([*map(name_of_item, wrong)])
    parts.append(fooled.format(readings=alone, name=name_of(other), chance=percent(other.probability)))
    return " ".join(parts)


def _listed(names):
    *before, last = names
    return WORDS["and"].format(one=", ".join(before), other=last) if before else last


def _picture(run, gauges, system):
    changes = []
    for name in (*ON_TICKET, *PRICES):
        told = readings(run, name, system)[-1] if name in gauges or name in ON_TICKET else None
        label = QUANTITIES[name].plain_name
        changes.append(Change(label, told.times if told else None, told.change if told else WORDS["unread"]))
    return picture_change(WORDS["picture"], changes, (HEADS["reading"], HEADS["change"]))


def _bill(run, controls):
    heads = tuple(HEADS[one] for one in ("paid", "minutes", "thought", "reason", "showed"))
    rows = []
    for item, guess, because in controls.bought:
        if item == ANSWER or not guess:  # on paper nobody has guessed
            continue
        test = OF_TEST.get(item)
        showed = HEADS["something" if in_part.shows(test, run, EARLIER) else "silent"] if test else WORDS["none"]
        said = SUSPECTS.get(guess, WORDS["none"]), BECAUSE.get(because, WORDS["none"])
        rows.append((name_of_item(item), str(MINUTES[item]), *said, showed))
    return Table(HEADS["bill"], heads, tuple(rows))


def _readings(run, gauges, system):
    heads = tuple(HEADS[one] for one in ("reading", "load", "healthy", "now", "change"))
    rows = [
        (QUANTITIES[name].plain_name, one.load, one.healthy, one.now, one.change)
        for name in (*ON_TICKET, *PRICES)
        if name in gauges or name in ON_TICKET
        for one in readings(run, name, system)[::PART]
    ]
    return Table(HEADS["readings"], heads, tuple(rows))


def _suspects(found):
    heads = tuple(HEADS[one] for one in ("suspect", "chance", "does"))
    named = [one for one in found.named if one.probability >= SEEN]
    return Table(HEADS["suspects"], heads, tuple((name_of(one), percent(one.probability), shows(one)) for one in named))


def _of_tests(tests):
    """Return how the tests are done, and their cautions."""
    every = dict.fromkeys(one for test in tests for one in test.cautions)
    done = tuple((test.name, test.text) for test in tests)
    return [
        Table(HEADS["done"], (HEADS["test"], HEADS["how"]), done),
        Table(HEADS["safety"], (HEADS["hazard"], HEADS["text"]), tuple((one.hazard, one.text) for one in every)),
    ]
