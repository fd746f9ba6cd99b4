"""How sure a number is: from what a maker says of an instrument, through any function, to a ±.

A tolerance is read as a rectangular half-width: standard uncertainty = half-width / sqrt(3). Results are shown with
coverage factor 2. One error per input is carried through, so what one gauge makes rises and falls together.
"""

import dataclasses
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turbomath.sobol import normal_points, sobol_points
from turbomath.table.constants import ZERO_CELSIUS
from turbomath.table.errors import OutOfRangeError
from turbomath.table.formulas import check_shapes, choice, plain

COVERAGE_FACTOR = 2.0
SOBOL_POINTS, SEED = 4096, 20260312

# ASME B40.100: per cent of span in the lowest quarter, the middle half and the highest quarter
GRADES = {
    "4A": (0.1, 0.1, 0.1),
    "3A": (0.25, 0.25, 0.25),
    "2A": (0.5, 0.5, 0.5),
    "1A": (1.0, 1.0, 1.0),
    "A": (2.0, 1.0, 2.0),
    "B": (3.0, 2.0, 3.0),
    "C": (4.0, 3.0, 4.0),
    "D": (5.0, 5.0, 5.0),
}

# (type, class): the greater of so many C° and so many per cent of the reading in °C.
# "standard" and "special" are ASTM E230 limits of error, "1" and "2" IEC 60584 classes, both above 0 °C.
THERMOCOUPLES = {
    ("K", "standard"): (2.2, 0.75),
    ("J", "standard"): (2.2, 0.75),
    ("N", "standard"): (2.2, 0.75),
    ("E", "standard"): (1.7, 0.5),
    ("T", "standard"): (1.0, 0.75),
    ("K", "special"): (1.1, 0.4),
    ("J", "special"): (1.1, 0.4),
    ("N", "special"): (1.1, 0.4),
    ("E", "special"): (1.0, 0.4),
    ("T", "special"): (0.5, 0.4),
    ("K", "1"): (1.5, 0.4),
    ("J", "1"): (1.5, 0.4),
    ("N", "1"): (1.5, 0.4),
    ("E", "1"): (1.5, 0.4),
    ("T", "1"): (0.5, 0.4),
    ("K", "2"): (2.5, 0.75),
    ("J", "2"): (2.5, 0.75),
    ("N", "2"): (2.5, 0.75),
    ("E", "2"): (2.5, 0.75),
    ("T", "2"): (1.0, 0.75),
}


@dataclass(frozen=True)
class Instrument:
    """What its maker says of one instrument, in SI units (temperature spans in K).

    `accuracy` is (amount, basis) with basis "of span", "of reading" (fractions) or "plain" (SI units).
    `thermocouple` is (type letter, class), a key of `THERMOCOUPLES`.
    `resolution` is a tuple of (up to this reading, step), the last with `inf`: the step to which it is read.
    """

    kind: str = ""
    span: tuple[float, float] | None = None
    grade: str | None = None
    accuracy: tuple[float, str] | None = None
    thermocouple: tuple[str, str] | None = None
    resolution: tuple[tuple[float, float], ...] = ()
    calibrated: str | None = None


@dataclass(frozen=True)
class Estimate:
    """A value and how sure it is.

    `shares` holds for each input how far the value goes when that input is one standard uncertainty too high.
    """

    value: Any  # a float or an array
    standard_uncertainty: Any
    shares: dict = field(default_factory=dict)

    @property
    def contributions(self) -> dict[str, Any]:
        """What each input alone would make of the standard uncertainty."""
        return {name: np.abs(share) for name, share in self.shares.items()}

    @property
    def plus_or_minus(self) -> Any:
        """The ± as it is shown: coverage factor 2."""
        return COVERAGE_FACTOR * self.standard_uncertainty


def tolerance(instrument: Instrument, value: ArrayLike) -> Any:
    """Half-width [SI unit of the reading] within which the true value lies: accuracy and reading step together.

    *value* is the reading as the instrument shows it (a gauge pressure for a pressure gauge; K for a
    thermometer), float or array. Accuracy and half the reading step are independent, so their squares add.
    Source: ASME B40.100 grades, ASTM E230 and IEC 60584 thermocouple limits, GUM 4.3.7.
    """
    value = np.asarray(value, dtype=float)
    half_step = resolution_step(instrument, value) / 2
    return plain(np.hypot(accuracy(instrument, value), half_step) + 0 * value)


