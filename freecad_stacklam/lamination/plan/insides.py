# SPDX-License-Identifier: LGPL-2.1-or-later

"""Pins and hollows of a stack. Lengths mm, areas mm², volumes mm³."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot


@dataclass(frozen=True)
class PinPlan:
    """One registration dowel between layer `interface` and the next above it; `centre` from the datum.

    `depth_down` and `depth_up` are the depths of its holes in the lower and the upper layer. `least_cover` is the least
    wood around it to the finished surface. A pin in `waste` wood stands wholly outside the form and holds the layers
    only while they are glued: for it `least_cover` is the distance to the form, all of it carved away.

    `hole_below` fits the dowel, `hole_above` is looser; `dowel` is its length, shorter than both depths together. The
    points of the bits, the longer of them of `bit` kind, go deeper than the walls by up to `point`. `by_hand`: the
    maker chose its place.
    """

    interface: int  # number of the lower layer
    centre: tuple[float, float]
    diameter: float
    depth_down: float
    depth_up: float
    least_cover: float
    waste: bool = False
    hole_below: float = 0.0  # 0: as wide as the dowel, both
    hole_above: float = 0.0
    dowel: float = 0.0
    bit: str = ""
    point: float = 0.0
    by_hand: bool = False
    underside: str = ""  # how the hole in the upper layer is found

    @property
    def radius_below(self) -> float:
        """Of the hole in the lower layer, mm."""
        return (self.hole_below or self.diameter) / 2

    @property
    def radius_above(self) -> float:
        """Of the hole in the upper layer, mm."""
        return (self.hole_above or self.diameter) / 2


@dataclass(frozen=True)
class PinPattern:
    """Places that one jig drills at several glue lines, `interfaces` by the numbers of their lower layers."""

    interfaces: tuple[int, ...]
    centres: tuple[tuple[float, float], ...]


def pin_patterns(pins: Sequence[PinPlan]) -> tuple[PinPattern, ...]:
    """The patterns of all pins that stay in the piece, by their first glue line."""
    lines: dict[int, list[tuple[float, float]]] = {}
    for pin in pins:
        if not pin.waste:
            lines.setdefault(pin.interface, []).append(pin.centre)
    alike: dict[tuple[tuple[float, float], ...], list[int]] = {}
    for line, centres in sorted(lines.items()):
        alike.setdefault(tuple(sorted(centres)), []).append(line)
    return tuple(PinPattern(tuple(found), centres) for centres, found in alike.items())


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
class WayIn:
    """How the blade gets into one void of a layer: by a "kerf" along the grain from the blank's edge (`start`) to the
    void (`end`), or through a "bored hole" of `bit` mm about `start`, in the wood that falls out. `around` is the
    length of the void's line."""

    layer: int
    kind: str
    start: tuple[float, float]
    end: tuple[float, float]
    bit: float
    around: float

    @property
    def length(self) -> float:
        """Of the kerf, mm."""
        return hypot(self.end[0] - self.start[0], self.end[1] - self.start[1])


@dataclass(frozen=True)
class HollowPlan:
    """What the voids of a stack save and leave. `least_wall` is a lower bound, in space, of the wood around any of
    them. `worth` is what each sawn void should save."""

    wall: float
    caps: int
    volume: float
    least_wall: float
    voids: tuple[VoidPlan, ...]
    glue_lines: tuple[GlueLine, ...]
    ways_in: tuple[WayIn, ...] = ()
    worth: float = 0.0
