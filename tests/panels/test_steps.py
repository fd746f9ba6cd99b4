"""The tasks beside a panel tick themselves: none at the start, each once its state is reached, and a tick stays."""

import pytest

from tests.panels.opening import LESSON_OF, MAKERS, opened, unseen
from tests.widgets.told import tell
from turbomath import units
from turbomath.panels.air_fuel_and_power import smoke_limit
from turbomath.table.prose import Prose, ProseError
from turbomath.widgets import steps
from turbomath.widgets.controls import Choice, Control

WITH_STEPS = [name for name, lesson in LESSON_OF.items() if lesson.words[name].steps and name != "live_lab"]
REACHED_BY = {  # what a predicate judges, as the reader types it
    "less_boost_as_dense_as_a": {"boost": "13", "manifold_temperature": "145"},
    "at_the_edge": {"mass_flow": "80", "power": "580"},
    "power_is_back": {"turbine_inlet_temperature": "1390"},
    "paid": {"buy": "boost", "guess": "gauge", "because": "hunch"},
    "opened": {"buy": "answer", "guess": "gauge", "because": "hunch"},
}
each_panel = pytest.mark.parametrize("name", WITH_STEPS)


def ticks(panel):
    return [done for _, done in panel.frame["steps"]]


def take(panel, step):
    """Do what a step asks for, as a reader does."""
    desk, asks = panel._desk, step.asks
    unseen(panel, "reset")
    if "case" in asks:
        unseen(panel, "case", label=asks["case"])
    for name in desk.controls:
        unseen(panel, "hold", name=name, on=False)
    texts = {name: asked[0] if isinstance(asked, list) else asked for name, asked in asks.get("at", {}).items()}
    texts |= REACHED_BY.get(asks.get("judged"), {})
    for name in asks.get("moved", ()):
        texts.setdefault(
            name,
            next(key for key, _ in desk.choices[name].options if key != desk.values[name])
            if name in desk.choices
            else f"{desk.controls[name].scale('us')[1]:g}",
        )
    if asks.get("kept"):
        unseen(panel, "keep")
    if "run" in asks:
        unseen(panel, "run", key="generator_air_to_air")
        desk.picked = asks["run"]  # a folder of one's own is read by another test
    for name, text in texts.items():
        if name in desk.choices:
            unseen(panel, "pick", name=name, key=text)
            continue
        bare = text.removeprefix(steps.LEAST).removeprefix(steps.MOST)
        number, _, unit = bare.partition(" ")
        own = desk.controls[name].unit(desk.system)
        value = units.from_si(units.to_si(float(number), unit or desk.controls[name].unit("us"), name), own, name)
        unseen(panel, "type", name=name, text=f"{value:.6g}")
    for name in asks.get("held", ()):
        unseen(panel, "hold", name=name, on=True)
    if asks.get("did") in ("follow", "point", "report") and desk.chosen is None:
        unseen(panel, "run", key="generator_air_to_air")
    if asks.get("did") == "point":
        return tell(panel, "point", row=desk.chosen.row)
    return tell(panel, asks["did"]) if "did" in asks else tell(panel, "system", system=asks.get("system", "us"))


@each_panel
def test_each_step_ticks_itself_once_its_state_is_reached_and_none_before(name, tmp_path, monkeypatch):
    monkeypatch.setenv("TURBOMATH_WORK", str(tmp_path))
    panel = MAKERS[name]()
    assert panel.frame["steps"] == [], "they speak of what the prediction opens"
    panel = opened(name)
    assert not any(ticks(panel))
    for turn, step in enumerate(panel._desk.ticks.every):
        before = ticks(panel)
        assert not before[turn], f"step {turn + 1} ticks by the way"
        frame = take(panel, step)
        assert frame["notice"] == ""
        assert ticks(panel)[turn], step.words
    assert all(ticks(panel))
    tell(panel, "reset")
    assert all(ticks(panel)), "a tick stays"


def test_a_step_is_reached_from_either_system_and_not_before():
    control = Control("manifold_temperature", 300.0, 280.0, 400.0)
    stands = steps._stands
    assert stands(control, 322.04, "120 °F")
    assert stands(control, 322.15, "120 °F"), "49 °C, the nearest place of the slider"
    assert not stands(control, 325.0, "120 °F")
    assert stands(control, 325.0, "at least 120 °F")
    assert not stands(control, 318.0, "at least 120 °F")
    assert stands(control, 318.0, "at most 120 °F")


def test_the_edge_is_met_at_half_a_pound_of_air():
    start = opened("smoke_limit")._desk.record()
    assert smoke_limit.at_the_edge(start)
    assert not smoke_limit.at_the_edge(start._replace(power=0.97 * start.power))


@pytest.mark.parametrize(
    ("step", "said"),
    [
        ({"words": "Look."}, "must say when it is done"),
        ({"words": "Look.", "looked": True}, "looked is used nowhere"),
        ({"words": "Look.", "moved": ["torque"]}, "asks for torque"),
        ({"words": "Look.", "case": "b"}, "asks for b"),
        ({"words": "Look.", "judged": "found"}, "asks for found"),
        ({"words": "Look.", "at": {"way": "up"}}, "'up' of way"),
        ({"words": "Look.", "at": {"boost": 3}}, "kind str or list"),
    ],
)
def test_a_step_that_no_reader_could_take_is_refused(step, said):
    controls = (Control("boost", 1e5), Choice("way", "way", (("in", "in"), ("out", "out")), "in"))
    prose = Prose({"steps": [step]}, "lesson.toml")

    def fitted():
        steps.fitted(steps.steps(prose), controls, {"a": "A"}, {})
        prose.finished()

    with pytest.raises(ProseError, match=said):
        fitted()