def standard(instrument: Instrument, value: ArrayLike) -> Any:
    """Standard uncertainty [SI unit of the reading]: the tolerance over the square root of 3 (GUM 4.3.7)."""
    return tolerance(instrument, value) / np.sqrt(3)


def accuracy(instrument: Instrument, value: ArrayLike) -> Any:
    """Half-width that the maker allows at this reading, without the step to which it is read."""
    value = np.asarray(value, dtype=float)
    if instrument.grade is not None:
        return _grade_width(instrument, value)
    if instrument.thermocouple is not None:
        degrees, per_cent = choice("thermocouple", instrument.thermocouple, THERMOCOUPLES)
        return np.maximum(degrees, per_cent / 100 * np.abs(value - ZERO_CELSIUS))
    if instrument.accuracy is not None:
        amount, basis = instrument.accuracy
        whole = {"plain": 1.0, "of reading": np.abs(value), "of span": _span_width(instrument)}
        return amount * choice("the basis of an accuracy", basis, whole)
    return np.zeros_like(value)


def resolution_step(instrument: Instrument, value: ArrayLike) -> NDArray[np.float64]:
    """Step to which the instrument is read at this reading; 0 where none is stated."""
    value = np.asarray(value, dtype=float)
    step = np.zeros_like(value)
    for upper, size in reversed(instrument.resolution):
        step = np.where(value <= upper, size, step)
    return step


def _span_width(instrument):
    return np.nan if instrument.span is None else instrument.span[1] - instrument.span[0]


def _grade_width(instrument, value):
    low, middle, high = choice("grade", instrument.grade, GRADES)
    place = (value - instrument.span[0]) / _span_width(instrument)
    at_low, at_high = (place < 0.25) | np.isclose(place, 0.25), (place > 0.75) | np.isclose(place, 0.75)
    return np.select([at_low, at_high], [low, high], middle) / 100 * _span_width(instrument)


def propagate(
    function: Callable[..., Any],
    values: Mapping[str, Any],
    standard_uncertainties: Mapping[str, Any],
    *,
    method: str = "linear",
    correlation: Mapping[tuple[str, str], float] | None = None,
    distributions: Mapping[str, str] | None = None,
) -> dict[str, Estimate]:
    """Carry the uncertainty of every input through a function, all results jointly.

    Parameters
    ----------
    function : callable
        Called once as ``function(**values)`` with arrays that carry one more leading axis; returns an
        array, a dict of arrays or a record (dataclass) of arrays.
    values, standard_uncertainties : dict of float or array [any SI unit]
        Input name -> value, and input name -> its standard uncertainty. An input without one is exact.
        An input's error is one and the same for all elements of its array, as an instrument's is for all
        points of a run.
    method : "linear" or "sobol"
        First-order (GUM 5.1, 5.2), or 4,096 scrambled Sobol points of the joint distribution (JCGM 101).
    correlation : dict of float, optional
        (name, name) -> correlation coefficient; with "sobol" both must be normal.
    distributions : dict of str, optional
        Input name -> "rectangular" (the default) or "normal"; matters for "sobol" only.

    Returns
    -------
    dict of Estimate
        Result name -> `Estimate`; the name is "result" when the function returns one array.
        "linear" also fills its shares: what each input alone would cause.
    """
    check_shapes(values)
    uncertain = _uncertain(values, standard_uncertainties)
    spread = choice("method", method, {"linear": _linear, "sobol": _sobol})
    return spread(function, values, uncertain, correlation or {}, distributions or {})


def difference(first: Estimate, second: Estimate) -> Estimate:
    """Return *first* less *second*, both from one run of `propagate` with "linear": what they share falls out."""
    names = dict.fromkeys((*first.shares, *second.shares))
    shares = {name: first.shares.get(name, 0.0) - second.shares.get(name, 0.0) for name in names}
    value = np.asarray(first.value) - second.value
    variance = sum(part**2 for part in shares.values()) + np.zeros_like(value)
    return Estimate(plain(value), plain(np.sqrt(variance)), shares)


