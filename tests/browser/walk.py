"""Walks that every lesson with a prediction before each panel has to pass; *answers* holds (panel, option, outcome)."""

from tests.browser.pages import (
    KEYS,
    box,
    button,
    cells,
    focus_is_seen,
    in_sight,
    name_of,
    painted,
    panel,
    plain,
    pop_ups,
    serious,
    slider,
)


def predict(page, number, option):
    """Enter a prediction by keyboard and wait for the picture."""
    panel(page, number).get_by_role("radio", name=option, exact=True).focus()
    page.keyboard.press("Space")
    page.keyboard.press("Enter")
    panel(page, number).locator("svg").first.wait_for()


def predict_all(page, answers):
    """Enter every prediction."""
    for number, option, _ in answers:
        predict(page, number, option)


def slider_names(page, number):
    """Return the names of the sliders in sight of a panel."""
    handles = panel(page, number).locator("input[type=range]:visible")
    return [name_of(handles.nth(turn)) for turn in range(handles.count())]


def axe_is_content(page, answers, numbers):
    """Look for serious problems before the predictions, and after them with every table open."""
    assert serious(page) == []
    predict_all(page, answers)
    for number in numbers:
        button(page, "table", number).click()
    assert serious(page) == []


def nothing_is_drawn_before_a_prediction(page, answers):
    """Predict panel by panel: before, no picture and no outcome; after, both, and the focus on the outcome."""
    for number, option, outcome in answers:
        assert panel(page, number).locator("svg").count() == 0
        assert outcome not in plain(panel(page, number))
        predict(page, number, option)
        kept = panel(page, number).get_by_role("group", name="your prediction and the outcome")
        assert kept.evaluate("node => node === document.activeElement")
        assert f"You predicted: {option}" in plain(kept)
        assert outcome in plain(kept)


def sliders_move(page, sliders):
    """Move each slider by keyboard and by mouse: the panel answers, and the number box follows."""
    for number, names in sliders.items():
        for name in names:
            handle = slider(page, name, number)
            handle.focus()
            for key in ("ArrowRight", "PageDown", "Home", "ArrowUp", "End"):
                changed(page, lambda key=key: page.keyboard.press(key), number)
            at = handle.bounding_box()
            page.mouse.move(at["x"] + at["width"] / 2, at["y"] + at["height"] / 2)
            changed(page, page.mouse.down, number)
            left = at["x"] + 0.35 * at["width"], at["y"] + at["height"] / 2
            changed(page, lambda left=left: page.mouse.move(*left), number)
            page.mouse.up()
            painted(page)
            box_follows(page, name, number)


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


def ticket_answers_each_mistake(page, number, turns):
    """Answer each question of the exit ticket wrongly, try again, and then rightly: (wrong, reply, right) each."""
    for turn, (wrong, reply, right) in enumerate(turns):
        question = panel(page, number).locator(".tm-question").nth(turn)
        for option, words in ((wrong, reply), (right, "Right:")):
            question.get_by_role("radio", name=option, exact=True).check()
            page.keyboard.press("Enter")
            question.get_by_text(words).wait_for()
            question.get_by_role("button", name="try again").click()


def keys_change_nothing(page, least):
    """Press the notebook's keys on every control, at least so many: named, its focus seen, the notebook as it was."""
    before = cells(page)
    controls = page.locator(".tm").locator("input:visible, button:visible, summary:visible, select:visible")
    count = controls.count()
    assert count > least
    for turn in range(count):
        control = controls.nth(turn)
        assert name_of(control), control.evaluate("node => node.outerHTML")
        assert focus_is_seen(control), name_of(control)
        for key in KEYS:
            page.keyboard.press(key)
    painted(page)
    assert cells(page) == before
    assert pop_ups(page) == 0


def whole_panel_in_sight(page, number, names):
    """Whether controls, picture, sentence, read-outs and the reset of a panel fit the window together."""
    here = panel(page, number)
    here.evaluate("node => node.scrollIntoView()")
    painted(page)
    sliders = [slider(page, name, number) for name in names]
    words = [here.locator(part) for part in (".tm-sentence", ".tm-readouts")]
    seen = [*sliders, here.locator("svg").first, *words, button(page, "reset", number)]
    return all(in_sight(page, one) for one in seen)
