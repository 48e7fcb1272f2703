# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the guide sees of a document: plain facts, so that its steps can be judged without FreeCAD. Lengths mm."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

#: Kinds of solids of the host that the guide knows.
CONE, CYLINDER, FILLET = "Part::Cone", "Part::Cylinder", "Part::Fillet"


@dataclass(frozen=True)
class Solid:
    """A solid, or what changes one. sizes: its lengths and angles by the host's names; base: what it was made of."""

    name: str
    label: str
    kind: str
    sizes: Mapping[str, float] = field(default_factory=dict)
    base: str = ""
    broken: bool = False


@dataclass(frozen=True)
class Pile:
    """A stack. form: the name of its form, "" where that is gone."""

    name: str
    label: str
    form: str
    stock: float
    verdict: str = "ok"


@dataclass(frozen=True)
class Seen:
    """A document as it is now. title: its label, "" where none is open; strange: how many other objects it holds;
    joints, pins: the names of the stacks of each, and its verdict; table: whether the checks are "open", "closed" after
    they were open, or "" never were; drawings: "", "old" (from before the document) or "there"; followed: whether the
    guide was at work in it before."""

    title: str = ""
    units: str = "mm"
    workbench: str = ""
    panel: bool = False
    selected: tuple[str, ...] = ()
    solids: tuple[Solid, ...] = ()
    piles: tuple[Pile, ...] = ()
    joints: tuple[tuple[tuple[str, ...], str], ...] = ()
    pins: tuple[tuple[str, str], ...] = ()
    strange: int = 0
    saved: bool = False
    table: str = ""
    drawings: str = ""
    pdf: str = ""
    followed: bool = False

    @property
    def foot(self) -> Solid | None:
        """The cone."""
        return next((s for s in self.solids if s.kind == CONE), None)

    @property
    def disc(self) -> Solid | None:
        """The cylinder that the top is made of: one that is rounded comes first."""
        bases = {s.base for s in self.solids if s.kind == FILLET}
        discs = [s for s in self.solids if s.kind == CYLINDER]
        return next((s for s in discs if s.name in bases), discs[0] if discs else None)

    @property
    def rim(self) -> Solid | None:
        """The rounded cylinder."""
        disc = self.disc
        return next((s for s in self.solids if s.kind == FILLET and disc is not None and s.base == disc.name), None)

    def pile_of(self, solid: Solid | None) -> Pile | None:
        """The stack that was made of a solid."""
        return next((p for p in self.piles if solid is not None and p.form == solid.name), None)

    @property
    def orphan(self) -> Pile | None:
        """A stack whose form is gone."""
        return next((p for p in self.piles if not p.form), None)

    @property
    def ours(self) -> bool:
        """Whether the guide can go on in it: it is empty, or holds a piece of it."""
        return (not self.strange and not self.solids) or bool(self.foot or self.disc or self.piles)
