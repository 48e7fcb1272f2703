# SPDX-License-Identifier: LGPL-2.1-or-later

"""How a piece is used, and the loads that come of it.

The loads of a kind are a start that the maker changes. They follow the published tests only in kind: what is found with
them is an estimate, never a compliance test.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

from freecad_stacklam.lamination.findings.loads import PLACES, LoadCase
from freecad_stacklam.lamination.options.kinds import ANGLE, BOOLEAN, POINT, TEXT, length, number, one_of
from freecad_stacklam.lamination.options.quantities import force
from freecad_stacklam.lamination.options.rows import NEEDED, Record, option, tables
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import mark, say

KINDS = ("stool", "seat", "table", "stand")
#: How far the deep check goes: not at all, a scan of all loads, or the worst of them again on finer cells.
DEPTHS = ("none", "scan", "fine")
#: Of what other programs are asked, where they are installed.
OPINIONS = ("none", "worst")

PRACTICE = mark("common practice, no source")
_SEAT_STATIC = mark("as the static seat load of EN 12520 and EN 1728, from memory")
_BACK = mark("as the static back load of EN 12520 and EN 1728, from memory")
_EDGE = mark("as the forces and the place of EN 1022:2018, from a secondary guide")

#: The loads that a kind of piece is first checked with.
LOADS: dict[str, tuple[LoadCase, ...]] = {
    "stool": (
        LoadCase(mark("sitting down hard"), 1300.0, 0.0, "anywhere", _SEAT_STATIC, inset=100.0, tips=False),
        LoadCase(mark("sitting on the edge"), 600.0, 20.0, "edge", _EDGE, inset=60.0),
        LoadCase(mark("all weight on the edge"), 1300.0, 0.0, "edge", PRACTICE, inset=60.0, tips=False),
        LoadCase(mark("leaning and rocking"), 0.0, 300.0, "edge", PRACTICE, tips=False),
    ),
    "seat": (
        LoadCase(mark("sitting down hard"), 1300.0, 0.0, "anywhere", _SEAT_STATIC, inset=100.0, tips=False),
        LoadCase(mark("sitting on the edge"), 600.0, 20.0, "edge", _EDGE, inset=60.0),
        LoadCase(mark("all weight on the edge"), 1300.0, 0.0, "edge", PRACTICE, inset=60.0, tips=False),
        LoadCase(mark("leaning and rocking"), 0.0, 300.0, "edge", PRACTICE, tips=False),
        LoadCase(mark("leaning hard against the back"), 0.0, 450.0, "back", _BACK, tips=False),
    ),
    "table": (
        LoadCase(mark("leaning on the edge"), 400.0, 20.0, "edge", PRACTICE, inset=50.0),
        LoadCase(mark("sitting on the edge"), 1000.0, 0.0, "edge", PRACTICE, inset=50.0, tips=False),
        LoadCase(mark("pushing it along"), 0.0, 300.0, "edge", PRACTICE, tips=False),
    ),
    "stand": (
        LoadCase(mark("the heaviest pot, off the middle"), 250.0, 0.0, "edge", PRACTICE, inset=50.0, lasting=True),
        LoadCase(mark("a knock at the top"), 0.0, 50.0, "edge", PRACTICE),
        LoadCase(mark("leaning on it"), 300.0, 100.0, "edge", PRACTICE, inset=50.0, tips=False),
    ),
}


@dataclass(frozen=True)
class LoadSettings(Record):
    """A load of the maker's own. Forces N, lengths mm, direction degrees."""

    NOUN: ClassVar[str] = "load"

    name: str = option(NEEDED, TEXT, "Name", "What the load is")
    down: float = option(0.0, force(0.0, 1e5), "Down", "Force straight down")
    push: float = option(0.0, force(0.0, 1e5), "Push", "Level force at the same place, outward")
    place: str = option(
        "edge",
        one_of(*PLACES),
        "Place",
        "Where on top it stands, where no point is given; back: near the top of a back rest, pushing backward",
    )
    inset: float = option(0.0, length(0.0), "Inside the edge", "How far inside the edge of the top it stands")
    at: tuple[float, float, float] | None = option(
        None, POINT, "At", "The one point it stands at, in the model; left out: by its place"
    )
    direction: float | None = option(
        None, ANGLE, "Direction", "Of the push, degrees round from RIGHT; left out: the worst"
    )
    tips: bool = option(True, BOOLEAN, "May tip", "Whether the piece must stand against it")
    bends: bool = option(True, BOOLEAN, "May break", "Whether the piece must hold it")
    lasting: bool = option(False, BOOLEAN, "Stays", "It stays for years: wood holds less for long than for minutes")
    source: str = option("the maker's own", TEXT, "Source", "Where the figure comes from")

    def who(self) -> str:
        """See Record."""
        return say("the load “{name}”", name=self.name)

    def check(self) -> None:
        """See Record."""
        if not self.name.strip():
            raise Refusal(say("A load has no name: give it one, such as two children on the rim."))
        if self.down == 0 and self.push == 0:
            raise Refusal(say("The load “{name}” presses nowhere: give it a force down, or a push.", name=self.name))


