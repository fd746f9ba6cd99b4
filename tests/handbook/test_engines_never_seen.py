"""The page of engines that the kit never saw: its figures come out of the kit again, or out of its own tests."""

import pytest

from tests.lab.test_random_runs import BLOCK, BLOCKS, HEALTHY
from tests.published.test_engines import FOLDERS
from turbomath.handbook import engines_never_seen
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.run.readings import read_run

SECTION = engines_never_seen.section()
ROWS = {row[0]: dict(zip(engines_never_seen.COLUMNS, row, strict=True)) for row in SECTION.table.rows}
# folder of tests/published/engines: (a word of its row, what is written there, of which result, in which unit)
FIGURES = {
    "ship_power_course": [
        ("MIT2.611", "Effectiveness {:.2f}", "effectiveness", 1),
        ("MIT2.611", "Isentropic efficiency {:.3f}", "compressor_efficiency", 1),
    ],
    "aftercooled_engine": [
        ("Gupta", "aftercooler {:.2f} kW", "heat_rejected", 1e3),
        ("Gupta", "efficiency {:.2f}", "compressor_efficiency", 1),
    ],
    "trial_on_a_dynamometer": [
        ("MathurSharma", "Power {:.1f} kW", "power", 1e3),
        ("MathurSharma", "Fuel {:.3f} kg/(kW h)", "specific_fuel_consumption", 1 / 3.6e6),
    ],
}


def row(word):
    (found,) = [one for name, one in ROWS.items() if word in name]
    return found


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_the_figures_of_a_publication_are_those_of_the_kit(folder):
    reduced = reduce_run(read_run(folder))
    for word, text, result, size in FIGURES[folder.name]:
        assert text.format(reduced[result].value[0] / size) in row(word)["found"]


def test_the_numbers_of_invented_runs_are_those_of_the_tests():
    assert f"Of {HEALTHY} engines in the tests, none had" in row("another simulator")["found"]
    assert f"Of {BLOCK * len(BLOCKS)} random runs in the tests" in row("Random runs")["found"]


def test_each_engine_says_what_was_read_found_and_could_not_be_told(page):
    (section,) = [
        one for one in page.root.all("section") if one.attributes.get("aria-labelledby") == "engines-never-seen"
    ]
    assert len(ROWS) >= 6
    for one in ROWS.values():
        for text in one.values():
            assert len(text) > 20
            assert " ".join(text.split()) in " ".join(section.text.split())
