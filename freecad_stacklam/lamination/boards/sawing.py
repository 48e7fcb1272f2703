# SPDX-License-Identifier: LGPL-2.1-or-later

"""From gangs on a board to the work on it in its order, and the offcuts that remain.

The rough board is divided into parts that the machines take; each is flattened, planed and jointed whole; then it is
ripped; and the last crosscuts part the staves of every gang. Every saw cut runs straight through the part it divides.
A cut that would only free waste round blanks of one piece is left to the band saw, which saws their outline anyway.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from freecad_stacklam.lamination.boards.gangs import Gang
from freecad_stacklam.lamination.plan.boards import (
    BAND_SAW,
    CROSSCUT,
    CROSSCUT_SAW,
    FLATTEN,
    HAND_PLANE,
    JOINT,
    JOINTER,
    PLANE,
    PLANER,
    RIP,
    STRAIGHTEN,
    TABLE_SAW,
    Operation,
    Rectangle,
)
from freecad_stacklam.lamination.tolerances import ROUNDING

#: An offcut worth keeping is at least this long and wide, mm.
OFFCUT_LENGTH = 150.0
OFFCUT_WIDTH = 40.0
#: Waste up to this at the end of a stave is glued with it and sawn off with the outline, mm.
LEFT_ON = 20.0

Box = tuple[float, float, float, float]  # x0, y0, x1, y1
#: A gang and its box on the board.
Laid = tuple[Gang, Box]
#: Cuts one way through a part, by the near side of their kerf, and the parts between them with their gangs.
Division = tuple[list[float], list[tuple[Box, list[Laid]]]]


class Unsawable(ValueError):
    """Gangs that no straight cuts from edge to edge can part."""


@dataclass(frozen=True)
class RoughBoard:
    """A board and how it is worked: its sizes, whether crosscuts come before rips, the kerf, the least length that the
    machines take, whether it comes flat, whether it is as thick as wanted, and how wide a face jointer and planer take
    (None: not known, so nothing is too wide). mm."""

    length: float
    width: float
    kerf: float
    across_first: bool
    shortest: float = 0.0
    flat: bool = False
    thick: bool = False
    jointer: float | None = None
    planer: float | None = None

    def too_wide(self, width: float) -> bool:
        """Whether a face of this width finds no room on the knives that it needs."""
        wide = [knives for knives, idle in ((self.jointer, self.flat), (self.planer, self.thick)) if not idle]
        return any(knives is not None and width > knives + ROUNDING for knives in wide)


def work(
    board: RoughBoard, gangs: Sequence[tuple[Gang, float, float]]
) -> tuple[tuple[Operation, ...], tuple[Rectangle, ...]]:
    """The operations on one board, numbered in order, and its offcuts worth keeping.

    gangs: each with its lower left corner, mm. Raises Unsawable when no straight cuts from edge to edge part them.
    """
    course = _Course(board)
    course.divide(
        (0.0, 0.0, board.length, board.width), [(g, (x, y, x + g.length, y + g.width)) for g, x, y in gangs],
        board.across_first, planed=False,
    )  # fmt: skip
    return course.operations(), tuple(course.offcuts)


@dataclass
class _Course:
    """The work on one board as it is found, by the phase of the day that it belongs to."""

    board: RoughBoard
    rough: list[Operation] = field(default_factory=list)
    flatten: list[Operation] = field(default_factory=list)
    plane: list[Operation] = field(default_factory=list)
    true: list[Operation] = field(default_factory=list)
    joint: list[Operation] = field(default_factory=list)
    last: list[Operation] = field(default_factory=list)
    offcuts: list[Rectangle] = field(default_factory=list)

    def operations(self) -> tuple[Operation, ...]:
        """All of it, numbered."""
        every = [*self.rough, *self.flatten, *self.plane, *self.true, *self.joint, *self.last]
        return tuple(Operation(i + 1, o.machine, o.what, o.part, o.at, o.staves) for i, o in enumerate(every))

    def divide(self, part: Box, laid: list[Laid], across: bool, *, planed: bool) -> None:
        """Divide a part until each of its parts is one gang, and work it on the way."""
        if not laid:
            self._keep(part)
            return
        way, found = across, _division(part, laid, self.board, across)
        if found is None:
            way, found = not across, _division(part, laid, self.board, not across)
        if found is None:
            if len(laid) > 1:
                raise Unsawable
            self._finish(part, laid[0], planed)
            return
        whole = part[2] - part[0] >= self.board.length - ROUNDING and part[3] - part[1] >= self.board.width - ROUNDING
        # A rough board has no edge for a fence: ripped first, it is ripped at the band saw.
        rough_rip = not way and whole and not self.board.across_first
        # Too wide for the knives: ripped at the band saw first, its parts may find room on them.
        rough_rip = rough_rip or (not way and self.board.too_wide(part[3] - part[1]))
        if not way and not planed and not rough_rip:
            self._flatten(part, laid, ripped=True)
            planed = True
        self._cut(part, laid, way, found, planed)
        for box, mine in found[1]:
            self.divide(box, mine, not way, planed=planed)

    def _cut(self, part: Box, laid: list[Laid], across: bool, found: Division, planed: bool) -> None:
        """The cuts of a division, one after the other, each through what the last one left."""
        rest = part
        i = 0 if across else 1
        for at in found[0]:
            if across:
                machine = CROSSCUT_SAW
            elif planed and self._long_enough(rest):
                machine = TABLE_SAW
            else:
                machine = BAND_SAW
            inside = [one for one in laid if one[1][i + 2] > rest[i]]
            step = _step(machine, CROSSCUT if across else RIP, rest, inside, at)
            (self.true if planed else self.rough).append(step)
            low = min(at + self.board.kerf, rest[i + 2])
            rest = (low, *rest[1:]) if across else (rest[0], low, *rest[2:])

    def _long_enough(self, part: Box) -> bool:
        return part[2] - part[0] >= self.board.shortest - ROUNDING

    def _flatten(self, part: Box, laid: list[Laid], *, ripped: bool) -> None:
        """Make a part flat and as thick as wanted. ripped: whether rips follow, which need a straight edge."""
        if not self.board.flat:
            self.flatten.append(_step(self._by(JOINTER, part, self.board.jointer), FLATTEN, part, laid))
        elif ripped:
            self.flatten.append(_step(self._by(JOINTER, part, None), STRAIGHTEN, part, laid))
        if not self.board.thick:
            self.plane.append(_step(self._by(PLANER, part, self.board.planer), PLANE, part, laid))

    def _by(self, machine: str, part: Box, knives: float | None) -> str:
        """The machine for a part; the hand plane where it is too short for it, or wider than its knives."""
        wide = knives is not None and part[3] - part[1] > knives + ROUNDING
        return machine if self._long_enough(part) and not wide else HAND_PLANE

    def _finish(self, part: Box, laid: Laid, planed: bool) -> None:
        """A part with one gang: flat if it is not yet, its glued edges jointed, then its staves parted."""
        gang, box = laid
        if not planed:
            self._flatten(part, [laid], ripped=False)
        if gang.glued:
            self.joint.append(_step(JOINTER if self._long_enough(part) else HAND_PLANE, JOINT, part, [laid]))
        rest, pieces = part, gang.pieces(box[0], box[1])
        for at in _last_cuts(part, gang, box, self.board.kerf):
            inside = tuple(p.stave for p in pieces if p.x + p.length > rest[0])
            self.last.append(Operation(0, CROSSCUT_SAW, CROSSCUT, _rectangle(rest), at, inside))
            rest = (min(at + self.board.kerf, rest[2]), *rest[1:])

    def _keep(self, part: Box) -> None:
        if _worth_keeping(part[2] - part[0], part[3] - part[1]):
            self.offcuts.append(_rectangle(part))


def _worth_keeping(length: float, width: float) -> bool:
    return length >= OFFCUT_LENGTH - ROUNDING and width >= OFFCUT_WIDTH - ROUNDING


def _rectangle(box: Box) -> Rectangle:
    return box[0], box[1], box[2] - box[0], box[3] - box[1]


def _step(machine: str, what: str, part: Box, laid: Sequence[Laid], at: float | None = None) -> Operation:
    staves = tuple(s.id for gang, _ in laid for s, _ in gang.staves)
    return Operation(0, machine, what, _rectangle(part), at, staves)


def _last_cuts(part: Box, gang: Gang, box: Box, kerf: float) -> Iterator[float]:
    """Where the staves of a gang are parted, and long waste at their ends is cut off those that are glued."""
    if gang.glued and box[0] - part[0] > LEFT_ON:
        yield box[0] - kerf
    pieces = gang.pieces(box[0], box[1])
    for piece in pieces[:-1]:
        yield piece.x + piece.length
    end = pieces[-1].x + pieces[-1].length
    if gang.glued and part[2] - end > LEFT_ON:
        yield end


def _division(part: Box, laid: list[Laid], board: RoughBoard, across: bool) -> Division | None:
    """All cuts one way through a part, and the parts between them; None where there is none to make."""
    i, kerf = (0 if across else 1), board.kerf
    first, last = part[i], part[i + 2]
    groups: list[tuple[float, float, list[Laid]]] = []
    for gang, box in sorted(laid, key=lambda one: (one[1][i], one[1][i + 2])):
        if groups and box[i] < groups[-1][1] + kerf - ROUNDING:
            low, high, mine = groups[-1]
            groups[-1] = (low, max(high, box[i + 2]), [*mine, (gang, box)])
        else:
            groups.append((box[i], box[i + 2], [(gang, box)]))
    cuts: list[float] = []
    parts: list[tuple[Box, list[Laid]]] = []

    def between(low: float, high: float) -> Box:
        return (low, part[1], high, part[3]) if across else (part[0], low, part[2], high)

    def is_cut_off(low: float, high: float, beside: list[Laid]) -> bool:
        """Whether the waste from low to high is: at the board's ends, where it is worth keeping, beside glued edges."""
        if high - low <= ROUNDING:
            return False
        if across and (low <= ROUNDING or high >= board.length - ROUNDING):
            return True
        x0, y0, x1, y1 = between(low, high - kerf)
        glued = any(
            gang.glued and low - ROUNDING <= box[3] and box[1] <= high + ROUNDING for gang, box in beside
        )  # one that ends there; the others are ripped to their width later
        return _worth_keeping(x1 - x0, y1 - y0) or (not across and glued)

    at = first
    for k, (low, high, mine) in enumerate(groups):
        start = at
        if is_cut_off(at, low, mine):
            cuts.append(low - kerf)
            if low - kerf > at + ROUNDING:
                parts.append((between(at, low - kerf), []))
            start = low
        at = min(last, high + kerf)
        if k + 1 < len(groups) or is_cut_off(high, last, mine):
            cuts.append(high)
            parts.append((between(start, high), mine))
            if k + 1 == len(groups) and last - at > ROUNDING:
                parts.append((between(at, last), []))
        else:
            parts.append((between(start, last), mine))
    return (cuts, parts) if cuts else None
