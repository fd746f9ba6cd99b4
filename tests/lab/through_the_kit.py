"""A random valid run through the kit as through the command line, and what may not be said of any."""

import functools
import re
import warnings

import numpy as np

from tests.lab.page_reader import Report
from tests.lab.valid_runs import drawn
from turbomath.lab.checks import findings, look, unit_slips
from turbomath.lab.report import once, page, tables, terminal, verdicts_shown
from turbomath.lab.run.readings import read_run

NO_NUMBER = re.compile(r"(?<![A-Za-z])(inf|nan|None|NaN|Infinity)(?![A-Za-z])")
UNITS = {
    "us": r"psi|inHg|inH2O|°F|F°|lb(/h|/min)?|hp|ft|lbf·ft|cfm|in³|Btu(/lb|/min)?",
    "si": r"k?Pa|m?bar|mmHg|mmH2O|°C|C°|kg(/h|/s)?|kW|N·m|m³/h|L/min|MJ/kg",
}
OTHER_UNITS = {  # of a run in one system; kW is at home in both
    one: re.compile(rf"(?<![\w/·])(?!kW)({UNITS[other]})(?![\w/·])") for one, other in (("us", "si"), ("si", "us"))
}
MEANT = re.compile(r": [^:;|]* fits [^|.;]*")  # in which unit a reading may have been meant
MARK_UP = re.compile(r"<(style|script).*?</\1>|<[^>]*>", re.DOTALL)


def read(folder, seed, number):
    """Return (the drawn texts, the run read from them)."""
    one = drawn(np.random.default_rng([seed, number]))
    (folder / "bench.toml").write_text(one.bench, encoding="utf-8")
    (folder / "readings.csv").write_text(one.readings, encoding="utf-8")
    return one, read_run(folder)


def faults(folder, seed, number, *, whole=True, with_page=False, units_too=False):
    """Return what is wrong with all that the kit says of a random run, as a list of words; a warning is a failure.

    Without *whole* the checks look for no other explanation, and only the results are written; with *units_too* no
    check may name a unit of the system that the run is not in.
    """
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        one, run = read(folder, seed, number)
        reduced = look.reduce_run(run)
        flags = once.flags(reduced) if whole else [finding for finding in findings(run) if finding.level]
        texts = {"reduced.csv": tables.reduced_csv(reduced, one.system)}
        if whole:
            answers = verdicts_shown.verdicts(reduced, (), one.system)
            more = verdicts_shown.columns(answers, run, one.system)
            texts |= {"reduced.csv": tables.reduced_csv(reduced, one.system, more)}
            texts |= {"the terminal": terminal.on_terminal(reduced, one.system)}
        if with_page:
            html = page.report_page(reduced, one.system, flags, (), "")
            texts |= {"the page": MARK_UP.sub(" ", html), "its texts": Report(html).text}
    said = {f"check {flag.check}": f"{flag.reason} {flag.action}" for flag in flags}
    return [
        *(f"check {flag.check}: no words" for flag in flags if not (flag.reason.strip() and flag.action.strip())),
        *(f"{where}: {found[0]}" for where, text in (texts | said).items() if (found := NO_NUMBER.search(text))),
        *(_foreign(said, one.system) if units_too and one.one_system else ()),
    ]


def _foreign(said, system):
    """Yield what names a unit of the other system, but for the one in which a reading may have been meant."""
    for where, text in said.items():
        if found := OTHER_UNITS[system].search(MEANT.sub("", text)):
            yield f"{where}: {found[0]}, in a run in {system}: {text[:120]}"


def in_less_time(monkeypatch):
    """Reduce each run once, and leave out the look for slips of units, which takes most of the time of a check."""
    monkeypatch.setattr(look, "reduce_run", functools.cache(look.reduce_run))
    monkeypatch.setattr(unit_slips, "explained", lambda look, found, again: found)
