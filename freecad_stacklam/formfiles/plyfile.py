# SPDX-License-Identifier: LGPL-2.1-or-later

"""PLY meshes (the polygon file format of 1994): text or binary of either byte order, faces of any number of corners,
lists and figures of every type; FreeCAD's reader takes triangles and int lists alone."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.formfiles.facets import triangles_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import say

#: Types by both of their names, as numpy's codes.
TYPES = {
    "char": "i1", "int8": "i1", "uchar": "u1", "uint8": "u1", "short": "i2", "int16": "i2", "ushort": "u2",
    "uint16": "u2", "int": "i4", "int32": "i4", "uint": "u4", "uint32": "u4", "float": "f4", "float32": "f4",
    "double": "f8", "float64": "f8",
}  # fmt: skip
_ORDERS = {b"ascii": "", b"binary_little_endian": "<", b"binary_big_endian": ">"}
_CORNERS = ("vertex_indices", "vertex_index")


@dataclass(frozen=True)
class Element:
    """One element of a header: its count, and its properties as (name, type, type of a list's length or "")."""

    name: str
    count: int
    properties: tuple[tuple[str, str, str], ...]


def header_of(data: bytes) -> tuple[str, list[Element], bytes]:
    """Byte order ("" for text), elements, and what comes after the header. Raises ValueError, KeyError, IndexError."""
    head, mark, body = data.partition(b"end_header")
    if not mark:
        raise ValueError("no end of the header")
    body = body.lstrip(b"\r").removeprefix(b"\n")
    order, elements = None, list[Element]()
    for line in head.splitlines():
        words = line.split()
        if words[:1] == [b"format"]:
            order = _ORDERS[words[1]]
        elif words[:1] == [b"element"]:
            elements.append(Element(words[1].decode("latin-1"), int(words[2]), ()))
            if elements[-1].count < 0:
                raise ValueError("a negative count")
        elif words[:1] == [b"property"]:
            types = [TYPES[w.decode("latin-1")] for w in words[-3:-1] if w != b"property"]
            is_list = words[1] == b"list"
            if len(types) != 1 + is_list:
                raise ValueError("a property that is none")
            one = (words[-1].decode("latin-1"), types[-1], types[0] if is_list else "")
            last = elements[-1]
            elements[-1] = Element(last.name, last.count, (*last.properties, one))
    if order is None:
        raise ValueError("no format")
    return order, elements, body


def mesh_in_ply(data: bytes) -> NDArray[np.float64]:
    """Corners, triangles × 3 × 3, in the file's unit; none where the file has no faces. Raises Refusal."""
    try:
        order, elements, body = header_of(data)
        points, faces = np.empty((0, 3)), list[NDArray[np.int64]]()
        rest = _Text(body) if not order else _Binary(body, order)
        for element in elements:
            columns, lists = rest.read(element)
            if element.name == "vertex":
                points = np.column_stack([columns[axis] for axis in "xyz"]).astype(np.float64)
            elif element.name == "face":
                faces = next((lists[name] for name in _CORNERS if name in lists), [])
        return _triangles(points, faces)
    except (ValueError, KeyError, IndexError, OverflowError) as problem:
        raise Refusal(say("The PLY file is not one that can be understood: export it again.")) from problem


def _triangles(points: NDArray[np.float64], faces: list[NDArray[np.int64]]) -> NDArray[np.float64]:
    if not faces:
        return np.empty((0, 3, 3))
    counts = np.array([len(face) for face in faces])
    if counts.min() < 3 or min(int(f.min()) for f in faces) < 0:
        raise ValueError("a face of too few corners, or of one that is not there")
    corners = np.array([t for face in faces for t in triangles_of(points, face.tolist())], dtype=np.int64)
    return points[corners]


Read = tuple[dict[str, NDArray[np.float64]], dict[str, list[NDArray[np.int64]]]]


class _Text:
    def __init__(self, body: bytes) -> None:
        self.lines = [line for line in body.splitlines() if line.strip()]

    def read(self, element: Element) -> Read:
        """The element's figures and lists, line by line."""
        lines, self.lines = self.lines[: element.count], self.lines[element.count :]
        if len(lines) < element.count:
            raise ValueError("lines are missing")
        figures: dict[str, list[float]] = {name: [] for name, _, many in element.properties if not many}
        lists: dict[str, list[NDArray[np.int64]]] = {name: [] for name, _, many in element.properties if many}
        for line in lines:
            words, at = line.split(), 0
            for name, _, many in element.properties:
                if many:
                    count = int(words[at])
                    if count < 0 or at + 1 + count > len(words):
                        raise ValueError("a list that is cut off")
                    lists[name].append(np.array([int(float(w)) for w in words[at + 1 : at + 1 + count]], np.int64))
                    at += 1 + count
                else:
                    figures[name].append(float(words[at]))
                    at += 1
        return {name: np.array(values) for name, values in figures.items()}, lists


class _Binary:
    def __init__(self, body: bytes, order: str) -> None:
        self.body, self.order, self.at = body, order, 0

    def _take(self, code: str, count: int) -> NDArray[np.float64]:
        kind = np.dtype(self.order + code)
        if count < 0 or self.at + kind.itemsize * count > len(self.body):
            raise ValueError("cut off")
        found = np.frombuffer(self.body, kind, count, self.at)
        self.at += kind.itemsize * count
        return found

    def read(self, element: Element) -> Read:
        """The element's figures and lists; at once where all its lists are as long as the first ones."""
        lengths = []
        start = self.at
        for _, code, many in element.properties if element.count else ():
            count = int(self._take(many, 1)[0]) if many else 1
            lengths.append(count)
            self._take(code, count)
        self.at = start
        quick = self._records(element, lengths)
        return quick if quick is not None else self._one_by_one(element)

    def _records(self, element: Element, lengths: list[int]) -> Read | None:
        fields: list[tuple[str, str] | tuple[str, str, tuple[int]]] = []
        for number, ((_, code, many), count) in enumerate(zip(element.properties, lengths)):
            if many:
                fields.append((f"n{number}", self.order + many))
            fields.append((f"v{number}", self.order + code, (count,)) if many else (f"v{number}", self.order + code))
        kind = np.dtype(fields)
        if self.at + kind.itemsize * element.count > len(self.body):
            return None
        records = np.frombuffer(self.body, kind, element.count, self.at)
        figures: dict[str, NDArray[np.float64]] = {}
        lists: dict[str, list[NDArray[np.int64]]] = {}
        for number, ((name, _, many), count) in enumerate(zip(element.properties, lengths)):
            values = records[f"v{number}"]
            if many:
                if (records[f"n{number}"] != count).any():
                    return None
                lists[name] = list(values.astype(np.int64))
            else:
                figures[name] = values
        self.at += kind.itemsize * element.count
        return figures, lists

    def _one_by_one(self, element: Element) -> Read:
        figures: dict[str, list[float]] = {name: [] for name, _, many in element.properties if not many}
        lists: dict[str, list[NDArray[np.int64]]] = {name: [] for name, _, many in element.properties if many}
        for _ in range(element.count):
            for name, code, many in element.properties:
                if many:
                    lists[name].append(self._take(code, int(self._take(many, 1)[0])).astype(np.int64))
                else:
                    figures[name].append(float(self._take(code, 1)[0]))
        return {name: np.array(values) for name, values in figures.items()}, lists
