# SPDX-License-Identifier: LGPL-2.1-or-later

"""Is a file whole, and of the kind that its name says?

Measured with FreeCAD's own readers: a cut-off BREP file crashes the process or yields an empty shape, a cut-off PLY or
STL yields half a mesh, a cut-off .FCStd opens with empty shapes, all without a word. So nothing is read that was not
found whole. The checks are cheap: they count and look at the ends; they do not understand the shapes.
"""

from __future__ import annotations

import io
import re
import zipfile
import zlib
from collections.abc import Callable
from pathlib import Path

from freecad_stacklam.formfiles.plyfile import header_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import mark, say

#: Bytes that an archive may unpack to; they are all looked at before it is read.
MOST_UNZIPPED = 2_000_000_000

KINDS = {
    ".fcstd": mark("FreeCAD document"),
    ".step": mark("STEP file"),
    ".stp": mark("STEP file"),
    ".brep": mark("BREP file"),
    ".brp": mark("BREP file"),
    ".stl": mark("STL mesh"),
    ".obj": mark("OBJ mesh"),
    ".ply": mark("PLY mesh"),
    ".3mf": mark("3MF file"),
}
_SIGNS = (
    (b"\x89PNG", mark("a PNG picture")),
    (b"\xff\xd8\xff", mark("a JPEG picture")),
    (b"%PDF", mark("a PDF")),
    (b"PK\x03\x04", mark("a ZIP archive")),
    (b"ISO-10303-21", mark("a STEP file")),
    (b"DBRep_Draw", mark("a BREP file")),
    (b"CASCADE Topology", mark("a BREP file")),
    (b"ply", mark("a PLY mesh")),
    (b"solid", mark("an STL mesh")),
)


def refuse_unless_whole(path: Path) -> None:
    """Raise Refusal when the file is missing, unreadable, empty, cut off, or not what its name says."""
    kind = path.suffix.lower()
    if kind not in KINDS:
        raise Refusal(
            say(
                "“{name}” is not a kind of file that holds a form: give one of {list}.",
                name=path.name,
                list=", ".join(KINDS),
            )
        )
    if not path.exists():
        raise Refusal(say("There is no file “{path}”: check its name and folder.", path=path))
    if not path.is_file():
        raise Refusal(say("“{path}” is not a file: give the file that holds the form.", path=path))
    try:
        data = path.read_bytes()
    except OSError as problem:
        raise Refusal(
            say(
                "“{path}” cannot be read ({strerror}): check that you may open it.",
                path=path,
                strerror=problem.strerror,
            )
        ) from problem
    if not data.strip():
        raise Refusal(say("“{name}” is empty: save or export it again.", name=path.name))
    if kind != ".stl":
        data = data.removeprefix(b"\xef\xbb\xbf").lstrip()
    try:
        whole = _CHECKS[kind](data)
    except Refusal as refusal:
        raise Refusal(refusal.sentence.format(f"“{path.name}”")) from None
    if whole is None:
        looks = next((name for sign, name in _SIGNS if data.startswith(sign)), "")
        if looks and not looks.endswith(KINDS[kind]):
            raise Refusal(
                say(
                    "“{name}” is not a {kind} but {looks}: give the file its right name, or export it again.",
                    name=path.name,
                    kind=say(KINDS[kind]),
                    looks=say(looks),
                )
            )
        raise Refusal(
            say(
                "“{name}” is not a {kind}: give the file its right name, or export it again.",
                name=path.name,
                kind=say(KINDS[kind]),
            )
        )
    if not whole:
        raise Refusal(say("“{name}” is cut off or damaged: save, export or copy it again.", name=path.name))


