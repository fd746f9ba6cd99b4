"""A run fitted: in words, as a page with pictures of sheet beside model, and as a file that bench.toml can name."""

from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from turbomath import units
from turbomath.disk.files import write_whole
from turbomath.engine import balance, fitting, limits
from turbomath.engine.balance import Balance
from turbomath.engine.expected import Point
from turbomath.engine.fitted import Fit
from turbomath.engine.free_numbers import ALL, SHARE
from turbomath.engine.sheet import Sheet, sheet_of
from turbomath.lab.reduction.fit_points import fitted_rows, sheet_of_run
from turbomath.lab.report.page_figure import page_figure
from turbomath.lab.run.engine_file import FittedEngine, as_toml, read_engine
from turbomath.lab.run.readings import Run
from turbomath.paper.limits_told import passed_words
from turbomath.paper.page import page
from turbomath.paper.parts import Head, Table
from turbomath.pictures.sheet_beside_model import picture_sheet_beside_model
from turbomath.table import constants, prose
from turbomath.table.errors import RefusedFileError, TurbomathError, short, unwarned
from turbomath.table.quantities import QUANTITIES
from turbomath.table.version import __version__
from turbomath.units.rounding import fixed, with_plus_or_minus
from turbomath.units.shown import width_unit, words

_WORDS = prose.read(__file__, "fit_words.toml")
_HEADS = _WORDS.table("heads")
HIGH = 190  # px of a picture: four stand on a sheet
LEAST_SHARE, STEPS = 0.25, 40  # how far down the model's line goes, of the hardest work, and its points


@dataclass(frozen=True)
class FittedRun:
    """A run, the rows an engine was fitted to, and the fit."""

    run: Run
    rows: tuple[int, ...]
    sheet: Sheet
    fit: Fit

    @property
    def labels(self) -> tuple[str, ...]:
        """The label of each fitted point."""
        return tuple(short(self.run.points[row], 20) for row in self.rows)


def fitted_run(run: Run, system: str | None = None) -> FittedRun:
    """Return a run with the engine fitted to it; see `turbomath.engine.fitting.fit` for what is refused.

    A figure that fits no engine is told in the units of *system*, those of bench.toml if not given.
    """
    points, engine = sheet_of_run(run)
    rows, sheet = tuple(fitted_rows(run)), sheet_of(points)
    try:
        return FittedRun(run, rows, sheet, fitting.fit(points, engine=engine))
    except fitting.OddFigureError as odd:
        raise TurbomathError(_odd(run, rows, sheet, odd, system or run.bench.run.units)) from None


def _odd(run, rows, sheet, odd, system):
    """Return the sentence about the figure that fits least, by the run's own label and units."""
    name, value = odd.name, odd.value
    if name == "manifold_pressure":
        name, value = "boost", value - sheet.given["ambient_pressure"][odd.place]
    unit = None if name == "boost" else _absolute(name, system)
    said = {"point": short(run.points[rows[odd.place]], 20), "quantity": QUANTITIES[name].plain_name, "side": odd.side}
    return _WORDS.text("odd", run=short(run.name), value=words(name, value, system, unit), **said)


def _absolute(name, system):
    """Return the unit of a quantity of the model, whose pressures are absolute."""
    return units.display(name, system).replace("gauge", "abs")


def write(fitted: FittedRun, out: Path | str | None, system: str) -> list[Path]:
    """Write the engine's file and, beside it, the page; return both paths.

    Raises
    ------
    TurbomathError
        If *out* does not end in .toml, or is a file there that no fit has written.
    """
    path = Path(out) if out else Path.cwd() / f"{fitted.run.name}-engine.toml"
    _refuse_to_write_over(path)
    facts = fitted.run.bench.run
    engine = FittedEngine(fitted.fit, fitted.run.name, facts.date or "", facts.invented)
    write_whole(path, as_toml(engine))
    write_whole(path.with_suffix(".html"), fit_page(fitted, system))
    return [path, path.with_suffix(".html")]


def _refuse_to_write_over(path):
    if path.suffix != ".toml":
        raise TurbomathError(f"{short(path)}: expected a file that ends in .toml, such as engine.toml. Give another.")
    if path.exists():
        try:
            read_engine(path)
        except RefusedFileError:
            raise TurbomathError(
                f"{short(path)}: found a file that no fit has written, expected none or an older engine. "
                "It was left as it is. Give another with --out FILE."
            ) from None


