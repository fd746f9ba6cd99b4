"""The command line without the second that a process takes to start: the same words, the same code at its end."""

import contextlib
import io
import os
from typing import NamedTuple
from unittest import mock

from turbomath import cli


class Done(NamedTuple):
    """How a command ended, and what it said."""

    returncode: int
    stdout: str
    stderr: str


def homework(*arguments, cwd=".", secret=None):
    """Run `turbomath homework ...` in a folder, with or without a course secret in the environment."""
    out, err = (io.TextIOWrapper(io.BytesIO(), encoding="utf-8", newline="") for _ in range(2))
    environment = {name: value for name, value in os.environ.items() if name != "TURBOMATH_SECRET"}
    environment |= {"TURBOMATH_SECRET": secret} if secret else {}
    with (
        mock.patch.dict(os.environ, environment, clear=True),
        contextlib.chdir(cwd),
        contextlib.redirect_stdout(out),
        contextlib.redirect_stderr(err),
    ):
        try:
            code = cli.main(["homework", *map(str, arguments)])
        except SystemExit as ended:
            code = ended.code or 0
    return Done(code, *(_said(stream) for stream in (out, err)))


def _said(stream):
    stream.flush()
    return stream.buffer.getvalue().decode()
