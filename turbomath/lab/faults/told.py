"""What the fault finder says: one answer, what else would show it, the next test, and what all that is worth."""

import textwrap

from turbomath.engine.faults.naming import SOUND, Named
from turbomath.lab.faults.held_against import EARLIER, FITTED, READY, SISTER, Found
from turbomath.lab.faults.next_test import ShopTest, next_test
from turbomath.table import cautions, prose
from turbomath.table.errors import short
from turbomath.table.quantities import QUANTITIES
from turbomath.units.rounding import fixed

CERTAIN = {
    EARLIER: 0.90,
    SISTER: 0.95,
    FITTED: 0.95,
    READY: 0.97,
}  # from here on one fault is named alone; with less known, later
GROUP, SHOWN = 0.95, 0.01  # of the chance, all that is in a group together; the least that is shown
MOST_SHOWN, WIDE = 6, 100
IN_DEGREES = ("late_timing", "hot_intake")  # their size is no share
DOUBTFUL = 0.05  # chance of a sound engine, from which that is said

_WORDS = prose.read(__file__, "words.toml")
_TABLES = {name: _WORDS.table(name) for name in ("head", "answer", "sure", "parts", "fault", "gauge")}
SIMULATED, MAKER = _WORDS.text("simulated"), _WORDS.text("maker")
_FAULTS = {name: _TABLES["fault"].table(name) for name in _TABLES["fault"].names()}
_GAUGES = {name: _TABLES["gauge"].table(name) for name in _TABLES["gauge"].names()}
_RAW = {
    (name, part): table.raw(part)
    for tables in (_FAULTS, _GAUGES)
    for name, table in tables.items()
    for part in table.names()
}
_SAID = {
    name: {one: _TABLES[name].raw(one) for one in _TABLES[name].names()} for name in ("head", "answer", "sure", "parts")
}
_WORDS.finished()


def percent(chance: float) -> str:
    """Return a chance in words; nothing is quite sure."""
    return "more than 99 %" if chance > 0.99 else "less than 1 %" if chance < 0.01 else f"{fixed(100 * chance, 0)} %"


def name_of(one: Named) -> str:
    """Return a candidate in the shop's words."""
    sort, _, what = one.name.partition(": ")
    if one.sort != "gauge":
        return _RAW[sort, "name"]
    gauges = [QUANTITIES[word].plain_name for word in what.split() if word in QUANTITIES]
    return _RAW[sort, "name"].format(gauge=" and ".join(gauges))


def shows(one: Named) -> str:
    """Return what a candidate does to the gauges."""
    return _RAW[one.name.partition(": ")[0], "shows"]


def size_of(one: Named) -> str:
    """Return how large a fault of the engine would be; "" for a gauge."""
    if one.sort == "gauge":
        return ""
    size = abs(one.size) if one.name in IN_DEGREES else 100 * abs(one.size)
    return _RAW[one.name, "size"].format(size=fixed(size, 0)) if one.name != SOUND else ""


def group(found: Found) -> tuple[Named, ...]:
    """Return the candidates that these gauges cannot tell from each other; one where they can."""
    named = found.diagnosis.named
    if named[0].probability >= CERTAIN[found.source]:
        return named[:1]
    kept, chance = [], 0.0
    for one in named:
        kept.append(one)
        chance += one.probability
        if chance >= GROUP:
            break
    return tuple(kept)


def is_sound(found: Found) -> bool:
    """Return whether nothing on the list is needed: a sound engine is likeliest, and fits."""
    return found.diagnosis.best.name == SOUND and found.diagnosis.fits


def answer(found: Found) -> str:
    """Return the answer in a sentence or two."""
    said, best = _SAID["answer"], found.diagnosis.best
    if not found.diagnosis.fits:
        names = [_RAW[name, "name"] for name in found.pair.names] if found.pair else []
        more = " " + said["pair"].format(one=names[0], other=names[1]) if names else ""
        return said["none"].format(name=name_of(best)) + more
    together = group(found)
    if is_sound(found):
        if found.source == READY:
            return said["nothing_gross"]
        sure = found.source != FITTED and best.probability >= CERTAIN[found.source]
        return said["sound" if sure else "likely_sound"].format(chance=percent(best.probability))
    if len(together) == 1:
        text = said["one"].format(name=name_of(best), chance=percent(best.probability))
    else:
        names = "; ".join(f"{name_of(one)} ({percent(one.probability)})" for one in together)
        text = said["group"].format(names=names)
    sound = found.diagnosis.of(SOUND)
    return text + (" " + said["doubt"].format(chance=percent(sound)) if sound > DOUBTFUL else "")


def head(found: Found) -> str:
    """Return what is asked."""
    name = short(found.run.name, 40) if found.groups == 1 else _SAID["parts"]["pool"].format(count=found.groups)
    places = dict(run=name, loads=found.loads, gauges=len(found.gauges))
    if found.earlier:
        places["earlier"] = short(found.earlier, 40)
    return _SAID["head"][found.source].format(**places)


def worth(found: Found) -> list[str]:
    """Return what the answer rests on."""
    said = _SAID["sure"]
    lines = [said[found.source], *([said["pool"].format(count=found.groups)] if found.groups > 1 else [])]
    lines += [] if found.run.bench.engine.wastegate else [said["gate"]]
    lines += [] if any(one.sort == "setting" for one in found.diagnosis.named) else [said["fuel"]]
    return [*lines, SIMULATED, MAKER]


def likely(found: Found) -> list[str]:
    """Return a line for each of the likeliest: its chance, what it is, how large, and what it does."""
    named = [one for one in found.diagnosis.named if one.probability >= SHOWN][:MOST_SHOWN]
    return [f"{percent(one.probability)}: {_told(one)}. {shows(one)}" for one in named]


def _told(one):
    return ", ".join(part for part in (name_of(one), size_of(one)) if part)


def test_asked(found: Found) -> ShopTest | None:
    """Return the next test; `None` for a sound engine, and where none would tell."""
    return None if is_sound(found) else next_test(found.diagnosis)


def test_told(test: ShopTest | None) -> list[str]:
    """Return the next test in words, then each of its cautions."""
    said = _SAID["parts"]
    if test is None:
        return [said["none"]]
    first = said["test"].format(name=test.name, minutes=test.minutes, text=test.text)
    return [first, *(said["caution"].format(hazard=one.hazard.lower(), text=one.text) for one in test.cautions)]


def on_terminal(found: Found) -> str:
    """Return the answer for a terminal, with the title of the run before it."""
    title = short(found.run.bench.run.title or found.run.name, 70)
    invented = "   INVENTED: no engine was measured" if found.run.bench.run.invented else ""
    return "\n\n".join([f"{title}{invented}", _wrapped(cautions.STANDING), body(found)])


def body(found: Found) -> str:
    """Return what is asked, the answer, and unless the engine is sound what else would show it and the next test."""
    parts = [_wrapped(head(found)), _wrapped(answer(found))]
    if not is_sound(found):
        lines = [_wrapped(f"  {line}", 4) for line in likely(found)]
        first, *others = test_told(test_asked(found))
        tests = [_wrapped(one, 2) for one in (f"{_SAID['parts']['next']}: {first}", *others)]
        parts += ["\n".join([_SAID["parts"]["table"], *lines]), "\n".join(tests)]
    return "\n\n".join([*parts, "\n".join(_wrapped(line) for line in worth(found))])


def _wrapped(text, hang=0):
    return textwrap.fill(text, WIDE, subsequent_indent=" " * hang)
