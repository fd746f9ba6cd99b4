"""Lesson 05 as its browser tests handle it."""

from tests.browser.pages import choose, panel, told
from tests.browser.walk import predict

GAUGES, THREE, COST, LOST = range(4)
AIR, JACKET = "generator_air_to_air", "generator_jacket_water"
VERDICT = "(They agree|They do not agree|cannot be compared)"
ANSWERS = (
    (GAUGES, "about 68 % denser", "About 145 % denser"),
    (THREE, "it rises", "It falls, here from"),
    (COST, "no: less boost is less air", "Yes: 27.5 % more air is left of 33.9 %"),
    (LOST, "they agree, so the engine is well", "They agree: at 14.0 psi the charge is 86 % denser"),
)


def predict_in(page, number=GAUGES):
    """Enter the prediction of a panel by keyboard."""
    predict(page, *ANSWERS[number][:2])


def unfold(page):
    """Read a run as an own folder, and open what waits behind "more"."""
    read(page, AIR)
    told(page, "They agree")
    for number in (GAUGES, THREE, COST):
        panel(page, number).locator("summary").first.click()


def read(page, folder):
    """Type the name of a folder and send it by Enter."""
    choose(page, "readings", "own")
    told(page, "theory says")  # the run before is gone
    place = panel(page).get_by_role("textbox", name="folder")
    place.fill(folder)
    place.press("Enter")
