# SPDX-License-Identifier: LGPL-2.1-or-later

"""A time limit for work that cannot be interrupted from within: the geometry kernel answers no signal while it meshes,
and some shapes keep it busy for ever or end its process.

On the command line the job is therefore done by a second process. Before such work it tells the first what comes and
how long it may take, and after it that it is done; the first, which has nothing else to do, ends it when the time is
over. Where nobody watches (the window, the tests' own process, systems without POSIX pipes) nothing is limited.
"""

from __future__ import annotations

import ctypes
import json
import os
import select
import signal
import subprocess
import sys
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass

from freecad_stacklam.lamination.refusal import Refusal

#: Seconds that the kernel may spend on one solid; the variable of the environment gives another number of them.
LONGEST = 120.0
SECONDS = "STACKLAM_MESHING_SECONDS"
#: The most and the least that the variable may say: a day, and what no solid needs less than.
MOST_SECONDS, LEAST_SECONDS = 86_400.0, 0.1
_PIPE = "STACKLAM_WATCHED_BY"
#: Letters of a solid's name that are told: more than labels out of files have.
_LONGEST_NAME = 130
_DIE_WITH_PARENT = 1  # prctl's PR_SET_PDEATHSIG, Linux


@dataclass(frozen=True)
class End:
    """How a watched process ended: its exit status, negative for a signal, and what it was at (a solid's name in
    quotes, or ""). `late`: seconds after which it was ended at that, or None. `stopped`: the signal that the maker sent
    meanwhile, or None."""

    status: int
    busy_with: str = ""
    late: float | None = None
    stopped: int | None = None


# --- in the process that works ----------------------------------------------------------------------------------------


@contextmanager
def limited(name: str) -> Iterator[None]:
    """Within it the kernel works on the solid `name`; the process is ended if that takes too long and it is watched.

    Raises Refusal where the environment says no number of seconds."""
    if is_watched():
        _tell({"seconds": _allowed(), "name": name[:_LONGEST_NAME]})
    try:
        yield
    finally:
        if is_watched():
            _tell({})


def is_watched() -> bool:
    """Does another process watch this one?"""
    return _PIPE in os.environ


def end_with_the_watcher() -> None:
    """See to it that this process does not outlive the one that watches it, where the system can (Linux)."""
    if sys.platform == "linux":
        with suppress(OSError, AttributeError):
            ctypes.CDLL(None).prctl(_DIE_WITH_PARENT, signal.SIGKILL)


def _allowed() -> float:
    text = os.environ.get(SECONDS, "").strip()
    if not text:
        return LONGEST
    try:
        seconds = float(text)
    except ValueError:
        seconds = 0.0
    if not LEAST_SECONDS <= seconds <= MOST_SECONDS:
        raise Refusal(
            f"{SECONDS} is “{text[:40]}” in the environment: give seconds, {LEAST_SECONDS:g} to {MOST_SECONDS:.0f}, or "
            "take it out."
        )
    return seconds


def _tell(message: dict[str, object]) -> None:
    with suppress(OSError, ValueError):
        os.write(int(os.environ[_PIPE]), json.dumps(message).encode() + b"\n")


# --- in the process that watches --------------------------------------------------------------------------------------


def can_watch() -> bool:
    """Can a process be watched here, and is this not a watched one itself?"""
    return os.name == "posix" and not is_watched()


def watched(command: Sequence[str]) -> End:
    """Run a command to its end, or to the end of the time that it allows itself. Raises OSError when it cannot be
    started. SIGTERM and SIGINT are handed on; while the kernel works they end the command at once."""
    reading, writing = os.pipe()
    worker: subprocess.Popen[bytes] | None = None
    stopped: list[int] = []
    message: dict[str, object] = {}

    def hand_on(number: int, _: object) -> None:
        stopped.append(number)
        if worker is not None:
            worker.send_signal(signal.SIGKILL if message else number)

    before = {number: signal.signal(number, hand_on) for number in (signal.SIGTERM, signal.SIGINT)}
    try:
        environment = {**os.environ, _PIPE: str(writing)}
        worker = subprocess.Popen(command, env=environment, pass_fds=(writing,))
        os.close(writing)
        writing = -1
        if stopped:
            worker.send_signal(stopped[-1])
        until, heard = float("inf"), b""
        while True:
            wait = None if until == float("inf") else max(0.0, until - time.monotonic())
            if not select.select([reading], [], [], wait)[0]:
                worker.kill()
                return End(worker.wait(), str(message["name"]), float(str(message["seconds"])), _last(stopped))
            more = os.read(reading, 65_536)
            if not more:
                return End(worker.wait(), str(message.get("name", "")), None, _last(stopped))
            *lines, heard = (heard + more).split(b"\n")
            if lines:
                message = json.loads(lines[-1])
                until = time.monotonic() + float(str(message["seconds"])) if message else float("inf")
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)
        os.close(reading)
        if writing >= 0:
            os.close(writing)


def _last(numbers: list[int]) -> int | None:
    return numbers[-1] if numbers else None