def _zip_holding(wanted: str) -> Callable[[bytes], bool | None]:
    def check(data: bytes) -> bool | None:
        if not data.startswith(b"PK"):
            return None
        try:
            with zipfile.ZipFile(io.BytesIO(data)) as archive:
                if not any(re.fullmatch(wanted, name) for name in archive.namelist()):
                    return None
                if sum(entry.file_size for entry in archive.infolist()) > MOST_UNZIPPED:
                    raise Refusal(
                        say(
                            "{what} unpacks to more than {gigabytes} GB: save it with less in it.",
                            what="{}",
                            gigabytes=MOST_UNZIPPED // 10**9,
                        )
                    )
                return archive.testzip() is None
        except Refusal:
            raise
        except (zipfile.BadZipFile, OSError, EOFError, ValueError, NotImplementedError, RuntimeError, zlib.error):
            return False

    return check


def _step_whole(data: bytes) -> bool | None:
    if not data.startswith(b"ISO-10303-21"):
        return None
    return b"END-ISO-10303-21" in data[-4096:]


def _brep_whole(data: bytes) -> bool | None:
    """Each of the announced shapes ends in a star of its own; after the last one the outermost shape is named."""
    if not (data.startswith(b"DBRep_DrawableShape") or data.startswith(b"CASCADE Topology")):
        return None
    _, mark, shapes = data.rpartition(b"\nTShapes ")
    words = shapes.split()
    if not mark or not words or not words[0].isdigit() or words.count(b"*") != int(words[0]):
        return False
    outermost = words[len(words) - words[::-1].index(b"*") :] if int(words[0]) else []
    return len(outermost) >= 2 and re.fullmatch(rb"[-+ie]\d+", outermost[0]) is not None and outermost[1].isdigit()


def _stl_whole(data: bytes) -> bool | None:
    if len(data) >= 84:
        size = 84 + 50 * int.from_bytes(data[80:84], "little")
        if size == len(data) or (size < len(data) and not data[size:].strip(b"\0")):
            return size > 84
    text = data.lstrip()
    if text[:5].lower() == b"solid" and re.search(rb"facet|endsolid", data[:2048], re.IGNORECASE):
        low = data.lower()
        return b"endsolid" in low[-4096:] and low.count(b"endfacet") * 3 == len(re.findall(rb"\bvertex\b", low))
    if any(text.startswith(sign) for sign, _ in _SIGNS) or b"\0" not in data:
        return None
    return False


def _ply_whole(data: bytes) -> bool | None:
    if not data.startswith(b"ply"):
        return None
    try:
        order, elements, body = header_of(data)
    except (IndexError, KeyError, ValueError):
        return False
    if not elements:
        return False
    if not order:
        lines = [line for line in body.splitlines() if line.strip()]
        last = lines[-1].split() if lines else []
        complete = not last or not last[0].isdigit() or len(last) > int(last[0])
        return len(lines) >= sum(e.count for e in elements) and complete
    return len(body) >= sum(e.count * sum(map(_least_size, e.properties)) for e in elements)


def _least_size(of: tuple[str, str, str]) -> int:
    """Bytes that a property takes at least: a face has three corners."""
    name, code, many = of
    return int(many[1:] or 0) + int(code[1:]) * ((3 if "vert" in name else 0) if many else 1)


def _obj_whole(data: bytes) -> bool | None:
    if b"\0" in data[:4096] or not re.search(rb"(?m)^\s*v\s+[-+.\d]", data):
        return None
    data = re.sub(rb"#[^\n]*", b"", re.sub(rb"\\[ \t]*\r?\n", b" ", data))
    points = len(re.findall(rb"(?m)^\s*v\s", data))
    faces = [line.split() for line in re.findall(rb"(?m)^\s*f\s(.*)$", data)]
    try:
        return bool(faces) and all(len(f) > 2 for f in faces) and max(_corner(c) for f in faces for c in f) <= points
    except ValueError:
        return False


def _corner(word: bytes) -> int:
    return int(word.split(b"/")[0])


_CHECKS: dict[str, Callable[[bytes], bool | None]] = {
    ".fcstd": _zip_holding(r"Document\.xml"),
    ".3mf": _zip_holding(r"/?3[dD]/.*\.model"),
    ".step": _step_whole,
    ".stp": _step_whole,
    ".brep": _brep_whole,
    ".brp": _brep_whole,
    ".stl": _stl_whole,
    ".ply": _ply_whole,
    ".obj": _obj_whole,
}
