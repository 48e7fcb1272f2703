# SPDX-License-Identifier: LGPL-2.1-or-later

"""The folder that a plan is written to: the set of its files changes as one, and nothing of the maker's is touched.

Files are written aside, in a folder of the plan's own inside the target. When all are there, they take their places:
plan.json last, for it holds the digests of the others, which tell whether a set is whole and whether somebody changed a
file since. What an earlier plan wrote and this one does not is taken away. If a place cannot be had, those before it
get back what they held.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
import secrets
import shutil
import socket
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence, Set
from contextlib import contextmanager, suppress
from pathlib import Path

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import mark, say
from freecad_stacklam.marks import is_ours

#: The file that comes last and knows the others.
PLAN = "plan.json"
#: Folders in which files of ours stand beside the maker's.
FOLDERS = ("dxf", "svg")
_ASIDE = ".unfinished-"
_ELSEWHERE = mark(", or choose another folder with --out")
#: Seconds after which a folder written aside is given up where nobody can say whether its process lives.
_GIVEN_UP = 86_400.0

#: What is written aside at this moment, and whether it is taking its places.
_open: list[Callable[[], None]] = []
_placing = False


def abandon() -> bool:
    """Take away what is being written aside, because the process is about to end. False when files are just taking
    their places: then let them, it is a moment."""
    if _placing:
        return False
    while _open:
        _open.pop()()
    return True


@contextmanager
def written_aside(out: Path, names: Sequence[str], inputs: Sequence[Path] = ()) -> Iterator[Path]:
    """A folder inside `out` whose files take their places when the block ends well; nothing is left when it does not.

    names: files that will be written, whose places are looked at first. inputs: files that are never replaced.
    Raises Refusal when a place is taken by what is not ours or was changed since, or the folder cannot be written.
    """
    made = first_to_be_made(out)
    earlier = _files_of(out / PLAN).union(*(_files_of(left / PLAN) for left in _dead_in(out)))
    _refuse_taken(_taken(out, (*names, PLAN), inputs, earlier), say(_ELSEWHERE))
    folder = out / _name_aside()

    def leave() -> None:
        shutil.rmtree(folder, ignore_errors=True)
        if made is not None:
            _remove_empty(out, made)

    try:
        _sweep(out)
        _open.append(leave)  # before anything is made: a stop may come at any moment
        out.mkdir(parents=True, exist_ok=True)
        folder.mkdir(mode=0o700)
    except OSError as error:
        leave()
        if leave in _open:
            _open.remove(leave)
        raise Refusal(
            say(
                "The folder {out} cannot be written ({strerror}): choose another with --out.",
                out=out,
                strerror=error.strerror,
            )
        ) from error

    try:
        yield folder
        _refuse_taken(_taken(out, _names_in(folder), inputs, earlier), say(_ELSEWHERE))
        _place(folder, out, earlier)
    except Refusal as refusal:
        # The folder written aside is nothing that a maker knows.
        raise Refusal(refusal.sentence.replace(str(folder), str(out))) from refusal
    except OSError as error:
        why = error.strerror or error
        raise Refusal(
            say("{out} could not be written ({why}): make room or choose another folder.", out=out, why=why)
        ) from error
    finally:
        leave()
        if leave in _open:
            _open.remove(leave)


@contextmanager
def drawings_aside(out: Path) -> Iterator[Path]:
    """A folder inside `out`, which is there, whose files take their places together when the block ends well; nothing
    is left when it does not. For drawings without a plan beside them, of which nothing is known but their marks.

    Raises Refusal when a place is taken by what is not ours, or the folder cannot be written.
    """
    folder = out / _name_aside()
    try:
        _sweep(out)
        folder.mkdir(mode=0o700)
    except OSError as error:
        raise Refusal(
            say("The folder {out} cannot be written ({strerror}): choose another.", out=out, strerror=error.strerror)
        ) from error
    try:
        yield folder
        _refuse_taken(_taken(out, _names_in(folder), (), None), say(", or choose another folder"))
        _place(folder, out, frozenset())
    except Refusal as refusal:
        raise Refusal(refusal.sentence.replace(str(folder), str(out))) from refusal
    except OSError as error:
        why = error.strerror or error
        raise Refusal(
            say("{out} could not be written ({why}): make room or choose another folder.", out=out, why=why)
        ) from error
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def refuse_unless_replaceable(place: Path) -> None:
    """Raise Refusal where a file may not be put in a place because something lies there that is not ours."""
    _refuse_taken(_taken(place.parent, (place.name,), (), None), say(", or choose another name"))


def first_to_be_made(out: Path) -> Path | None:
    """Of a folder and those that it lies in, the outermost that is not there; None where all are."""
    return next((p for p in reversed((out, *out.parents)) if not p.exists()), None)


def clear_up_after(out: Path, made: Path | None) -> None:
    """Take away what processes that were ended left in `out`; and the folders from `made` on, if nothing lies there."""
    _sweep(out)
    if made is not None:
        _remove_empty(out, made)


def digests(folder: Path) -> dict[str, str]:
    """SHA-256 of every file in a folder and the folders in it, by its path there, with / between names."""
    return {name: _digest(folder / name) for name in _names_in(folder)}


def _digest(path: Path) -> str:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def _names_in(folder: Path) -> list[str]:
    return sorted(p.relative_to(folder).as_posix() for p in folder.rglob("*") if p.is_file())


def _refuse_taken(said: str, otherwise: str) -> None:
    """Raise Refusal where something was said of a place; otherwise: what else the maker may do."""
    if said:
        raise Refusal(f"{said}{otherwise}.")


def _taken(out: Path, names: Sequence[str], inputs: Sequence[Path], earlier: Set[tuple[str, str]] | None) -> str:
    """Why a file cannot have its place and what to do about it, without the full stop; "" where all can.

    earlier: names and digests of what plans wrote there; None where nobody knows."""
    for name in dict.fromkeys(names):
        place = out / name
        # A folder's name stands for files in it; a file's for itself.
        folder = place if name in FOLDERS else place.parent
        if folder != out and os.path.lexists(folder) and not folder.is_dir():
            return say("“{folder}” is a file, and a folder is needed there: move it", folder=folder)
        if name in FOLDERS or not os.path.lexists(place):
            continue
        if place.is_dir():
            return say("“{place}” is a folder, and a file is needed there: move it", place=place)
        given = next((i for i in inputs if i.exists() and place.exists() and os.path.samefile(i, place)), None)
        if given is not None:
            return say(
                "“{given}” was given to plan from, and the plan would take its place: plan from a copy elsewhere",
                given=given,
            )
        if not is_ours(place):
            if place.suffix.lower() == ".fcstd":
                return say(
                    "“{place}” was written by an earlier release, or saved in FreeCAD since, so it is kept: move it",
                    place=place,
                )
            return say("“{place}” is not as a plan wrote it, so it is kept: move it", place=place)
        if earlier is not None and name != PLAN and (name, _digest(place)) not in earlier:
            return say(
                "“{place}” was changed since it was planned, or written by an earlier release, so it "
                "is kept with all that was typed into it: move it",
                place=place,
            )
    return ""


# --- taking their places ----------------------------------------------------------------------------------------------


def _place(folder: Path, out: Path, earlier: Set[tuple[str, str]]) -> None:
    """Put every file of `folder` in its place in `out`, and take away what is left of earlier plans."""
    global _placing
    names = _names_in(folder)
    names.sort(key=lambda name: name == PLAN)
    before = Path(tempfile.mkdtemp(prefix="before-", dir=folder))
    undo: list[Callable[[], object]] = []
    _placing = True
    try:
        for number, name in enumerate(names):
            place = out / name
            if not place.parent.exists():
                place.parent.mkdir()
                undo.append(place.parent.rmdir)
            if place.exists():
                kept = before / str(number)
                shutil.copy2(place, kept)
                undo.append(lambda kept=kept, place=place: os.replace(kept, place))  # type: ignore[misc]
            else:
                undo.append(place.unlink)
        for name in names[:-1]:
            os.replace(folder / name, out / name)
        for name, digest in earlier:
            if name not in names:
                _take_away(out, name, digest)
        os.replace(folder / names[-1], out / names[-1])
    except BaseException:
        for step in reversed(undo):
            with suppress(OSError):
                step()
        raise
    finally:
        _placing = False


def _take_away(out: Path, name: str, digest: str) -> None:
    """Remove what an earlier plan wrote, if nobody changed it since; and its folder, if nothing else lies there."""
    place = out / name
    with suppress(OSError):
        if place.is_file() and place.resolve().is_relative_to(out.resolve()) and _digest(place) == digest:
            place.unlink()
            if place.parent != out:
                place.parent.rmdir()


def _files_of(plan: Path) -> set[tuple[str, str]]:
    """The names and digests that a plan.json holds; none where it cannot be understood."""
    try:
        files = json.loads(plan.read_text(encoding="utf-8"))["files"]
        return {(name, text) for name, text in files.items() if isinstance(text, str) and _simple(name)}
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return set()


def _simple(name: str) -> bool:
    """A file's name, or one in a folder of ours; whatever else a plan.json says leads out of its folder."""
    parts = name.split("/")
    return all(p not in ("", ".", "..") and not re.search(r"[\\:\0]", p) for p in parts) and (
        len(parts) == 1 or (len(parts) == 2 and parts[0] in FOLDERS)
    )


