"""The script beside the widgets stays small, draws words as words, and asks nobody outside."""

import re
from pathlib import Path

import pytest

import turbomath.widgets
from turbomath.pictures.roles import INK, QUIET, ROLES
from turbomath.widgets import panel

FOLDER = Path(turbomath.widgets.__file__).parent
SCRIPTS = sorted(FOLDER.glob("*.js"))
STYLE = (FOLDER / "live.css").read_text(encoding="utf-8")


@pytest.mark.parametrize("script", SCRIPTS, ids=lambda script: script.name)
def test_a_script_is_small_and_writes_text_never_markup(script):
    text = script.read_text(encoding="utf-8")
    assert len(text.splitlines()) < 300
    assert text in panel.SCRIPT
    for danger in (
        "innerHTML",
        "outerHTML",
        "insertAdjacentHTML",
        "document.write",
        "eval(",
        "Function(",
        "fetch(",
        "XMLHttpRequest",
        "import(",
        "localStorage",
    ):
        assert danger not in text
    assert set(re.findall(r"https?://[^\"']*", text)) <= {"http://www.w3.org/2000/svg"}
    assert "url(" not in STYLE


def colour(name):
    return re.search(rf"--tm-{name}: light-dark\((#\w+), (#\w+)\)", STYLE).groups()


def contrast(one, other):
    """WCAG 2.1, definition of contrast ratio."""

    def luminance(colour):
        parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
        linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
        return sum(weight * part for weight, part in zip((0.2126, 0.7152, 0.0722), linear, strict=True))

    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_colours_on_the_screen_are_those_on_paper():
    assert {name: colour(name)[0] for name in ROLES} == {name: role.colour for name, role in ROLES.items()}
    assert (colour("ink")[0], colour("quiet")[0]) == (INK, QUIET)


@pytest.mark.parametrize("name", ["ink", "quiet", *ROLES])
def test_words_stand_out_in_light_and_dark(name):
    for shade, page in zip(colour(name), colour("page"), strict=True):
        assert contrast(shade, page) >= 4.5
