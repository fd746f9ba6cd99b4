"""The commands of loggers: stretches offered and taken, a serial port written to a file, a run played as if now."""

import re
from pathlib import Path
from typing import Any

from turbomath.disk import plain_text
from turbomath.table.errors import TurbomathError

ALL = "all"


def add(commands: Any) -> None:
    """Add `turbomath play` and `turbomath log` to the subcommands."""
    words = "write a shipped run to a file as if it happened now, INVENTED, for a class without an engine"
    play = commands.add_parser("play", help=words)
    play.add_argument("run", metavar="RUN", help="a run folder, or a shipped run")
    play.add_argument("--to", metavar="FILE", required=True, help="the file to write, line by line")
    play.add_argument("--hold", metavar="SECONDS", type=float, default=300.0, help="how long each point is held (300)")
    play.add_argument("--rate", metavar="HZ", type=float, default=1.0, help="rows a second (default: 1)")
    play.add_argument("--at-once", action="store_true", help="write all of it without waiting")
    play.set_defaults(command=_play)

    words = "write what a logger sends over a serial port to a file, line by line; without PORT: which ports there are"
    log = commands.add_parser("log", help=words)
    log.add_argument("port", metavar="PORT", nargs="?", default="", help="such as COM3 or /dev/ttyUSB0")
    log.add_argument("--to", metavar="FILE", default="", help="the file to write; lesson 08 follows it")
    log.add_argument("--speed", metavar="BITS", type=int, default=9600, help="bits a second (default: 9600)")
    log.add_argument("--clock", action="store_true", help="put this computer's time before each line")
    log.set_defaults(command=_log)


def read(log: str, bench: str, take: str) -> Any:
    """Return the run in a folder, or that of a logger's file with the stretches that are taken.

    It is None where the stretches of a logger's file were only offered.
    """
    from turbomath.lab.run import readings

    if not bench:
        if Path(log).is_file() or take:
            expected = "a run folder, or a logger's file with the folder of its bench.toml"
            raise TurbomathError(f"{log}: found no --bench, expected {expected}. Add --bench FOLDER.")
        return readings.read_run(log)
    if take:
        return readings.read_run(bench, log, _numbers(take))
    offered = readings.read_run(bench, log)
    if offered.log is None:
        return offered
    print(plain_text.wrapped(offered.log.offered))
    for name, (first, last) in zip(offered.points, offered.log.stretches, strict=True):
        told = f"{name}: {first:.1f} to {last:.1f} min{_told(offered, offered.points.index(name))}"
        print(plain_text.wrapped(told, "  ", "  "))
    print("None was taken yet. Take them with --take all, or some, such as --take 1,3.")
    return None


def _numbers(take: str) -> list[int] | None:
    if take.strip().lower() == ALL:
        return None
    if not re.fullmatch(r"\s*\d{1,3}(\s*,\s*\d{1,3})*\s*", take):
        raise TurbomathError(f"--take: found {take!r}, expected all, or numbers such as 1,3. Correct it.")
    return [int(one) for one in take.split(",")]


def _told(run: Any, row: int) -> str:
    """Return the means of a stretch that tell it from the others."""
    shown = [name for name in ("engine_speed", "load", "boost", "manifold_temperature") if run.has(name)]
    return "".join(f", {name.replace('_', ' ')} {run.cells[name][row]} {run.units[name]}" for name in shown)


def _play(options: Any) -> None:
    from turbomath.lab import play
    from turbomath.lab.run import readings

    print(f"{play.HEAD}. Stop it with Ctrl+C.", flush=True)
    try:
        rows = play.play(
            readings.read_run(options.run), options.to, hold=options.hold, rate=options.rate, at_once=options.at_once
        )
    except KeyboardInterrupt:
        print(f"Stopped. Every line in {options.to} is whole.")
        return
    print(f"Written: {options.to}, {rows:,} rows")


def _log(options: Any) -> None:
    from turbomath.lab import serial_log

    if options.port and options.to:
        serial_log.log(options.port, options.to, speed=options.speed, clock=options.clock, tell=_tell)
        return
    if options.port:
        raise TurbomathError(f"{options.port}: found no --to, expected the file to write. Add --to FILE.")
    found = [f"{name}: {words}" for name, words in serial_log.ports()]
    print(*(found or ["No serial port was found. Is the plug in?"]), sep="\n")


def _tell(words: str) -> None:
    print(plain_text.wrapped(words), flush=True)
