"""The air path is drawn by two hands, the panel's script and the printer: dot by dot they draw the same."""

import re
from xml.etree import ElementTree

import pytest

from tests.pictures.test_air_path import HOT, drawing
from turbomath.pictures import air_path_printed
from turbomath.widgets.panel import SCRIPT

NUMBER = re.compile(r"-?[\d.]+")
DRAW = """([record, room]) => {
  const [parts] = airPath(record, room);
  return parts.filter((one) => /tm-crowd/.test(one.attributes.class)).map((one) => one.attributes.d);
}"""


@pytest.fixture(scope="module")
def script(chromium):
    page = chromium.new_page()
    page.add_script_tag(content=SCRIPT.replace("export default", "window.widget ="))
    yield page
    page.close()


@pytest.mark.parametrize("cooler", ["none", "air-to-air"])
def test_script_and_printer_draw_the_same_dots_with_the_same_tails(script, cooler):
    engine = drawing(cooler=cooler, exhaust=HOT)
    shown = [path for path in script.evaluate(DRAW, [engine.to_dict(), 700]) if path]
    root = ElementTree.fromstring(air_path_printed.svg(engine))
    printed = [one.get("d") for one in root.iter() if one.get("stroke-linecap") == "round"]
    assert len(shown) == len(printed) > 30
    for one, other in zip(shown, printed, strict=True):
        # the last figure may be rounded either way
        assert list(map(float, NUMBER.findall(one))) == pytest.approx(list(map(float, NUMBER.findall(other))), abs=0.11)


def test_where_there_is_little_room_the_script_takes_the_narrow_drawing(script):
    sizes = [
        script.evaluate("([record, room]) => airPath(record, room).slice(1)", [drawing().to_dict(), room])
        for room in (599, 600)
    ]
    assert sizes[0][0] == 390
    assert sizes[1][0] == 1000


PATCHED = """([first, then, room]) => {
  const drawn = (...records) => {
    const svg = document.createElementNS(SVG, 'svg');
    let old = [];
    for (const [parts] of records.map((record) => airPath(record, room))) {
      patch(svg, old, parts);
      old = parts;
    }
    return svg.outerHTML;
  };
  return [drawn(first, then), drawn(then)];
}"""


@pytest.mark.parametrize(("first", "then"), [("none", "air-to-air"), ("air-to-air", "none")])
@pytest.mark.parametrize("room", [390, 1000])
def test_a_picture_that_was_another_before_is_drawn_as_if_it_were_the_first(script, first, then, room):
    records = [drawing(cooler=cooler, exhaust=HOT).to_dict() for cooler in (first, then)]
    patched, fresh = script.evaluate(PATCHED, [*records, room])
    assert patched == fresh


def test_a_part_that_takes_the_place_of_another_keeps_nothing_of_it(script):
    left = script.evaluate("""() => {
      const svg = document.createElementNS(SVG, 'svg'),
        first = [draw('text', { class: 'tm-end', x: 1 }, 'gone'), draw('path', { d: 'M0 0' })];
      patch(svg, [], first);
      patch(svg, first, [draw('text', { x: 2 }, 'here')]);
      return svg.innerHTML;
    }""")
    assert left == '<text x="2">here</text>'
