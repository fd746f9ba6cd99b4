"""What is printed gets through on a console of any encoding and any width."""

import io

import pytest

from turbomath.disk import plain_text
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.report.terminal import on_terminal


class Console(io.TextIOWrapper):
    """A console that knows the letters of one encoding only."""

    def __init__(self, encoding):
        super().__init__(io.BytesIO(), encoding=encoding)

    def isatty(self):
        return True


@pytest.fixture(scope="module")
def reduced():
    return reduce_run("generator_air_to_air")


@pytest.mark.parametrize(
    ("encoding", "said"),
    [
        ("ascii", "-3.5 +/- 1.2 deg F, 5 kg/m3, about 2 x 10"),
        ("latin-1", "-3.5 ± 1.2 °F, 5 kg/m³, about 2 × 10"),
        ("cp437", "-3.5 ± 1.2 °F, 5 kg/m3, ≈2 x 10"),
        ("utf-8", "−3.5 ± 1.2 °F, 5 kg/m³, ≈2 × 10"),
    ],
)
def test_what_a_console_cannot_show_is_said_in_letters_that_it_can(encoding, said):
    console = Console(encoding)
    plain_text.tell_on(console, None)
    print("−3.5 ± 1.2 °F, 5 kg/m³, ≈2 × 10", file=console, flush=True)
    assert console.buffer.getvalue().decode(encoding).rstrip() == said


def test_a_whole_report_gets_through_in_ascii_without_a_letter_unknown(reduced):
    console = Console("ascii")
    plain_text.tell_on(console)
    text = on_terminal(reduced, "us") + on_terminal(reduced, "si")
    print(text, file=console, flush=True)
    assert console.buffer.getvalue().count(b"?") == text.count("?")


@pytest.mark.parametrize("columns", [60, 80, 100])
def test_no_line_of_a_report_is_wider_than_the_terminal(reduced, monkeypatch, columns):
    monkeypatch.setenv("COLUMNS", str(columns))
    lines = on_terminal(reduced, "us").splitlines()
    assert max(map(len, lines)) <= columns
    heads = " ".join(lines[: lines.index("What stands behind it")]).split()
    assert {"measured", "theoretical", "agree"} <= set(heads), "no column is lost"
