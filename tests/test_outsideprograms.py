# SPDX-License-Identifier: LGPL-2.1-or-later

"""Finding and running the two programs, by stand-ins: shell scripts of their names on a PATH of their own."""

from __future__ import annotations

import os
import shutil
import time
from pathlib import Path
from types import SimpleNamespace

import pytest

from freecad_stacklam import outsideprograms
from freecad_stacklam.lamination.elastic.multigrid import Stopped
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.outsideprograms import OutsidePrograms

pytestmark = pytest.mark.skipif(os.name != "posix", reason="stand-ins are shell scripts")


def nothing(name: str) -> None:
    return None


def going() -> bool:
    return True


@pytest.fixture
def shelf(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder that is all of the PATH but the shell's own programs, and no Python module of the mesher's."""
    for name in ("sh", "sleep", "cat"):
        (tmp_path / name).symlink_to(str(shutil.which(name)))
    monkeypatch.setenv("PATH", str(tmp_path))
    monkeypatch.setenv("TMPDIR", str(tmp_path))
    monkeypatch.setattr("tempfile.tempdir", None)
    monkeypatch.setattr(outsideprograms.importlib.util, "find_spec", nothing)
    return tmp_path


def stand_in(shelf: Path, name: str, script: str) -> None:
    (shelf / name).write_text(f"#!{shelf}/sh\n{script}\n")
    (shelf / name).chmod(0o755)


def folders(shelf: Path) -> list[Path]:
    return list(shelf.glob("stacklam-opinion-*"))


def test_what_is_missing_is_said_in_one_sentence(shelf: Path) -> None:
    programs = OutsidePrograms(nothing)
    assert "a mesher (“gmsh”) and a solver (“ccx”), not found" in programs.lacking()
    stand_in(shelf, "gmsh", "")
    assert "a solver (“ccx”)" in programs.lacking() and "gmsh" not in programs.lacking()
    stand_in(shelf, "ccx", "")
    assert programs.lacking() == ""


def test_a_mesher_that_is_only_a_module_will_do(shelf: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(
        outsideprograms.importlib.util, "find_spec", lambda name: SimpleNamespace(origin="/a/place/gmsh.py")
    )
    assert "append('/a/place'); import gmsh" in outsideprograms.mesher()[-1]
    monkeypatch.setattr(outsideprograms.sys, "executable", "/usr/bin/freecad")
    assert outsideprograms.mesher() == []  # no Python on this PATH


def test_what_is_written_is_read_and_thrown_away(shelf: Path) -> None:
    stand_in(shelf, "gmsh", f"{shelf}/cat form.geo form.stl > mesh.msh")
    stand_in(shelf, "ccx", f"{shelf}/cat piece.inp > piece.dat; exit 3")
    programs = OutsidePrograms(nothing)
    assert programs.mesh("script ", {"form.stl": "facets"}, going) == "script facets"
    assert programs.solve("deck", going) == "deck"  # however it ends
    programs.close()
    assert folders(shelf) == []


def test_files_stay_where_they_are_kept(shelf: Path) -> None:
    stand_in(shelf, "ccx", "echo no licence")
    programs = OutsidePrograms(nothing)
    assert programs.solve("deck", going) == ""
    kept = Path(programs.keep())
    programs.close()
    assert (kept / "piece.inp").read_text() == "deck" and "no licence" in (kept / "solver.log").read_text()


def test_no_mesh_is_no_text(shelf: Path) -> None:
    stand_in(shelf, "gmsh", "exit 0")
    programs = OutsidePrograms(nothing)
    assert programs.mesh("script", {}, going) == ""
    programs.close()


def test_what_takes_too_long_is_ended(shelf: Path) -> None:
    stand_in(shelf, "ccx", f"exec {shelf}/sleep 100")
    began = time.monotonic()
    with pytest.raises(Refusal, match="was not done after 1 s"):
        OutsidePrograms(nothing, longest=0.6).solve("deck", going)
    assert time.monotonic() - began < 30


def test_a_stop_is_heard_and_leaves_nothing(shelf: Path) -> None:
    stand_in(shelf, "ccx", f"exec {shelf}/sleep 100")
    answers = iter([True, True, False])
    with pytest.raises(Stopped):
        OutsidePrograms(nothing).solve("deck", lambda: next(answers))
    assert folders(shelf) == []


def test_one_that_cannot_be_started_is_said(shelf: Path) -> None:
    stand_in(shelf, "ccx", "")
    (shelf / "ccx").write_text("#!/nowhere/at/all\n")
    with pytest.raises(Refusal, match="cannot be started"):
        OutsidePrograms(nothing).solve("deck", going)


def test_a_temporary_folder_that_cannot_be_made_is_said(shelf: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    stand_in(shelf, "ccx", "")
    monkeypatch.setattr("tempfile.tempdir", str(shelf / "nowhere"))
    with pytest.raises(Refusal, match="temporary folder cannot be written"):
        OutsidePrograms(nothing).solve("deck", going)


def test_a_full_disk_is_said_and_leaves_nothing(shelf: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object, **__: object) -> int:
        raise OSError(28, "No space left on device")

    stand_in(shelf, "ccx", "")
    monkeypatch.setattr(Path, "write_text", full)
    programs = OutsidePrograms(nothing)
    with pytest.raises(Refusal, match=r"temporary folder cannot be written .*No space left"):
        programs.solve("deck", going)
    programs.close()
    assert folders(shelf) == []


def test_what_the_programs_wrote_and_cannot_be_read_is_said(shelf: Path) -> None:
    stand_in(shelf, "ccx", "rm -f piece.dat; ln -s piece.dat piece.dat")
    for name in ("rm", "ln"):
        (shelf / name).symlink_to(str(shutil.which(name)))
    programs = OutsidePrograms(nothing)
    try:
        assert programs.solve("deck", going) == ""
    except Refusal as refusal:
        assert "cannot be read" in refusal.sentence
    programs.close()
