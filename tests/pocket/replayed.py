"""A recorded panel in a browser against the panel itself: the same messages to both, and what differs then."""

from turbomath.pocket.page import words
from turbomath.pocket.plan import NO_READINGS
from turbomath.widgets.controls import Choice

ANSWERED = """([name, several]) => {
  const { model } = document.getElementById(name);
  return several.map((messages) => {
    for (const message of messages) model.send(message);
    return model.get('frame');
  });
}"""
OPEN = {"say": "go on", "question": 0}
LEFT_OUT = {"heads", "rows", "counts", "places", "ends", "trends"}  # of a picture: told by the tables, or parts of alt
DRAWN_WITHIN = 2e-4  # of the axis: a tenth of a point of the screen


def alive(page):
    """Wait until every panel of a page has come to life. The page lets no test look at it again and again by script."""
    page.locator(".live .tm").nth(page.locator(".live").count() - 1).wait_for()


def messages(plan, place):
    """Return what brings a panel to a place, from wherever it is: a case, or a point of a run, then what differs."""
    desk, (run, row) = plan.desk, place.chosen
    said = [{"say": "reset"}, {"say": "system", "system": place.system}]
    said += [{"say": "hold", "name": one, "on": False} for one in desk.controls]
    starts = [([], plan.bases[0])]
    if hasattr(desk, "chosen"):
        said.append({"say": "run", "key": run})
    if place.chosen != NO_READINGS:
        said.append({"say": "point", "row": str(row)})
        starts.append(([{"say": "follow"}], plan.follows[place.chosen]))
    else:
        cases = [([{"say": "case", "label": one}], {**plan.bases[0], **case}) for one, case in desk.sheet.cases]
        starts = cases + starts  # a case stands where no step of a slider may be
    moves = min((begin + _moves(plan, place, base) for begin, base in starts), key=len)
    return [*said, *moves]


def _moves(plan, place, base):
    from_, found = plan.at(place.system, base), []
    for one, old, new, values in zip(plan.controls, from_, place.at, plan.values[place.system], strict=True):
        if old != new and isinstance(one, Choice):
            found.append({"say": "pick", "name": one.name, "key": values[new]})
        elif old != new:
            found.append({"say": "slide", "name": one.name, "text": _text(one, values[new], place.system)})
    return found


def _text(control, value, system):
    from turbomath import units

    return f"{float(units.from_si(value, control.unit(system), control.name)):.10g}"


def answered(desk, several):
    """Return the frame of a desk after each group of messages."""
    frames = []
    for group in several:
        for one in group:
            desk.hear(**one)
        frame = desk.frame()
        if frame["error"]:  # then the last case is drawn that could be worked out: after which message?
            for one in group:
                desk.hear(**one)
                frame = desk.frame()
        frames.append(frame)
    return frames


def differences(theirs, ours, place=""):
    """Return the places in which a replayed frame says or draws something else than the panel's own."""
    if isinstance(ours, dict) and "series" in ours:
        return _pictures(theirs, ours, place)
    if isinstance(ours, dict):
        names = set(ours) - {"details", "journal", "notice", "step"}  # a recorded slider may take several steps at once
        if theirs.get("fault") == words()["still"]:  # it stands where it was recorded, and says so
            names -= {"held", "fault"}
        return [one for name in names for one in differences(theirs.get(name), ours[name], f"{place}/{name}")]
    if isinstance(ours, list | tuple):
        if len(theirs or ()) != len(ours):
            return [f"{place}: {theirs!r} is not {ours!r}"]
        pairs = enumerate(zip(theirs, ours, strict=True))
        return [one for turn, (a, b) in pairs for one in differences(a, b, f"{place}/{turn}")]
    if isinstance(ours, float) and isinstance(theirs, int | float):
        return [] if abs(theirs - ours) <= 1e-8 * max(1.0, abs(ours)) else [f"{place}: {theirs!r} is not {ours!r}"]
    return [] if theirs == ours else [f"{place}: {theirs!r} is not {ours!r}"]


def _pictures(theirs, ours, place):
    found = []
    for name in set(ours) - LEFT_OUT - {"series", "texts"}:
        found += differences(theirs.get(name), ours[name], f"{place}/{name}")
    shapes = [[(one["label"], len(one["x"])) for one in drawn["series"]] for drawn in (theirs, ours)]
    if shapes[0] != shapes[1]:
        return [f"{place}: {shapes[0]} is not {shapes[1]}"]
    found += differences([one["words"] for one in theirs["texts"]], [one["words"] for one in ours["texts"]], place)
    for one, other in zip(theirs["texts"], ours["texts"], strict=False):
        for axis in ("x", "y"):
            off = abs(one[axis] - other[axis]) / (ours[axis]["high"] - ours[axis]["low"])
            found += [f"{place}/{other['words']}/{axis}: {off:.1e} of the axis off"] if off > DRAWN_WITHIN else []
    for one, other in zip(theirs["series"], ours["series"], strict=True):
        found += differences(
            [one[name] for name in ("kind", "role", "label")],
            [other[name] for name in ("kind", "role", "label")],
            place,
        )
        for name, axis in (("x", "x"), ("y", "y"), ("low", "y"), ("high", "y")):
            span = ours[axis]["high"] - ours[axis]["low"]
            far = [abs(a - b) / span for a, b in zip(one[name], other[name], strict=True)]
            found += (
                [f"{place}/{other['label']}/{name}: {max(far):.1e} of the axis off"]
                if far and max(far) > DRAWN_WITHIN
                else []
            )
    return found
