"""What one user of a machine gets of another's, tried as a program of that user; it is told where to look on stdin.

It prints, as JSON, what it could list, read, write, connect to and start, and every command line that it could see.
"""

import json
import os
import socket
import sys
import urllib.error
import urllib.request
from contextlib import suppress
from pathlib import Path


def main():
    """Try everything; print what succeeded."""
    told = json.load(sys.stdin)
    got = {
        "listed": [one for one in told["folders"] if tried(os.listdir, one)],
        "read": [one for one in told["files"] if tried(lambda name: Path(name).read_bytes(), one)],
        "written": [one for one in told["folders"] if tried(planted, one)],
        "changed": [str(one) for one in below(told["kit"]) if os.access(one, os.W_OK)],
        "environments": [pid for pid in told["processes"] if tried(lambda one: read(one, "environ"), pid)],
        "sockets": [one for one in told["sockets"] if tried(connected, one)],
        "started": [one for one in told["addresses"] if tried(started, one, told["token"])],
        "commands": [read(one, "cmdline").decode() for one in os.listdir("/proc") if one.isdigit() and alive(one)],
    }
    print(json.dumps(got))


def tried(do, *given):
    """Whether it could be done."""
    try:
        do(*given)
    except (OSError, urllib.error.URLError):
        return False
    return True


def planted(folder):
    (Path(folder) / "planted").write_text("x", encoding="ascii")
    (Path(folder) / "planted").unlink()


def below(folder):
    return [Path(folder), *(one for one in Path(folder).rglob("*") if not one.is_symlink())]


def read(pid, name):
    return Path("/proc", str(pid), name).read_bytes()


def alive(pid):
    with suppress(OSError):
        return bool(read(pid, "cmdline"))
    return False


def connected(path):
    with socket.socket(socket.AF_UNIX) as plug:
        plug.connect(path)


def started(address, token):
    """Start a Python on another's server, with a key of one's own."""
    head = {"Authorization": f"token {token}", "Content-Type": "application/json"}
    request = urllib.request.Request(f"{address}api/kernels", data=b"{}", headers=head, method="POST")
    opener = urllib.request.build_opener(urllib.request.ProxyHandler({}), urllib.request.HTTPRedirectHandler())
    with opener.open(request, timeout=20) as answer:
        if answer.status != 201:
            raise OSError(answer.status)


if __name__ == "__main__":
    main()
