# SPDX-License-Identifier: LGPL-2.1-or-later

"""Keeps the pictures of a run where they can be looked at: in the folder that STACKLAM_SHOTS names, if it is set."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

from drive import Run


def keep(run: Run) -> Run:
    """Copy the pictures, named by FreeCAD's version and their own name; returns the run."""
    folder = os.environ.get("STACKLAM_SHOTS")
    if folder:
        Path(folder).mkdir(parents=True, exist_ok=True)
        version = ".".join(str(part) for part in run.result["version"][:2])
        for name, path in run.pictures.items():
            shutil.copy(path, Path(folder) / f"{version}-{name}.png")
    return run
