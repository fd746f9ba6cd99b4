"""Verdicts in the shop's words; the words themselves stand in words.toml."""

from collections.abc import Mapping, Sequence

from turbomath import units
from turbomath.engine.limits import Past
from turbomath.lab.verdicts.known_boost import EARLIER
from turbomath.lab.verdicts.verdict import FAILS, HOLDS, UNKNOWN, AtPoint, Judged
from turbomath.paper.limits_told import outside_words
from turbomath.table import prose
from turbomath.table.errors import short
from turbomath.table.quantities import QUANTITIES
from turbomath.uncertainty import Estimate
from turbomath.units.rounding import decimals, fixed, with_plus_or_minus

WORDS = prose.read(__file__, "words.toml")
_BOOST, _MACHINES, _CHARGE = (WORDS.table(name) for name in ("boost", "machines", "charge"))
_SOURCE, _OVERALL, _LOOK = (WORDS.table(name) for name in ("source", "overall", "look"))
_SHAFT = WORDS.table("shaft")
_MODELS = _BOOST.table("models")
_WHY, _NAMES = _BOOST.table("why"), _MACHINES.table("names")
_MACHINE = {sign: _MACHINES.table(sign) for sign in ("low", "high")}
_ANSWERS = {name: _OVERALL.table(name) for name in ("boost", "machines", "charge")}
_MISSING = _LOOK.table("missing")
_LOOK_AT = {sign: _LOOK.table(sign) for sign in ("low", "high")}
QUESTIONS = {
    "boost": _BOOST.raw("question"),
    "machines": _MACHINES.raw("question"),
    "charge": _CHARGE.raw("question"),
}
SHAFT_QUESTION = _SHAFT.raw("question")


def boost_sentence(found: Judged, reason: str, run_name: str, system: str) -> str:
    """Return what is said of the boost; *reason* is why nothing can be compared, a name under [boost.why]."""
    if not found.points:
        return _WHY.text(reason)
    one = found.worst if found.answer == FAILS else found.best()
    name = one.sign if found.answer == FAILS else "holds" if found.answer == HOLDS else "coarse"
    return _BOOST.text(name, **_amounts(one, system), source=_source(one.source, run_name))


def outside_sentences(found: Mapping[str, Sequence[Past]], system: str) -> str:
    """Return what is said of each model that speaks of a point outside what it was fitted to; "" where none does."""
    told = (outside_words(past, system, _MODELS.text(source)) for source, past in found.items())
    return "".join(f" {one}" for one in told if one)


def machines_sentence(found: Judged, asked: tuple[str, ...], unknown: str, system: str) -> str:
    """Return what is said of compressor and aftercooler; *unknown* is why nothing can be: "none", "unread", or ""."""
    if found.answer == FAILS:
        return _MACHINE[found.worst.sign].text(found.worst.quantity, **_amounts(found.worst, system))
    if unknown:
        return _MACHINES.text(unknown)
    parts = "; ".join(_part(found.best(name), system) for name in asked if found.told(name))
    if found.answer == HOLDS:
        return _MACHINES.text("holds", parts=parts)
    hidden = " and the ".join(_NAMES.text(name) for name in asked if not found.told(name))
    return _MACHINES.text("coarse", unknown=hidden, known=f" {_MACHINES.text('known', parts=parts)}" if parts else "")


def charge_sentence(found: Judged, reason: str | None, system: str) -> str:
    """Return what is said of the charge at the boost that was read; *reason* is what the reduction lacks for it."""
    if not found.points:
        return _CHARGE.text("none", reason=reason or _CHARGE.text("no_boost"))
    if found.answer == HOLDS:
        return _CHARGE.text("holds")
    one, name = (found.worst, found.worst.sign) if found.answer == FAILS else (found.best(), "coarse")
    return _CHARGE.text(name, **_amounts(one, system))


def shaft_sentence(found: Judged, ratio: Estimate, usual: Estimate, reason: str | None) -> str:
    """Return whether the shaft closes, by the measured *ratio* of its powers and the *usual* one, each row's own.

    *reason* is what the reduction lacks for it.
    """
    if not found.points:
        return _SHAFT.text("none", reason=reason or _SHAFT.text("little"))
    one = found.worst if found.answer == FAILS else found.best()
    name = {HOLDS: "holds", FAILS: one.sign}.get(found.answer, "coarse")
    told = {
        word: with_plus_or_minus(float(part.value[one.row]), float(part.plus_or_minus[one.row]))
        for word, part in {"measured": ratio, "expected": usual}.items()
    }
    return _SHAFT.text(name, point=short(one.point), **told)


def source_of_shaft(found: Judged) -> str:
    """Return where the expected share of the power comes from."""
    return _SOURCE.text("shaft") if found.points else ""