def sentences(fitted: FittedRun, system: str) -> list[str]:
    """Return what the fit says, a sentence each."""
    fit, boost = fitted.fit, fitted.fit.expected(_part_loads(fitted))["boost"]
    count = len(fitted.rows)
    points = _WORDS.text("points", count=count) if count > 1 else _WORDS.text("points_1")
    least, half, third = (f"{fixed(100 * one, 0)} %" for one in boost.plus_or_minus / boost.value)
    cooler, gate = fit.engine.aftercooler, fit.engine.wastegate
    kept = _WORDS.text("usual", names=_names(fit.usual)) if fit.usual else _WORDS.text("nothing_usual")
    held = _WORDS.text("held", temperature=words("manifold_temperature", cooler.held_temperature or 300, system))
    opens = _WORDS.text("gate", boost=words("boost", float(gate.opening_boost), system))
    near = f"the highest {QUANTITIES[fit.driven_by].plain_name}"
    found = [
        _WORDS.text("fitted", count=points, run=short(fitted.run.name), drive=QUANTITIES[fit.driven_by].plain_name),
        _WORDS.text("leaves", most="; ".join(_worst(fitted, name, system) for name in fit.leftover)),
        _WORDS.text("freed", count=len(fit.freed), names=_names(fit.freed)),
        kept,
    ]
    found += [held] if cooler.held_temperature else []
    found += [opens] if gate.area else []
    found += [_WORDS.text("width", near=near, least=least, half=half, third=third)]
    found += [_WORDS.text("reach", ranges="; ".join(_ranges(fit, system))), _WORDS.text("far")]
    past = passed_words(limits.passed(fit.engine, at_points(fitted)), system)
    apart = [QUANTITIES[name].plain_name for name in fit.leftover if _is_apart(fitted, name)]
    found += [_WORDS.text("apart", names=" and the ".join(apart))] if apart else []
    return [*found, _WORDS.text("past", limits=past)] if past else found


def _is_apart(fitted, name):
    """Return whether one quantity of the sheet lies on one side of the model by more than its ±, on the mean."""
    wide = fitted.fit.expected(fitted.sheet.at(slice(None)))[name].plus_or_minus
    return bool(abs(np.nanmean(fitted.fit.leftover[name] / wide)) > 1)


def at_points(fitted: FittedRun) -> Balance:
    """Return the balance of the fitted engine at the points of its sheet."""
    point = fitted.sheet.at(slice(None))
    site = {name: getattr(point, name) for name in ("ambient_pressure", "ambient_temperature", "engine_speed")}
    with unwarned():
        return balance.solve(fitted.fit.engine, **site, **point.driven_by)


def _ranges(fit, system):
    """Return the range of each of what the points were given, without what still counts as near."""
    for name, one in fit.points.items():
        if name != "boost":
            name = fit.driven_by if name == "drive" else name
            low, high = (words(name, float(end), system) for end in (one.min(), one.max()))
            yield f"{QUANTITIES[name].plain_name} {low}" + (f" to {high}" if high != low else "")


def use(path: Path) -> str:
    """Return how bench.toml names the file."""
    return _WORDS.text("use", file=path.name)


def on_terminal(fitted: FittedRun, system: str) -> str:
    """Return the fit for a terminal: what it says, then each point."""
    lines = sentences(fitted, system)
    for table in (numbers_table(fitted, system), *point_tables(fitted, system)):
        rows = [tuple(f"{one.name} [{one.unit}]" if one.unit else one.name for one in table.heads), *table.rows]
        widths = [max(len(row[place]) for row in rows) for place in range(len(rows[0]))]
        lines += ["", table.caption]
        lines += [
            "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows
        ]
    return "\n".join(lines)


def fit_page(fitted: FittedRun, system: str) -> str:
    """Return the page of a fit as HTML."""
    run = fitted.run
    return page(
        "fitted_engine.html",
        title=_WORDS.text("title"),
        invented=run.bench.run.invented,
        run=" · ".join(one for one in (run.bench.run.date, short(run.name), short(run.bench.run.title, 80)) if one),
        sentences=sentences(fitted, system),
        note=_WORDS.text("note"),
        figures=[page_figure(one, HIGH) for one in pictures(fitted, system)],
        tables=[numbers_table(fitted, system), *point_tables(fitted, system)],
        convention=_WORDS.text("convention"),
        colophon=[("kit", f"turbomath {__version__}"), ("constants", f"edition {constants.EDITION}")],
    )


def numbers_table(fitted: FittedRun, system: str) -> Table:
    """Return the freed numbers: now and usual, with the ± that is left; sizes as a share of the usual one."""
    heads = tuple(Head(_HEADS.text(name)) for name in ("number", "now", "usual"))
    rows = tuple(_number_row(name, one, system) for name, one in fitted.fit.freed.items())
    return Table(_HEADS.text("tables"), heads, rows)


