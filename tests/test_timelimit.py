# SPDX-License-Identifier: LGPL-2.1-or-later

"""Work that may never end: stand-ins that sleep, crash or are stopped, in processes of their own."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.timelimit import LONGEST, SECONDS, End, can_watch, is_watched, limited, watched

CHECKOUT = Path(__file__).resolve().parent.parent
pytestmark = pytest.mark.skipif(os.name != "posix", reason="processes of POSIX")


def working(code: str) -> list[str]:
    head = (
        f"import os, sys, time\nsys.path.insert(0, {str(CHECKOUT)!r})\nfrom freecad_stacklam.timelimit import limited\n"
    )
    return [sys.executable, "-c", head + code]


def test_work_that_ends_in_time_is_left_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(SECONDS, "0.3")
    # Twice within its time, and between them as long as it likes.
    code = "for n in range(2):\n    with limited('“Seat”'): time.sleep(0.05)\n    time.sleep(0.5)\nsys.exit(3)"
    assert watched(working(code)) == End(3)


def test_work_that_does_not_end_is_ended_and_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(SECONDS, "0.5")
    began = time.monotonic()
    code = "with limited('“Foot”'): pass\nwith limited('“Seat”'): time.sleep(100)"
    assert watched(working(code)) == End(-signal.SIGKILL, "“Seat”", 0.5)
    assert 0.5 <= time.monotonic() - began < 30


def test_work_that_ends_its_process_is_named() -> None:
    assert watched(working("with limited('“Seat”'): os.abort()")) == End(-signal.SIGABRT, "“Seat”")
    assert watched(working("with limited('“Seat”'): pass\nos.abort()")) == End(-signal.SIGABRT)


@pytest.mark.parametrize("busy", [True, False])
def test_a_stop_ends_work_that_hears_nothing_and_is_handed_on_to_other(busy: bool, tmp_path: Path) -> None:
    begun = tmp_path / "begun"
    work = f"open({str(begun)!r}, 'w').close(); time.sleep(100)"
    code = f"import signal; signal.signal(signal.SIGTERM, lambda *a: {'None' if busy else 'os._exit(5)'})\n"
    # A handler that does nothing stands for a kernel that lets none run: Python sleeps on after it.
    code += f"with limited('“Seat”'): {work}" if busy else work
    watcher = working(
        "from freecad_stacklam.timelimit import watched\n"
        f"print(watched({working(code)!r}))"
    )  # fmt: skip
    process = subprocess.Popen(watcher, stdout=subprocess.PIPE, text=True)
    end = time.monotonic() + 60
    while not begun.exists():
        assert time.monotonic() < end
        time.sleep(0.02)
    time.sleep(0.2)
    process.send_signal(signal.SIGTERM)
    said, _ = process.communicate(timeout=60)
    expected = End(-signal.SIGKILL, "“Seat”", stopped=signal.SIGTERM) if busy else End(5, stopped=signal.SIGTERM)
    assert said.strip() == repr(End(expected.status, expected.busy_with, None, int(signal.SIGTERM)))


def test_nothing_is_limited_where_nobody_watches(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(SECONDS, "0.1")
    assert can_watch() and not is_watched()
    with limited("“Seat”"):
        time.sleep(0.2)


@pytest.mark.parametrize("text", ["", " ", "0.1", "86400", "7.5"])
def test_the_environment_may_give_another_limit(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    reading, writing = os.pipe()
    monkeypatch.setenv(SECONDS, text)
    monkeypatch.setenv("STACKLAM_WATCHED_BY", str(writing))
    with limited("“Seat”"):
        pass
    told = os.read(reading, 4096)
    os.close(reading)
    os.close(writing)
    assert f'"seconds": {float(text) if text.strip() else LONGEST}'.encode() in told
    assert told.endswith(b"\n{}\n")


@pytest.mark.parametrize("text", ["soon", "0", "-1", "nan", "inf", "1e9"])
def test_a_limit_that_is_no_time_is_refused(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(SECONDS, text)
    monkeypatch.setenv("STACKLAM_WATCHED_BY", "-1")
    with pytest.raises(Refusal, match=f"{SECONDS} is “{text}”.*give seconds, 0.1 to 86400"), limited("“Seat”"):
        pass
