# SPDX-License-Identifier: LGPL-2.1-or-later

"""A joint: its mortises, its tenon, how it is bored and wedged. Lengths mm, volumes mm³, angles degrees."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import pi

from freecad_stacklam.lamination.plan.jointaxis import JointAxis, joint_axis


@dataclass(frozen=True)
class Wedge:
    """Wedges for a through end: saw kerfs across the layers' grain, so that the wedges press on the end-grain walls.

    The wedges spread the tenon along the section's first side when `along_first`, else along its second. `kerf_turn` is
    the direction of the kerfs in the stack's plan, degrees from its x; a kerf's near side lies `kerf_from_edge` from
    the tenon's edge, it goes `kerf_depth` deep from the tenon's end and ends in a `stop_hole` in diameter. Each wedge
    is `tip` mm thick at its tip, thinner than the kerf, and `thickness` mm where it passes the face, `length` further
    out: it opens the kerf at the face and touches the strip nowhere deeper. Each end-grain
    wall is flared by `flare` at the face, running out at `flare_depth`; each strip beside a kerf bends out by `spread`,
    which strains its outermost fibre by `strain`, and it may be strained by `strain_limit`.
    """

    count: int
    along_first: bool
    kerf_turn: float
    kerf_width: float
    kerf_depth: float
    kerf_from_edge: float
    stop_hole: float
    length: float
    thickness: float
    tip: float
    flare: float
    flare_depth: float
    spread: float
    strain: float
    strain_limit: float
    strength_known: bool = True  # whether the wood's own strength stands behind the limit
    buried: float = 0.0  # how far the tenon ends below the rough face of its stack

    @property
    def taper(self) -> float:
        """Length over growth in thickness: 20 for 1:20."""
        return self.length / (self.thickness - self.tip)

    def kerfs(self, side: float) -> tuple[float, ...]:
        """Where the middles of the kerfs lie across a tenon `side` mm wide, from its middle."""
        at = side / 2 - self.kerf_from_edge - self.kerf_width / 2
        return -at, at


@dataclass(frozen=True)
class JointMember:
    """What a joint does in one stack: the mortise runs from `start` to `end` (heights in that stack) and is `through`
    or stopped; `embed` is the length of tenon that this stack holds.

    `movement_along` is how much the tenon's width moves in its mortise along the layers' grain over the swing in
    moisture, `movement_across` across it, `movement_height` how much the layers around it move along the tenon, which
    does not, mm (None: the wood's shrinkage is not known). `relief` is cut from each of the two end-grain walls.
    """

    stack: str
    start: float
    end: float
    through: bool
    embed: float
    relief: float = 0.0
    movement_along: float | None = None
    movement_across: float | None = None
    wedge: Wedge | None = None
    share: float = 0.0  # the part of the form's width that the mortise takes, where it takes most
    movement_height: float | None = None


@dataclass(frozen=True)
class Boring:
    """One line of the drilling table: holes of `diameter` mm at `centres` (x, y from the datum) to `depth` mm.

    layer None: in the assembled stack. `chisel` is the part of the section left for the chisel; `side` is the face that
    is bored from. The point of the bit, of that `kind`, leads by `point` mm and goes so much deeper; the bit bores
    `reach` mm deep (None: not known).
    """

    stack: str
    layer: int | None
    diameter: float
    depth: float
    through: bool
    centres: tuple[tuple[float, float], ...]
    chisel: float
    side: str  # "top" or "bottom"
    when: str  # "before glue-up" or "after glue-up"
    kind: str = ""
    point: float = 0.0
    reach: float | None = None
    stroke: float | None = None  # of the drill press, where it is known
    owned: bool = True  # whether the bit is one of the shop's own list, or there is no list

    @property
    def fed(self) -> float:
        """How deep the drill feeds, mm: a through hole is bored from both faces until the bit's full width has met."""
        return self.depth / 2 if self.through else self.tip

    @property
    def tip(self) -> float:
        """How deep the bit's tip goes, mm."""
        return self.depth + self.point


@dataclass(frozen=True)
class Tenon:
    """The separate piece. Grain runs along its length. `section` is its own size, smaller than the mortise by the
    clearance."""

    length: float
    section: str  # "square", "rectangle", "round"
    size: tuple[float, ...]  # side(s) or diameter
    species: str

    @property
    def area(self) -> float:
        """Cross-section, mm²."""
        if self.section == "round":
            return pi * self.size[0] ** 2 / 4
        return self.size[0] * self.size[-1]

    @property
    def volume(self) -> float:
        """Volume, mm³."""
        return self.area * self.length


@dataclass(frozen=True)
class JointPlan:
    """A mortise and floating tenon along an axis between two or more stacks.

    `point` and `direction` give the axis in the model. `clearance` is per glued face, `end_room` at a stopped end.
    """

    name: str
    section: str
    size: tuple[float, ...]
    point: tuple[float, float, float]
    direction: tuple[float, float, float]
    clearance: float
    end_room: float
    members: tuple[JointMember, ...]
    tenon: Tenon
    least_cover: float  # tenon and mortise to the finished surface, mm
    cover_place: tuple[float, float, float]  # in the model
    turn: float = 0.0  # of the section about the axis, degrees
    start: float = 0.0  # where the tenon begins and ends along the direction, from `point`, mm
    end: float = 0.0
    proud: float = 0.0  # how far the tenon stands out at a through end
    swing: float = 0.0  # moisture swing of the season, % points
    drilling: tuple[Boring, ...] = ()

    @cached_property
    def axis(self) -> JointAxis:
        """Its own frame in the model, from `point`, `direction` and `turn`."""
        return joint_axis(self.point, self.direction, self.turn)
