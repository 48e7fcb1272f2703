# SPDX-License-Identifier: LGPL-2.1-or-later

"""The mesher and the solver of a second opinion on strength: two programs that may be installed, and that we only run.

Each runs in a process of its own, in a folder that is thrown away, with a limit on its time; its files stay only when
it came to nothing.
"""

from __future__ import annotations

import importlib.util
import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from pathlib import Path

from freecad_stacklam.lamination.elastic.multigrid import Stopped
from freecad_stacklam.lamination.opinion.script import MESH
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import say

#: Seconds that each may take, and between two looks at whether it is to go on.
LONGEST, LOOK = 600.0, 0.1
MESHER, SOLVER = "gmsh", "ccx"
#: What runs the mesher where it is only a module of Python's.
_AS_MODULE = (
    "import sys; sys.path.append({folder!r}); import gmsh; gmsh.initialize(sys.argv, run=True); gmsh.finalize()"
)
Going = Callable[[], bool]


def mesher() -> list[str]:
    """The command that starts the mesher; empty where there is none."""
    command = shutil.which(MESHER)
    if command:
        return [command]
    with suppress(ImportError, ValueError):
        found = importlib.util.find_spec(MESHER)
        if found is not None:
            folder = str(Path(found.origin or "").parent)  # where FreeCAD finds it, another Python may not
            python = sys.executable if "python" in Path(sys.executable or "").name.lower() else shutil.which("python3")
            return [python, "-c", _AS_MODULE.format(folder=folder)] if python else []
    return []


def solver() -> list[str]:
    """The command that starts the solver; empty where there is none."""
    command = shutil.which(SOLVER)
    return [command] if command else []


class OutsidePrograms:
    """See lamination.opinion.second.Programs. solid: gives the text of a stack's solid. longest: seconds for each
    program."""

    def __init__(self, solid: Callable[[str], str | None], longest: float = LONGEST) -> None:
        self.solid = solid
        self._longest = longest
        self._folder: Path | None = None

    def lacking(self) -> str:
        """What is not installed, as a sentence; "" where all is there."""
        missing = [f"{what} (“{name}”)" for what, name, found in (
            (say("a mesher"), MESHER, mesher()), (say("a solver"), SOLVER, solver())) if not found]  # fmt: skip
        if not missing:
            return ""
        return say(
            "A second opinion needs {programs}, not found on this machine: install what is missing "
            "so that it starts by that name, or set second_opinion to none.",
            programs=say(" and ").join(missing),
        )

    def mesh(self, script: str, files: Mapping[str, str], going: Going) -> str:
        """What the mesher writes for a script that reads the files, "" where nothing. Raises Refusal and Stopped."""
        texts = {**files, "form.geo": script}
        return self._run(texts, [*mesher(), "form.geo", "-nopopup", "-"], say("mesher"), MESH, going)

    def solve(self, deck: str, going: Going) -> str:
        """What the solver prints for a deck, "" where it printed nothing. Raises Refusal and Stopped."""
        return self._run({"piece.inp": deck}, [*solver(), "-i", "piece"], say("solver"), "piece.dat", going)

    def keep(self) -> str:
        """Keep the files of the last run; where they lie."""
        folder, self._folder = self._folder, None
        return str(folder) if folder is not None else say("no folder")

    def close(self) -> None:
        """Throw away the files of the last run, unless they were kept."""
        if self._folder is not None:
            shutil.rmtree(self._folder, ignore_errors=True)
            self._folder = None

    def _run(self, texts: Mapping[str, str], command: Sequence[str], what: str, wanted: str, going: Going) -> str:
        self.close()
        try:
            self._folder = Path(tempfile.mkdtemp(prefix="stacklam-opinion-"))
            for name, text in texts.items():
                (self._folder / name).write_text(text, encoding="utf-8")
        except OSError as error:
            raise Refusal(
                say(
                    "The temporary folder cannot be written ({error}): make room for some 100 MB there, "
                    "or set second_opinion to none.",
                    error=error,
                )
            ) from error
        environment = {**os.environ, "OMP_NUM_THREADS": str(min(2, os.cpu_count() or 1))}
        try:
            with (self._folder / f"{what}.log").open("wb") as log:
                process = subprocess.Popen(
                    command, cwd=self._folder, stdin=subprocess.DEVNULL, stdout=log, stderr=log, env=environment
                )
                self._wait(process, what, going)
        except OSError as error:
            raise Refusal(
                say("The {what} cannot be started ({error}): install it again.", what=what, error=error)
            ) from error
        except Stopped:
            self.close()
            raise
        path = self._folder / wanted
        try:
            return path.read_text(encoding="utf-8", errors="replace") if path.is_file() else ""
        except OSError as error:
            raise Refusal(
                say("What the {what} wrote cannot be read ({error}): go by the deep check.", what=what, error=error)
            ) from error

    def _wait(self, process: subprocess.Popen[bytes], what: str, going: Going) -> None:
        until = time.monotonic() + self._longest
        try:
            while process.poll() is None:
                if not going():
                    raise Stopped
                if time.monotonic() > until:
                    raise Refusal(
                        say(
                            "The {what} was not done after {longest:.0f} s and was stopped: go by the deep "
                            "check; its files are in {keep}.",
                            what=what,
                            longest=self._longest,
                            keep=self.keep(),
                        )
                    )
                time.sleep(LOOK)
        finally:
            if process.poll() is None:
                process.kill()
                process.wait()
