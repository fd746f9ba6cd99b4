"""Sea level beside a site: columns of pressure, and pairs of bars for what the compressor does and what it delivers."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from turbomath.pictures.picture import Axis, Series, Text
from turbomath.pictures.pressure_columns import LADDER, Column, PressureColumns, picture_pressure_columns

SITES = ("sea level", "your site")
ZONE = LADDER + 2.2  # where the bars begin, in widths of a column
NAME, SPAN, VALUE = 0.58, 0.92, 0.78  # left of a bar, of the longest bar, right of it
HEADING, TALL, PITCH = 0.96, 0.075, 0.36  # foot of a heading, height of a bar, next heading, in heights of the picture
FEET = (0.86, 0.765)  # of the two bars


@dataclass(frozen=True)
class Bars:
    """Two bars below a heading, sea level above the site; all numbers are in one unit, which `texts` name.

    `scale` is what the longest bar stands for at least, so that bars stand still; `limit` is marked by a dashed line.
    """

    name: str
    role: str
    spans: tuple[tuple[float, float], tuple[float, float]]
    texts: tuple[str, str]
    scale: tuple[float, float]
    limit: float | None = None


@dataclass(frozen=True)
class TwoSites(PressureColumns):
    """Columns of pressure with pairs of bars beside them."""

    pairs: tuple[tuple[str, str, str], ...] = ()

    @property
    def alt(self) -> str:
        """The columns, then each pair of bars."""
        told = " ".join(f"{name}: {SITES[0]} {first}, {SITES[1]} {second}." for name, first, second in self.pairs)
        return f"{super().alt} Beside them pairs of bars. {told}"


def picture_two_sites(
    title: str, columns: Sequence[Column], bars: Sequence[Bars], system: str, *, most: float
) -> TwoSites:
    """Return the picture.

    Parameters
    ----------
    title : str
        What it shows.
    columns : (Column, Column)
        Sea level and the site.
    bars : sequence of Bars
        At most three, from top to bottom.
    system : "us" or "si"
        The units shown.
    most : float [Pa]
        The pressure that the ladder reaches at least.
    """
    stacks = picture_pressure_columns(title, columns, system, most=most, rise=(0, 1))
    tall = stacks.y.high
    series, texts = list(stacks.series), list(stacks.texts)
    for turn, one in enumerate(bars):
        drawn, words = _pair(one, -turn * PITCH, tall)
        series, texts = [*series, *drawn], [*texts, *words]
    whole = replace(stacks, x=Axis("", "", 0.0, ZONE + NAME + SPAN + VALUE), series=tuple(series), texts=tuple(texts))
    return TwoSites(
        **{name: getattr(whole, name) for name in PressureColumns.__dataclass_fields__},
        pairs=tuple((one.name, *one.texts) for one in bars),
    )


def _pair(one, down, tall):
    """Return the bars of a pair and their words, this far *down* from the top."""
    ends = [value for span in one.spans for value in span]
    low, high = min(one.scale[0], *ends), max(one.scale[1], *ends)

    def across(value):
        return ZONE + NAME + SPAN * (value - low) / (high - low)

    series, texts = [], [Text(ZONE, (HEADING + down) * tall, one.name)]
    for site, foot, span, text in zip(SITES, FEET, one.spans, one.texts, strict=True):
        level, x = (foot + down) * tall, tuple(across(value) for value in sorted(span))
        series += _bar(one.role, f"{one.name}, {site}", x, level, level + TALL * tall)
        texts += [Text(ZONE, level + 0.022 * tall, site), Text(ZONE + NAME + SPAN + 0.05, level + 0.022 * tall, text)]
    if one.limit is not None and low <= one.limit <= high:
        feet = ((FEET[1] + down - 0.01) * tall, (FEET[0] + down + TALL + 0.005) * tall)
        series.append(Series("line", "theory", "limit", (across(one.limit),) * 2, feet))
    return series, texts


def _bar(role, label, x, low, high):
    """Return the tint and the outline of a bar that lies on its side."""
    band = Series("band", role, label, x, (low,) * 2, (low,) * 2, (high,) * 2)
    return band, Series("line", role, label, (x[0], x[0], x[1], x[1], x[0]), (low, high, high, low, low))
