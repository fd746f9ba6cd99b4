"""What a report says and draws of a run that a logger wrote: how many stretches were steady, and the whole of it."""

from dataclasses import dataclass

from turbomath.lab.run.readings import Run
from turbomath.lab.run.steady import TEMPERATURES
from turbomath.paper.parts import Figure, Head, Table
from turbomath.pictures import printed
from turbomath.pictures.run_in_time import picture_run_in_time

HEIGHT = 170  # px


@dataclass(frozen=True)
class LogShown:
    """The sentence on a log, and its pictures; the table beside each has its stretches, not its rows."""

    sentence: str
    figures: tuple[Figure, ...]


def log_shown(run: Run, system: str) -> LogShown | None:
    """Return what is shown of a logger's file, or None for readings taken by hand."""
    if run.log is None:
        return None
    groups = (("boost",), TEMPERATURES)
    traces = [{name: run.log.traces[name] for name in group if name in run.log.traces} for group in groups]
    return LogShown(run.log.sentence, tuple(_figure(run, one, system) for one in traces if one))


def _figure(run, traces, system):
    picture = picture_run_in_time(run.log.minutes, traces, run.log.stretches, system)
    rows = tuple(
        (point, f"{first:.1f}", f"{last:.1f}")
        for point, (first, last) in zip(run.points, run.log.stretches, strict=True)
    )
    heads = Head("steady stretch, point"), Head("from", "min"), Head("to", "min")
    return Figure(picture.title, picture.alt, printed.svg(picture, HEIGHT), Table(picture.title, heads, rows))
