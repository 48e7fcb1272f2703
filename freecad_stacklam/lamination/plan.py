"""What a plan is made of: the records that every room fills or reads.

Coordinates of a stack's parts are in the stack's own frame: z along the stacking axis, 0 at the bottom of layer 1,
x and y from the stack's datum (the axis cross on the drawings). All lengths mm, areas mm², volumes mm³, angles degrees.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.boards import BoardsPlan
from freecad_stacklam.lamination.carvingplan import CarvingPlan
from freecad_stacklam.lamination.outline import Outline


@dataclass(frozen=True)
class Cut:
    """Something taken out of one layer: the part of a mortise, pin hole or hollow that lies in it.

    `start` and `end` are heights in the stack with layer.bottom <= start < end <= layer.top; the cut goes through the
    layer when both are equal. `outline` is the cut's plan at `start`; `outline_end` at `end` (they differ only when
    the cut's axis is tilted).
    """

    kind: str  # "mortise", "pin" or "hollow"
    outline: Outline
    start: float
    end: float
    joint: str | None = None
    outline_end: Outline | None = None


@dataclass(frozen=True)
class LayerPlan:
    """One slab of the stack. `blank` is cut on the band saw; the finished outlines are the form's own sections."""

    number: int  # from 1 at the bottom
    bottom: float
    top: float
    species: str
    grain: float  # degrees from the stack's x to the direction of the grain
    shadow: MultiPolygon  # what the form needs of this slab, without allowance
    blank: tuple[Outline, ...]  # islands; each an outer line-and-arc loop with its holes
    finished_bottom: MultiPolygon  # section just above `bottom`
    finished_top: MultiPolygon  # section just below `top`
    blank_area: float
    finished_volume: float  # of the form between bottom and top
    cuts: tuple[Cut, ...] = ()

    @property
    def thickness(self) -> float:
        """Thickness of the stock, mm."""
        return self.top - self.bottom

    @property
    def blank_volume(self) -> float:
        """Volume of the blank as sawn, before any cut, mm³."""
        return self.blank_area * self.thickness


@dataclass(frozen=True)
class FormFigures:
    """What the mesh says about the form: volume mm³, height along the axis mm, number of triangles, notes on repair."""

    volume: float
    height: float
    mesh_triangles: int
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Containment:
    """The proof that the form lies inside its blanks.

    `uncovered_volume` mm³ of the form outside all blanks; `least_cover` mm, the least distance from the form to a
    blank's wall (negative when the form sticks out), at `place` (x, y, z in the stack's frame).
    """

    uncovered_volume: float
    least_cover: float
    place: tuple[float, float, float]
    samples: int
    method: str

    @property
    def proven(self) -> bool:
        """True when nothing of the form was found outside the blanks."""
        from freecad_stacklam.lamination.tolerances import UNCOVERED_VOLUME

        return self.least_cover >= 0.0 and self.uncovered_volume <= UNCOVERED_VOLUME


@dataclass(frozen=True)
class PinPlan:
    """One registration dowel between layer `interface` and the next above it; `centre` from the datum.

    `depth_down` and `depth_up` are the depths of its holes in the lower and the upper layer. `least_cover` is the least
    wood around it to the finished surface. A pin in `waste` wood stands wholly outside the form and holds the layers
    only while they are glued: for it `least_cover` is the distance to the form, all of it carved away.
    """

    interface: int  # number of the lower layer
    centre: tuple[float, float]
    diameter: float
    depth_down: float
    depth_up: float
    least_cover: float
    waste: bool = False


@dataclass(frozen=True)
class Misfit:
    """How surely the pins of one interface keep a layer from being laid the wrong way.

    Of all ways in which a piece's outline nearly maps onto itself, the one that comes nearest to fitting: `distance` is
    how far the worst pin then misses every hole. None when no wrong way is left: the outline itself prevents them all.
    """

    interface: int  # number of the lower layer
    distance: float | None
    wanted: float
    way: str  # "turned by 90°", "turned over about an axis at 30°", or "" with no wrong way
    layer: int = 0  # which layer is laid so: the lower or the upper one; 0 with no wrong way

    @property
    def held(self) -> bool:
        """True when the pins or the outline prevent every wrong way."""
        return self.distance is None or self.distance >= self.wanted


