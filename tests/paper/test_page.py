"""Pages: texts from outside stay texts, and nothing is shown that was not given."""

import re
from html.parser import HTMLParser
from pathlib import Path

import jinja2
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turbomath import paper
from turbomath.paper.page import page, visible
from turbomath.paper.parts import Head, Table

PIECES = [
    "=1+1",
    "<img onerror=alert(1) src=x>",
    "</title><script>x</script>",
    "{{ 7*7 }}",
    "{% raw %}",
    "../",
    "\x00",
    "\u202e",
    "\u2066",
    '"',
    "'",
    "&lt;",
    "]]>",
    "-->",
    "é",
    "\u200b",
]


class Seen(HTMLParser):
    """What a browser would make of a page: the tags, and the text of one of them."""

    def __init__(self, wanted):
        super().__init__()
        self.wanted, self.tags, self.text, self.inside = wanted, [], "", False

    def handle_starttag(self, tag, attributes):
        self.tags.append(tag)
        self.inside = tag == self.wanted

    def handle_endtag(self, tag):
        self.inside = self.inside and tag != self.wanted

    def handle_data(self, data):
        self.text += data if self.inside else ""


def seen(text, wanted):
    reader = Seen(wanted)
    reader.feed(text)
    return reader


EMPTY = seen(page("page.html", title="plain", invented=False), "h1")


@given(st.lists(st.one_of(st.sampled_from(PIECES), st.text(max_size=5)), max_size=6).map("".join))
def test_any_title_stays_a_title(title):
    found = seen(page("page.html", title=title, invented=False), "h1")
    assert found.tags == EMPTY.tags
    assert found.text == visible(title)


@pytest.mark.parametrize("mark", ["\x00", "\x1b", "\x85", "\u202e", "\u2066", "\u200f", "\ud800", "\uffff"])
def test_marks_that_hide_or_turn_text_are_shown(mark):
    assert visible(f"a{mark}b") == "a\ufffdb"


@pytest.mark.parametrize("text", ["é", "漢字", "😀", "a\tb\nc", "±−·", "עברית"])
def test_letters_of_any_script_are_kept(text):
    assert visible(text) == text


def test_the_running_head_says_invented_only_where_it_is_due():
    assert seen(page("page.html", title="t", invented=True), "p").text.count("INVENTED") == 2
    assert "INVENTED" not in page("page.html", title="t", invented=False)


def test_a_template_without_its_content_is_refused():
    with pytest.raises(jinja2.UndefinedError):
        page("page.html", title="t")


def test_every_colour_of_the_text_stands_out_from_white_paper():
    """At least 4.5 : 1, by the formula of WCAG 2.2, success criterion 1.4.3."""
    style = (Path(paper.__file__).parent / "style.css").read_text(encoding="utf-8")
    colours = re.findall(r"--(?:ink|quiet|alarm): #(\w{6})", style)
    assert len(colours) == 3
    for colour in colours:
        parts = (int(colour[at : at + 2], 16) / 255 for at in (0, 2, 4))
        red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
        assert 1.05 / (0.2126 * red + 0.7152 * green + 0.0722 * blue + 0.05) >= 4.5


@pytest.mark.parametrize(("count", "group", "sizes"), [(6, 3, [3, 3]), (7, 3, [3, 3, 1]), (4, 0, [4]), (0, 0, [])])
def test_rows_that_belong_together_stay_together(count, group, sizes):
    table = Table("t", (Head("a"),), (("x",),) * count, group=group)
    assert [len(rows) for rows in table.groups] == sizes
