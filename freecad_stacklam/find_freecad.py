# SPDX-License-Identifier: LGPL-2.1-or-later

"""Where FreeCAD's own Python lies, for runs that were not started by it."""

from __future__ import annotations

import importlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

from freecad_stacklam.lamination.refusal import Refusal

#: Folders in which installations keep FreeCAD.so, and the pure Python that belongs to it.
_LIBRARIES = (
    "/usr/lib/freecad-python3/lib",
    "/usr/lib/freecad/lib",
    "/usr/lib64/freecad/lib",
    "/usr/local/lib/freecad/lib",
    "/usr/local/lib",
)
_EXTENSIONS = ("/usr/share/freecad/Ext", "/usr/lib/freecad/Ext", "/usr/local/Ext")
_TRIED = "STACKLAM_PYTHON_TRIED"


def make_importable() -> None:
    """Make `import FreeCAD` work in this process, or start again under a Python in which it does.

    Raises Refusal when FreeCAD is not found. The environment variable FREECAD_LIB may name the folder of FreeCAD.so.
    """
    if _imports():
        return
    given = os.environ.get("FREECAD_LIB")
    folders = [given] if given else []
    command = shutil.which("freecadcmd") or shutil.which("FreeCADCmd")
    if command:
        home = Path(command).resolve().parent.parent
        folders += [str(home / "lib"), str(home / "Ext")]
    for folder in (*folders, *_LIBRARIES, *_EXTENSIONS):
        if Path(folder).is_dir() and folder not in sys.path:
            sys.path.append(folder)
    if _imports():
        return
    _start_again(command)
    raise Refusal(
        "FreeCAD was not found: install FreeCAD 0.20 or newer, or set FREECAD_LIB to the folder that holds its "
        "Python module."
    )


def _imports() -> bool:
    # FreeCAD 1.1 sets LC_ALL to C as it is imported, of which Qt 6 then complains.
    locale = os.environ.get("LC_ALL", "C.UTF-8")
    try:
        importlib.import_module("FreeCAD")
    except ImportError:
        return False
    os.environ["LC_ALL"] = locale
    return True


def _start_again(command: str | None) -> None:
    """Run the same command line under another Python that can import FreeCAD. Comes back only when there is none."""
    if os.environ.get(_TRIED):
        return
    candidates = ["/usr/bin/python3"]
    if command:
        candidates.append(str(Path(command).resolve().parent / "python"))
    checkout = str(Path(__file__).resolve().parent.parent)
    path = os.pathsep.join(p for p in (checkout, *_LIBRARIES, *_EXTENSIONS, os.environ.get("PYTHONPATH", "")) if p)
    environment = {**os.environ, "PYTHONPATH": path, _TRIED: "1"}
    for python in candidates:
        if not Path(python).exists() or os.path.realpath(python) == os.path.realpath(sys.executable):
            continue
        tried = subprocess.run([python, "-c", "import FreeCAD, shapely"], env=environment, capture_output=True)
        if tried.returncode == 0:
            sys.stdout.flush()
            os.execve(python, [python, "-m", "freecad_stacklam", *sys.argv[1:]], environment)
