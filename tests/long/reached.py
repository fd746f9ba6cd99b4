"""Which tests run a line of the kit, as one traced run tells, so that a change meets the tests that can see it first.

    COVERAGE_FILE=FILE python -m coverage run --source turbomath --rcfile=tests/long/traced.toml -m pytest -n0 tests/lab

A test that finds something kept from an earlier one runs lines that are told of the earlier one alone: what these
tests do not see, the others must look at as well.
"""

from collections import Counter
from pathlib import Path

from coverage import CoverageData

MOST = 200  # tests; behind them whole folders are run


class Reach:
    """The tests of one or more traced runs, those first that run least: they are quick, and closest to the line."""

    def __init__(self, root: Path, files: list[Path]) -> None:
        self._root, self._by_line, run_lines = root, {}, Counter()
        for file in files:
            data = CoverageData(str(file))
            data.read()
            for source in data.measured_files():
                own = self._by_line.setdefault("turbomath" + source.rpartition("/turbomath")[2], {})
                for line, contexts in data.contexts_by_lineno(source).items():
                    own.setdefault(line, set()).update(filter(None, contexts))
                    run_lines.update(contexts)
        self._size = run_lines

    def tests(self, file: str, line: int) -> list[str]:
        """Return the tests that run a line; none where it runs only as the file is loaded."""
        contexts = self._by_line.get(file, {}).get(line, ())
        named = [self._named(one) for one in sorted(contexts, key=self._size.__getitem__)]
        return [one for one in named if one][:MOST]

    def _named(self, context):
        """Return what pytest calls a test whose name in Python is *context*, where it still is there."""
        parts = context.split(".")
        for count in range(len(parts), 0, -1):
            file = Path(*parts[:count]).with_suffix(".py")
            if (self._root / file).is_file():
                return "::".join([file.as_posix(), *parts[count:]])
        return ""
