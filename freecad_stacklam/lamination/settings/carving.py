# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the maker chooses for carving: offsets, section templates, depth holes, and his own rate.

Lengths mm, angles degrees. All defaults are common practice without a source; every one can be changed.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, ClassVar

from freecad_stacklam.lamination.lengths import INCH, size
from freecad_stacklam.lamination.options.kinds import (
    ANGLE,
    AXIS,
    BOOLEAN,
    POINT,
    ROOM,
    SIZE,
    TEXT,
    Kind,
    angle,
    number,
    one_of,
    several,
    shown,
)
from freecad_stacklam.lamination.options.rows import NEEDED, Record, option, tables
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tolerances import WHOLE
from freecad_stacklam.lamination.words import say

#: Kinds of bit. The point of a twist bit follows from its angle; that of the others is measured.
POINTS = ("twist", "brad point", "rim")
#: Faces of a stack that depth holes are bored from.
FACES = ("top", "bottom", "both")
#: Where depth holes stand: on a grid, or along lines of equal depth.
HOLE_PATTERNS = ("grid", "contours")
#: Sides that a gauge is held against the piece from, in the plane of its template.
SIDES = ("right", "left", "above", "below")
#: A stack's name ("" : every stack) with the face of it that is bored.
Faces = tuple[tuple[str, str], ...]


def _read_faces(value: Any, unit: str) -> Faces:
    asked = value if isinstance(value, dict) else {"": value}
    for face in asked.values():
        if face not in FACES:
            raise Refusal(
                say(
                    'a face is needed, "top", "bottom" or "both", or one for each stack as in {{Top = "top"}}, not '
                    "{face}.",
                    face=shown(face),
                )
            )
    return tuple(asked.items())


def _write_faces(faces: Faces) -> Any:
    return faces[0][1] if [name for name, _ in faces] == [""] else dict(faces)


def _faces_fault(faces: Any) -> str:
    if not isinstance(faces, tuple) or any(len(pair) != 2 for pair in faces):
        return "give pairs of a stack's name and a face"
    names = [name for name, _ in faces]
    if len(set(names)) < len(names):
        return "give one face for each stack"
    return "" if all(face in FACES for _, face in faces) else say("choose {list}", list=", ".join(FACES))


FACES_BORED = Kind("face, or one for each stack", _read_faces, _write_faces, _faces_fault, "StringList", choices=FACES)
_STEP = angle(1.0, 120.0)
_ANGLES = several(ANGLE, property="FloatList")


@dataclass(frozen=True)
class PickedPlane(Record):
    """A plane to make a section template at: a point in it and its normal, both in the model."""

    NOUN: ClassVar[str] = "plane"

    name: str = option(NEEDED, TEXT, "Name", "What the plane is called", by_hand="in a text with the rest")
    point: tuple[float, float, float] = option(
        (0.0, 0.0, 0.0), POINT, "Point", "A point in the plane, in the model", by_hand="in a text with the rest"
    )
    normal: tuple[float, float, float] = option(
        (1.0, 0.0, 0.0), AXIS, "Normal", "Direction square to the plane", by_hand="in a text with the rest"
    )

    def who(self) -> str:
        """See Record."""
        return say("plane “{name}”", name=self.name)


