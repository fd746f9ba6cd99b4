"""The walk that every lesson has to pass, and what the lessons' own walks use of it."""

from collections.abc import Callable
from dataclasses import dataclass, field

from tests.browser.pages import (
    KEYS,
    box,
    button,
    cells,
    in_sight,
    name_of,
    nameless_or_unseen,
    painted,
    panel,
    plain,
    pop_ups,
    settled,
    slider,
)

CONTROLS = ", ".join(f"{kind}:visible" for kind in ("input", "button", "summary", "select", "a", "[tabindex='0']"))
KINDS = """nodes => nodes.map((node) => [
  [...document.querySelectorAll('.tm')].indexOf(node.closest('.tm')), node.tagName, node.type].join())"""
KEPT = "your prediction and the outcome"


@dataclass(frozen=True)
class Walk:
    """One lesson, as the common walk goes through it; panels are known by their numbers."""

    answers: tuple = ()  # of each prediction: panel, the option that is entered, words of the outcome
    sliders: dict = field(default_factory=dict)  # panel -> the names of its sliders in sight
    turns: tuple = ()  # of each question on the exit ticket: a wrong option, words of the reply, the right option
    controls: int = 0  # a few less than there are
    unfold: Callable = lambda page: None  # opens and fills what a prediction leaves shut
    ends: Callable = lambda page: ()  # brings bars and points to their ends, case by case, and names each case


def predict(page, number, option):
    """Enter a prediction by keyboard and wait for what it opens."""
    panel(page, number).get_by_role("radio", name=option, exact=True).focus()
    page.keyboard.press("Space")
    page.keyboard.press("Enter")
    panel(page, number).get_by_role("group", name=KEPT).wait_for()
    painted(page)


def predict_all(page, answers):
    """Enter every prediction that is not entered yet."""
    for number, option, _ in answers:
        if not panel(page, number).get_by_role("group", name=KEPT).is_visible():
            predict(page, number, option)


def slider_names(page, number):
    """Return the names of the sliders in sight of a panel."""
    handles = panel(page, number).locator("input[type=range]:visible")
    return [name_of(handles.nth(turn)) for turn in range(handles.count())]


def nothing_is_drawn_before_a_prediction(page, answers):
    """Predict panel by panel: before, no picture and no outcome; after, the outcome with the focus on it."""
    assert page.get_by_role("button", name="this is my prediction").count() == len(answers)
    for number, option, outcome in answers:
        assert panel(page, number).locator("svg").count() == 0
        assert outcome not in plain(panel(page, number))
        predict(page, number, option)
        kept = panel(page, number).get_by_role("group", name=KEPT)
        assert kept.evaluate("node => node === document.activeElement")
        assert f"You predicted: {option}" in plain(kept)
        assert outcome in plain(kept)


def sliders_move(page, sliders):
    """Move each slider by keyboard and by mouse: the panel answers, and the number box follows."""
    for number, names in sliders.items():
        assert slider_names(page, number) == names
        for name in names:
            handle = slider(page, name, number)
            handle.focus()
            for key in ("Home", "ArrowRight"):
                changed(page, lambda key=key: page.keyboard.press(key), number)
            changed(page, lambda handle=handle: press_right_of_the_middle(page, handle), number)
            box_follows(page, name, number)


def press_right_of_the_middle(page, handle):
    press_at(page, handle, 0.65)


def press_at(page, handle, share):
    """Press the mouse on a slider at a share of its length."""
    at = handle.bounding_box()
    page.mouse.move(at["x"] + share * at["width"], at["y"] + at["height"] / 2)
    page.mouse.down()
    page.mouse.up()


def changed(page, do, number=0):
    """Do something and wait until the answering side of this panel shows something else."""
    right = panel(page, number).locator(".tm-right")
    before = right.inner_html()
    do()
    page.wait_for_function("([node, old]) => node.innerHTML !== old", arg=[right.element_handle(), before])


def box_follows(page, name, number=0):
    """Wait until the number box shows where the slider stands, to its printed digits."""
    nodes = [slider(page, name, number).element_handle(), box(page, name, number).element_handle()]
    page.wait_for_function("([slider, box]) => Math.abs(slider.value - box.value.replace('−', '-')) <= 0.05", arg=nodes)


def ticket_answers_each_mistake(page, turns):
    """Answer each question of the exit ticket wrongly, try again, and then rightly."""
    ticket = page.locator(".tm").last
    for turn, (wrong, reply, right) in enumerate(turns):
        question = ticket.locator(".tm-question").nth(turn)
        for option, words in ((wrong, reply), (right, "Right:")):
            question.get_by_role("radio", name=option, exact=True).check()
            page.keyboard.press("Enter")
            question.get_by_text(words).wait_for()
            question.get_by_role("button", name="try again").click()


def keys_change_nothing(page, least, every=False):
    """Look at the controls, at least so many: each has a name, its focus is seen, no key on it changes the notebook.

    The keys are pressed on the first control of each kind in each panel, or on *every* one.
    """
    before = cells(page)
    controls = page.locator(".tm").locator(CONTROLS)
    assert nameless_or_unseen(controls) == []
    kinds = controls.evaluate_all(KINDS)
    assert len(kinds) > least
    for turn in (turn for turn, kind in enumerate(kinds) if every or kind not in kinds[:turn]):
        for key in KEYS:
            controls.nth(turn % controls.count()).press(key)  # a letter in a list may pick what has fewer controls
    settled(page)
    assert cells(page) == before
    assert pop_ups(page) == 0


def whole_panel_in_sight(page, number, names, *more):
    """Whether sliders, picture, sentence, read-outs and the reset of a panel fit the window together, and *more*."""
    here = panel(page, number)
    here.evaluate("node => node.scrollIntoView()")
    painted(page)
    sliders = [slider(page, name, number) for name in names]
    words = [here.locator(part) for part in (".tm-sentence", ".tm-readouts")]
    seen = [*sliders, here.locator("svg").first, *words, button(page, "reset", number), *more]
    return [in_sight(page, one) for one in seen] == [True] * len(seen)
