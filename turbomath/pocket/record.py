"""Recording a panel: every state of its plan is set as a reader would, and what it then shows is kept."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from turbomath import units
from turbomath.handouts.lesson_page import made
from turbomath.panels.registry import LESSONS
from turbomath.pocket.columns import Packing
from turbomath.pocket.plan import NO_READINGS, SYSTEMS, Place, Plan
from turbomath.pocket.told import told
from turbomath.table.errors import TurbomathError, unwarned
from turbomath.units.shown import in_unit
from turbomath.widgets.asking import Asked, Question
from turbomath.widgets.controls import Choice
from turbomath.widgets.desk import Desk
from turbomath.widgets.run_desk import OWN, RunDesk
from turbomath.widgets.steps import Step, reached

if TYPE_CHECKING:
    from turbomath.widgets.panel import Figure, Panel, Ticket

BLOCK = 512  # places that are worked out together
OF_PLACE = {"case", "at", "moved", "judged"}  # what a step asks of where the controls stand; the page judges the rest


def recorded(panel: Panel | Figure | Ticket) -> dict[str, Any] | None:
    """Return what a page needs to show a panel, a figure or a ticket without Python; None where it cannot be recorded.

    `packed` holds the frames of a panel or a figure. Free text cannot be recorded, nor a screen of its own, nor what
    follows from more than where the controls stand.
    """
    desk, opening = panel.desk, panel.opening
    if opening.get("screen") or not all(one["options"] for one in opening["questions"]):
        return None
    found = {"opening": {**opening, "own": None}, "questions": [_question(one) for one in desk.questions]}
    if isinstance(desk, Desk):
        return None if desk.remembers else {**found, **_panel(desk)}
    if hasattr(desk, "printed"):
        return {**found, "packed": _packed([{"shown": [told(desk.printed("us"))], "at": _whole([])}], {})}
    return found


def recorded_panel(lesson: str, name: str) -> dict[str, Any] | None:
    """Return the same of what a lesson's function makes; both by name, so that another process can do it."""
    return recorded(made(next(one for one in LESSONS if one.name == lesson), name))


def _panel(desk):
    desk.asked.go_on()
    plan = Plan(desk)
    places = plan.places()
    known = dict(_frames(desk, plan, plan.alike(places)))
    frames = [known[one] for one in places]
    readings = {"readings": _readings(desk, plan)} if isinstance(desk, RunDesk) else {}
    return {
        "packed": _packed(frames, {"systems": {system: _lists(plan, system) for system in SYSTEMS}}),
        "cases": {
            label: {system: plan.at(system, {**plan.bases[0], **case}) for system in SYSTEMS}
            for label, case in desk.sheet.cases
        },
        "bases": {system: [plan.at(system, one) for one in plan.bases] for system in SYSTEMS},
        "strides": {system: plan.strides(system) for system in SYSTEMS},
        "start": {system: plan.at(system, plan.bases[0]) for system in SYSTEMS},
        "held": {one.name: one.held or one.locked for one in plan.controls if not isinstance(one, Choice)},
        "steps": [
            [one.words, {name: asked for name, asked in one.asks.items() if name not in OF_PLACE}]
            for one in desk.sheet.steps
        ],
        "of_held": _of_held(desk),
        **readings,
    }


def stand(desk: Any, plan: Plan, place: Place) -> None:
    """Bring a desk to a place of its plan."""
    if isinstance(desk, RunDesk) and place.chosen != _chosen(desk):
        run, row = place.chosen
        if run != desk.picked:
            desk.run(run)
        if run:
            desk.point(str(row))
    desk.system, desk.typed, desk.faults = place.system, {}, {}
    desk.held = set(desk.controls)
    desk.values |= {one.name: value for one, value in zip(plan.controls, plan.set_to(place), strict=True)}


def rows(desk: Any, plan: Plan, places: list[Place]) -> list[Any]:
    """Return the records of controls of places, each once."""
    names, usual = [one.name for one in plan.controls], desk.record()
    return [
        usual._replace(**dict(zip(names, row, strict=True)))
        for row in dict.fromkeys(plan.set_to(one) for one in places)
    ]


