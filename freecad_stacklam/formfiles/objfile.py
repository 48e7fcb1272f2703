# SPDX-License-Identifier: LGPL-2.1-or-later

"""OBJ meshes (Wavefront's format as its makers describe it): FreeCAD's reader drops faces of more than four corners,
points with a weight, lines that are indented or carried on, and makes one mesh of several objects."""

from __future__ import annotations

import re

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.formfiles.facets import triangles_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import say


def joined_lines(text: str) -> str:
    """The text with lines that end in a backslash joined to the next."""
    return re.sub(r"\\[ \t]*\r?\n", " ", text)


def meshes_in_obj(text: str) -> list[tuple[str, NDArray[np.float64]]]:
    """Every named object of an OBJ file that has faces: its name and corners, triangles × 3 × 3, in the file's unit.

    A point's fourth number, a weight for curves, and any colours are passed by, as are lines, curves and groups.
    Raises Refusal when a face names a point that is not there.
    """
    points: list[list[float]] = []
    objects: dict[str, list[list[int]]] = {}
    faces = objects.setdefault("", [])
    number = 0
    try:
        for number, line in enumerate(joined_lines(text).splitlines(), 1):  # noqa: B007 (for the sentence below)
            words = line.partition("#")[0].split()
            if words[:1] == ["v"]:
                points.append([float(words[1]), float(words[2]), float(words[3])])
            elif words[:1] == ["o"]:
                faces = objects.setdefault(" ".join(words[1:]), [])
            elif words[:1] == ["f"]:
                at = [int(w.partition("/")[0]) for w in words[1:]]
                at = [n - 1 if n > 0 else len(points) + n for n in at]
                if len(at) < 3 or min(at) < 0:
                    raise ValueError("a face of too few points, or of one that is not there")
                faces.append(at)
        place = np.array(points, dtype=np.float64).reshape(-1, 3)
        return [
            (name, place[np.array([t for face in corners for t in triangles_of(place, face)])])
            for name, corners in objects.items()
            if corners
        ]
    except (ValueError, IndexError, OverflowError) as problem:
        raise Refusal(
            say(
                "The OBJ file has a line that cannot be understood, at or before line {number}: export it again.",
                number=number,
            )
        ) from problem