def _uncertain(values, standard_uncertainties):
    return {name: u for name, u in standard_uncertainties.items() if name in values and np.any(np.asarray(u) > 0)}


def _linear(function, values, uncertain, correlation, _distributions):
    estimates = {}
    for result, (value, share) in signed_shares(function, values, uncertain).items():
        variance = sum(part**2 for part in share.values()) + np.zeros_like(value)
        for (first, second), coefficient in correlation.items():
            variance = variance + 2 * coefficient * share[first] * share[second]
        shares = {name: plain(part) for name, part in share.items()}
        estimates[result] = Estimate(plain(value), plain(np.sqrt(variance)), shares)
    return estimates


def signed_shares(
    function: Callable[..., Any],
    values: Mapping[str, Any],
    standard_uncertainties: Mapping[str, Any],
    *,
    step: float = 0.01,
) -> dict[str, tuple[Any, dict[str, Any]]]:
    """What the error of each input does to a result, with its sign, so that results can be judged together.

    Parameters
    ----------
    function, values, standard_uncertainties
        As for `propagate`.
    step : float [-]
        Part of a standard uncertainty by which each input is moved, up and down.

    Returns
    -------
    dict
        Result name -> (its value, {input: how far it goes when that input is one standard uncertainty too high}).
    """
    uncertain = _uncertain(values, standard_uncertainties)
    names, count = list(uncertain), len(uncertain)
    shifts = np.concatenate([np.zeros((1, count)), step * np.eye(count), -step * np.eye(count)])
    found = {}
    for result, samples in _evaluate(function, values, uncertain, shifts).items():
        share = (samples[1 : 1 + count] - samples[1 + count :]) / (2 * step)
        found[result] = samples[0], dict(zip(names, share, strict=True))
    return found


def _sobol(function, values, uncertain, correlation, distributions):
    names = list(uncertain)
    uniform = sobol_points(SOBOL_POINTS, max(len(names), 1), SEED)[:, : len(names)]
    shapes = {"rectangular": lambda: np.sqrt(3) * (2 * uniform - 1), "normal": lambda: normal}
    chosen = [choice("distribution", distributions.get(name, "rectangular"), shapes) for name in names]
    for name in {name for pair in correlation for name in pair}:
        if distributions.get(name) != "normal":
            raise OutOfRangeError(f"correlated inputs must be normal for the sobol method; {name} is not.")
    normal = _normal(uniform, _matrix(names, correlation)) if shapes["normal"] in chosen else None
    shifts = np.stack([shape()[:, i] for i, shape in enumerate(chosen)], axis=1) if names else uniform
    return {
        result: Estimate(plain(samples.mean(axis=0)), plain(samples.std(axis=0, ddof=1)))
        for result, samples in _evaluate(function, values, uncertain, shifts).items()
    }


def _normal(uniform, correlation):
    return normal_points(np.clip(uniform, 1e-12, 1 - 1e-12)) @ np.linalg.cholesky(correlation).T


def _matrix(names, correlation):
    matrix = np.eye(len(names))
    for (first, second), coefficient in correlation.items():
        i, j = names.index(first), names.index(second)
        matrix[i, j] = matrix[j, i] = coefficient
    return matrix


def _evaluate(function, values, uncertain, shifts):
    """Call *function* once with every input moved by each row of *shifts* standard uncertainties."""
    shape = np.broadcast_shapes(*(np.shape(value) for value in [*values.values(), *uncertain.values()]))
    column = (len(shifts), *([1] * len(shape)))
    moved = {name: np.asarray(value, dtype=float) for name, value in values.items()}
    for index, (name, size) in enumerate(uncertain.items()):
        moved[name] = moved[name] + shifts[:, index].reshape(column) * np.asarray(size, dtype=float)
    results = _named(function(**moved))
    return {name: np.broadcast_to(value, (len(shifts), *shape)) for name, value in results.items()}


def _named(results):
    if dataclasses.is_dataclass(results):
        return {entry.name: getattr(results, entry.name) for entry in dataclasses.fields(results)}
    return dict(results) if isinstance(results, Mapping) else {"result": results}
