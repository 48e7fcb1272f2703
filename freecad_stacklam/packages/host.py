# SPDX-License-Identifier: LGPL-2.1-or-later

"""The FreeCAD that packages are installed into: its folder for them, and its own Python.

Both are as FreeCAD's start-up code and its addon manager have them: 0.20 reads `AdditionalPythonPackages` in the
user's data, later versions also the folder `pyXY` in it, named after their Python, and that is where their addon
manager installs. From 1.1 on the user's data lie in a folder of the version. A snap has its user's own site instead.
"""

from __future__ import annotations

import importlib.machinery
import importlib.metadata
import os
import shutil
import site
import subprocess
import sys
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from types import ModuleType

from freecad_stacklam.packages.looking import parsed
from freecad_stacklam.packages.needs import Need

#: The first version that has a folder for each Python.
_FOLDER_FOR_EACH_PYTHON = (0, 21)
#: Where a Python that has no pip may keep the wheel of one: Debian's folder, and beside CPython's own library.
_WHEELS_OF_PIP = (Path("/usr/share/python-wheels"), Path(os.__file__).parent / "ensurepip" / "_bundled")
#: Seconds within which a Python says its version.
_PATIENCE = 20.0


@dataclass(frozen=True)
class Host:
    """A FreeCAD: its version, the folders of the user's data and of its own files, and the Python that its user named
    in the preferences ("" where none is)."""

    version: tuple[int, ...]
    user_data: Path
    home: Path
    named_python: str = ""


def package_folder(host: Host, environment: Mapping[str, str] = os.environ) -> Path:
    """The folder that this FreeCAD's addon manager installs Python packages into; it need not be there yet."""
    if environment.get("SNAP_REVISION"):
        return Path(site.getusersitepackages())
    folder = host.user_data / "AdditionalPythonPackages"
    if host.version >= _FOLDER_FOR_EACH_PYTHON:
        return folder / f"py{sys.version_info[0]}{sys.version_info[1]}"
    return folder


def own_python(host: Host) -> str:
    """The program of the Python that runs inside FreeCAD, or "" where there is none of the same version.

    Looked for as the addon manager does: the one named in the preferences, the one beside FreeCAD's program, the one on
    the path. One of another version is passed over: what it installs does not load here.
    """
    for candidate in _candidates(host):
        if os.access(candidate, os.X_OK) and _is_like_ours(candidate):
            return candidate
    return ""


def _candidates(host: Host) -> list[str]:
    major, minor = sys.version_info[:2]
    names = (f"python{major}.{minor}", "python3", "python")
    ending = ".exe" if sys.platform == "win32" else ""
    beside = [str(host.home / "bin" / (name + ending)) for name in names]
    on_path = [found for found in map(shutil.which, names) if found]
    found = [host.named_python, *beside, *on_path]
    return list(dict.fromkeys(candidate for candidate in found if candidate))


def _is_like_ours(python: str) -> bool:
    say = "import sys; print(*sys.version_info[:2], sys.maxsize)"
    try:
        done = subprocess.run(
            [python, "-c", say],
            capture_output=True,
            text=True,
            timeout=_PATIENCE,
            env=environment_for(python, os.environ),
            stdin=subprocess.DEVNULL,
        )
    except (OSError, subprocess.SubprocessError):
        return False
    return done.stdout.split() == [*map(str, sys.version_info[:2]), str(sys.maxsize)]


def pip_of(python: str, wheel_folders: Sequence[Path] | None = None) -> tuple[str, ...]:
    """The command that runs this Python's pip: where it has none, the one that it keeps to make environments with
    (Debian's python3-pip-whl, or CPython's ensurepip), which need not be installed to be run."""
    usual = (python, "-m", "pip")
    if not python or _runs((*usual, "--version")):
        return usual
    folders = _WHEELS_OF_PIP if wheel_folders is None else wheel_folders
    for wheel in (wheel for folder in folders for wheel in sorted(folder.glob("pip-*.whl"))):
        kept = (python, str(wheel / "pip"))
        if _runs((*kept, "--version")):
            return kept
    return usual


def _runs(command: Sequence[str]) -> bool:
    try:
        done = subprocess.run(
            command,
            capture_output=True,
            timeout=_PATIENCE,
            env=environment_for(command[0], os.environ),
            stdin=subprocess.DEVNULL,
        )
    except (OSError, subprocess.SubprocessError):
        return False
    return done.returncode == 0


def environment_for(python: str, environment: Mapping[str, str]) -> dict[str, str]:
    """Variables to run another Python with: FreeCAD's may have been told where its own library lies."""
    kept = {name: value for name, value in environment.items() if name != "PYTHONPATH"}
    home = kept.get("PYTHONHOME")
    if home and not Path(python).is_relative_to(home):
        del kept["PYTHONHOME"]
    return kept


class _FromTheFolder:
    """Finds some packages in our folder before anywhere else, and nothing but them."""

    def __init__(self, folder: str, modules: Iterable[str]) -> None:
        self.folder = folder
        self.modules = frozenset(modules)

    def find_spec(
        self, name: str, path: Sequence[str] | None = None, target: ModuleType | None = None
    ) -> importlib.machinery.ModuleSpec | None:
        """As Python asks it of a finder; None leaves the package to the others."""
        if name not in self.modules:
            return None
        return importlib.machinery.PathFinder.find_spec(name, [self.folder], target)


def put_on_path(folder: Path, needs: Iterable[Need]) -> None:
    """Let Python find packages in this folder; FreeCAD does it at its start, but only where the folder is there then.

    FreeCAD puts the folder last, so that one of Debian's packages that is too old would always win: such a one is
    passed over for the one in the folder.
    """
    text = str(folder)
    if not folder.is_dir():
        return
    if text not in sys.path:
        sys.path.append(text)
    inside = {need.module for need in needs if not need.is_freecads and _is_shadowed(need, text)}
    sys.meta_path[:] = [finder for finder in sys.meta_path if not isinstance(finder, _FromTheFolder)]
    if inside:
        sys.meta_path.insert(0, _FromTheFolder(text, inside))


def _is_shadowed(need: Need, folder: str) -> bool:
    """Whether the folder holds a version that will do, and another that will not comes before it."""
    here = _version_in([folder], need)
    first = _version_in(sys.path, need)
    return bool(here and first) and parsed(first) < need.least <= parsed(here)


def _version_in(path: Sequence[str], need: Need) -> str:
    found = importlib.metadata.distributions(name=need.package, path=list(path))
    return next((distribution.version for distribution in found), "")
