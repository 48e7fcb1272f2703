# SPDX-License-Identifier: LGPL-2.1-or-later

"""One stack as the order of its glue-up needs it: what each layer weighs, what each line holds, what must stay open.

Lengths mm, areas mm², heights in the stack's own frame, masses kg, pressures MPa. Layers and lines go by numbers of
layers: line k lies between layer k and layer k + 1.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

import shapely

from freecad_stacklam.lamination.plan.areas import blank_area
from freecad_stacklam.lamination.plan.gluing import Interface
from freecad_stacklam.lamination.plan.layers import Cut, LayerPlan, StackPlan
from freecad_stacklam.lamination.pressing.interfaces import LEAST_CONTACT
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tolerances import ROUNDING
from freecad_stacklam.lamination.words import say

MORTISE, HOLLOW = "mortise", "hollow"


@dataclass(frozen=True)
class PileLayer:
    """A layer: `width` is the narrower side of the tightest rectangle around its blank, `length` the longer; `middle`
    the middle of the blank in plan; `crush` the strength across the grain (None: not known)."""

    number: int
    bottom: float
    thickness: float
    mass: float | None
    width: float
    length: float
    middle: tuple[float, float] = (0.0, 0.0)
    crush: float | None = None

    @property
    def top(self) -> float:
        """Height of its upper face."""
        return self.bottom + self.thickness


@dataclass(frozen=True)
class PileLine:
    """A glue line above layer `lower`. `pins`: dowels that are set in it."""

    lower: int
    height: float
    area: float
    pins: int = 0


@dataclass(frozen=True)
class Channel:
    """What runs through the glue lines of layers `first` to `last` without a break: a mortise, or a void.

    `name` is the joint's. `open_below`, `open_above`: it comes out of the lower face of `first`, the upper of
    `last`."""

    kind: str
    name: str
    first: int
    last: int
    open_below: bool
    open_above: bool

    def crosses(self, line: int) -> bool:
        """Whether it runs through a glue line."""
        return self.first <= line < self.last

    def passes(self, first: int, last: int) -> bool:
        """Whether it runs through a whole run from face to face, so that a rod can."""
        below = self.first < first or (self.first == first and self.open_below)
        above = self.last > last or (self.last == last and self.open_above)
        return below and above


@dataclass(frozen=True)
class Pile:
    """A stack of layers from the bottom; one line fewer than layers, in their order."""

    stack: str
    layers: tuple[PileLayer, ...]
    lines: tuple[PileLine, ...]
    channels: tuple[Channel, ...] = ()

    def __post_init__(self) -> None:
        """Raises Refusal where the lines do not lie between the layers."""
        numbers = [layer.number for layer in self.layers]
        if not numbers or numbers != list(range(numbers[0], numbers[0] + len(numbers))):
            raise Refusal(
                say("The layers of {stack} do not follow each other: number them from the bottom up.", stack=self.stack)
            )
        if [line.lower for line in self.lines] != numbers[:-1]:
            raise Refusal(
                say("{stack} needs one glue line between each layer and the next: give them all.", stack=self.stack)
            )

    @property
    def first(self) -> int:
        """Number of the lowest layer."""
        return self.layers[0].number

    @property
    def last(self) -> int:
        """Number of the highest layer."""
        return self.layers[-1].number

    def layer(self, number: int) -> PileLayer:
        """The layer of a number."""
        return self.layers[number - self.first]

    def line(self, lower: int) -> PileLine:
        """The glue line above a layer."""
        return self.lines[lower - self.first]

    def run(self, first: int, last: int) -> tuple[PileLayer, ...]:
        """The layers of a run."""
        return self.layers[first - self.first : last - self.first + 1]

    def height(self, first: int, last: int) -> float:
        """Of a run."""
        return self.layer(last).top - self.layer(first).bottom

    def mass(self, first: int, last: int) -> float | None:
        """Of a run; None as soon as one layer's is not known."""
        total = 0.0
        for layer in self.run(first, last):
            if layer.mass is None:
                return None
            total += layer.mass
        return total

    def width(self, first: int, last: int) -> float:
        """The narrower side of the widest layer in a run: what the planer must take."""
        return max(layer.width for layer in self.run(first, last))

    def middle(self, first: int, last: int) -> tuple[float, float, float]:
        """Centre of mass of a run; layers whose mass is not known count by their volume of a plain rectangle."""
        run = self.run(first, last)
        weights = [layer.mass or 0.0 for layer in run]
        if any(layer.mass is None for layer in run) or not sum(weights):
            weights = [layer.width * layer.length * layer.thickness for layer in run]
        total = sum(weights) or 1.0
        places = [(*layer.middle, layer.bottom + layer.thickness / 2) for layer in run]
        x, y, z = (sum(w * p[i] for w, p in zip(weights, places)) / total for i in range(3))
        return x, y, z

    def crush(self, lower: int) -> float | None:
        """Strength across the grain at a glue line: of the weaker of its two layers; None: not known."""
        known = [s for s in (self.layer(lower).crush, self.layer(lower + 1).crush) if s is not None]
        return min(known) if known else None

    def rod_fits(self, first: int, last: int) -> bool:
        """Whether a rod can run through a whole run: some mortise passes it from face to face."""
        return any(c.kind == MORTISE and c.passes(first, last) for c in self.channels)

    def reach_below(self, line: int, first: int) -> float:
        """How deep a chisel must reach to a line from below, in a run that begins at layer `first`: 0 where nothing
        that is worked crosses the line, infinite where it is closed there."""
        depths = [0.0]
        for channel in self.channels:
            if channel.kind == MORTISE and channel.crosses(line):
                opened = channel.first < first or (channel.first == first and channel.open_below)
                depths.append(self.line(line).height - self.layer(first).bottom if opened else inf)
        return max(depths)

    def reach_above(self, line: int, last: int) -> float:
        """The same from above, in a run that ends at layer `last`."""
        depths = [0.0]
        for channel in self.channels:
            if channel.kind == MORTISE and channel.crosses(line):
                opened = channel.last > last or (channel.last == last and channel.open_above)
                depths.append(self.layer(last).top - self.line(line).height if opened else inf)
        return max(depths)