def overall_sentence(
    boost: Judged,
    machines: Judged,
    charge: Judged,
    reason: str,
    doubtful: Mapping[str, Sequence[str]],
    shaft: str = UNKNOWN,
    no_machine: str = "",
) -> str:
    """Return in one sentence which of the three hold, which do not, which cannot be told, and what to look at first.

    *doubtful* holds what to look at first, see `judge_run`; *shaft* is the answer to whether the
    shaft closes, *no_machine* why nothing is known of the machines.
    """
    given = not boost.points and reason not in ("no_boost", "no_barometer")
    told = {
        "boost": "taken as given" if given else _answer(boost, lambda worst: worst.sign),
        "machines": _answer(machines, lambda worst: f"{worst.quantity}_{worst.sign}"),
        "charge": _answer(charge, lambda worst: worst.sign),
    }
    words = {name: _ANSWERS[name].text(answer) for name, answer in told.items()}
    return _OVERALL.text("sentence", **words, look=_look(boost, machines, charge, reason, doubtful, shaft, no_machine))


def sources_of_boost(found: Judged, run_name: str) -> str:
    """Return where the expected boost comes from, with the points each source serves."""
    points: dict[str, dict[int, str]] = {}
    for one in found.points:
        points.setdefault(one.source, {})[one.row] = short(one.point)
    return "; ".join(
        _SOURCE.text("at", source=_source(source, run_name), points=_points(stretches(labels)))
        for source, labels in points.items()
    )


def source_of_design(usual: list[str]) -> str:
    """Return where the design comes from; *usual* holds the quantities whose ± bench.toml does not state."""
    names = ", ".join(QUANTITIES[name].plain_name for name in usual)
    return _SOURCE.text("usual", names=names) if names else _SOURCE.text("design")


def source_of_charge(found: Judged) -> str:
    """Return where the expected charge gain comes from."""
    return _SOURCE.text("charge") if found.points else ""


def rule(*found: Judged) -> str:
    """Return how wide the ± of each verdict is, in the order of the questions, and what risk that leaves."""
    factors = ", ".join(f"{name} {one.factor:.1f}" for name, one in zip(QUESTIONS, found, strict=True) if one.points)
    return WORDS.text("rule", factors=factors) if factors else ""


def _answer(found, failing):
    return failing(found.worst) if found.answer == FAILS else found.answer


def _look(boost, machines, charge, reason, doubtful, shaft, no_machine):
    """Return what to look at first: readings that cannot be, a machine that explains itself, lost boost, the gauges."""
    places: list[str] = []
    worst = machines.worst if machines.answer == FAILS else None
    if worst is not None:
        places.append(_LOOK_AT[worst.sign].text(worst.quantity))
    if boost.answer == FAILS:
        places.append(_LOOK.text(f"boost_{boost.worst.sign}"))
    if charge.answer == FAILS and worst is None:
        places.append(_LOOK.text(f"charge_{charge.worst.sign}"))
    if shaft == FAILS:
        places.append(_LOOK.text("shaft"))
    if not places and not boost.points:
        places.append(_MISSING.text(reason))
    if not places and UNKNOWN in (boost.answer, machines.answer, charge.answer):
        unread = not machines.points and UNKNOWN not in (boost.answer, charge.answer)
        undesigned = no_machine == "none" and boost.answer != UNKNOWN
        places.append(_MISSING.text("no_design") if undesigned else _LOOK.text("unread" if unread else "gauges"))
    readings = [_LOOK.text(why, points=_points(doubtful[why])) for why in ("red", "banks") if doubtful.get(why)]
    if fits := doubtful.get("fits"):
        readings[0] = _LOOK.text("fits", readings=readings[0], fits=", ".join(fits))
    places = readings + places
    if not places and (odd := doubtful.get("amber")):
        places.append(_LOOK.text("amber", names=", ".join(odd)))
    if not places:
        return _LOOK.text("nothing")
    return _LOOK.text("begin", what=f"{_LOOK.text('then')} ".join(places))


def _part(one, system):
    return _MACHINES.text("part", name=QUANTITIES[one.quantity].plain_name, **_amounts(one, system))


def _amounts(one: AtPoint, system: str) -> dict[str, str]:
    """Return the point, what was measured and what is expected, all three numbers to the same place."""
    unit = units.display(one.quantity, system)
    shown = [units.from_si(number, unit, one.quantity) for number in (one.measured, one.expected, one.plus_or_minus)]
    places, ending = decimals(shown[2]), "" if unit == "-" else f" {unit}"
    measured, expected, width = (fixed(number, places) for number in shown)
    return {
        "point": short(one.point),
        "measured": f"{measured}{ending}",
        "expected": f"{expected} ± {width}{ending}",
    }


def _source(source, run_name):
    return _SOURCE.text(source, **({"run": short(run_name, 30)} if source == EARLIER else {}))


def stretches(labels: Mapping[int, str]) -> list[str]:
    """Return the labels of rows in the order of the run, more than three neighbours as one.

    Examples
    --------
    >>> stretches({7: "7", 6: "6", 5: "5", 4: "4", 1: "1"})
    ['1', '4 to 7']
    """
    found: list[list[str]] = []
    for row in sorted(labels):
        if row - 1 not in labels:
            found.append([])
        found[-1].append(labels[row])
    return [name for one in found for name in (one if len(one) < 4 else [f"{one[0]} to {one[-1]}"])]


def _points(names):
    alone = len(names) == 1 and " to " not in names[0]
    return _SOURCE.text("one", point=names[0]) if alone else _SOURCE.text("several", points=", ".join(names))
