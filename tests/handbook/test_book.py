"""The handbook holds everything once: formulas, letters, check values, quantities, constants, references, index."""

import importlib
import inspect
import itertools
import pkgutil
import re

import jinja2
import pytest

from tests.handbook.a_page import HEADINGS, Page
from turbomath import __version__, physics
from turbomath.handbook import book, docstrings, subjects, tables
from turbomath.handbook.check_values import CheckValues
from turbomath.handbook.check_values import function as named
from turbomath.paper.page import page as made
from turbomath.physics import charge, compression
from turbomath.table import cautions, constants
from turbomath.table.errors import TurbomathError
from turbomath.table.letters import CONSTANTS
from turbomath.table.quantities import QUANTITIES
from turbomath.table.sources import SOURCES
from turbomath.working import sums

MOST_BYTES = 2_000_000
CHECKS = CheckValues()


def walked():
    """Every formula of physics, and the sums between them, found without the handbook's own list."""
    names = [info.name for info in pkgutil.iter_modules(physics.__path__, "turbomath.physics.")]
    modules = [*map(importlib.import_module, names), sums]
    return {one for module in modules for one in vars(module).values() if hasattr(one, "formula")}


def key(function):
    return f"{function.__module__.rpartition('.')[2]}.{function.__name__}"


def test_every_formula_is_on_the_page_exactly_once(page):
    articles = [part.attributes["aria-labelledby"] for part in page.root.all("article")]
    assert len(articles) >= 93
    assert sorted(articles) == sorted(map(key, walked()))
    assert set(subjects.numbered()) == walked()


def test_a_formula_stands_under_the_title_of_its_subject_and_is_numbered_by_it(page):
    for number, module in enumerate(subjects.SUBJECTS, start=1):
        title = (inspect.getdoc(module)).partition(":")[0]
        section = page.around(f"subject-{module.__name__.rpartition('.')[2]}", "section")
        assert section.all("h2")[0].text == f"{number} {title}"
        assert [one.text.split()[0] for one in section.all("h3")] == [
            f"{number}.{place}" for place, _ in enumerate(subjects.formulas(module), start=1)
        ]


def test_a_formula_says_its_title_conditions_assumptions_and_full_source(page):
    for function in walked():
        text = " ".join(page.around(key(function), "article").text.split())
        assert docstrings.title(function) in text
        assert function.formula.conditions in text
        assert SOURCES[function.formula.source].rstrip(".") in text
        notes = re.search(r"Notes\n-+\n(.+?)\n\n", f"{inspect.cleandoc(function.__doc__)}\n\n", re.DOTALL)
        if notes:
            first = re.split(r"[`\n]", notes[1])[0].strip()
            assert first in text, first


def test_every_check_value_stands_once_beside_the_formula_it_holds(page):
    home = {f"physics.{key(function)}": key(function) for function in walked()}
    for case, row in CHECKS.items():
        line = page.around(f"check-{case}", "tr")
        assert row.source in line.text, case
        assert row.place in line.text, case
        assert row.reason in line.text, case
        part = line
        while part.tag not in ("article", "section"):
            part = part.within
        formula = named(row.function)
        wanted = key(formula) if hasattr(formula, "formula") else "models"
        assert part.attributes["aria-labelledby"] == wanted, case
    assert len([id for id in page.ids if id.startswith("check-")]) == len(CHECKS)
    assert len(home) == len(walked())


def test_a_check_value_shows_print_and_result_tolerance_and_how_it_was_seen(page):
    cells = [part.text for part in page.around("check-gupta-1-ideal", "tr").parts]
    # Gupta, example 15.1, p. 474: 15 °C squeezed from 1.013 to 1.6208 bar leaves at 329.4 K
    assert cells[1:4] == [
        "inlet pressure 101300 Pa, inlet temperature 288 K, outlet pressure 162080 Pa",
        "329.4 K",
        "329.392 K",
    ]
    assert "(in print, checked)" in cells[0]
    assert cells[4].startswith("0.06 K: half the last printed digit")
    air = [part.text for part in page.around("check-real-lemmon-density", "tr").parts]
    assert air[3].startswith("1.39")
    humidity = page.around("check-ashrae-humidity-ratio-5", "tr").text
    assert "0.6 %: ideal mixture" in humidity
    followed = page.around("check-gupta-5-power", "tr")
    assert "outlet temperature of gupta-5-outlet, times the result of gupta-5-flow" in followed.text


def test_a_formula_names_the_check_values_of_others_that_it_leads_to(page):
    text = page.around("airflow.mass_flow", "article").text
    assert "It also leads to the check values" in text
    assert "gupta-5-power" in text.partition("It also leads to")[2]


def test_numbers_of_the_file_are_shown_as_they_are_written_by_hand():
    shown = {
        "1.6e5": "160000",
        "-2500": "−2500",
        "8.2705e-8": "8.2705 × 10⁻⁸",
        "5e-05": "5 × 10⁻⁵",
        "1e-4": "0.0001",
        "ice": "ice",
    }
    assert {text: tables._number(text) for text in shown} == shown


def test_the_glossary_holds_every_quantity_with_its_usual_range_in_both_systems(page):
    for name, row in QUANTITIES.items():
        cells = page.around(f"quantity-{name}", "tr").parts
        assert cells[0].text == row.plain_name
        assert cells[1].text == row.meaning
        assert cells[2].all("math"), name
    boost = [part.text for part in page.around("quantity-boost", "tr").parts]
    assert boost[3:] == ["0 to 50.8 psi", "0 to 350 kPa"]  # 350 kPa over 6.894757 kPa (NIST SP 811)
    outlet = [part.text for part in page.around("quantity-compressor_outlet_pressure", "tr").parts]
    assert outlet[3:] == ["11.6 to 87 psi abs", "80 to 600 kPa abs"]
    inlet = [part.text for part in page.around("quantity-compressor_inlet_temperature", "tr").parts]
    assert inlet[3:] == ["−40.3 to 140 °F", "−40.1 to 59.9 °C"]


