# SPDX-License-Identifier: LGPL-2.1-or-later

"""Which files are ours: each carries a mark, so that nothing of the maker's is ever replaced.

A project's mark is lost when FreeCAD saves it again: a project that a maker worked on is the maker's. Files of kinds
that we never write are never ours.
"""

from __future__ import annotations

import re
import zipfile
from collections.abc import Callable
from pathlib import Path

#: In the archive's end record; FreeCAD's own saving writes another.
_PROJECT = b"Planned by StackLam"
_NAME = "StackLam"
_ENDS = 4096


def mark_project(path: Path) -> None:
    """Mark a saved FreeCAD document as written by us."""
    with zipfile.ZipFile(path, "a") as archive:
        archive.comment = _PROJECT


def is_ours(path: Path) -> bool:
    """Was this file written by us, and, if it is a project, not saved by FreeCAD since? False if it cannot be read."""
    known = _MARKS.get(path.suffix.lower())
    try:
        return known is not None and path.is_file() and known(path)
    except (OSError, ValueError, zipfile.BadZipFile):
        return False


def _project(path: Path) -> bool:
    with path.open("rb") as file:
        file.seek(max(0, path.stat().st_size - len(_PROJECT)))
        return file.read() == _PROJECT


def _pdf(path: Path) -> bool:
    """The creator that a PDF names, as text in one or two bytes a sign (ISO 32000, 7.9.2.2)."""
    data = path.read_bytes()
    names = b"|".join(re.escape(_NAME.encode(code)) for code in ("ascii", "utf-16-be"))
    return data.startswith(b"%PDF") and re.search(rb"/Creator\s*\((?:\xfe\xff)?(?:" + names + rb")\)", data) is not None


def _head(pattern: bytes) -> Callable[[Path], bool]:
    def check(path: Path) -> bool:
        with path.open("rb") as file:
            return re.match(pattern, file.read(_ENDS)) is not None

    return check


#: The first words of our own bill and plan; the comments that our drawings and pages begin with.
_MARKS: dict[str, Callable[[Path], bool]] = {
    ".fcstd": _project,
    ".pdf": _pdf,
    ".json": _head(rb'\{"schema":\d+,"title":'),
    ".csv": _head(rb"(?:\xef\xbb\xbf)?item,name,species,count,thickness (?:mm|in),"),
    ".svg": _head(rb"<\?xml[^>]*\?>\s*<!-- Drawn by StackLam -->"),
    ".html": _head(rb"<!DOCTYPE html>\s*<!-- Made by StackLam -->"),
    ".dxf": _head(rb"\s*999\r?\nDrawn by StackLam\r?\n"),
}