def pile_of(
    stack: StackPlan,
    interfaces: Sequence[Interface],
    masses: Sequence[float | None] = (),
    crush: Sequence[float | None] = (),
) -> Pile:
    """A planned stack as a pile. `interfaces` from the bottom; `masses`, kg, and `crush`, MPa, of each layer (left out:
    not known). Raises Refusal where a line is missing or glues nothing."""
    masses, crush = tuple(masses) or (None,) * len(stack.layers), tuple(crush) or (None,) * len(stack.layers)
    empty = next((i for i in interfaces if not i.area > LEAST_CONTACT), None)
    if empty is not None:
        raise Refusal(
            say(
                "Layers {lower} and {upper} of {stack} meet nowhere, or on next to nothing, and cannot be glued "
                "to each other: move the glue lines, or give the form wood there.",
                lower=empty.lower,
                upper=empty.lower + 1,
                stack=stack.name,
            )
        )
    pins: dict[int, int] = {}
    for pin in stack.pins:
        pins[pin.interface] = pins.get(pin.interface, 0) + 1
    layers = tuple(map(_layer, stack.layers, masses, crush))
    lines = tuple(PileLine(i.lower, i.height, i.area, pins.get(i.lower, 0)) for i in interfaces)
    return Pile(stack.name, layers, lines, channels_of(stack.layers))


def _layer(layer: LayerPlan, mass: float | None, crush: float | None) -> PileLayer:
    blank = blank_area(layer.blank)
    corners = shapely.get_coordinates(shapely.minimum_rotated_rectangle(blank))
    sides = sorted(float(((corners[i] - corners[i + 1]) ** 2).sum() ** 0.5) for i in (0, 1))
    middle = shapely.centroid(blank)
    return PileLayer(layer.number, layer.bottom, layer.thickness, mass, sides[0], sides[1], (middle.x, middle.y), crush)


def channels_of(layers: Sequence[LayerPlan]) -> tuple[Channel, ...]:
    """What runs through glue lines without a break: cuts of one kind and joint that open into each other from layer to
    layer. What stays inside one layer is no channel."""
    kinds = sorted({(c.kind, c.joint or "") for layer in layers for c in layer.cuts if c.kind in (MORTISE, HOLLOW)})
    found = []
    for kind, name in kinds:
        cuts = {
            layer.number: [c for c in layer.cuts if (c.kind, c.joint or "") == (kind, name)]
            for layer in layers
        }  # fmt: skip
        run: list[LayerPlan] = []
        for layer in [*layers, None]:
            goes_on = layer is not None and bool(cuts[layer.number])
            if run and not (goes_on and layer is not None and _meet(cuts, run[-1], layer)):
                if len(run) > 1 or _through(cuts[run[0].number], run[0]):
                    found.append(_channel(kind, name, run, cuts))
                run = []
            if goes_on and layer is not None:
                run.append(layer)
    return tuple(found)


def _meet(cuts: dict[int, list[Cut]], below: LayerPlan, above: LayerPlan) -> bool:
    return any(c.highest >= below.top - ROUNDING for c in cuts[below.number]) and any(
        c.lowest <= above.bottom + ROUNDING for c in cuts[above.number]
    )


def _through(cuts: Sequence[Cut], layer: LayerPlan) -> bool:
    return any(cut.goes_through(layer) for cut in cuts)


def _channel(kind: str, name: str, run: Sequence[LayerPlan], cuts: dict[int, list[Cut]]) -> Channel:
    first, last = run[0], run[-1]
    below = any(cut.opens_bottom(first) for cut in cuts[first.number])
    above = any(cut.opens_top(last) for cut in cuts[last.number])
    return Channel(kind, name, first.number, last.number, below, above)
