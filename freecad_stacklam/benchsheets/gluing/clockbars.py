# SPDX-License-Identifier: LGPL-2.1-or-later

"""A set-up's time as bars: what the glue gives, what is used, and every move from the first glue to the last clamp."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import shapely

from freecad_stacklam.benchsheets.drawing.lettering import text_width
from freecad_stacklam.benchsheets.drawing.lines import hatched
from freecad_stacklam.benchsheets.drawing.sheet import NOTE, FilledRegion, Mark, Polyline, Text
from freecad_stacklam.benchsheets.gluing.gluewords import MOVES, clock_text, line_name
from freecad_stacklam.benchsheets.gluing.picture import Box
from freecad_stacklam.benchsheets.pages.blocks import Block
from freecad_stacklam.lamination.plan.gluing import Move, SetUp
from freecad_stacklam.lamination.quantities import format_time
from freecad_stacklam.lamination.words import mark, say

#: Before the bars for their names, after them, height of a row and of a bar in it, mm of paper.
NAMES, AFTER, ROW, BAR = 27.0, 3.0, 4.4, 2.4
#: With more rows than this they stand closer, mm.
MANY, LEAST_ROW = 12, 2.8
#: Seconds from tick to tick: the first at which their figures have room.
STEPS = (15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 14400, 43200, 86400)
#: Moves that are made once for all lines and have a row of their own.
_ONCE = ("cauls", "clamps")
KEY = mark("Black: glue is spread. Box: pins. Hatched: laid on. Upright stroke: by then this line has to touch.")


def rows_of(set_up: SetUp) -> list[tuple[str, tuple[Move, ...]]]:
    """The rows of the picture: one for each glue line in the order of spreading, then cauls and clamps."""
    moves = set_up.clock.moves
    lines = dict.fromkeys(m.line for m in moves if m.line is not None and m.what not in _ONCE)
    rows = [(line_name(set_up, line), tuple(m for m in moves if m.line == line and m.what not in _ONCE))
            for line in lines]  # fmt: skip
    loose = [m for m in moves if m.line is None and m.what not in _ONCE]
    rows += [(say(MOVES[w]), tuple(m for m in loose if m.what == w)) for w in dict.fromkeys(m.what for m in loose)]
    for what in _ONCE:
        some = tuple(m for m in moves if m.what == what)
        rows += [(say(MOVES[what]), some)] if some else []
    return rows


def _pitch(rows: int) -> float:
    """From row to row: as usual, or closer where there are many, mm."""
    return ROW if rows <= MANY else LEAST_ROW


def bars_height(set_up: SetUp) -> float:
    """What the picture takes, mm."""
    rows = len(rows_of(set_up))
    return _pitch(rows) * (rows + 2) + 8.0


def _bar(x0: float, x1: float, y: float, high: float = BAR) -> tuple[tuple[float, float], ...]:
    return (x0, y), (x1, y), (x1, y + high), (x0, y + high)


def clock_bars(set_up: SetUp, box: Box) -> list[Mark]:
    """The bars, from the top of a box of the page downwards."""
    clock = set_up.clock
    last = max([clock.assembly_limit, clock.open_limit, clock.to_pressure, *(m.end for m in clock.moves)])
    if last <= 0.0:
        return []
    x0, x1 = box[0] + NAMES, box[2] - AFTER - text_width(say("over by {time}", time="59 min 59 s"), NOTE, True)
    rows = rows_of(set_up)
    pitch = _pitch(len(rows))

    def at(seconds: float) -> float:
        return x0 + (x1 - x0) * seconds / last

    marks: list[Mark] = []
    y = box[3] - pitch
    for name, limit, used in (
        (say("assembly time"), clock.assembly_limit, clock.to_pressure),
        (say("open time"), clock.open_limit, clock.to_contact),
    ):  # fmt: skip
        marks.append(Text((x0 - 1.5, y + 0.3), name, NOTE + 0.3, "right", bold=True))
        marks.append(Polyline(_bar(at(0.0), at(limit), y), "mortise", closed=True))
        marks.append(FilledRegion((_bar(at(0.0), at(used), y + 0.7, BAR - 1.4),)))
        if used > limit:
            words = say("over by {time}", time=format_time(used - limit))
            marks.append(Text((at(max(used, limit)) + 1.5, y + 0.3), words, NOTE, bold=True))
        y -= pitch
    for name, moves in rows:
        marks.append(Text((x0 - 1.5, y + 0.3), name, NOTE, "right", fit=NAMES - 2.0))
        marks += _row(moves, y, at, clock.open_limit, last)
        y -= pitch
    foot = y + pitch - 1.0
    head = box[3] - 2 * pitch - 0.6
    wide = text_width(clock_text(last), NOTE) + 1.5
    step = next((s for s in STEPS if (x1 - x0) * s / last >= wide), STEPS[-1])
    marks.append(Polyline(((x0, foot), (at(last), foot)), "thin"))
    for i in range(int(last / step) + 1):
        tick = at(i * step)
        marks.append(Polyline(((tick, foot), (tick, foot - 1.2)), "thin"))
        marks.append(Text((tick, foot - 1.8 - NOTE), clock_text(i * step), NOTE, "centre"))
    marks.append(Polyline(((at(clock.assembly_limit), foot), (at(clock.assembly_limit), head)), "hidden"))
    marks.append(Text((x0 - 6.0, foot - 1.8 - NOTE), say("min:s"), NOTE, "right"))
    return marks


def _row(
    moves: Sequence[Move], y: float, place: Callable[[float], float], open_limit: float, last: float
) -> list[Mark]:
    """The moves of one line, with the moment by which it has to touch."""
    marks: list[Mark] = []
    wet = [m for m in moves if m.what == "spread"]
    if wet and len(moves) > 1:
        middle = y + BAR / 2
        marks.append(Polyline(((place(wet[0].start), middle), (place(max(m.end for m in moves)), middle)), "fine"))
        due = wet[0].start + open_limit
        if due <= last:
            marks.append(Polyline(((place(due), y - 0.3), (place(due), y + BAR + 0.3)), "cut"))
    for move in moves:
        loop = _bar(place(move.start), place(move.end), y)
        if move.what in ("spread", "clamps") and place(move.end) - place(move.start) > 0.0:
            gap = 0.25 if move.what == "clamps" else 0.0
            marks.append(FilledRegion((_bar(place(move.start), place(move.end) - gap, y),)))
            continue
        if move.what == "lay":
            strokes = hatched(shapely.Polygon(loop), 0.9)
            marks += [Polyline(shapely.get_coordinates(part), "fine") for part in strokes.geoms]
        marks.append(Polyline(loop, "fine", closed=True))
    return marks


def clock_block(set_up: SetUp) -> Block:
    """The same as a table: when each line is spread, by when it lies, how long its glue waits."""
    rows = []
    for name, moves in rows_of(set_up):
        wet = [m for m in moves if m.what == "spread"]
        start, end = min(m.start for m in moves), max(m.end for m in moves)
        if wet:
            spread = say("{start} to {end}", start=clock_text(wet[0].start), end=clock_text(wet[-1].end))
            rows.append(
                (
                    name,
                    spread,
                    clock_text(end),
                    format_time(end - wet[0].start),
                    format_time(sum(m.takes for m in moves)),
                )
            )
        else:
            rows.append(
                (
                    name,
                    say("{start} to {end}", start=clock_text(start), end=clock_text(end)),
                    clock_text(end),
                    "",
                    format_time(end - start),
                )
            )
    return Block(
        say("On the clock, from the first glue, min:s"),
        (say("line or move"), say("spread, done"), say("ready at"), say("glue waits"), say("takes")),
        (36.0, 44.0, 28.0, 34.0, 34.0),
        (True, True, False, False, False),
        tuple(rows),
    )
