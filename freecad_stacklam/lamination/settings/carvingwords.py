# SPDX-License-Identifier: LGPL-2.1-or-later

"""How the carving guide's faces and planes are written in its properties, and read back to the last bit."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from freecad_stacklam.lamination.lengths import parse_length
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.carving import Faces, PickedPlane
from freecad_stacklam.lamination.words import say


def face_text(stack: str, face: str) -> str:
    """ "top" for every stack, "Name = top" for one."""
    return f"{stack} = {face}" if stack else face


def faces_from(texts: Iterable[str]) -> Faces:
    """Stack ("" : every one) → face, from texts such as face_text makes."""
    found: dict[str, str] = {}
    for text in texts:
        if text.strip():
            name, _, face = text.rpartition("=")
            found[name.strip()] = face.strip()
    return tuple(found.items())


def plane_text(plane: PickedPlane) -> str:
    """“Name: 10 mm 0 mm 0 mm; normal 1 0 0”."""
    # Written out: 6e-17, as picking in a model gives it, is no length that may be typed.
    point = " ".join(f"{np.format_float_positional(c, trim='0')}mm" for c in map(float, plane.point))
    return f"{plane.name}: {point}; normal {' '.join(repr(float(c)) for c in plane.normal)}"


def plane_from(text: str) -> PickedPlane:
    """The plane that a text names. Raises Refusal."""
    head, mark, normal = text.rpartition("; normal ")
    name, colon, point = head.rpartition(": ")
    try:
        x, y, z = (parse_length(part, "mm") for part in point.split())
        i, j, k = (float(part) for part in normal.split())
    except (ValueError, Refusal):
        mark = ""
    if not mark or not colon or not name.strip():
        raise Refusal(
            say("“{text}” is no plane: write it as in “Through the arm: 0mm 60mm 0mm; normal 0 1 0”.", text=text)
        )
    return PickedPlane(name.strip(), (x, y, z), (i, j, k))


def hour_text(hours: float | None) -> str:
    """Hours of carving as they are read."""
    return "no rate is given" if hours is None else f"{hours:.1f} h"
