# SPDX-License-Identifier: LGPL-2.1-or-later

"""The glue-up: set-ups in their order, each one run of layers under one clock and one clamping; rounds, each one wait
for the glue, in which several set-ups may cure side by side.

Lengths mm, areas mm², heights and places in the stack's own frame, times s, forces N, pressures MPa, masses kg (glue
g).
Layers and glue lines go by the number of a layer: line k lies between layer k and layer k + 1.
"""

from __future__ import annotations

from dataclasses import dataclass

from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.plan.layers import LeftOut

#: What a set-up glues.
EDGES, LAYERS, JOINT = "edges", "layers", "joint"


@dataclass(frozen=True)
class Interface:
    """Where two layers of a stack meet: the wood of both at the height of line `lower`, less mortises, voids and pins.
    `middle` is that of its area."""

    lower: int
    height: float
    contact: MultiPolygon
    area: float
    middle: tuple[float, float]


@dataclass(frozen=True)
class ClampPlace:
    """A pad in plan: `press` names what presses, `at` is the pad's middle, the same above and below. The jaws sit at
    heights `foot` and `head`: the outer faces of the run, or of a step inside it."""

    press: str
    at: tuple[float, float]
    force: float
    pad: float
    foot: float
    head: float


@dataclass(frozen=True)
class LinePressure:
    """What reaches one glue line. `mean` is force over area; `least` the least and `fifth` the lowest twentieth of the
    pressure over the line (bell-shaped law; 0 where it gapes); `reached` the share of its area inside the 45° cones of
    the pads, `missed` the rest. `wanted` is the least and the most that the glue wants. `closes` is the gap, mm, that
    the mean pressure closes in the thinner of the two layers, in a hollow a hand wide (100 mm) across its grain, at
    most 1 mm; `crush` the share of the strength across the grain that the mean uses (None: not known)."""

    lower: int
    area: float
    mean: float
    least: float
    fifth: float
    reached: float
    missed: MultiPolygon
    wanted: tuple[float, float]
    closes: float | None = None
    crush: float | None = None


@dataclass(frozen=True)
class Caul:
    """A board between pads and wood, on the run's `side` ("top" or "bottom"). `bar`: a strip under a row of clamps,
    whose middle is higher by `crown`; else a board over the whole face."""

    side: str
    bar: bool
    outline: MultiPolygon
    length: float
    width: float
    thickness: float
    crown: float = 0.0


@dataclass(frozen=True)
class WasteTab:
    """Wood left on the blank of a `layer` for a pad, and taken off after the glue-up: its outline (less the blank),
    area, `share` of the blank's area, and the share of the line it is for that is `reached` with it and those before
    it. `option`: the tab as the stack's tabs in the settings file ask for it; one on several layers has one."""

    layer: int
    outline: MultiPolygon
    area: float
    share: float
    reached: float
    option: str = ""


@dataclass(frozen=True)
class Move:
    """One move on the timeline of a set-up: begins `start` s after the first glue is spread and takes `takes` s."""

    start: float
    takes: float
    what: str  # "spread", "pins", "lay", "cauls", "clamps"
    line: int | None = None  # the glue line it belongs to

    @property
    def end(self) -> float:
        """When it is done."""
        return self.start + self.takes


@dataclass(frozen=True)
class Clock:
    """The time of a set-up. `open_limit` and `assembly_limit` are the glue's at the room's temperature; `to_contact` is
    the longest that spread glue waits for its contact, `to_pressure` from the first glue to the last clamp."""

    open_limit: float
    assembly_limit: float
    to_contact: float
    to_pressure: float
    moves: tuple[Move, ...] = ()

    @property
    def held(self) -> bool:
        """Whether both limits hold."""
        return self.to_contact <= self.open_limit and self.to_pressure <= self.assembly_limit


@dataclass(frozen=True)
class BrokenLimit:
    """A limit that a set-up breaks: what is needed, what is there, and the smallest change that mends it."""

    name: str  # "clock", "open time", "clamps", "opening", "throat", "lift", "crushing", "pressure", "reach" (of the
    # pads), "chisel" (what it must reach), "order" (a tenon has no way in)
    needed: float
    there: float
    unit: str
    says: str


@dataclass(frozen=True)
class Burden:
    """What is moved: height, mass (None: the wood's weight is not known) and centre of mass."""

    height: float
    mass: float | None
    middle: tuple[float, float, float]


@dataclass(frozen=True)
class SetUp:
    """One run of layers under one clock and one clamping.

    `joins` are the parts laid together from the bottom, each (first, last) layer; `lines` the glue lines between them.
    An edge glue-up joins staves: its `layer` is both first and last. A joint's set-up names its `joint` and `stacks`.
    `why` says what makes it a set-up of its own; `before` what must be worked while it is still open; `helps` what
    would help the pressure that does not reach, best first."""

    number: int  # from 1, in the order of the work
    round: int  # from 1
    kind: str
    stack: str
    first: int
    last: int
    joins: tuple[tuple[int, int], ...]
    lines: tuple[int, ...]
    clock: Clock
    glue: float  # g, loss counted in
    area: float  # of all its lines
    places: tuple[ClampPlace, ...] = ()
    pressures: tuple[LinePressure, ...] = ()
    cauls: tuple[Caul, ...] = ()
    burden: Burden | None = None
    opening: float = 0.0  # between the jaws, cauls counted in
    limits: tuple[BrokenLimit, ...] = ()
    why: str = ""
    before: tuple[str, ...] = ()
    helps: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    tabs: tuple[WasteTab, ...] = ()  # those that `helps` speaks of; none is left on unless the maker asks for it
    joint: str = ""
    stacks: tuple[str, ...] = ()
    staves: tuple[str, ...] = ()

    @property
    def held(self) -> bool:
        """Whether no limit is broken."""
        return not self.limits


@dataclass(frozen=True)
class Condition:
    """One thing to see to before glue is opened: `verdict` "go", "wait" or "no"."""

    name: str
    verdict: str
    figure: float | None
    limit: float | None
    unit: str
    says: str


@dataclass(frozen=True)
class GlueUpPlan:
    """Every set-up of the job in its order. `rounds` are the least and the most waits for the glue that any order needs
    and this one takes; equal where it is proven least. `set_ups_proven`: no order needs fewer set-ups.
    `glue_name` names the glue, `times` are its open, assembly, clamp and cure times at the room's temperature."""

    glue_name: str
    times: tuple[float, float, float, float]
    temperature: float
    set_ups: tuple[SetUp, ...]
    rounds: tuple[int, int]
    set_ups_proven: bool
    conditions: tuple[Condition, ...] = ()
    faces: int = 1  # of a line that are spread
    spread: float | None = None  # g/m² on each of them
    water: tuple[tuple[str, int, float, float], ...] = ()  # stack, layer, points of moisture added, days to wait
    notes: tuple[str, ...] = ()
    left_out: tuple[LeftOut, ...] = ()  # stacks that could not be planned

    @property
    def glue(self) -> float:
        """All the glue, g."""
        return sum(s.glue for s in self.set_ups)