def _frames(desk, plan, places):
    """Yield each place with its frame; what a panel can work out for many places together is worked out for a block."""
    for first in range(0, len(places), BLOCK):
        several = places[first : first + BLOCK]
        if desk.sheet.together:
            with unwarned():
                desk.sheet.together(rows(desk, plan, several))
        for one in several:
            yield one, _frame(desk, plan, one)


def _frame(desk, plan, place):
    stand(desk, plan, place)
    at = [SYSTEMS.index(place.system), plan.chosen.index(place.chosen), *place.at]
    done = [reached(of_place(one), desk, "") for one in desk.sheet.steps]
    shown, error = [], ""
    try:
        shown = [told(desk.printed(place.system))]
    except TurbomathError:
        error = desk.frame()["error"]["words"]
    return {"at": _whole(at), "done": _whole(done), "shown": shown, "error": error}


def of_place(step: Step) -> Step:
    return Step(step.words, {name: asked for name, asked in step.asks.items() if name in OF_PLACE})


def _chosen(desk):
    return (desk.picked, desk.chosen.row) if desk.chosen else NO_READINGS


def _whole(values):
    return np.asarray(values, dtype=np.int64)


def _packed(frames, template):
    packing = Packing(len(frames))
    return packing.packed({**template, "frame": packing.node(frames)})


def _lists(plan, system):
    """Return for each control all that it can show in a system: its options, or the places of its slider."""
    return [
        _options(one, system) if isinstance(one, Choice) else _slider(plan.desk, one, system, places)
        for one, places in zip(plan.controls, plan.values[system], strict=True)
    ]


def _options(choice, system):
    return {"name": choice.name, "options": choice.line(system)}


def _slider(desk, control, system, places):
    unit = control.unit(system)
    desk.system, desk.typed, desk.faults = system, {}, {}
    desk.values[control.name] = control.start
    line = next(one for one in desk.frame()["controls"] if one["name"] == control.name)
    fixed = {name: line[name] for name in ("name", "unit", "low", "high", "step", "ends")}
    positions = [float(units.from_si(one, unit, control.name)) for one in places]
    return {
        **fixed,
        "si": [float(f"{one:.9g}") for one in places],
        "positions": [float(f"{one:.9g}") for one in positions],
        "texts": [in_unit(one, unit) for one in positions],
        "words": [control.words(one, system) for one in places],
        "outside": {turn: words for turn, one in enumerate(places) if (words := control.outside(one, system))},
    }


def _readings(desk, plan):
    """Return what stands beside the sliders for each run, and where the gauges of each of its points set them."""
    found = {}
    for run, row in plan.chosen[1:]:
        stand(desk, plan, Place("us", (run, row), plan.at("us", plan.bases[0])))
        line = desk.frame()["readings"]
        one = found.setdefault(run, {"points": line["points"], "notes": line["notes"], "follows": {}})
        one["row"] = plan.most[run][1]
        one["follows"][str(row)] = {system: plan.at(system, plan.follows[run, row]) for system in SYSTEMS}
    desk.run("")
    own = [OWN, dict(desk.opening()["runs"])[OWN]]
    return {"chosen": plan.chosen, "runs": found, "own": own}


def _of_held(desk):
    """Return what is drawn only while a control is held: its name -> the labels of the series."""
    desk.reset()
    free = [name for name, one in desk.controls.items() if not one.locked]
    labels = []
    for held in (set(), *({name} for name in free)):
        desk.held = set(desk.controls) - set(free) | held
        labels.append({series.label for one in desk.printed("us").pictures for series in one.series})
    none, *each = labels
    return {name: sorted(one - none) for name, one in zip(free, each, strict=True) if one - none}


def _question(question: Question) -> dict[str, Any]:
    """Return what is said when a question is answered."""
    return {
        "replies": {one.words: question.reply(one.words) for one in question.options},
        "right": [one.right for one in question.options],
        "outcome": {system: question.outcome(system) if question.outcome else "" for system in SYSTEMS},
        "answer": question.answer(),
        "unanswered": _unanswered(question),
    }


def _unanswered(question):
    asked = Asked(question)
    asked.answer("")
    return asked.fault