def point_tables(fitted: FittedRun, system: str) -> list[Table]:
    """Return for each quantity that was read a table of sheet, model and leftover, point by point."""
    made = fitted.fit.expected(fitted.sheet.at(slice(None)))
    return [_point_table(fitted, name, left, made, system) for name, left in fitted.fit.leftover.items()]


def pictures(fitted: FittedRun, system: str) -> list:
    """Return boost, power and each temperature that was read against what drives the engine, sheet beside model."""
    sheet, fit = fitted.sheet, fitted.fit
    line = _along(sheet)
    made, work = fit.expected(line), line.driven_by[sheet.drive]
    told = sheet.told | {"boost": sheet.boost}
    names = [name for name in told if name == "boost" or "temperature" in name or name == "power"]
    return [
        picture_sheet_beside_model(
            name,
            sheet.drive,
            (sheet.given[sheet.drive], told[name]),
            (work, (made[name].value, made[name].plus_or_minus)),
            system,
        )
        for name in sorted(names, key=lambda name: name != "boost")
        if np.isfinite(told[name]).any()
    ]


def _along(sheet):
    """Return points along the sheet, from a quarter of the hardest work to all of it, each at its speed."""
    work, order = sheet.given[sheet.drive], np.argsort(sheet.given[sheet.drive])
    line = np.linspace(LEAST_SHARE * work.max(), work.max(), STEPS)
    return Point(
        ambient_pressure=float(np.mean(sheet.given["ambient_pressure"])),
        ambient_temperature=float(np.mean(sheet.given["ambient_temperature"])),
        engine_speed=np.interp(line, work[order], sheet.given["engine_speed"][order]),
        medium_temperature=None if sheet.medium is None else float(np.mean(sheet.medium)),
        **{sheet.drive: line},
    )


def _part_loads(fitted):
    """Return the hardest point, half and a third of its work."""
    top = fitted.sheet.at(fitted.sheet.top)
    drive = fitted.sheet.drive
    return replace(top, **{drive: getattr(top, drive) * np.array([1.0, 1 / 2, 1 / 3])})


def _names(names):
    return ", ".join(ALL[name].words for name in names)


def _worst(fitted, name, system):
    """Return the largest leftover of one quantity in words."""
    left = np.abs(fitted.fit.leftover[name])
    place = int(np.nanargmax(left))
    said = {"quantity": QUANTITIES[name].plain_name, "point": fitted.labels[place]}
    if "temperature" in name:
        quantity, unit = width_unit(name, system)
        return _WORDS.text("leaves_degrees", amount=words(quantity, float(left[place]), system, unit), **said)
    base = fitted.sheet.given["ambient_pressure"] if "pressure" in name else 0.0 * left
    share = left[place] / np.abs(fitted.sheet.told[name] - base)[place]
    name = "boost" if name == "manifold_pressure" else name
    said["quantity"] = QUANTITIES[name].plain_name
    return _WORDS.text("leaves_of", share=f"{fixed(100 * float(share), 1)} %", **said)


def _number_row(name, one, system):
    number = ALL[name]
    if number.by == SHARE:
        return number.words, f"{with_plus_or_minus(one.value / one.usual, one.plus_or_minus / one.usual)} × usual", "1"
    if "temperature" in name:
        quantity, unit = width_unit("manifold_temperature", system)
        width = units.from_si(one.plus_or_minus, unit, quantity)
        now, usual = (words("manifold_temperature", value, system) for value in (one.value, one.usual))
        return number.words, f"{now} ± {fixed(float(width), 0)}", usual
    return number.words, with_plus_or_minus(one.value, one.plus_or_minus), f"{one.usual:g}"


def _point_table(fitted, name, left, made, system):
    unit = _absolute(name, system)
    quantity, difference = width_unit(name, system)
    places = 0 if "temperature" in name or name == "power" else 2
    sheet, model = (units.from_si(one, unit, name) for one in (fitted.sheet.told[name], made[name].value))
    over, width = (units.from_si(one, difference, quantity) for one in (left, made[name].plus_or_minus))
    heads = (
        Head(_HEADS.text("point")),
        Head(_HEADS.text("sheet"), unit),
        Head(_HEADS.text("model"), unit),
        Head(_HEADS.text("left"), difference),
        Head(_HEADS.text("width"), difference),
    )
    columns = [[fixed(float(one), places) for one in column] for column in (sheet, model, over, width)]
    rows = tuple(zip(fitted.labels, *columns, strict=True))
    return Table(QUANTITIES[name].plain_name.capitalize(), heads, rows)
