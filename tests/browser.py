# SPDX-License-Identifier: LGPL-2.1-or-later

"""A Chromium without a window, driven by its own protocol over a pipe, with the standard library alone.

The browser reads commands from its descriptor 3 and writes answers to 4, JSON ended by a zero byte
(--remote-debugging-pipe).
"""

from __future__ import annotations

import base64
import json
import os
import select
import shutil
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

#: Seconds within which an answer has to come: machines are shared.
PATIENCE = 60.0
FLAGS = (
    "--headless=new", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", "--disable-extensions", "--mute-audio", "--remote-debugging-pipe",
)  # fmt: skip

#: Puts the pipes where the browser looks for them, and becomes it.
LAUNCH = """
import fcntl, os, sys
for end, place in [(fcntl.fcntl(int(sys.argv[i]), fcntl.F_DUPFD, 10), i + 2) for i in (1, 2)]:
    os.dup2(end, place)
os.execv(sys.argv[3], sys.argv[3:])
"""


def chromium() -> str | None:
    """Where a Chromium is installed; None where none is."""
    return shutil.which("chromium") or shutil.which("chromium-browser")


class Page:
    """One tab, as wide as a phone."""

    def __init__(self, program: str, home: Path) -> None:
        to_read, to_write = os.pipe(), os.pipe()
        ends = (to_read[0], to_write[1])
        self._process = subprocess.Popen(
            [sys.executable, "-c", LAUNCH, *map(str, ends), program, *FLAGS, f"--user-data-dir={home}", "about:blank"],
            pass_fds=ends, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL, env={**os.environ, "HOME": str(home)},
        )  # fmt: skip
        for end in ends:
            os.close(end)
        self._write, self._read = to_read[1], to_write[0]
        self._rest, self._number, self._session = b"", 0, ""
        self.heard: list[dict[str, Any]] = []
        target = self.ask("Target.createTarget", url="about:blank")["targetId"]
        self._session = self.ask("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for room in ("Page", "Runtime", "Network", "Log"):
            self.ask(f"{room}.enable")
        self.resize(390, 844)

    def _message(self, until: float) -> dict[str, Any]:
        while b"\0" not in self._rest:
            ready, _, _ = select.select([self._read], [], [], max(0.0, until - time.monotonic()))
            if not ready:
                raise TimeoutError("the browser does not answer")
            part = os.read(self._read, 1 << 20)
            if not part:
                raise EOFError("the browser is gone")
            self._rest += part
        message, _, self._rest = self._rest.partition(b"\0")
        found: dict[str, Any] = json.loads(message)
        return found

    def ask(self, method: str, **parameters: Any) -> dict[str, Any]:
        """Send a command and wait for its answer; what else is said is kept in `heard`."""
        self._number += 1
        command: dict[str, Any] = {"id": self._number, "method": method, "params": parameters}
        if self._session:
            command["sessionId"] = self._session
        os.write(self._write, json.dumps(command).encode() + b"\0")
        until = time.monotonic() + PATIENCE
        while True:
            message = self._message(until)
            if message.get("id") == self._number:
                if "error" in message:
                    raise RuntimeError(f"{method}: {message['error']}")
                answer: dict[str, Any] = message["result"]
                return answer
            self.heard.append(message)

    def wait_for(self, method: str) -> None:
        """Wait until the browser says that."""
        until = time.monotonic() + PATIENCE
        while not any(m.get("method") == method for m in self.heard):
            self.heard.append(self._message(until))

    def run(self, script: str) -> Any:
        """The value of an expression in the page. Raises RuntimeError for what it throws."""
        answer = self.ask("Runtime.evaluate", expression=script, returnByValue=True, awaitPromise=True)
        if "exceptionDetails" in answer:
            raise RuntimeError(str(answer["exceptionDetails"]))
        return answer["result"].get("value")

    def open(self, path: Path) -> None:
        """A file, until it is loaded."""
        self._anew("Page.navigate", url=path.as_uri())

    def reload(self) -> None:
        """The same file again, from its beginning."""
        self._anew("Page.reload", ignoreCache=True)

    def reload_keeping(self, key: str, text: str) -> None:
        """The same file again, which finds `text` kept under `key`. It is put there in the new document, before the
        page's own script: what the old one writes may reach the store at any time until it is gone."""
        source = f"try {{ localStorage.setItem({json.dumps(key)}, {json.dumps(text)}); }} catch (problem) {{ }}"
        put = self.ask("Page.addScriptToEvaluateOnNewDocument", source=source)["identifier"]
        self.reload()
        self.ask("Page.removeScriptToEvaluateOnNewDocument", identifier=put)

    def _anew(self, method: str, **parameters: Any) -> None:
        """Load a document and wait until that one, and none before it, is complete: a load event may be an older one's
        that was said late."""
        self.run("window.isTheOldDocument = true")
        self.heard = [m for m in self.heard if m.get("method") != "Page.loadEventFired"]
        self.ask(method, **parameters)
        self.wait_for("Page.loadEventFired")
        until = time.monotonic() + PATIENCE
        while not self._is_new():
            if time.monotonic() > until:
                raise TimeoutError("the page does not load")
            time.sleep(0.02)

    def _is_new(self) -> bool:
        try:
            return bool(self.run("window.isTheOldDocument === undefined && document.readyState === 'complete'"))
        except RuntimeError:  # it was between two documents
            return False

    def wait_until(self, script: str) -> None:
        """Wait until an expression in the page holds. Raises TimeoutError, with the expression, where it never does."""
        until = time.monotonic() + PATIENCE
        while not self.run(script):
            if time.monotonic() > until:
                raise TimeoutError(f"waited in vain for {script}")
            time.sleep(0.02)

    def resize(self, width: int, height: int) -> None:
        """The screen, in CSS pixels."""
        self.ask("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=2, mobile=True)

    def tap(self, selector: str) -> None:
        """A real press in the middle of an element, which browsers count as the user's own."""
        self.run(f"document.querySelector({selector!r}).scrollIntoView({{block: 'center'}})")
        box = self.run(
            f"(() => {{ const r = document.querySelector({selector!r}).getBoundingClientRect();"
            " return [r.left + r.width / 2, r.top + r.height / 2]; })()"
        )
        for kind in ("mousePressed", "mouseReleased"):
            self.ask("Input.dispatchMouseEvent", type=kind, x=box[0], y=box[1], button="left", clickCount=1)

    def text(self, selector: str) -> str:
        """What an element says."""
        return str(self.run(f"document.querySelector({selector!r}).textContent"))

    def freeze(self, seconds: float) -> None:
        """Let the page sleep: none of its timers run."""
        self.ask("Page.setWebLifecycleState", state="frozen")
        time.sleep(seconds)
        self.ask("Page.setWebLifecycleState", state="active")

    def picture(self, path: Path, whole: bool = False) -> None:
        """What is on the screen, or the whole page, as PNG."""
        answer = self.ask("Page.captureScreenshot", format="png", captureBeyondViewport=whole)
        path.write_bytes(base64.b64decode(answer["data"]))

    def requests(self) -> list[str]:
        """Addresses that were asked for, those of pictures that stand in the page left out."""
        sent = [m["params"]["request"]["url"] for m in self.heard if m.get("method") == "Network.requestWillBeSent"]
        return [url for url in sent if not url.startswith("data:")]

    def complaints(self) -> list[str]:
        """Errors of the page and what its own policy forbade."""
        thrown = [
            str(m["params"]["exceptionDetails"]) for m in self.heard if m.get("method") == "Runtime.exceptionThrown"
        ]
        logged = [m["params"]["entry"] for m in self.heard if m.get("method") == "Log.entryAdded"]
        return thrown + [str(entry["text"]) for entry in logged if entry["level"] in ("error", "warning")]

    def close(self) -> None:
        """End the browser that this page started."""
        try:
            self._session = ""
            self.ask("Browser.close")
        except (OSError, EOFError, TimeoutError, RuntimeError):
            self._process.terminate()
        try:
            self._process.wait(20.0)
        except subprocess.TimeoutExpired:
            self._process.kill()
            self._process.wait()
        os.close(self._write)
        os.close(self._read)


@contextmanager
def page_in(program: str, home: Path) -> Iterator[Page]:
    """A page of a browser whose home is thrown away."""
    page = Page(program, home)
    try:
        yield page
    finally:
        page.close()
