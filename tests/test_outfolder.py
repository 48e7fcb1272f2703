# SPDX-License-Identifier: LGPL-2.1-or-later

"""The folder of a plan: a whole set or the one before, nothing of the maker's touched, whatever ends the process."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import zipfile
from collections.abc import Mapping
from pathlib import Path

import pytest

from freecad_stacklam import outfolder
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.marks import is_ours, mark_project
from freecad_stacklam.outfolder import PLAN, digests, drawings_aside, refuse_unless_replaceable, written_aside

CHECKOUT = Path(__file__).resolve().parent.parent
HEADS = {
    "bill.csv": "item,name,species,count,thickness mm,length mm\r\n",
    "a.svg": '<?xml version="1.0" encoding="UTF-8"?>\n<!-- Drawn by StackLam -->\n<svg/>',
    "a.dxf": "999\nDrawn by StackLam\n  0\nSECTION\n",
    "drawings.pdf": "%PDF-1.4\n/Creator (StackLam)\n",
}


def fill(folder: Path, version: str, names: tuple[str, ...]) -> None:
    """Files as a plan writes them, told apart by `version`."""
    for name in names:
        place = folder / name
        place.parent.mkdir(exist_ok=True)
        head = HEADS.get(name) or HEADS[f"a{place.suffix}"]
        place.write_text(f"{head}{version}")
    (folder / PLAN).write_text(
        json.dumps({"schema": 1, "title": version, "files": digests(folder)}, separators=(",", ":"))
    )


def write(out: Path, version: str, *names: str, inputs: tuple[Path, ...] = ()) -> None:
    with written_aside(out, names, inputs) as folder:
        fill(folder, version, names)


def state(out: Path) -> Mapping[str, str]:
    return {p.relative_to(out).as_posix(): p.read_text() for p in sorted(out.rglob("*")) if p.is_file()}


def whole(out: Path) -> bool:
    """Do the digests that plan.json holds fit the files beside it?"""
    files = json.loads((out / PLAN).read_text())["files"]
    return all(digests(out).get(name) == digest for name, digest in files.items())


def test_a_plan_takes_the_place_of_the_one_before(tmp_path: Path) -> None:
    out = tmp_path / "deep" / "plan"
    write(out, "one", "bill.csv", "dxf/A_01.dxf", "dxf/A_02.dxf", "dxf/A_03.dxf", "svg/001 layer.svg")
    (out / "dxf" / "mine.dxf").write_text("the maker's")
    (out / "dxf" / "A_02.dxf").write_text("drawn on by the maker")
    (out / "notes.txt").write_text("glue on Friday")
    write(out, "two", "bill.csv", "dxf/A_01.dxf")
    # What the first plan wrote is gone, with its folder; what the maker wrote or changed is there.
    assert set(state(out)) == {"bill.csv", PLAN, "dxf/A_01.dxf", "dxf/A_02.dxf", "dxf/mine.dxf", "notes.txt"}
    assert state(out)["dxf/A_02.dxf"] == "drawn on by the maker"
    assert state(out)["dxf/A_01.dxf"].endswith("two")
    assert not (out / "svg").exists()
    assert whole(out)


@pytest.mark.parametrize("name", ["bill.csv", "drawings.pdf", PLAN, "project.FCStd", "dxf/A_01.dxf"])
def test_what_is_not_ours_is_never_replaced(name: str, tmp_path: Path) -> None:
    place = tmp_path / name
    place.parent.mkdir(exist_ok=True)
    place.write_text("the maker's own")
    with pytest.raises(Refusal, match=f"{place.name}.*kept"):
        write(tmp_path, "one", "bill.csv", "drawings.pdf", "dxf/A_01.dxf", "project.FCStd")
    assert state(tmp_path) == {name: "the maker's own"}


@pytest.mark.parametrize("name", ["bill.csv", "dxf/A_01.dxf", "drawings.pdf"])
def test_what_was_typed_into_a_file_of_ours_is_kept(name: str, tmp_path: Path) -> None:
    """Prices in the bill, a note in a drawing: the marks are there, the digest is another."""
    names = ("bill.csv", "drawings.pdf", "dxf/A_01.dxf")
    write(tmp_path, "one", *names)
    place = tmp_path / name
    place.write_text(place.read_text() + "12.50")
    before = state(tmp_path)
    with pytest.raises(Refusal, match=rf"{place.name}” was changed since it was planned, .* kept .* move it"):
        write(tmp_path, "two", *names)
    assert state(tmp_path) == before
    place.rename(tmp_path / "mine")
    write(tmp_path, "two", *names)
    assert whole(tmp_path) and (tmp_path / "mine").read_text().endswith("12.50")


def test_a_plan_of_an_earlier_release_is_kept_with_a_sentence_that_fits(tmp_path: Path) -> None:
    """It had no digests in plan.json and no mark in its project, so nobody can say whether the maker worked on them."""
    write(tmp_path, "one", "bill.csv", "drawings.pdf")
    (tmp_path / PLAN).write_text('{"schema":1,"title":"one"}')
    before = state(tmp_path)
    with pytest.raises(Refusal, match=r"bill\.csv” was changed since it was planned, or written by an earlier release"):
        write(tmp_path, "two", "bill.csv", "drawings.pdf")
    with zipfile.ZipFile(tmp_path / "project.FCStd", "w") as archive:
        archive.writestr("Document.xml", "<Document/>")
    with pytest.raises(Refusal, match=r"project\.FCStd” was written by an earlier release, or saved in FreeCAD since"):
        write(tmp_path, "two", "project.FCStd", "bill.csv", "drawings.pdf")
    (tmp_path / "project.FCStd").unlink()
    assert state(tmp_path) == before


# --- drawings of the panel, without a plan beside them -------------------------------------------------------------


def draw(out: Path, version: str, *names: str) -> None:
    with drawings_aside(out) as folder:
        for name in names:
            (folder / name).write_text(f"{HEADS['a' + Path(name).suffix]}{version}")


def test_drawings_take_the_places_of_ours_and_of_nothing_else(tmp_path: Path) -> None:
    draw(tmp_path, "one", "A_01.dxf", "001 layer.svg")
    draw(tmp_path, "two", "A_01.dxf", "001 layer.svg", "A_02.dxf")
    before = state(tmp_path)
    assert set(before) == {"A_01.dxf", "A_02.dxf", "001 layer.svg"}
    assert all(text.endswith("two") for text in before.values())
    for name, text in (("A_02.dxf", "0\nSECTION\n"), ("001 layer.svg", "<svg/>")):
        (tmp_path / name).write_text(text)
        with pytest.raises(Refusal, match=f"{name}” is not as a plan wrote it, .*, or choose another folder.$"):
            draw(tmp_path, "three", "A_01.dxf", "A_02.dxf", "001 layer.svg")
        assert state(tmp_path) == {**before, name: text}
        (tmp_path / name).write_text(before[name])


def test_drawings_are_all_there_or_none(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    draw(tmp_path, "one", "A_01.dxf", "A_02.dxf")
    before = state(tmp_path)
    with pytest.raises(Refusal, match=f"^{tmp_path}/B.dxf has no room"), drawings_aside(tmp_path) as folder:
        (folder / "A_01.dxf").write_text("half")
        raise Refusal(f"{folder}/B.dxf has no room.")
    true, calls = os.replace, []

    def replace(source, target) -> None:
        calls.append(target)
        if len(calls) == 2:
            raise PermissionError(13, "open in another program")
        true(source, target)

    monkeypatch.setattr(outfolder.os, "replace", replace)
    with pytest.raises(Refusal, match=r"open in another program.*choose another folder"):
        draw(tmp_path, "two", "A_01.dxf", "A_02.dxf", "A_03.dxf")
    assert state(tmp_path) == before
    assert sorted(p.name for p in tmp_path.iterdir()) == ["A_01.dxf", "A_02.dxf"]


def test_one_file_alone_takes_no_place_that_is_not_ours(tmp_path: Path) -> None:
    ours, other, folder = tmp_path / "drawings.pdf", tmp_path / "letter.pdf", tmp_path / "folder.pdf"
    ours.write_text(HEADS["drawings.pdf"])
    other.write_text("%PDF-1.4\n/Creator (Another)\n")
    folder.mkdir()
    refuse_unless_replaceable(ours)
    refuse_unless_replaceable(tmp_path / "new.pdf")
    with pytest.raises(Refusal, match=r"letter\.pdf” is not as a plan wrote it, .*, or choose another name"):
        refuse_unless_replaceable(other)
    with pytest.raises(Refusal, match=r"folder\.pdf” is a folder"):
        refuse_unless_replaceable(folder)


def test_an_input_is_never_replaced_though_it_is_ours(tmp_path: Path) -> None:
    write(tmp_path, "one", "bill.csv")
    link = tmp_path / "other name.csv"
    link.symlink_to(tmp_path / "bill.csv")
    for given in (tmp_path / "bill.csv", link):
        with pytest.raises(Refusal, match="given to plan from"):
            write(tmp_path, "two", "bill.csv", inputs=(given,))
    assert whole(tmp_path)
    assert state(tmp_path)["bill.csv"].endswith("one")


def test_places_that_cannot_be_had_are_found_before_anything_is_written(tmp_path: Path) -> None:
    for at, (taken, says) in enumerate(
        {"plan.json": "is a folder", "bill.csv": "is a folder", "dxf": "is a file"}.items()
    ):
        out = tmp_path / str(at)
        out.mkdir()
        if says == "is a file":
            (out / taken).write_text("mine")
        else:
            (out / taken).mkdir()
        with pytest.raises(Refusal, match=says), written_aside(out, ("bill.csv", "dxf"), ()):
            pytest.fail("work was begun")
        assert [p.name for p in out.iterdir()] == [taken]


def test_nothing_is_left_when_the_work_fails(tmp_path: Path) -> None:
    (tmp_path / "kept").mkdir()
    for out in (tmp_path / "a" / "b" / "c", tmp_path / "kept" / "d"):
        with pytest.raises(ZeroDivisionError), written_aside(out, ()) as folder:
            (folder / "half").write_text("")
            raise ZeroDivisionError
    assert [p.name for p in tmp_path.iterdir()] == ["kept"]
    assert list((tmp_path / "kept").iterdir()) == []


def test_no_sentence_names_the_folder_written_aside(tmp_path: Path) -> None:
    with pytest.raises(Refusal) as refused, written_aside(tmp_path, ()) as folder:
        raise Refusal(f"{folder / 'drawings.pdf'} could not be written.")
    assert str(refused.value) == f"{tmp_path / 'drawings.pdf'} could not be written."


def test_a_place_that_fails_late_gives_back_those_before(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write(tmp_path, "one", "bill.csv", "drawings.pdf", "dxf/A_01.dxf")
    before = state(tmp_path)
    true, calls = os.replace, []

    def replace(source, target) -> None:
        calls.append(target)
        if len(calls) == 3:
            raise PermissionError(13, "open in another program")
        true(source, target)

    monkeypatch.setattr(outfolder.os, "replace", replace)
    with pytest.raises(Refusal, match="open in another program"):
        write(tmp_path, "two", "bill.csv", "drawings.pdf", "dxf/A_01.dxf", "svg/001 new.svg")
    assert state(tmp_path) == before
    assert sorted(p.name for p in tmp_path.iterdir()) == ["bill.csv", "drawings.pdf", "dxf", PLAN]


_KILLED = """
import os, sys
sys.path[:0] = [{tests!r}, {checkout!r}]
import test_outfolder as t
from freecad_stacklam import outfolder
steps = int(sys.argv[2])
def counted(name):
    true = getattr(os, name)
    def call(*a, **k):
        global steps
        if steps == 0:
            os.kill(os.getpid(), 9)
        steps -= 1
        return true(*a, **k)
    setattr(os, name, call)
