# SPDX-License-Identifier: LGPL-2.1-or-later

"""A stack and its layers.

Coordinates are in the stack's own frame: z along the stacking axis, 0 at the bottom of layer 1, x and y from the
stack's datum (the axis cross on the drawings). Lengths mm, areas mm², volumes mm³, angles degrees.
"""

from __future__ import annotations

from dataclasses import dataclass

from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.plan.insides import HollowPlan, Misfit, PinPlan
from freecad_stacklam.lamination.plan.outline import Outline
from freecad_stacklam.lamination.tolerances import ROUNDING, UNCOVERED_VOLUME


@dataclass(frozen=True)
class Cut:
    """Something taken out of one layer: the part of a mortise, pin hole or hollow that lies in it.

    `start` and `end` are heights in the stack with layer.bottom <= start < end <= layer.top; the cut goes through the
    layer when both are equal. `outline` is the cut's plan at `start`; `outline_end` at `end` (they differ only when
    the cut's axis is tilted). The point of the bit that makes it goes deeper by `point_down` or `point_up`, and may
    reach into the next layer.
    """

    kind: str  # "mortise", "pin" or "hollow"
    outline: Outline
    start: float
    end: float
    joint: str | None = None
    outline_end: Outline | None = None
    point_down: float = 0.0
    point_up: float = 0.0

    @property
    def lowest(self) -> float:
        """How low it takes wood away, the bit's point counted in: a height in the stack, mm."""
        return self.start - self.point_down

    @property
    def highest(self) -> float:
        """How high it takes wood away, the bit's point counted in: a height in the stack, mm."""
        return self.end + self.point_up

    def opens_top(self, layer: LayerPlan, tolerance: float = ROUNDING) -> bool:
        """Whether it comes out of the layer's upper face."""
        return self.end >= layer.top - tolerance

    def opens_bottom(self, layer: LayerPlan, tolerance: float = ROUNDING) -> bool:
        """Whether it comes out of the layer's lower face."""
        return self.start <= layer.bottom + tolerance

    def goes_through(self, layer: LayerPlan) -> bool:
        """Whether it comes out of both faces."""
        return self.opens_top(layer) and self.opens_bottom(layer)


@dataclass(frozen=True)
class Tab:
    """A tab of waste on one blank, for the pad of a clamp: sawn off after gluing.

    `area`: what it adds to the blank, its fillets too. It points in a `direction`, degrees from the stack's x, is
    `width` wide, and ends `out` beyond this blank on its middle line; `seat` is the middle of its end part, x and y.
    """

    area: MultiPolygon
    direction: float
    width: float
    out: float
    seat: tuple[float, float]


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
    thin: tuple[ThinZone, ...] = ()
    tabs: tuple[Tab, ...] = ()
    untabbed: tuple[Outline, ...] = ()  # the blank once its tabs are sawn off; () where it has none

    @property
    def without_tabs(self) -> tuple[Outline, ...]:
        """The blank as it is in the glued stack, its tabs sawn off: what is carved."""
        return self.untabbed or self.blank

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
class LeastWood:
    """The least wood between the form and the surface of the glued block, square to it, mm, and its place (x, y, z in
    the stack's frame) on the form.

    `kind` is "wall" or "step": under a sawn edge, or under the uncovered part of a face of layer `layer`. `side` is 1
    for an upper face and −1 for a lower one, 0 for a wall. `asked` is how much there should be, mm.
    """

    distance: float
    place: tuple[float, float, float]
    kind: str
    layer: int
    side: int = 0
    asked: float = 0.0


@dataclass(frozen=True)
class ThinZone:
    """The part of a layer's upper (`side` 1) or lower (−1) face under which less wood is left than is asked for."""

    side: int
    area: MultiPolygon


@dataclass(frozen=True)
class SquareCost:
    """What an allowance square to the surface costs beside a level one: `wood` mm³ more in the blanks, `share` of the
    level blanks; `level` is the least wood, mm, that the level allowance leaves (as LeastWood)."""

    wood: float
    share: float
    level: float


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
    least_wood: LeastWood | None = None  # None: not measured
    square: SquareCost | None = None  # None: the level allowance leaves enough, and is what was asked for

    @property
    def proven(self) -> bool:
        """True when nothing of the form was found outside the blanks."""
        return self.least_cover >= 0.0 and self.uncovered_volume <= UNCOVERED_VOLUME


@dataclass(frozen=True)
class HeightMovement:
    """How much a stack changes in height over a `swing` of so many % points of moisture, mm: with all its boards flat
    sawn (`flat`) and with all of them quarter sawn (`quarter`). `cut`: how its boards are sawn, where all say the
    same; "" where that is not known."""

    flat: float
    quarter: float
    swing: float
    cut: str = ""

    @property
    def most(self) -> float:
        """The most that it moves with the boards that are known of, mm."""
        return {"flat": self.flat, "quarter": self.quarter}.get(self.cut, max(self.flat, self.quarter))


@dataclass(frozen=True)
class SideView:
    """The form seen level from one side: its silhouette, and its section on the axis (empty where that misses it). Both
    in mm across and up: x and z from the front, y and z from the right."""

    silhouette: MultiPolygon
    section: MultiPolygon


@dataclass(frozen=True)
class LeftOut:
    """Something that was asked for and could not be planned, and the sentence that says why and what to do."""

    what: str
    says: str


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
    square: bool = False  # whether the allowance is measured square to the surface
    movement: HeightMovement | None = None  # over a year; None: the wood's shrinkage is not known
    sides: tuple[SideView, ...] = ()  # from the front and from the right, in the stack's frame; () where not known
    in_model: tuple[SideView, ...] = ()  # the same in the model
    left_out: tuple[LeftOut, ...] = ()  # of what is cut into the layers

    @property
    def height(self) -> float:
        """Height of the glued stack, mm."""
        return self.layers[-1].top if self.layers else 0.0
