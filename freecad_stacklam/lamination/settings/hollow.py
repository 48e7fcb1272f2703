# SPDX-License-Identifier: LGPL-2.1-or-later

"""How a stack is hollowed."""

from __future__ import annotations

from dataclasses import dataclass

from freecad_stacklam.lamination.options.kinds import AREA, ROOM, SIZE, VOLUME, number, one_of
from freecad_stacklam.lamination.options.rows import Record, option
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import say


@dataclass(frozen=True)
class HollowSettings(Record):
    """How a stack is hollowed; mm and mm². All first values are common practice without a source.

    wall: least wood around a void. caps: solid layers at both ends. vent: diameter of a hole from the underside into
    each void, 0 for none. margin: least wood to a joint. web: width of a bar left standing across the grain, 0 for
    none. turn: radius that the saw needs to turn. least: a void smaller than this in plan is not worth sawing.
    way_in: how the blade gets into a void, by a "kerf" along the grain that is glued again or through a "bored hole" of
    way_in_bit in the waste. cut_worth: mm³ that every sawn void should save on average.
    """

    wall: float = option(50.0, SIZE, "Wall", "Least wood around a void, in every direction", group="Hollow")
    caps: int = option(
        2, number(0, whole=True), "Solid layers at each end", "Layers that stay whole at each end of the stack",
        group="Hollow", key="solid_ends", was="caps",
    )  # fmt: skip
    vent: float = option(
        0.0,
        ROOM,
        "Vent",
        "Diameter of a hole from the underside into each void, for its air; 0 for none",
        group="Hollow",
        nothing="none",
    )
    margin: float = option(10.0, ROOM, "Wood to joints", "Least wood between a void and a joint", group="Hollow")
    web: float = option(
        0.0, ROOM, "Web across the grain", "Width of a bar left standing across the grain; 0 for none", group="Hollow",
        nothing="none",
    )  # fmt: skip
    turn: float = option(
        16.0, ROOM, "Saw turns in a radius of", "Radius of the tightest curve that the saw cuts inside a void",
        group="Hollow", property="SawTurn", key="saw_radius", was="turn",
    )  # fmt: skip
    least: float = option(
        2500.0, AREA, "Leave voids below", "A void smaller than this in plan is left solid, mm²",
        group="Hollow", property="LeastVoid", key="least_void", was="least",
    )  # fmt: skip

    way_in: str = option(
        "kerf", one_of("kerf", "bored hole"), "Blade comes in by", "A kerf along the grain from the edge, glued again "
        "afterwards (band saw), or a hole bored in the waste (a blade that is threaded)", group="Hollow",
    )  # fmt: skip
    way_in_bit: float = option(
        12.0, SIZE, "Bit for the blade", "Diameter of the hole that the blade is threaded through", group="Hollow"
    )
    cut_worth: float = option(
        300_000.0, VOLUME, "A void must save", "Wood that each sawn void must save to be worth its cut", group="Hollow"
    )

    def check(self) -> None:
        """See Record."""
        if self.way_in == "bored hole" and self.turn > 0 and self.way_in_bit > 2 * self.turn:
            raise Refusal(
                say(
                    "The bit for the blade is wider than the narrowest void, twice the radius that the saw turns in: "
                    "give a thinner bit, or a wider radius."
                )
            )

    def who(self) -> str:
        """See Record."""
        return "the hollow"