for name in ("replace", "unlink", "mkdir", "rmdir"):
    counted(name)
t.write(t.Path(sys.argv[1]), "two", "bill.csv", "drawings.pdf", "dxf/A_01.dxf", "dxf/B_01.dxf")
"""


def test_killed_at_any_step_a_set_is_whole_or_known_not_to_be_and_the_next_plan_mends_it(tmp_path: Path) -> None:
    code = _KILLED.format(tests=str(CHECKOUT / "tests"), checkout=str(CHECKOUT))
    ends = set()
    for step in range(40):
        out = tmp_path / str(step)
        write(out, "one", "bill.csv", "drawings.pdf", "dxf/A_01.dxf", "dxf/A_02.dxf")
        (out / "dxf" / "mine.dxf").write_text("kept")
        done = subprocess.run([sys.executable, "-c", code, str(out), str(step)], check=False)
        versions = {text[-3:] for name, text in state(out).items() if name in ("bill.csv", "drawings.pdf")}
        title = json.loads((out / PLAN).read_text())["title"]
        assert whole(out) == (versions == {title} and (title == "two" or (out / "dxf" / "A_02.dxf").exists())
                              and state(out)["dxf/A_01.dxf"].endswith(title)), (step, done)  # fmt: skip
        ends.add((title, whole(out)))
        if done.returncode == 0:
            break
        write(out, "three", "bill.csv", "drawings.pdf", "dxf/C_01.dxf")
        names = {"bill.csv", "drawings.pdf", PLAN, "dxf/C_01.dxf", "dxf/mine.dxf"}
        assert set(state(out)) == names, step
        assert whole(out)
    assert ends == {("one", True), ("one", False), ("two", True)}


def test_what_a_dead_process_left_goes_and_what_a_living_one_writes_stays(tmp_path: Path) -> None:
    ended = subprocess.Popen([sys.executable, "-c", ""])
    ended.wait()
    dead = tmp_path / f".unfinished-{outfolder._host()}-{ended.pid}-x"
    alive = tmp_path / f".unfinished-{outfolder._host()}-{os.getppid()}-x"
    elsewhere = tmp_path / ".unfinished-othermachine-1-x"
    old = tmp_path / ".unfinished-abcdef"
    for folder in (dead, alive, elsewhere, old):
        folder.mkdir()
        (folder / "drawings.pdf").write_text("half")
    os.utime(old, (0, 0))
    write(tmp_path, "one", "bill.csv")
    assert {p.name for p in tmp_path.iterdir()} == {alive.name, elsewhere.name, "bill.csv", PLAN}


def test_a_plan_that_lies_takes_nothing_away(tmp_path: Path) -> None:
    outside = tmp_path / "letter.txt"
    outside.write_text("mine")
    out = tmp_path / "plan"
    write(out, "one", "bill.csv")
    digest = digests(tmp_path)["letter.txt"]
    lies = dict.fromkeys(("../letter.txt", str(outside), "dxf/../../letter.txt", "", ".", "a/b/c"), digest)
    lies["bill.csv"] = digests(out)["bill.csv"]
    (out / PLAN).write_text(json.dumps({"schema": 1, "title": "", "files": lies}, separators=(",", ":")))
    write(out, "two", "bill.csv")
    assert outside.read_text() == "mine"


def test_a_project_is_ours_until_it_is_saved_again(tmp_path: Path) -> None:
    project = tmp_path / "project.FCStd"
    with zipfile.ZipFile(project, "w") as archive:
        archive.writestr("Document.xml", "<Document/>")
        archive.comment = b"FreeCAD Document"
    assert not is_ours(project)
    mark_project(project)
    assert is_ours(project)
    with zipfile.ZipFile(project) as archive:
        assert archive.testzip() is None
    assert not is_ours(tmp_path)
    assert not is_ours(tmp_path / "missing.pdf")


@pytest.mark.skipif(os.name != "posix", reason="signals of POSIX")
@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGINT])
def test_a_stop_leaves_nothing_and_says_so(number: int, tmp_path: Path) -> None:
    code = (
        "import sys; from pathlib import Path; from freecad_stacklam.commandline import end_with_a_sentence\n"
        "from freecad_stacklam.outfolder import written_aside\n"
        "import time; end_with_a_sentence()\n"
        "with written_aside(Path(sys.argv[1]), ()) as f:\n"
        "    (f / 'half').write_text(''); print('ready', flush=True); time.sleep(60)"
    )
    out = tmp_path / "made" / "plan"
    process = subprocess.Popen(
        [sys.executable, "-c", code, str(out)], cwd=CHECKOUT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )
    assert process.stdout is not None
    assert process.stdout.readline() == "ready\n"
    process.send_signal(number)
    _, said = process.communicate(timeout=20)
    assert process.returncode == 128 + number  # what a shell says of a program that a signal ended (POSIX, 2.8.2)
    assert said == "Stopped: nothing was written.\n"
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("made_by_then", [1, 2])
def test_a_stop_leaves_nothing_even_while_the_folders_are_made(
    made_by_then: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made, left = [], []
    mkdir = os.mkdir

    def mkdir_and_stop(*args, **kwargs):  # type: ignore[no-untyped-def]
        mkdir(*args, **kwargs)
        made.append(args[0])
        if len(made) == made_by_then:
            assert outfolder.abandon()
            left.extend(tmp_path.rglob("*"))
            raise SystemExit  # the process ends here

    monkeypatch.setattr(os, "mkdir", mkdir_and_stop)
    with pytest.raises(SystemExit), written_aside(tmp_path / "plan", ["bill.csv"]):
        pass
    assert len(made) == made_by_then
    assert left == []