@dataclass(frozen=True)
class CarvingSettings(Record):
    """The carving guide that is wanted.

    azimuths: of the table of offsets, degrees from the stack's x, to the left seen from above; none: every
    `azimuth_step`. station: pitch of stations along the direction `stations_along` (None: no stations).
    templates: azimuths of vertical planes through the axis. planes: others, in the model. level_templates: one at
    every glue line. gauges: sides that gauges are made for; `clearance` is cut from them, `margin` is the wood around
    them. depth_holes: a stack's name ("" : every stack) with the face that is bored. pitch: of their grid. leave: least
    distance from the bit's point and shoulder to the finished surface. cover: least wood to joints, pins, voids, seams.
    landing: flat wood around the bit for its stop. least_depth: shallower holes are dropped. bit: its diameter; `point`
    and `angle` or `point_length` its point; `bit_length` how deep it bores (None: any depth). hole_pattern: "grid", or
    "contours" along lines of equal depth a stop_step apart. stop_step: what stop depths are rounded down to (None: 2 mm
    or 3/32 in, then brought to six settings at the most): what is rounded away is wood that stays. rate: litres of
    wood carved in an hour, measured by the maker (None: no time is stated).
    """

    azimuth_step: float = option(
        15.0, _STEP, "Offsets every", "Step of the table of offsets around the axis", group="Offsets"
    )
    azimuths: tuple[float, ...] = option(
        (), _ANGLES, "Offsets at", "Or these directions alone, degrees from the stack's x", group="Offsets"
    )
    station: float | None = option(
        None, SIZE, "Stations every", "Distance of stations across the form; left out: none", group="Offsets",
        nothing="none",
    )  # fmt: skip
    stations_along: float = option(
        0.0, ANGLE, "Stations along", "Direction in which stations follow each other", group="Offsets"
    )
    templates: tuple[float, ...] = option(
        (0.0, 90.0), _ANGLES, "Templates at", "Directions of upright section templates through the axis, from x",
        group="Templates",
    )  # fmt: skip
    planes: tuple[PickedPlane, ...] = tables(PickedPlane, "Other planes", "Section templates at other planes")
    level_templates: bool = option(
        False, BOOLEAN, "One at every glue line too", "A template at every glue line", group="Templates"
    )
    gauges: tuple[str, ...] = option(
        ("right", "left"), several(one_of(*SIDES), property="StringList"), "Gauges",
        "The sides that gauges are held against the piece from", group="Templates",
    )  # fmt: skip
    clearance: float = option(0.0, ROOM, "Clearance", "Cut from a gauge, so that it slides", group="Templates")
    margin: float = option(
        40.0,
        SIZE,
        "Margin",
        "Wood of a gauge around the profile",
        group="Templates",
        key="gauge_margin",
        was="margin",
    )
    depth_holes: Faces = option(
        (), FACES_BORED, "Depth holes", "Faces that are bored with holes that stop short of the finished surface; left "
        "out: none", by_hand="a list of texts with the stacks' names",
    )  # fmt: skip
    hole_pattern: str = option(
        "grid", one_of(*HOLE_PATTERNS), "Holes stand", "On a grid, or along contours: lines of equal depth, a step of "
        "the stop apart, so that the holes of one setting form rings", group="Depth holes",
    )  # fmt: skip
    pitch: float = option(30.0, SIZE, "From hole to hole", "Distance of the holes from each other", group="Depth holes")
    leave: float = option(
        2.0,
        ROOM,
        "Wood left under them",
        "Least wood between a hole and the finished surface",
        group="Depth holes",
        key="leave_over",
        was="leave",
    )
    cover: float = option(
        10.0, ROOM, "Wood left over joints", "Least wood to joints, pins, voids and seams", group="Depth holes"
    )
    landing: float = option(
        3.0, ROOM, "Seat of the stop collar", "Flat wood that the stop collar needs around the bit", group="Depth holes"
    )
    least_depth: float = option(5.0, SIZE, "None shallower than", "Shallower holes are left out", group="Depth holes")
    bit: float = option(8.0, SIZE, "Bit", "Diameter of the bit", group="Depth holes")
    point: str = option(
        "twist", one_of(*POINTS), "Kind of bit", "The bit's point leads its full width", group="Depth holes"
    )
    angle: float = option(
        118.0, ANGLE, "Angle of its point", "Angle of a twist bit's point: usually 118° or 135°", group="Depth holes",
        property="PointAngle", key="point_angle", was="angle",
    )  # fmt: skip
    point_length: float | None = option(
        None, ROOM, "Length of its point", "From the bit's rim, or its full width, to the tip, as measured; a twist "
        "bit's follows from its angle", by_hand="none and 0 mm are two things",
    )  # fmt: skip
    bit_length: float | None = option(
        None, SIZE, "Length of the bit", "How deep the bit bores; left out: deep enough", group="Depth holes",
        nothing="any",
    )  # fmt: skip
    stop_step: float | None = option(
        None, SIZE, "Steps of the stop", "What stop depths are rounded down to, so that the stop is set few times; "
        "left out: 2 mm, or 3/32 in, brought to six settings at the most", group="Depth holes",
        nothing="few",
    )  # fmt: skip
    rate: float | None = option(
        None, number(0, above=True), "You carve", "Litres that you carve in an hour, as measured; left out, no time is "
        "stated", group="Time",
    )  # fmt: skip

    def who(self) -> str:
        """See Record."""
        return "the carving guide"

    def check(self) -> None:
        """See Record."""
        if self.pitch < self.bit:
            raise Refusal(
                say("Depth holes {pitch} apart run into each other: give more than the bit.", pitch=size(self.pitch))
            )
        self._check_point()

    def _check_point(self) -> None:
        if self.point == "twist" and not 30.0 <= self.angle <= 180.0:
            raise Refusal(
                say("A twist bit with a point of {angle:g}° cannot be: give its angle, as in 118°.", angle=self.angle)
            )
        if self.point != "twist" and self.point_length is None and self.depth_holes:
            raise Refusal(
                say(
                    "The point of a {point} bit must be measured: give point_length, from its rim to its tip.",
                    point=self.point,
                )
            )

    def face_of(self, stack: str) -> tuple[str, ...]:
        """Faces of a stack that are bored: (), ("top",), ("bottom",) or both."""
        asked = self.asked_face(stack)
        return ("top", "bottom") if asked == "both" else (asked,) if asked else ()

    def asked_face(self, stack: str) -> str:
        """The face of a stack that is bored, as it was asked for; "" for none."""
        faces = dict(self.depth_holes)
        return faces.get(stack, faces.get("", ""))

    def step(self, units: str) -> float:
        """What stop depths are rounded down to, mm."""
        return self.stop_step if self.stop_step is not None else (3 * INCH / 32 if units == "in" else 2.0)

    def angles(self) -> tuple[float, ...]:
        """Azimuths of the table of offsets, degrees."""
        if self.azimuths:
            return self.azimuths
        count = int(360.0 / self.azimuth_step + 1.0 - WHOLE)
        return tuple(i * self.azimuth_step for i in range(count))
