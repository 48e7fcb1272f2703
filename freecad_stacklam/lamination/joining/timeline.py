# SPDX-License-Identifier: LGPL-2.1-or-later

"""The timeline of a set-up, whatever it glues: how long each move takes, from the first glue to the last clamp.

A line, a seam or a joint is begun, spread, pinned and what lies on it laid, then the next; when all lie, the cauls are
laid and the clamps set. The clock runs from the first glue, so the first beginning is before it.

Helpers: spreading is shared evenly, pins, cauls and clamps are shared by whole pieces; to begin and to lay takes as
long with helpers as without, and one drives the wedges (common practice, no source). Times s, areas mm².
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from freecad_stacklam.lamination.lengths import SQUARE_METRE
from freecad_stacklam.lamination.plan.gluing import BrokenLimit, Clock, Move
from freecad_stacklam.lamination.quantities import format_time
from freecad_stacklam.lamination.settings.glue import Glue, times_of
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.words import mark, say


@dataclass(frozen=True)
class Spread:
    """What is spread and closed in one go: glue line `line` with an area, the dowels set in it, and how many pieces are
    laid on it."""

    line: int
    area: float
    pins: int = 0
    laid: int = 1


def spread_seconds(room: GluingRoom, area: float, faces: int) -> float:
    """To spread a line on one face or both, helpers sharing it."""
    return room.spread * area / SQUARE_METRE * faces / (1 + room.helpers)


def pin_seconds(room: GluingRoom, pins: int) -> float:
    """To set the dowels of a line."""
    return room.pin * ceil(pins / (1 + room.helpers))


def closing_seconds(room: GluingRoom, clamps: int, cauls: int) -> float:
    """Cauls and clamps, helpers sharing them by whole pieces."""
    hands = 1 + room.helpers
    return room.caul * ceil(cauls / hands) + room.clamp * ceil(clamps / hands)


def timeline(
    glue: Glue, room: GluingRoom, spreads: Sequence[Spread], cauls: int, clamps: int, wedges: int = 0
) -> Clock:
    """The clock of a set-up that spreads these in their order; cauls: laid while it runs; wedges: driven one by one,
    each in the time of a clamp. Moves that take no time are left out."""
    moves: list[Move] = []
    now = longest = 0.0

    def move(what: str, takes: float, line: int | None = None) -> None:
        nonlocal now
        if takes > 0.0:
            moves.append(Move(now, takes, what, line))
            now += takes

    for number, spread in enumerate(spreads):
        now += room.start if number else 0.0
        spread_at = now
        move("spread", spread_seconds(room, spread.area, glue.faces), spread.line)
        move("pins", pin_seconds(room, spread.pins), spread.line)
        move("lay", room.place * spread.laid, spread.line)
        longest = max(longest, now - spread_at)
    move("cauls", closing_seconds(room, 0, cauls))
    move("clamps", closing_seconds(room, clamps, 0) + room.clamp * wedges)
    return Clock(*times_of(glue, room.temperature), longest, now, tuple(moves))


#: What waits for its contact too long, and what is set last.
_WAITS = {
    "The longest seam": mark(
        "The longest seam takes {time} from glue to contact and the glue stays open {limit}: {remedy}."
    ),
    "It": mark("It takes {time} from glue to contact and the glue stays open {limit}: {remedy}."),
}
_WHOLE = {
    "clamp": mark("It takes {time} from the first glue to the last clamp and the glue allows {limit}: {remedy}."),
    "clamp or wedge": mark(
        "It takes {time} from the first glue to the last clamp or wedge and the glue allows {limit}: {remedy}."
    ),
}


def late(clock: Clock, what: str, last: str, sooner: str, shorter: str) -> list[BrokenLimit]:
    """The limits of a clock that are broken: the longest that spread glue waits, and the whole. what: that takes so
    long to its contact ("The longest seam" or "It"); last: the last thing set ("clamp" or "clamp or wedge"); sooner,
    shorter: what mends the one and the other."""
    found = []
    if clock.to_contact > clock.open_limit:
        found.append(
            BrokenLimit(
                "open time",
                clock.to_contact,
                clock.open_limit,
                "s",
                say(
                    _WAITS[what],
                    time=format_time(clock.to_contact),
                    limit=format_time(clock.open_limit),
                    remedy=sooner,
                ),
            )
        )
    if clock.to_pressure > clock.assembly_limit:
        found.append(
            BrokenLimit(
                "clock",
                clock.to_pressure,
                clock.assembly_limit,
                "s",
                say(
                    _WHOLE[last],
                    time=format_time(clock.to_pressure),
                    limit=format_time(clock.assembly_limit),
                    remedy=shorter,
                ),
            )
        )
    return found
