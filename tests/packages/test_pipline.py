# SPDX-License-Identifier: LGPL-2.1-or-later

"""The line for pip does what it says: pip itself is run with it, on wheels made here, without a network."""

from __future__ import annotations

import base64
import hashlib
import shlex
import subprocess
import zipfile
from pathlib import Path

import pytest

from freecad_stacklam.packages.host import Host, own_python, pip_of
from freecad_stacklam.packages.needs import DXF, PLANNING, Need
from freecad_stacklam.packages.pipline import pip_line, to_copy, why_not

SAW = Need("sawdust_reader", "sawdust-reader", (2, 1))


def wheel(folder: Path, version: str = "2.1.2", requires: str = "numpy") -> Path:
    """A wheel by PEP 427: its files, METADATA, WHEEL and RECORD in one zip."""
    folder.mkdir(exist_ok=True)
    info = f"sawdust_reader-{version}.dist-info"
    says = f"Metadata-Version: 2.1\nName: sawdust-reader\nVersion: {version}\nRequires-Dist: {requires}\n"
    files = {
        "sawdust_reader/__init__.py": f"__version__ = {version!r}\n",
        f"{info}/METADATA": says,
        f"{info}/WHEEL": "Wheel-Version: 1.0\nGenerator: by hand\nRoot-Is-Purelib: true\nTag: py3-none-any\n",
    }
    rows = []
    for name, text in files.items():
        digest = base64.urlsafe_b64encode(hashlib.sha256(text.encode()).digest()).rstrip(b"=").decode()
        rows.append(f"{name},sha256={digest},{len(text.encode())}")
    files[f"{info}/RECORD"] = "\n".join([*rows, f"{info}/RECORD,,"]) + "\n"
    path = folder / f"sawdust_reader-{version}-py3-none-any.whl"
    with zipfile.ZipFile(path, "w") as archive:
        for name, text in files.items():
            archive.writestr(name, text)
    return path


@pytest.fixture
def pip(tmp_path) -> tuple[str, ...]:
    found = pip_of(own_python(Host((0, 20), tmp_path, tmp_path)))
    if subprocess.run([*found, "--version"], capture_output=True).returncode:
        pytest.skip("this machine's Python has no pip")
    return found


def test_a_python_without_pip_uses_the_one_it_keeps(tmp_path) -> None:
    python = tmp_path / "python3"
    python.write_text('#!/bin/sh\nif [ "$1" = -m ]; then echo "No module named pip"; exit 1; fi\necho "$@"\n')
    python.chmod(0o755)
    wheels = tmp_path / "python-wheels"
    wheels.mkdir()
    assert pip_of(str(python), [wheels]) == (str(python), "-m", "pip")
    (wheels / "pip-23.0.1-py3-none-any.whl").touch()
    assert pip_of(str(python), [wheels]) == (str(python), str(wheels / "pip-23.0.1-py3-none-any.whl" / "pip"))


def test_the_pip_that_debian_keeps_runs_and_installs(tmp_path) -> None:
    kept = sorted(Path("/usr/share/python-wheels").glob("pip-*.whl"))
    if not kept:
        pytest.skip("no wheel of pip on this machine")
    wheel(tmp_path / "wheels")
    pip = (own_python(Host((0, 20), tmp_path, tmp_path)), str(kept[0] / "pip"))
    done = subprocess.run(pip_line(pip, tmp_path / "to", [SAW], tmp_path / "wheels"), capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    assert (tmp_path / "to" / "sawdust_reader").is_dir()


def test_pip_installs_from_a_folder_of_wheels_and_brings_nothing_else(tmp_path, pip: tuple[str, ...]) -> None:
    wheel(tmp_path / "wheels")
    target = tmp_path / "a folder" / "AdditionalPythonPackages"
    line = pip_line(pip, target, [SAW], tmp_path / "wheels")
    done = subprocess.run(line, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    assert sorted(p.name for p in target.iterdir()) == ["sawdust_reader", "sawdust_reader-2.1.2.dist-info"]


def test_what_lies_there_in_parts_is_replaced(tmp_path, pip: tuple[str, ...]) -> None:
    wheel(tmp_path / "wheels")
    target = tmp_path / "packages"
    (target / "sawdust_reader").mkdir(parents=True)
    (target / "sawdust_reader" / "__init__.py").write_text("raise ImportError\n")
    done = subprocess.run(pip_line(pip, target, [SAW], tmp_path / "wheels"), capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    assert "2.1.2" in (target / "sawdust_reader" / "__init__.py").read_text()


def test_a_folder_without_the_wheel_is_told_in_pips_words(tmp_path, pip: tuple[str, ...]) -> None:
    wheel(tmp_path / "wheels", "2.0.0")
    line = pip_line(pip, tmp_path / "packages", [SAW], tmp_path / "wheels")
    done = subprocess.run(line, capture_output=True, text=True)
    assert done.returncode != 0
    assert why_not(done.stdout + done.stderr, pip[0]) == (
        "pip did not install it: No matching distribution found for sawdust-reader>=2.1."
    )


def test_a_python_without_pip_is_told_what_to_do() -> None:
    # What CPython says of a module that -m cannot find.
    told = why_not("/usr/bin/python3: No module named pip\n", "/usr/bin/python3")
    assert told.startswith("/usr/bin/python3 has no pip: install it (on Debian: apt-get install python3-pip)")


def test_the_line_can_be_copied_as_it_is() -> None:
    line = pip_line(("/opt/free cad/python3", "-m", "pip"), Path("/home/maker/a folder"), PLANNING[1:])
    assert shlex.split(to_copy(line)) == line
    assert "--no-deps" in line
    assert line[-1] == "shapely>=2.1"


def test_ezdxf_comes_with_its_own_needs() -> None:
    line = pip_line(("python3", "-m", "pip"), Path("/folder"), DXF)
    assert line[-4:] == ["typing_extensions>=4.6", "pyparsing>=3.0", "fonttools>=4.38", "ezdxf>=1.1"]
