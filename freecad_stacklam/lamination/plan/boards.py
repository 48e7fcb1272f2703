# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the wood plan is made of: staves, the pieces of every board, the work on it, and what is left or short.

A stave's region lies in its stack's frame. On a board x runs along the length from the left end and y across it from
the lower edge. Lengths mm, angles degrees, costs in the maker's own money.
"""

from __future__ import annotations

from dataclasses import dataclass

from freecad_stacklam.lamination.words import say

Rectangle = tuple[float, float, float, float]  # x, y, length along x, width along y


@dataclass(frozen=True)
class Stave:
    """One strip of a blank. `region` are the corners of the strip as glued, trim included; `length` runs along the
    grain. `glued_edges` (0 to 2) get a jointing allowance when the strip is ripped. `copies`: of the whole stack. A
    spare stave belongs to no stack ("")."""

    id: str  # "Pedestal 4 b"
    stack: str
    layer: int
    region: tuple[tuple[float, float], ...]
    width: float
    length: float
    thickness: float
    grain: float
    species: str
    glued_edges: int = 0
    copies: int = 1


@dataclass(frozen=True)
class SeamConflict:
    """A seam that could not be kept off something. `across` is its place across the grain in the stack's frame."""

    stack: str
    layer: int
    across: float
    says: str


@dataclass(frozen=True)
class BoardPiece:
    """One stave on a board, as it is cut: lower left corner, length along the board, width across it. It may be wider
    than its stave, where it is ripped together with others."""

    stave: str
    copy: int  # from 1
    x: float
    y: float
    length: float
    width: float


#: What a piece of wood is worked on. A part too short for a machine is worked by hand, or at the band saw.
CROSSCUT_SAW, TABLE_SAW, BAND_SAW = "crosscut saw", "table saw", "band saw"
JOINTER, PLANER, HAND_PLANE = "jointer", "planer", "hand plane"
#: Machines that take no part shorter than `shortest_to_machine`.
LONG_WORK = (TABLE_SAW, JOINTER, PLANER)

#: What is done.
CROSSCUT, RIP = "crosscut", "rip"
FLATTEN, STRAIGHTEN = "flatten a face, joint an edge", "joint an edge"
PLANE, JOINT = "plane to thickness", "joint the glued edges"


@dataclass(frozen=True)
class Operation:
    """One step of the work on a board, numbered in its order, on a `part` of the board as it is then.

    A saw cut runs straight through its part: `at` is the lower side of the kerf, along x for a crosscut and along y for
    a rip. `at` is None where nothing is parted. `staves` are those that lie in the part.
    """

    number: int
    machine: str
    what: str
    part: Rectangle
    at: float | None = None
    staves: tuple[str, ...] = ()

    @property
    def across(self) -> bool:
        """Whether it is a crosscut."""
        return self.what == CROSSCUT

    @property
    def start(self) -> float:
        """Where a cut begins: along y for a crosscut, along x for a rip."""
        return self.part[1] if self.across else self.part[0]

    @property
    def end(self) -> float:
        """Where a cut ends."""
        return self.start + (self.part[3] if self.across else self.part[2])


@dataclass(frozen=True)
class BoardCut:
    """One board and what is cut from it."""

    board: str  # "Oak 3", or "Oak 3 #2" where there are several alike
    width: float
    length: float
    thickness: float
    species: str
    cost: float | None
    on_hand: bool
    pieces: tuple[BoardPiece, ...]
    knots: tuple[Rectangle, ...] = ()
    operations: tuple[Operation, ...] = ()
    offcuts: tuple[Rectangle, ...] = ()
    priced: str = ""  # how its cost was found
    grade: str = ""
    end_trim: float = 0.0  # lost at each end, mm
    flat: bool = False  # it comes surfaced and needs no flattening
    cut: str = ""  # how it was sawn from the log: flat, rift, quarter; "": not known
    planed: float = 0.0  # to what it is planed, mm; no planing where it is that already
    moisture: float | None = None  # as measured, %; None: not known

    @property
    def cuts(self) -> tuple[Operation, ...]:
        """The saw cuts among the operations, in their order."""
        return tuple(o for o in self.operations if o.at is not None)


@dataclass(frozen=True)
class BoardsPlan:
    """The staves of all stacks and how they are cut from boards.

    `yield_` is the area of the pieces over the area of the boards used. `cost` is what the boards used cost, None where
    a price is missing. `bound_area` and `bound_lp` are lower bounds on `objective`, which is in `objective_unit`.
    `shortest_to_machine`: least length of what goes over a jointer, through a planer or along a fence, mm.
    `least_boards`: fewest whole boards by the better bound, where all boards cost the same. `short` says in plain words
    what must be bought besides; those boards are in `plan`, with on_hand False.
    """

    staves: tuple[Stave, ...]
    plan: tuple[BoardCut, ...] = ()
    kerf: float = 0.0
    jointing: float = 0.0
    shortest_to_machine: float = 0.0
    first_cut: str = "crosscut"
    yield_: float | None = None
    cost: float | None = None
    objective: float = 0.0
    objective_unit: str = "m3"
    bound_area: float | None = None
    bound_lp: float | None = None
    least_boards: int | None = None
    seam_conflicts: tuple[SeamConflict, ...] = ()
    short: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    method: str = ""
    glue_spread: float = 180.0  # g/m² on one face
    jointer_width: float | None = None  # of its knives, mm; None: not known, so nothing was judged too wide
    planer_width: float | None = None
    max_stave: float | None = None  # widest stave of a blank with seams, mm; wider boards are ripped

    @property
    def bounded(self) -> str:
        """Of which plans the bounds speak, as words to add: staves bound into gangs are not laid one by one."""
        return say(" with these gangs") if self.shortest_to_machine > 0 else ""

    @property
    def gap(self) -> float | None:
        """How far the plan may be above the best of those that the bounds speak of, as a part of it (0.02: 2 %)."""
        if self.least_boards:
            return len(self.plan) / self.least_boards - 1.0
        bound = self.bound_lp if self.bound_lp is not None else self.bound_area
        return None if not bound else max(0.0, self.objective / bound - 1.0)
