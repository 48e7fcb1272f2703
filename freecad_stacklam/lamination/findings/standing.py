# SPDX-License-Identifier: LGPL-2.1-or-later

"""How the finished piece stands: what touches the floor, what is sat or stood on, and what tips it.

Plan points are x, y of the model, mm; heights are above the floor, mm; directions are degrees round from RIGHT, to the
left seen from above. Masses kg, forces N, moments N·m.
"""

from __future__ import annotations

from dataclasses import dataclass

Point = tuple[float, float]
Ring = tuple[Point, ...]  # a closed line, its first point not repeated


@dataclass(frozen=True)
class Foot:
    """One place where the piece touches the floor, or nearly. `rings`: its outlines, the holes in them as rings too.

    `at`: its lowest point. `gap`: how far it is off the floor when the piece rests. `face`: it touches with a face; not
    so: in a point or along a line, as a rounded foot does. `off`: what the scribe line takes off it.
    """

    number: int  # from 1, round from RIGHT
    rings: tuple[Ring, ...]
    at: Point
    gap: float
    face: bool
    off: float = 0.0

    @property
    def touches(self) -> bool:
        """Whether it stands on the floor, as nearly as a form is drawn."""
        return self.gap <= TOUCHING


#: A foot this near to the floor touches it, mm: the mesh errs by as much, and a finish is as thick.
TOUCHING = 0.3


@dataclass(frozen=True)
class TopFound:
    """An upper surface that is sat on or stood on: its outline in plan, and the `height` of the highest of it.

    `level`: it is a surface wide and level enough to be used so; not so: only the highest part of the piece.
    """

    outline: Ring
    height: float
    level: bool = True


@dataclass(frozen=True)
class Tipping:
    """How the piece stands against one load, at its worst.

    It tips over the line from `start` to `end`, towards `direction`, with the load at `place` on top number `top`.
    `holding` and `tipping` are the moments about that line; `ratio` the one over the other, None where nothing tips.
    `wider`: by how much the foot must stand out further on that side for the least ratio that is asked for; `inward`:
    by how much the load must stand further in for the same, None where that does not help. Both 0 where it holds.
    `ratios`: the least ratio in each of the directions 0°, 5°, … 355°.
    """

    name: str
    source: str
    down: float
    push: float
    top: int  # from 1
    place: Point
    height: float
    direction: float
    start: Point
    end: Point
    holding: float
    tipping: float
    ratio: float | None
    wider: float
    inward: float | None
    ratios: tuple[float | None, ...]


#: The directions of Tipping.ratios, degrees.
DIRECTIONS = tuple(5.0 * i for i in range(72))


@dataclass(frozen=True)
class Levelling:
    """How the piece comes to rest under its own weight, and how it is made level.

    `tilt`: degrees from upright as it was modelled to how it rests. `rests_on`: numbers of the feet that touch the
    floor then. `scribe`: height of a scribe line round the feet, above the floor on which
    the piece is wedged up level, that all feet are cut to. `rock`: how far the rim of the top moves when one foot, or
    the floor under it, is out by `short_foot`; `rocks`: it goes to and fro, for there are more than three feet; three
    only lean.
    """

    tilt: float
    rests_on: tuple[int, ...]
    scribe: float
    rock: float
    rocks: bool


@dataclass(frozen=True)
class PieceStanding:
    """One piece as it stands: stacks that touch or are joined.

    `mass` is None where a wood's weight is not known; then none is counted on to hold the piece down. `centre`: of
    mass, x and y of the model and height above the floor; `floor`: its z in the model. `support`: the hull of what
    touches, and of the feet besides onto which it rocks where those hold it better; then it leans by `gap` over its
    depth. `inside`: how far the centre stands inside the nearest edge of it, negative where outside. `tip_angle`: least
    angle at which the empty piece tips, towards `tip_direction` over the line `tip_edge`; 0 where it does not stand;
    `tip_angles` by DIRECTIONS. `rolls`: it touches in a point or along a line only. `falls`: its weight lies outside
    what it stands on; `wider` is by how much it must stand out further towards `tip_direction`, so that it tips at no
    less than the least angle.
    """

    name: str
    stacks: tuple[str, ...]
    mass: float | None
    centre: tuple[float, float, float]
    floor: float
    height: float
    feet: tuple[Foot, ...]
    support: Ring
    inside: float
    tip_angle: float
    tip_direction: float
    tip_edge: tuple[Point, Point] | None
    wider: float
    rolls: bool
    falls: bool
    tops: tuple[TopFound, ...]
    loads: tuple[Tipping, ...]
    levelling: Levelling
    gap: float = 0.0
    tip_angles: tuple[float, ...] = ()


@dataclass(frozen=True)
class StandingFindings:
    """All pieces of a plan, and what they were checked with: see UseSettings. `least_angle`: degrees. `left_out`: why a
    piece could not be checked."""

    pieces: tuple[PieceStanding, ...]
    short_foot: float
    soft_floor: float
    least_ratio: float
    least_angle: float
    left_out: tuple[str, ...] = ()
