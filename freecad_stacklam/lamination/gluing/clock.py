# SPDX-License-Identifier: LGPL-2.1-or-later

"""The clock of a set-up: how long glue waits, and how long each move takes.

The clock runs from the first glue on a face. A line is begun, spread, pinned and its layer laid, then the next; when
all lie, the upper caul is laid (the lower one lies there before) and the clamps are set. *Open time* binds each line by
itself, from its spread to its contact; *assembly time* from the first glue to the last clamp.

Helpers: spreading is shared evenly, pins, cauls and clamps are shared by whole pieces; to begin a line and to lay a
layer takes as long with helpers as without (common practice, no source). Times s, areas mm², temperatures °C.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, floor

from freecad_stacklam.lamination.gluing.pile import PileLine
from freecad_stacklam.lamination.lengths import SQUARE_METRE
from freecad_stacklam.lamination.plan.gluing import Clock, Move
from freecad_stacklam.lamination.settings.glue import Glue
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.tolerances import WHOLE

#: °C at which a glue's times are told, and how much warmer it must be for them to halve (common practice, no source).
TOLD_AT, HALVES = 20.0, 10.0


def at_temperature(seconds: float, temperature: float) -> float:
    """A glue's time at a temperature: T · 2^((20 − θ) / 10)."""
    return float(seconds * 2 ** ((TOLD_AT - temperature) / HALVES))


def times_of(glue: Glue, temperature: float) -> tuple[float, float]:
    """Open and assembly time at a temperature."""
    return at_temperature(glue.open_time, temperature), at_temperature(glue.assembly_time, temperature)


def spread_seconds(room: GluingRoom, area: float, faces: int) -> float:
    """To spread a line on one face or both, helpers sharing it."""
    return room.spread * area / SQUARE_METRE * faces / (1 + room.helpers)


def pin_seconds(room: GluingRoom, pins: int) -> float:
    """To set the dowels of a line."""
    return room.pin * ceil(pins / (1 + room.helpers))


def contact_seconds(room: GluingRoom, line: PileLine, faces: int) -> float:
    """From the first glue on a line's face to its contact."""
    return spread_seconds(room, line.area, faces) + pin_seconds(room, line.pins) + room.place


def line_seconds(room: GluingRoom, line: PileLine, faces: int) -> float:
    """A whole line, from beginning it."""
    return room.start + contact_seconds(room, line, faces)


def cauls_laid(room: GluingRoom) -> int:
    """Cauls that are laid while the clock runs: the upper one, or none where none are used."""
    return 1 if room.caul_thickness > 0.0 else 0


def closing_seconds(room: GluingRoom, clamps: int, cauls: int) -> float:
    """Cauls and clamps, helpers sharing them by whole pieces."""
    hands = 1 + room.helpers
    return room.caul * ceil(cauls / hands) + room.clamp * ceil(clamps / hands)


def set_up_seconds(lines: Sequence[float], closing: float, start: float) -> float:
    """From the first glue to the last clamp: all lines with their beginnings, but the first's, which is before the
    clock. `lines` as line_seconds."""
    return sum(lines) - start + closing if lines else closing


def lines_that_fit(assembly: float, line: float, closing: float, start: float) -> int:
    """How many lines that take `line` s each can be closed within the assembly time:
    ⌊(assembly − closing + start) / line⌋."""
    return max(0, floor((assembly - closing + start) / line + WHOLE))


def clock_of(glue: Glue, room: GluingRoom, lines: Sequence[PileLine], clamps: int, cauls: int | None = None) -> Clock:
    """The timeline of a set-up that spreads `lines` in their order. cauls: laid while the clock runs (None: as the room
    has them)."""
    moves: list[Move] = []
    now = longest = 0.0

    def move(what: str, takes: float, line: int | None = None) -> None:
        nonlocal now
        if takes > 0.0:
            moves.append(Move(now, takes, what, line))
            now += takes

    for number, line in enumerate(lines):
        now += room.start if number else 0.0
        spread_at = now
        move("spread", spread_seconds(room, line.area, glue.faces), line.lower)
        move("pins", pin_seconds(room, line.pins), line.lower)
        move("lay", room.place, line.lower)
        longest = max(longest, now - spread_at)
    move("cauls", closing_seconds(room, 0, cauls_laid(room) if cauls is None else cauls))
    move("clamps", closing_seconds(room, clamps, 0))
    return Clock(*times_of(glue, room.temperature), longest, now, tuple(moves))
