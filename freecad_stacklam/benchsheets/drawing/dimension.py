# SPDX-License-Identifier: LGPL-2.1-or-later

"""Dimension lines as ISO 129 draws them: narrow lines, filled heads, the figure above the line or beside it."""

from __future__ import annotations

from collections.abc import Sequence

from freecad_stacklam.benchsheets.drawing.lettering import Units, number, text_width
from freecad_stacklam.benchsheets.drawing.sheet import NOTE, PLAIN, FilledRegion, Mark, Point, Polyline, Text

#: Length and half width of a head; how far extension lines run past the dimension line; gap at the object, mm.
HEAD, WING, PAST, GAP = 2.5, 0.45, 1.2, 1.0
#: From one dimension line to the next, mm.
STEP = 6.5


def _turned(points: Sequence[Point], upright: bool) -> tuple[Point, ...]:
    """Along and across as page x and y."""
    return tuple((b, a) for a, b in points) if upright else tuple(points)


def _head(tip: float, level: float, pointing: float, upright: bool) -> FilledRegion:
    back = tip - pointing * HEAD
    return FilledRegion((_turned(((tip, level), (back, level + WING), (back, level - WING)), upright),))


def _span(
    start: float, end: float, level: float, words: str, upright: bool, after: bool, level_words: bool
) -> list[Mark]:
    """One dimension between two places; when the figure has no room between them it stands after or before them, or
    level beside an upright line."""
    height = PLAIN
    width = text_width(words, height)
    inside = end - start >= width + 1.0
    if not inside and end - start >= text_width(words, NOTE) + 1.0:
        height, inside = NOTE, True
        width = text_width(words, height)
    heads_inside = end - start >= 2 * HEAD + 1.0
    reach = 0.0 if heads_inside else HEAD + 1.5
    low, high = start - reach, end + reach
    if inside:
        at, align = (start + end) / 2, "centre"
    elif after:
        high = max(high, end) + 1.0 + width
        at, align = high - width, "left"
    else:
        low = min(low, start) - 1.0 - width
        at, align = low, "left"
    if upright and level_words and not inside:
        low, high = start - reach, end + reach
    marks: list[Mark] = [Polyline(_turned(((low, level), (high, level)), upright), "fine")]
    side = 1.0 if heads_inside else -1.0
    marks += [_head(start, level, -side, upright), _head(end, level, side, upright)]
    if upright and level_words and not inside:
        marks.append(Text((level - 1.6, (start + end) / 2 - PLAIN / 2), words, PLAIN, "right"))
    elif upright:  # read from the right: the figure stands to the left of its line
        marks.append(Text((level - 0.8, at), words, height, align, turn=90.0))
    else:
        marks.append(Text((at, level + 0.8), words, height, align))
    return marks


def _fits(length: float, words: str) -> bool:
    return length >= text_width(words, NOTE) + 1.0


def stepped(
    stops: Sequence[tuple[float, float]], level: float, upright: bool, scale: float, units: Units
) -> tuple[list[Mark], float]:
    """A chain in which every dimension too short for its figure stands on a line of its own, further out.

    The marks, and the level of the outermost line.
    """
    marks: list[Mark] = []
    outer = level
    for (a, edge_a), (b, edge_b) in zip(stops, stops[1:]):
        at = level
        if not _fits(b - a, number((b - a) / scale, units)):
            outer -= STEP
            at = outer
        marks += chain([(a, edge_a), (b, edge_b)], at, upright, scale, units)
    return marks, outer


def chain(
    stops: Sequence[tuple[float, float]],
    level: float,
    upright: bool,
    scale: float,
    units: Units,
    level_words: bool = False,
) -> list[Mark]:
    """Dimensions between neighbouring stops, all on the line at `level` (page mm; below or to the left of the object).

    stops: (place along the line, edge of the object there from which the extension line comes), in rising order.
    scale: page mm per mm of the object. upright: the line runs up the page. level_words: a figure too long for an
    upright line stands level beside it.
    """
    marks: list[Mark] = []
    for at, edge in stops:
        marks.append(Polyline(_turned(((at, edge - GAP), (at, level - PAST)), upright), "fine"))
    for i, ((a, _), (b, _)) in enumerate(zip(stops, stops[1:])):
        marks += _span(
            a,
            b,
            level,
            number((b - a) / scale, units),
            upright,
            after=i > 0 or len(stops) == 2,
            level_words=level_words,
        )
    return marks
