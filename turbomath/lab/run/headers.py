"""The header of a readings sheet: what each column is, and in which unit."""

import re
from dataclasses import dataclass, replace
from difflib import SequenceMatcher

from turbomath import units
from turbomath.lab.run.cells import Sheet
from turbomath.lab.run.channels import NUMBER_COLUMNS, TEXT_COLUMNS
from turbomath.table.errors import UnitError
from turbomath.table.quantities import QUANTITIES

_NAME_AND_UNIT = re.compile(r"(.*?)\s*(?:\[\s*([^\[\]]*?)\s*\])?", re.DOTALL)
_MISSING = frozenset({"", "-", "–", "—", "−", "n/a", "na"})
_ROUND_BRACKETS = re.compile(r"(.*?)\s*\(([^()]*)\)", re.DOTALL)
_FIGURES = re.compile(r"[<>=≥≤~+−–\-\s]*\d[\d.,\s]*\+?")
_LONGEST_NAME = 200  # letters, unit included
_LONGEST_SLIP = 60  # letters; a longer name is like none of the kit's
_ALIKE = 0.8  # as `difflib` counts it: a name this near to a known one is a slip
_KNOWN = (*TEXT_COLUMNS, *NUMBER_COLUMNS)


@dataclass(frozen=True)
class Column:
    """One column: the kit's name (or the header's own words), the header text, the unit as written, the cells.

    `gauge` is true of a pressure that counts from the barometer and is to be made absolute.
    """

    name: str
    header: str
    unit: str
    cells: tuple[str, ...]
    gauge: bool = False

    @property
    def holds_numbers(self) -> bool:
        """Whether its cells are readings of a quantity."""
        return self.name in NUMBER_COLUMNS


def columns(sheet: Sheet) -> tuple[list[Column], list[int]]:
    """Return (columns, spreadsheet rows) of a sheet; a second header row that holds the units is taken up."""
    texts = zip(*(cells for _, cells in sheet.rows), strict=True) if sheet.rows else [()] * len(sheet.header)
    found = [_column(header.strip(), cells, sheet.place) for header, cells in zip(sheet.header, texts, strict=True)]
    _refuse_twins(found, sheet.place)
    rows, place = [row for row, _ in sheet.rows], sheet.place
    if rows and _is_unit_row(found):
        found = [_with_unit_below(column) for column in found]
        rows, place = rows[1:], place.at(row=rows[0])
    return [_with_sound_unit(column, place) for column in found], rows


def is_missing(cell: str) -> bool:
    """Return whether a cell says that there is no reading."""
    return cell.strip().lower() in _MISSING


def known_name(words: str) -> str:
    """Return the kit's spelling of a name: small letters and underscores."""
    return "_".join(words.replace("_", " ").lower().split())


def _column(header, cells, place):
    if len(header) > _LONGEST_NAME:
        raise place.refusal(header, f"a name of at most {_LONGEST_NAME} letters", "Shorten the name of the column.")
    words, unit = _NAME_AND_UNIT.fullmatch(header).groups()
    name = known_name(words)
    if unit is None:
        name, unit = _other_forms(words)
    if name not in _KNOWN:
        _refuse_slip(name, header, place)
    return Column(name if name in _KNOWN else header, header, unit or "", cells)


def _other_forms(words):
    """Return (name, unit) of a header whose unit is in round brackets, or behind the name without brackets."""
    in_brackets = _ROUND_BRACKETS.fullmatch(words)
    if in_brackets and known_name(in_brackets[1]) in NUMBER_COLUMNS:
        return known_name(in_brackets[1]), in_brackets[2]
    parts = words.replace("_", " ").split()
    for end in range(len(parts) - 1, 0, -1):
        name, unit = known_name(" ".join(parts[:end])), " ".join(parts[end:])
        if name in NUMBER_COLUMNS and _is_unit_of(unit, name):
            return name, unit
    return known_name(words), None


def _is_unit_of(unit, name):
    """Return whether *unit* measures the quantity, even if it does not yet say gauge or absolute."""
    for quantity in (name, "boost") if QUANTITIES[name].kind == "pressure" else (name,):
        try:
            units.to_si(0.0, unit, quantity, barometer=1e5)
        except UnitError:
            continue
        return True
    return name == "fuel_flow" and is_volume_flow(unit)


def _refuse_slip(name, header, place):
    """Refuse a name that is nearly one the kit knows; any other is a column of its own."""
    if not name or len(name) > _LONGEST_SLIP:
        return
    likeness = {known: _likeness(name, known) for known in _KNOWN if _could_be_like(name, known)}
    near = max(likeness, key=likeness.__getitem__, default="")
    if near and likeness[near] >= _ALIKE and all(_likely_word(word, near) for word in name.split("_")):
        expected = f"a name such as '{near.replace('_', ' ')}', the nearest"
        action = "Correct the name, or choose one less like it if the column is another thing."
        raise place.at(column=header).refusal(header, expected, action)


def _could_be_like(one, other):
    """Whether their lengths leave it open: what is alike in both is no longer than the shorter one."""
    return 2 * min(len(one), len(other)) >= _ALIKE * (len(one) + len(other))


def _likeness(one, other):
    return SequenceMatcher(None, one, other, autojunk=False).ratio()


def _likely_word(word, known):
    return any(part.startswith(word) or _likeness(word, part) >= 0.7 for part in known.split("_"))


def _refuse_twins(found, place):
    seen = {}
    for column in found:
        words = column.name if column.name in _KNOWN else _NAME_AND_UNIT.fullmatch(column.header)[1]
        twin = seen.setdefault(known_name(words), column)
        if twin is not column:
            expected = f"each name once; '{twin.header}' has it too"
            raise place.at(column=column.header).refusal(column.header, expected, "Rename or remove one of them.")


def _is_unit_row(found):
    """Return whether the first row holds the units: a text under each number column without one, no reading at all."""
    first = [(column, column.cells[0].strip()) for column in found if not is_missing(column.cells[0])]
    bare = [column for column in found if column.holds_numbers and not column.unit]
    filled = [column for column, _ in first if column.name in _KNOWN]
    return bool(bare) and filled == bare and not any(_FIGURES.fullmatch(cell) for _, cell in first)


def _with_unit_below(column):
    below = column.cells[0].strip()
    unit = column.unit if is_missing(below) else below.strip("[]() ")
    return replace(column, unit=unit, cells=column.cells[1:])


def _with_sound_unit(column, place):
    """Return the column with what its pressures count from, or refuse a unit that does not fit its quantity."""
    if not column.holds_numbers or (column.name == "fuel_flow" and is_volume_flow(column.unit)):
        return column
    try:
        zero = units.to_si(0.0, column.unit, column.name, barometer=1e5)
    except UnitError as error:
        place = place.at(column=column.header)
        raise place.refusal(column.unit or column.header, error.expected, error.action) from None
    return replace(column, gauge=QUANTITIES[column.name].kind == "pressure" and zero > 0)


def is_volume_flow(unit: str) -> bool:
    """Return whether a unit is one of volume flow, as of fuel in L/h."""
    return _family(unit) == "volume flow"


def is_fraction(unit: str) -> bool:
    """Return whether a unit is one of a part of the whole, as % is."""
    return _family(unit) == "fraction"


def _family(unit):
    try:
        return units.family(unit)
    except UnitError:
        return None
