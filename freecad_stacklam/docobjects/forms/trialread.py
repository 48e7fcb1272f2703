# SPDX-License-Identifier: LGPL-2.1-or-later

"""Read a file in another process first, so that a damaged one cannot take FreeCAD and the maker's work with it.

Measured: a STEP file with a few bytes changed inside ends the process that reads it (a null pointer in the kernel's
translator, OCC 7.6), and no check of the text alone foresees that. The trial costs about half a second and the reading.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import FreeCAD

from freecad_stacklam.lamination.refusal import Refusal

#: Seconds; a reader that is not done by then is taken to hang.
LONGEST = 600.0
#: What the other process writes once it has FreeCAD; if it cannot have it, its end says nothing of the file.
_READY = b"ready to read"
_TRIAL = f"""
import json, os, sys
path, sys.path[:] = sys.argv[1], json.loads(sys.argv[2])
import FreeCAD, Import, Part
os.write(1, {_READY!r})
if path.lower().endswith((".brep", ".brp")):
    Part.Shape().importBrep(path)
else:
    Import.insert(path, FreeCAD.newDocument("Trial").Name, useLinkGroup=False)
os._exit(0)
"""


def refuse_unless_readable(path: Path) -> None:
    """Raise Refusal when reading a STEP or BREP file fails, crashes or hangs in a process of its own.

    Where that process cannot be had (no Python, or one without FreeCAD), nothing is tried and nothing refused.
    """
    python = _python()
    if not python:
        return
    try:
        trial = subprocess.run(
            [python, "-c", _TRIAL, str(path), json.dumps(sys.path)],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            timeout=LONGEST,
            check=False,
            creationflags=getattr(subprocess, "CREATE_NO_WINDOW", 0),
        )
    except subprocess.TimeoutExpired as problem:
        raise Refusal(f"“{path.name}” could not be read in {LONGEST / 60:.0f} minutes: export it again.") from problem
    except OSError:
        return
    if trial.returncode and _READY in trial.stdout:
        raise Refusal(f"“{path.name}” is damaged: reading it fails, so save or export it again.")


def _python() -> str:
    """The Python that FreeCAD uses, as a program; FreeCAD's own programs are no Python and name themselves instead."""
    version = f"python{sys.version_info.major}.{sys.version_info.minor}"
    home = Path(FreeCAD.getHomePath())
    places = [Path(sys.executable)] if sys.executable and "python" in Path(sys.executable).name.lower() else []
    places += [Path(sys.exec_prefix) / "bin" / version, home / "bin" / "python.exe", home / "bin" / "python"]
    return next((str(place) for place in places if place.is_file()), "")
