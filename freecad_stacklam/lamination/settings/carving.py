# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the maker chooses for carving: offsets, section templates, depth holes, and his own rate.

Lengths mm, angles degrees. All defaults are common practice without a source; every one can be changed.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import isfinite

from freecad_stacklam.lamination.lengths import INCH
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tolerances import NO_DIRECTION, WHOLE

#: Kinds of bit. The point of a twist bit follows from its angle; that of the others is measured.
POINTS = ("twist", "brad point", "rim")
#: Faces of a stack that depth holes are bored from.
FACES = ("top", "bottom", "both")
#: Sides that a gauge is held against the piece from, in the plane of its template.
SIDES = ("right", "left", "above", "below")


@dataclass(frozen=True)
class PickedPlane:
    """A plane to make a section template at: a point in it and its normal, both in the model."""

    name: str
    point: tuple[float, float, float] = (0.0, 0.0, 0.0)
    normal: tuple[float, float, float] = (1.0, 0.0, 0.0)

    def __post_init__(self) -> None:
        if not all(map(isfinite, (*self.point, *self.normal))) or sum(c * c for c in self.normal) < NO_DIRECTION**2:
            raise Refusal(f"The plane “{self.name}” has no direction: give the normal that it is square to.")


@dataclass(frozen=True)
class CarvingSettings:
    """The carving guide that is wanted.

    azimuths: of the table of offsets, degrees from the stack's x, to the left seen from above; none: every
    `azimuth_step`. station: pitch of stations along the direction `stations_along` (None: no stations).
    templates: azimuths of vertical planes through the axis. planes: others, in the model. level_templates: one at
    every glue line. gauges: sides that gauges are made for; `clearance` is cut from them, `margin` is the wood around
    them. depth_holes: a stack's name ("" : every stack) to the face that is bored. pitch: of their grid. leave: least
    distance from the bit's point and shoulder to the finished surface. cover: least wood to joints, pins, voids, seams.
    landing: flat wood around the bit for its stop. least_depth: shallower holes are dropped. bit: its diameter; `point`
    and `angle` or `point_length` its point; `bit_length` how deep it bores (None: any depth). stop_step: what stop
    depths are rounded down to (None: 0.5 mm or 1/32 in). rate: litres of wood carved in an hour, measured by the maker
    (None: no time is stated).
    """

    azimuth_step: float = 15.0
    azimuths: tuple[float, ...] = ()
    station: float | None = None
    stations_along: float = 0.0
    templates: tuple[float, ...] = (0.0, 90.0)
    planes: tuple[PickedPlane, ...] = ()
    level_templates: bool = False
    gauges: tuple[str, ...] = ("right", "left")
    clearance: float = 0.0
    margin: float = 40.0
    depth_holes: Mapping[str, str] = field(default_factory=dict)
    pitch: float = 30.0
    leave: float = 2.0
    cover: float = 10.0
    landing: float = 3.0
    least_depth: float = 5.0
    bit: float = 8.0
    point: str = "twist"
    angle: float = 118.0
    point_length: float | None = None
    bit_length: float | None = None
    stop_step: float | None = None
    rate: float | None = None

    def __post_init__(self) -> None:
        sizes = (
            (self.bit, "bit"),
            (self.pitch, "pitch of the depth holes"),
            (self.margin, "gauge's margin"),
            (self.least_depth, "shallowest depth hole"),
        )
        for value, what in sizes:
            if not isfinite(value) or value <= 0:
                raise Refusal(f"The {what} cannot be {value:g} mm: give more than 0.")
        rooms = (
            (self.leave, "wood left under a depth hole"),
            (self.cover, "cover of the depth holes"),
            (self.landing, "landing of the drill stop"),
            (self.clearance, "gauge's clearance"),
        )
        for value, what in rooms:
            if not isfinite(value) or value < 0:
                raise Refusal(f"The {what} cannot be {value:g} mm: give 0 or more.")
        if self.pitch < self.bit:
            raise Refusal(f"Depth holes {self.pitch:g} mm apart run into each other: give more than the bit.")
        if not 1.0 <= self.azimuth_step <= 120.0:
            raise Refusal(f"An azimuth step of {self.azimuth_step:g}° cannot be: give 1° to 120°.")
        if not all(map(isfinite, (*self.azimuths, *self.templates, self.stations_along))):
            raise Refusal("An azimuth must be an angle in degrees.")
        optional = (
            (self.station, "pitch of the stations"),
            (self.bit_length, "length of the bit"),
            (self.stop_step, "step of the drill stop"),
            (self.rate, "carving rate in litres an hour"),
        )
        for given, what in optional:
            if given is not None and (not isfinite(given) or given <= 0):
                raise Refusal(f"The {what} cannot be {given:g}: give more than 0, or leave it out.")
        for side in self.gauges:
            if side not in SIDES:
                raise Refusal(f"A gauge cannot be held from “{side}”: choose {', '.join(SIDES)}.")
        for stack, face in self.depth_holes.items():
            if face not in FACES:
                raise Refusal(f"Depth holes of {stack or 'a stack'} cannot be “{face}”: choose {', '.join(FACES)}.")
        self._check_point()

    def _check_point(self) -> None:
        if self.point not in POINTS:
            raise Refusal(f"A bit's point cannot be “{self.point}”: choose {', '.join(POINTS)}.")
        if self.point == "twist" and not 30.0 <= self.angle <= 180.0:
            raise Refusal(f"A twist bit with a point of {self.angle:g}° cannot be: give its angle, as in 118°.")
        if self.point_length is not None and (not isfinite(self.point_length) or self.point_length < 0):
            raise Refusal(f"The bit's point cannot be {self.point_length:g} mm long: give what you measured.")
        if self.point != "twist" and self.point_length is None and self.depth_holes:
            raise Refusal(
                f"The point of a {self.point} bit must be measured: give point_length, from its rim to its tip."
            )

    def face_of(self, stack: str) -> tuple[str, ...]:
        """Faces of a stack that are bored: (), ("top",), ("bottom",) or both."""
        asked = self.depth_holes.get(stack, self.depth_holes.get("", ""))
        return ("top", "bottom") if asked == "both" else (asked,) if asked else ()

    def step(self, units: str) -> float:
        """What stop depths are rounded down to, mm."""
        return self.stop_step if self.stop_step is not None else (INCH / 32 if units == "in" else 0.5)

    def angles(self) -> tuple[float, ...]:
        """Azimuths of the table of offsets, degrees."""
        if self.azimuths:
            return self.azimuths
        count = int(360.0 / self.azimuth_step + 1.0 - WHOLE)
        return tuple(i * self.azimuth_step for i in range(count))
