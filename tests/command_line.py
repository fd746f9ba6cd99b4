"""The command line of the kit, called here and now, or in a process of its own."""

import contextlib
import io
import subprocess
import sys
from typing import NamedTuple

from turbomath import cli


class Done(NamedTuple):
    """How a command ended, and what it printed."""

    returncode: int
    stdout: str
    stderr: str


def turbomath(*arguments, cwd):
    """Call a command in this process, as one that stands in *cwd* would."""
    out, err = io.StringIO(), io.StringIO()
    with contextlib.chdir(cwd), contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        try:
            code = cli.main([str(one) for one in arguments])
        except SystemExit as end:
            code = end.code or 0
    return Done(code, out.getvalue(), err.getvalue())


def process(*arguments, cwd):
    """Run a command in a process of its own; slow, so a test of it is marked `process`."""
    command = [sys.executable, "-m", "turbomath", *(str(one) for one in arguments)]
    done = subprocess.run(command, capture_output=True, encoding="utf-8", cwd=cwd, timeout=120)
    return Done(done.returncode, done.stdout, done.stderr)
