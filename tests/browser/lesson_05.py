"""Lesson 05 as its browser tests handle it."""

from tests.browser.pages import choose, panel, told

GAUGES, THREE, COST, TICKET = range(4)
AIR, JACKET = "generator_air_to_air", "generator_jacket_water"
VERDICT = "(They agree|They do not agree|cannot be compared)"


def predict(page, number=GAUGES, option="about 168 %"):
    """Enter a prediction by keyboard and wait for the picture."""
    panel(page, number).get_by_role("radio", name=option).focus()
    page.keyboard.press("Space")
    page.keyboard.press("Enter")
    panel(page, number).locator("svg").first.wait_for()


def predict_all(page):
    for number, option in ((GAUGES, "about 168 %"), (THREE, "it stays"), (COST, "about 34 %")):
        predict(page, number, option)


def open_all(page):
    """Predict everywhere, read a run as an own folder, and open what waits behind "more"."""
    predict_all(page)
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
