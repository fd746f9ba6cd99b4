"""Debian's Firefox, driven by the standard of the W3C for it, WebDriver BiDi; no other program stands between."""

import base64
import itertools
import json
import re
import shutil
import subprocess
from contextlib import contextmanager
from pathlib import Path

FIREFOX = shutil.which("firefox-esr") or shutil.which("firefox")
ARROW_RIGHT, ENTER = "\ue014", "\ue007"  # as the standard writes them
LISTENS = re.compile(r"WebDriver BiDi listening on (ws://\S+)")


class Page:
    """One page of Firefox."""

    def __init__(self, socket):
        self._socket, self._numbers = socket, itertools.count(1)
        self._ask("session.new", capabilities={})
        self._context = self._ask("browsingContext.create", type="tab")["context"]  # the first one gets no focus
        self.requests, self.errors = [], []
        self._ask("session.subscribe", events=["network.beforeRequestSent", "log.entryAdded"])

    def open(self, address, width, height):
        """Open an address in a window of this size."""
        self._here("browsingContext.setViewport", viewport={"width": width, "height": height})
        self._here("browsingContext.navigate", url=address, wait="complete")

    def told(self, script):
        """Return what a script finds, a text; waited for."""
        target = {"context": self._context}
        found = self._ask("script.evaluate", expression=script, target=target, awaitPromise=True)
        assert found["type"] == "success", found
        return found["result"].get("value")

    def until(self, script):
        """Wait until a script finds something true."""
        again = "await new Promise((done) => setTimeout(done, 50))"
        assert self.told(f"(async () => {{ while (!({script})) {again}; return 'yes'; }})()") == "yes"

    def press(self, *marks):
        """Press one after the other."""
        steps = [{"type": sort, "value": one} for one in marks for sort in ("keyDown", "keyUp")]
        self._here("input.performActions", actions=[{"type": "key", "id": "keyboard", "actions": steps}])

    def tap(self, found):
        """Touch the middle of what a script finds."""
        where = f"JSON.stringify((({found}).scrollIntoView({{ block: 'center' }}), ({found}).getBoundingClientRect()))"
        box = json.loads(self.told(where))
        x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
        at = {"type": "pointerMove", "x": round(x), "y": round(y)}
        steps = [at, {"type": "pointerDown", "button": 0}, {"type": "pointerUp", "button": 0}]
        finger = {"type": "pointer", "id": "finger", "parameters": {"pointerType": "touch"}, "actions": steps}
        self._here("input.performActions", actions=[finger])

    def picture(self, path):
        """Write what is in the window as a picture."""
        Path(path).write_bytes(base64.b64decode(self._here("browsingContext.captureScreenshot")["data"]))

    def _here(self, method, **params):
        return self._ask(method, context=self._context, **params)

    def _ask(self, method, **params):
        number = next(self._numbers)
        self._socket.send(json.dumps({"id": number, "method": method, "params": params}))
        while (found := json.loads(self._socket.recv())).get("id") != number:
            self._heard(found)
        assert found["type"] == "success", found
        return found["result"]

    def _heard(self, event):
        said = event.get("params", {})
        if event.get("method") == "network.beforeRequestSent":
            self.requests.append(said["request"]["url"])
        elif said.get("level") == "error":
            self.errors.append(said.get("text"))


@contextmanager
def firefox(folder):
    """Give a `Page` of a Firefox that begins with an empty profile in a folder, and end it."""
    import websocket

    command = [FIREFOX, "--headless", "--no-remote", "--profile", str(folder), "--remote-debugging-port", "0"]
    running = subprocess.Popen(command, stderr=subprocess.PIPE, stdout=subprocess.DEVNULL, text=True)
    try:
        address = next(found[1] for line in running.stderr if (found := LISTENS.search(line)))
        socket = websocket.create_connection(f"{address}/session", timeout=60, suppress_origin=True)
        yield Page(socket)
        socket.close()
    finally:
        running.kill()
        running.wait()
        running.stderr.close()
