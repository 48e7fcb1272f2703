# SPDX-License-Identifier: LGPL-2.1-or-later

"""The FreeCAD that runs here, as packages are installed into it."""

from __future__ import annotations

from pathlib import Path

import FreeCAD

from freecad_stacklam.packages.host import Host, package_folder, put_on_path
from freecad_stacklam.packages.needs import DXF, PLANNING

#: Where its user may have named the Python to install with: from 1.0 on, and in 0.20.
_PREFERENCES = (("PythonConsole", "ExternalPythonExecutable"), ("Addons", "PythonExecutableForPip"))


def this_freecad() -> Host:
    """The FreeCAD that runs here."""
    named = (FreeCAD.ParamGet(f"User parameter:BaseApp/Preferences/{g}").GetString(k, "") for g, k in _PREFERENCES)
    return Host(
        version=tuple(int(part) for part in FreeCAD.Version()[:2]),
        user_data=Path(FreeCAD.getUserAppDataDir()),
        home=Path(FreeCAD.getHomePath()),
        named_python=next((python for python in named if python and Path(python).is_file()), ""),
    )


def read_package_folder() -> None:
    """Let Python look for our packages in FreeCAD's folder for them, also where it was made after FreeCAD's start."""
    put_on_path(package_folder(this_freecad()), (*PLANNING, *DXF))
