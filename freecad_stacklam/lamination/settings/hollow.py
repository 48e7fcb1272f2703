# SPDX-License-Identifier: LGPL-2.1-or-later

"""How a stack is hollowed."""

from __future__ import annotations

from dataclasses import dataclass

from freecad_stacklam.lamination.settings.kinds import AREA, ROOM, SIZE, number
from freecad_stacklam.lamination.settings.rows import Record, option


@dataclass(frozen=True)
class HollowSettings(Record):
    """How a stack is hollowed; mm and mm². All first values are common practice without a source.

    wall: least wood around a void. caps: solid layers at both ends. vent: diameter of a hole from the underside into
    each void, 0 for none. margin: least wood to a joint. web: width of a bar left standing across the grain, 0 for
    none. turn: radius that the saw needs to turn. least: a void smaller than this in plan is not worth sawing.
    """

    wall: float = option(50.0, SIZE, "Wall", "Least wood around a void, in every direction", group="Hollow")
    caps: int = option(
        2, number(0, whole=True), "Solid layers at each end", "Layers that stay whole at each end of the stack",
        group="Hollow",
    )  # fmt: skip
    vent: float = option(
        0.0,
        ROOM,
        "Vent",
        "Diameter of a hole from the underside into each void, for its air; 0 for none",
        group="Hollow",
    )
    margin: float = option(10.0, ROOM, "Wood to joints", "Least wood between a void and a joint", group="Hollow")
    web: float = option(
        0.0, ROOM, "Web across the grain", "Width of a bar left standing across the grain; 0 for none", group="Hollow"
    )
    turn: float = option(
        16.0, ROOM, "Saw turns in a radius of", "Radius of the tightest curve that the saw cuts inside a void",
        group="Hollow", property="SawTurn",
    )  # fmt: skip
    least: float = option(
        2500.0, AREA, "Leave voids below", "A void smaller than this in plan is left solid, mm²",
        group="Hollow", property="LeastVoid",
    )  # fmt: skip

    def who(self) -> str:
        """See Record."""
        return "the hollow"
