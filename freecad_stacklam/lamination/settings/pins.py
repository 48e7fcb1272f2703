# SPDX-License-Identifier: LGPL-2.1-or-later

"""How the layers of a stack are pinned."""

from __future__ import annotations

from dataclasses import dataclass

from freecad_stacklam.lamination.lengths import size
from freecad_stacklam.lamination.options.kinds import (
    BOOLEAN,
    COUNT,
    PIN_PLACE,
    ROOM,
    length,
    number,
    one_of,
    several,
)
from freecad_stacklam.lamination.options.rows import Record, option
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.shop import LEADS
from freecad_stacklam.lamination.words import say

#: How the holes in a layer's underside are found.
UNDERSIDES = ("dowel centres", "template")
#: What dowels are bored with, the usual first.
_BITS = ("brad point", *(kind for kind in LEADS if kind != "brad point"))


@dataclass(frozen=True)
class PinSettings(Record):
    """How layers are pinned; mm. All first values are common practice without a source.

    depth: of the hole in each of the two layers. margin: least wood to the surface, to joints and to voids. count: pins
    for each piece at each glue line; one more where so many cannot tell a wrong way from the right one. waste: two more
    in waste wood outside the form. skip: numbers of the layers whose upper glue line gets none. share: outlines that
    differ from themselves by less than this part of their area, laid a wrong way, do not show it. ratio: least misfit
    in diameters. loose: how much wider the hole above is than the dowel, which the hole below fits. dowel_room: a dowel
    is so much shorter than its two holes are deep. bit: its kind, where the shop names none of that diameter.
    underside: how the holes in a layer's lower face are found. at: pins set by hand, (glue line, x, y) each, the glue
    line by the number of the layer below it; a glue line that has any gets these and no others.
    """

    diameter: float = option(
        10.0, length(0.0, 100.0, above=True), "Diameter", "Diameter of the dowels you have", group="Pins"
    )
    depth: float = option(
        12.0,
        length(0.0, 500.0, above=True),
        "Depth in each layer",
        "Depth of the hole in each of the two layers",
        group="Pins",
    )
    margin: float = option(
        8.0, ROOM, "Wood around them", "Least wood from a pin to the finished surface, to joints and to voids",
        group="Pins",
    )  # fmt: skip
    loose: float = option(
        0.4, length(0.0, 2.0), "Hole above looser by",
        "The hole in the lower layer fits the dowel; the one in the upper layer is wider by this", group="Fit",
    )  # fmt: skip
    dowel_room: float = option(
        3.0, length(0.0, 50.0), "Dowels shorter by",
        "How much shorter a dowel is than its two holes together: room for glue and for what the layers shrink",
        group="Fit",
    )  # fmt: skip
    bit: str = option(
        "brad point", one_of(*_BITS), "Bored with", "What point the bit has, where the shop's list has none of that "
        "size: it goes deeper than the hole's wall", group="Fit",
    )  # fmt: skip
    underside: str = option(
        "dowel centres", one_of(*UNDERSIDES), "Undersides by", "How holes in undersides are found: dowel centres in "
        "the layer below, or a mirrored full-size template", group="Fit",
    )  # fmt: skip
    count: int = option(2, COUNT, "For each piece", "Pins for each piece at each glue line", group="Pins")
    waste: bool = option(
        False, BOOLEAN, "Two more in the waste wood", "Two more pins in waste wood outside the form, to hold layers in "
        "clamps; they are carved away", group="Pins",
    )  # fmt: skip
    skip: tuple[int, ...] = option(
        (), several(COUNT, property="IntegerList"), "Layers without, on top", "Numbers of the layers that get no pins "
        "on their upper side", group="Pins",
    )  # fmt: skip
    at: tuple[tuple[float, float, float], ...] = option(
        (), several(PIN_PLACE), "Set by hand", "Pins set by hand: glue line (the number of the layer below it), x and "
        "y from the axis; a glue line with any gets no others", by_hand="a list of texts with their units",
    )  # fmt: skip
    share: float = option(
        0.1, number(0), "Outlines differ by", "An outline that differs by less than this part of its area when laid "
        "wrongly does not show it", group="Wrong ways", key="outline_differs", was="share",
    )  # fmt: skip
    ratio: float = option(
        1.5, number(0, above=True, unit="diameters"), "Misfit of at least",
        "By how many diameters the pins should miss their holes when "
        "a layer is laid turned or turned over", group="Wrong ways", key="least_miss", was="ratio",
    )  # fmt: skip

    def who(self) -> str:
        """See Record."""
        return "the pins"

    def check(self) -> None:
        """See Record."""
        if not 2 <= self.count <= 6:
            raise Refusal(
                say(
                    "{count} pins for each piece do not hold it: give 2 to 6, for one lets a layer turn.",
                    count=self.count,
                )
            )
        if self.dowel_room >= self.depth:
            raise Refusal(
                say(
                    "Dowels {dowel_room} shorter than their holes leave nothing that holds in holes {depth} deep: "
                    "give less, as in {size}.",
                    dowel_room=size(self.dowel_room),
                    depth=size(self.depth),
                    size=size(3.0),
                )
            )
        both = sorted({int(line) for line, _, _ in self.at} & set(self.skip))
        if both:
            raise Refusal(
                say(
                    "Glue line {both} is to have no pins, and pins are set there by hand: leave out one of the two.",
                    both=both[0],
                )
            )
        if self.share >= 1:
            raise Refusal(
                say(
                    "The share by which outlines may differ cannot be {share:g}: give 0 to 1, as in 0.1.",
                    share=self.share,
                )
            )

    @property
    def misfit(self) -> float:
        """Least distance, mm, by which the worst pin must miss in a wrong way."""
        return self.ratio * self.diameter
