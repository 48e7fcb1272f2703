# SPDX-License-Identifier: LGPL-2.1-or-later

"""The folder and the Python of a FreeCAD, as its own start-up code and its addon manager have them.

What each version does was read in its own files: FreeCADInit.py (in libFreeCADApp) and Mod/AddonManager of 0.20.2,
1.0.0 and 1.1.3; test_addon_manager.py asks those of the FreeCAD on this machine.
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from freecad_stacklam.packages.host import Host, environment_for, own_python, package_folder, put_on_path
from freecad_stacklam.packages.needs import PLANNING, Need

HERE = f"py{sys.version_info[0]}{sys.version_info[1]}"


def a_host(tmp_path: Path, version: tuple[int, ...] = (1, 1), named: str = "") -> Host:
    return Host(version, tmp_path / "data", tmp_path / "home", named)


def test_the_folder_by_version(tmp_path) -> None:
    whole = tmp_path / "data" / "AdditionalPythonPackages"
    assert package_folder(a_host(tmp_path, (0, 20)), {}) == whole
    assert package_folder(a_host(tmp_path, (1, 0)), {}) == whole / HERE
    assert package_folder(a_host(tmp_path, (1, 1)), {}) == whole / HERE
    assert "site-packages" in str(package_folder(a_host(tmp_path), {"SNAP_REVISION": "12"}))


def fake_python(folder: Path, name: str, version: str) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / name
    path.write_text(f"#!/bin/sh\necho {version} {sys.maxsize}\n")
    path.chmod(0o755)
    return path


def test_freecads_own_python_is_the_one_of_its_version(tmp_path, monkeypatch) -> None:
    monkeypatch.setenv("PATH", f"{tmp_path / 'path'}:/bin")
    ours = f"{sys.version_info[0]} {sys.version_info[1]}"
    other = fake_python(tmp_path / "home" / "bin", "python3", "3 7")
    assert own_python(a_host(tmp_path)) != str(other), "it would install for another Python"
    beside = fake_python(tmp_path / "home" / "bin", "python", ours)
    assert own_python(a_host(tmp_path)) == str(beside)
    named = fake_python(tmp_path / "named", "python3", ours)
    assert own_python(a_host(tmp_path, named=str(named))) == str(named)
    named.write_text("no program")
    assert own_python(a_host(tmp_path, named=str(named))) == str(beside)


def test_the_real_one_is_found_on_this_machine(tmp_path) -> None:
    found = own_python(Host((0, 20), tmp_path, tmp_path))
    assert found
    say = subprocess.run([found, "-c", "import sys; print(sys.version_info[:2])"], capture_output=True, text=True)
    assert say.stdout.strip() == str(sys.version_info[:2])


def test_none_is_found_where_there_is_none(tmp_path, monkeypatch) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    assert own_python(a_host(tmp_path)) == ""


def test_the_variables_of_another_python_do_not_travel() -> None:
    there = {"PYTHONPATH": "/x", "PYTHONHOME": "/mount/usr", "HOME": "/home/maker"}
    assert environment_for("/mount/usr/bin/python", there) == {"PYTHONHOME": "/mount/usr", "HOME": "/home/maker"}
    assert environment_for("/usr/bin/python3", there) == {"HOME": "/home/maker"}


def lay(folder: Path, version: str) -> Path:
    (folder / "sawdust_reader").mkdir(parents=True)
    (folder / "sawdust_reader" / "__init__.py").write_text(f"__version__ = {version!r}\n")
    info = folder / f"sawdust_reader-{version}.dist-info"
    info.mkdir()
    (info / "METADATA").write_text(f"Metadata-Version: 2.1\nName: sawdust-reader\nVersion: {version}\n")
    return folder


@pytest.mark.parametrize(("first", "loaded"), [("1.8.5", "2.1.2"), ("2.2.0", "2.2.0")])
def test_a_package_of_the_system_that_is_too_old_is_passed_over(tmp_path, monkeypatch, first: str, loaded: str) -> None:
    # Debian 12's python3-shapely is 1.8.5, and FreeCAD puts its own folder for packages after Debian's.
    need = Need("sawdust_reader", "sawdust-reader", (2, 1))
    monkeypatch.setattr(sys, "path", [*sys.path, str(lay(tmp_path / "system", first))])
    monkeypatch.setattr(sys, "meta_path", list(sys.meta_path))
    put_on_path(lay(tmp_path / "folder", "2.1.2"), (*PLANNING, need))
    try:
        assert __import__("sawdust_reader").__version__ == loaded
    finally:
        sys.modules.pop("sawdust_reader", None)


def test_a_folder_that_is_not_there_is_not_put_on_the_path(tmp_path, monkeypatch) -> None:
    monkeypatch.setattr(sys, "path", list(sys.path))
    put_on_path(tmp_path / "none", PLANNING)
    assert str(tmp_path / "none") not in sys.path