@dataclass(frozen=True)
class VoidPlan:
    """One void: the layers it runs through, its volume, and a place from which it is vented downwards.

    `vent` is the diameter that is bored there; 0 when none was asked for, and the void stays closed.
    """

    layers: tuple[int, ...]
    volume: float
    vent: float
    vent_place: tuple[float, float] | None


@dataclass(frozen=True)
class GlueLine:
    """Glue area between a layer and the next in the finished piece, without mortises: without and with the voids."""

    interface: int  # number of the lower layer
    whole: float
    left: float


@dataclass(frozen=True)
class HollowPlan:
    """What the voids of a stack save and leave. `least_wall` is a lower bound, in space, of the wood around any of
    them."""

    wall: float
    caps: int
    volume: float
    least_wall: float
    voids: tuple[VoidPlan, ...]
    glue_lines: tuple[GlueLine, ...]


@dataclass(frozen=True)
class StackPlan:
    """One form as a stack of layers. `frame` is the 4 × 4 matrix, row-major, that takes stack to model coordinates."""

    name: str
    frame: tuple[float, ...]
    form: FormFigures
    allowance: float
    guard: float
    species: str
    layers: tuple[LayerPlan, ...]
    containment: Containment
    copies: int = 1
    pins: tuple[PinPlan, ...] = ()
    misfits: tuple[Misfit, ...] = ()
    hollow: HollowPlan | None = None

    @property
    def height(self) -> float:
        """Height of the glued stack, mm."""
        return self.layers[-1].top if self.layers else 0.0


@dataclass(frozen=True)
class Wedge:
    """Wedges for a through end: saw kerfs across the layers' grain, so that the wedges press on the end-grain walls.

    The wedges spread the tenon along the section's first side when `along_first`, else along its second.
    `kerf_turn` is the direction of the kerfs in the stack's plan, degrees from its x. Each wedge is `thickness` mm
    at its
    head and as thin as the kerf at its tip; each end-grain wall is flared by `flare` mm at the face.
    """

    count: int
    along_first: bool
    kerf_turn: float
    kerf_width: float
    kerf_depth: float
    length: float
    thickness: float
    taper: float  # length over growth in thickness
    flare: float


@dataclass(frozen=True)
class JointMember:
    """What a joint does in one stack: the mortise runs from `start` to `end` (heights in that stack) and is
    `through` or
    stopped; `embed` is the length of tenon that this stack holds.

    `movement_along` is how much the tenon's width moves in its mortise along the layers' grain over the swing in
    moisture, `movement_across` across it, mm (None: the wood's shrinkage is not known). `relief` is cut from each of
    the two end-grain walls for it.
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


@dataclass(frozen=True)
class Boring:
    """One line of the drilling table: holes of `diameter` mm at `centres` (x, y from the datum) to `depth` mm.

    layer None: in the assembled stack. `chisel` is the part of the section left for the chisel; `side` is the face that
    is bored from.
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
        from math import pi

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


@dataclass(frozen=True)
class Check:
    """One verdict. `verdict` is "ok", "caution" or "stop"; `says` is one sentence for the maker; `source` names the
    rule."""

    name: str
    verdict: str
    figure: float
    limit: float
    unit: str
    source: str
    says: str


@dataclass(frozen=True)
class BillRow:
    """One line of the bill. Lengths mm, area mm², volume mm³, mass kg; None where a figure has no meaning for the
    row."""

    item: str  # "blank", "tenon", "total", …
    name: str  # "Pedestal 3"
    species: str
    count: int
    thickness: float | None = None
    length: float | None = None  # along the grain
    width: float | None = None
    area: float | None = None
    volume: float | None = None
    board_feet: float | None = None
    mass: float | None = None
    how: str = ""  # how the row was computed
    cost: float | None = None  # of one, in the maker's money


@dataclass(frozen=True)
class Plan:
    """Everything that is known before the first cut."""

    title: str
    units: str  # "mm" or "in": how lengths are shown, never how they are stored
    stacks: tuple[StackPlan, ...]
    joints: tuple[JointPlan, ...] = ()
    bill: tuple[BillRow, ...] = ()
    checks: tuple[Check, ...] = ()
    author: str = ""
    date: str = ""
    notes: tuple[str, ...] = field(default=())
    boards: BoardsPlan | None = None
    carving: CarvingPlan | None = None

    @property
    def proven(self) -> bool:
        """True when every stack contains its form and no check says stop."""
        return all(s.containment.proven for s in self.stacks) and all(c.verdict != "stop" for c in self.checks)