# --- what dead processes left -----------------------------------------------------------------------------------------


def _sweep(out: Path) -> None:
    """Remove what processes that are no more wrote aside."""
    for left in _dead_in(out):
        shutil.rmtree(left, ignore_errors=True)


def _dead_in(out: Path) -> list[Path]:
    """Folders that processes wrote aside which are no more; some of their files may be in place."""
    return [left for left in out.glob(f"{_ASIDE}*") if left.is_dir() and not left.is_symlink() and _is_dead(left)]


def _name_aside() -> str:
    return f"{_ASIDE}{_host()}-{os.getpid()}-{secrets.token_hex(4)}"


def _is_dead(left: Path) -> bool:
    named = re.fullmatch(rf"{re.escape(_ASIDE)}(\w*)-(\d+)-.*", left.name)
    if named and named[1] == _host() and os.name == "posix":
        if int(named[2]) == os.getpid():
            return not _open
        try:
            os.kill(int(named[2]), 0)  # asks only; on Windows it would end the process
        except ProcessLookupError:
            return True
        except (OSError, OverflowError):
            return False
        return False
    try:
        return time.time() - left.stat().st_mtime > _GIVEN_UP
    except OSError:
        return False


def _host() -> str:
    """The machine's name without signs that a file's name may not have: folders can be shared."""
    return re.sub(r"\W", "_", socket.gethostname())[:40]


def _remove_empty(out: Path, first: Path) -> None:
    """Remove `out` and its parents up to `first`, which were made for it, where nothing lies in them."""
    for folder in (out, *out.parents):
        try:
            folder.rmdir()
        except OSError:
            if folder.exists():
                return
        if folder == first:
            return