@dataclass(frozen=True)
class UseSettings(Record):
    """How the piece is used. Forces N, lengths mm."""

    kind: str = option(
        "stool", one_of(*KINDS), "Kind of piece", "Chooses the loads that it is checked with", group="Use"
    )
    own_loads: bool = option(
        False,
        BOOLEAN,
        "Only my own loads",
        "Leave out the loads of the kind; check with those listed alone",
        group="Use",
    )
    tenon: str = option(
        "glued", one_of("glued", "dry"), "Tenon", "Whether the tenon is glued all round in its mortises, or stands dry",
        group="Use",
    )  # fmt: skip
    deep: str = option(
        "scan", one_of(*DEPTHS), "Deep check",
        "none: sections only; scan: every place and direction of the loads; fine: the worst again on finer cells",
        group="Use",
    )  # fmt: skip
    second_opinion: str = option(
        "none", one_of(*OPINIONS), "Second opinion",
        "worst: the worst load of the deep check again by two other programs, gmsh and ccx, if they are installed",
        group="Use",
    )  # fmt: skip
    short_foot: float = option(
        1.0, length(0.0, 50.0), "Short foot", "By how much one foot may be short, or the floor hollow", group="Floor"
    )
    soft_floor: float = option(
        0.0, length(0.0, 100.0), "Floor gives", "How deep an edge sinks into carpet or lawn; 0: a hard floor",
        group="Floor",
    )  # fmt: skip
    least_ratio: float = option(
        1.3, number(1.0, 10.0), "Least against tipping",
        "What holds it down over what tips it, below which it is a caution (common practice, no source)", group="Floor",
    )  # fmt: skip
    loads: tuple[LoadSettings, ...] = tables(LoadSettings, "Loads", "Loads of the maker's own", key="load")

    def who(self) -> str:
        """See Record."""
        return "the use"

    def check(self) -> None:
        """See Record."""
        if self.own_loads and not self.loads:
            raise Refusal(
                say("Only your own loads are to be checked, and there are none: add one, or let the kind's stay.")
            )


def load_cases(use: UseSettings) -> tuple[LoadCase, ...]:
    """The loads that a piece is checked with: those of its kind, then the maker's own."""
    own = tuple(
        LoadCase(
            one.name, one.down, one.push, "point" if one.at is not None else one.place, one.source, one.inset, one.at,
            one.direction, one.tips, one.bends, one.lasting,
        )
        for one in use.loads
    )  # fmt: skip
    usual = (replace(one, name=say(one.name), source=say(one.source)) for one in LOADS[use.kind])
    return own if use.own_loads else (*usual, *own)