def test_every_constant_has_its_value_how_it_is_known_and_its_source(page):
    rows = {row.parts[0].text: row for row in page.around("constants", "section").all("tr")[1:]}
    assert sorted(one.name for one in CONSTANTS) == sorted(constants.SOURCES)
    for one in CONSTANTS:
        cells = [part.text for part in rows[one.meaning].parts]
        assert float(cells[2].split()[0]) == pytest.approx(getattr(constants, one.name), rel=1e-8)
        assert cells[5] == constants.SOURCES[one.name]
    air = [part.text for part in rows["gas constant of dry air"].parts]
    assert air[2:4] == [
        "287.05287 J/(kg K)",
        "0.3705 psi·ft³/(lb·°R)",
    ]  # ISO 2533; 53.35 ft·lbf/(lb·°R) over 144 in²/ft²


def test_every_source_is_in_the_references_and_each_one_named_is_linked(page):
    assert [id.removeprefix("source-") for id in page.ids if id.startswith("source-")] == sorted(
        SOURCES, key=str.casefold
    )
    for source, words in SOURCES.items():
        assert words in page.around("references", "section").text, source


def test_the_index_leads_from_a_quantity_to_the_formulas_that_give_and_take_it(page):
    numbers = subjects.numbered()
    lines = {line.all("dt")[0].text: line for line in page.around("index-by-name", "section").all("div")}
    gains = lines["density gain"]
    given = [part.attributes["href"] for part in gains.all("strong")[0].all("a")]
    assert given == ["#sums.gain_between", "#charge.density_gain"]
    taken = lines["pressure ratio"]
    assert [part.attributes["href"] for part in taken.all("strong")[0].all("a")] == ["#compression.pressure_ratio"]
    assert "#polytropic.isentropic_efficiency" in [part.attributes["href"] for part in taken.all("a")]
    bold = [one.attributes["href"] for line in lines.values() for part in line.all("strong") for one in part.all("a")]
    assert sorted(bold) == sorted(f"#{key(function)}" for function in numbers)
    reached = {one.attributes["href"] for line in lines.values() for one in line.all("a")}
    assert {f"#{key(function)}" for function in numbers} <= reached


def test_the_index_of_symbols_names_every_quantity(page):
    section = page.around("index-by-symbol", "section")
    assert {f"#quantity-{name}" for name in QUANTITIES} == {part.attributes["href"] for part in section.all("a")}
    flows = next(line for line in section.all("div") if "mass flow, air flow" in line.text)
    assert flows.all("math")


def test_links_resolve_and_no_place_has_two(page):
    assert len(page.ids) == len(set(page.ids))
    assert len(page.links) > 500
    assert [href for href in page.links if href.removeprefix("#") not in page.ids] == []
    for part in page.tags:
        for place in (part.attributes.get("aria-labelledby") or "").split():
            assert place in page.ids


def test_the_page_asks_nobody_for_anything(page, html):
    assert "default-src 'none'" in html
    assert [part.tag for part in page.tags if part.tag in ("script", "link", "img", "iframe", "object")] == []
    assert [part.attributes for part in page.tags if {"src", "srcset", "background"} & set(part.attributes)] == []
    style = page.root.all("style")[0].text
    assert "url(" not in style
    assert "@import" not in style
    assert len(html.encode()) < MOST_BYTES


def test_headings_run_down_one_step_at_a_time_and_tables_have_heads(page):
    levels = [HEADINGS[part.tag] for part in page.tags if part.tag in HEADINGS]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(below - above <= 1 for above, below in itertools.pairwise(levels))
    for table in page.root.all("table"):
        assert table.all("caption")[0].text
        assert {part.attributes.get("scope") for part in table.all("th")} == {"col", "row"}
        assert all(row.parts[0].tag == "th" for row in table.all("tr"))


def test_the_page_begins_with_edition_version_and_cautions(page):
    text = page.root.text
    assert f"turbomath {__version__}, constants {constants.EDITION}" in text
    assert text.index(cautions.STANDING) < text.index("Contents") < text.index("1.1 ")
    for one in cautions.CAUTIONS:
        assert one.text in text


def test_what_a_docstring_says_cannot_become_part_of_the_page(monkeypatch):
    spoilt = charge.density.__doc__.replace("Density of air.", "<script>alert(1)</script>.", 1)
    assert "<script>" in spoilt
    monkeypatch.setattr(charge.density, "__doc__", spoilt)
    html = book.handbook()
    assert "&lt;script&gt;alert(1)" in html
    assert Page(html).root.all("script") == []


def test_an_unknown_source_is_refused(monkeypatch):
    spoilt = compression.pressure_ratio.__doc__.replace("Heywood, section 6.8", "Nobody, section 6.8")
    monkeypatch.setattr(compression.pressure_ratio, "__doc__", spoilt)
    with pytest.raises(TurbomathError, match="'Nobody', expected one of the reference list"):
        book.handbook()


def test_a_template_that_is_not_given_its_parts_is_refused():
    for template in ("handbook.html", "formula_sheet.html"):
        with pytest.raises(jinja2.UndefinedError):
            made(template, title="Nothing", invented=False)
