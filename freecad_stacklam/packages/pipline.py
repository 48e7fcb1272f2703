# SPDX-License-Identifier: LGPL-2.1-or-later

"""The line that installs packages into FreeCAD's folder, and why it failed."""

from __future__ import annotations

import shlex
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

from freecad_stacklam.packages.needs import Need

#: What stands in the line to copy where no Python was found.
SOME_PIP = ("python3", "-m", "pip")


def pip_line(pip: Sequence[str], folder: Path, needs: Sequence[Need], wheels: Path | None = None) -> list[str]:
    """The arguments of the command that installs these packages into a folder, from wheels in another folder where one
    is given. pip: the command that runs pip.

    Without dependencies, because FreeCAD's own numpy must stay the only one; only wheels, because nobody's FreeCAD has
    a compiler; and what lies there in parts is replaced.
    """
    line = [*pip, "install", "--disable-pip-version-check", "--no-input"]
    line += ["--no-deps", "--only-binary", ":all:", "--upgrade", "--target", str(folder)]
    if wheels is not None:
        line += ["--no-index", "--find-links", str(wheels)]
    return line + [need.requirement for need in needs]


def to_copy(line: Sequence[str]) -> str:
    """The command as it is typed into a terminal of this system."""
    return subprocess.list2cmdline(line) if sys.platform == "win32" else shlex.join(line)


def why_not(output: str, python: str) -> str:
    """Why pip failed, in one sentence, of what it printed."""
    if "No module named pip" in output:
        return (
            f"{python} has no pip: install it (on Debian: apt-get install python3-pip), or on Debian 13 and newer "
            "install Debian's own python3-shapely and python3-ezdxf instead."
        )
    lines = [line.strip() for line in output.splitlines() if line.strip()]
    errors = [line.removeprefix("ERROR:").strip() for line in lines if line.startswith("ERROR:")]
    said = errors[-1] if errors else (lines[-1] if lines else "it said nothing")
    return f"pip did not install it: {said.rstrip('.')}."
