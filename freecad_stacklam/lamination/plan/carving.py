# SPDX-License-Identifier: LGPL-2.1-or-later

"""What carving is guided by: the records that the rooms offsets, profiles, depthholes and carving fill.

Coordinates are in the stack's frame unless said; mm, mm³, degrees.
"""

from __future__ import annotations

from dataclasses import dataclass

from shapely.geometry import MultiPolygon

Point3 = tuple[float, float, float]
Point2 = tuple[float, float]
#: Intervals apart from each other, ascending.
Spans = tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class Offset:
    """One line of the table of offsets: where a ray from `centre` leaves the finished surface, at one plane.

    A glue line is two faces: the top of layer `below` and the bottom of layer `above` (None at the ends of the stack).
    `radius_below` and `radius_above` are to the finished surface on each; they differ only where the form has a step on
    the glue line. `edge_below` and `edge_above` are to the blank's edge further out, None where that face has no
    finished surface on this ray, or the blank runs on into another piece. `inner` are the other crossings on the same
    piece, from the outside in. By azimuth, `at` is degrees from the stack's x, to the left seen from above; by stations
    it is the distance along `along`, and the rays run square to it, to the left and to the right.
    """

    stack: str
    below: int | None
    above: int | None
    height: float
    piece: int  # number of the island of the section, from 1
    kind: str  # "azimuth" or "station"
    centre: Point2
    about: str  # "axis" or "own centre"
    at: float
    direction: float  # of the ray, degrees from the stack's x
    radius_below: float | None
    radius_above: float | None
    edge_below: float | None
    edge_above: float | None
    inner: tuple[float, ...] = ()
    note: str = ""

    @property
    def radius(self) -> float:
        """To the outermost finished surface, mm."""
        return max(r for r in (self.radius_below, self.radius_above) if r is not None)

    @property
    def cut_below(self) -> float | None:
        """To carve off the edge of the lower layer, along the ray, mm."""
        return None if self.edge_below is None or self.radius_below is None else self.edge_below - self.radius_below

    @property
    def cut_above(self) -> float | None:
        """To carve off the edge of the upper layer, along the ray, mm."""
        return None if self.edge_above is None or self.radius_above is None else self.edge_above - self.radius_above

    @property
    def cut(self) -> float | None:
        """To carve off the edge that stands out further, mm."""
        return max((c for c in (self.cut_below, self.cut_above) if c is not None), default=None)


@dataclass(frozen=True)
class DatumLine:
    """A line on a template, in its plane: the station of a glue line, or the axis."""

    name: str
    start: Point2
    end: Point2


@dataclass(frozen=True)
class Gauge:
    """The negative of a template, slid against the piece from one side without touching anything else.

    `spans` is true where the profile turns back under itself: the gauge bridges what it cannot reach.
    """

    side: str
    area: MultiPolygon
    spans: bool


@dataclass(frozen=True)
class SectionTemplate:
    """A section of the form by a plane: `form` in plane coordinates, whose origin and two directions are in the stack.

    `kind` is "vertical" (through the axis, at `azimuth`), "level" (at a glue line) or "plane".
    """

    stack: str
    name: str
    kind: str
    origin: Point3
    across: Point3
    up: Point3
    azimuth: float | None
    form: MultiPolygon
    gauges: tuple[Gauge, ...]
    marks: tuple[DatumLine, ...]


@dataclass(frozen=True)
class Bit:
    """A bit of `diameter`; its tip leads its full width by `point`."""

    name: str
    kind: str
    diameter: float
    point: float


@dataclass(frozen=True)
class DepthHole:
    """One gauge hole, square to the layers. `depth` is what the stop is set to, from the rough surface at height
    `surface` to the bit's tip; `deepest` before rounding to the safe side. `stop` numbers its group."""

    stack: str
    face: str  # "top" or "bottom"
    x: float
    y: float
    surface: float
    depth: float
    deepest: float
    stop: int
    bit: str

    @property
    def tip(self) -> float:
        """Height of the bottom of the hole in the stack, mm."""
        return self.surface + (self.depth if self.face == "bottom" else -self.depth)


@dataclass(frozen=True)
class Stop:
    """One setting of the drill stop: its number, the depth to the tip, and how many holes are bored with it."""

    stack: str
    face: str
    stop: int
    depth: float
    count: int
    bit: str


@dataclass(frozen=True)
class DepthMap:
    """All depth holes of one face, and how many places of the grid were left out and why (reason to count)."""

    stack: str
    face: str
    bit: Bit
    leave: float
    pitch: float
    holes: tuple[DepthHole, ...]
    stops: tuple[Stop, ...]
    dropped: tuple[tuple[str, int], ...]


@dataclass(frozen=True)
class Removed:
    """Wood to carve off one layer, mm³: what its blank holds and the form does not. `hours` at the maker's own rate."""

    stack: str
    layer: int
    blank: float
    finished: float
    hours: float | None = None

    @property
    def volume(self) -> float:
        """Wood to take away, mm³."""
        return max(0.0, self.blank - self.finished)


@dataclass(frozen=True)
class CornerLine:
    """An inner corner of the stepped stack, `corner`, and the line `nearest` on the finished surface that lies
    nearest to it, point for point; `distance` is the wood left there when a carver reaches the corner."""

    corner: tuple[Point3, ...]
    nearest: tuple[Point3, ...]
    distance: tuple[float, ...]
    closed: bool


@dataclass(frozen=True)
class CarvingStep:
    """The steps at one glue line. `ledge` is the widest step there; `outer` the least and greatest distance from
    the steps' outer corners to the finished surface: what is carved off them; `inner` that of the inner corners: what
    is left when the steps are gone (None where the faces are flush). `glue_line` is the finished outline there, in the
    stack."""

    stack: str
    interface: int  # number of the lower layer
    height: float
    ledge: float
    outer: tuple[float, float] | None
    inner: tuple[float, float] | None
    corners: tuple[CornerLine, ...]
    glue_line: tuple[tuple[Point3, ...], ...]


@dataclass(frozen=True)
class ElevationCorner:
    """A step at a glue line as it shows in an elevation, on its "left" or "right": `outer` and `inner` are where its
    corners stand across the view; `from_outer` and `at_inner` the level distances from them in to the finished surface,
    None where no form ends there."""

    interface: int  # number of the lower layer
    height: float
    side: str
    outer: float
    inner: float
    from_outer: float | None
    at_inner: float | None


@dataclass(frozen=True)
class Elevation:
    """The stepped stack from the "front" (x to the right) or the "right" (y to the right): what the blanks of each
    layer hide, and what the finished form does at heights of the stack."""

    stack: str
    side: str
    blanks: tuple[Spans, ...]
    profile: tuple[tuple[float, Spans], ...]
    corners: tuple[ElevationCorner, ...]


@dataclass(frozen=True)
class CarvingPlan:
    """All that carving is guided by."""

    offsets: tuple[Offset, ...] = ()
    templates: tuple[SectionTemplate, ...] = ()
    depth_maps: tuple[DepthMap, ...] = ()
    steps: tuple[CarvingStep, ...] = ()
    removed: tuple[Removed, ...] = ()
    rate: float | None = None  # litres an hour, the maker's own
    elevations: tuple[Elevation, ...] = ()

    @property
    def hours(self) -> float | None:
        """Hours of carving at the maker's own rate; None when none was given."""
        return None if self.rate is None else sum(r.volume for r in self.removed) / 1e6 / self.rate
