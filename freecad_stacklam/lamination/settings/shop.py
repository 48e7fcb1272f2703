# SPDX-License-Identifier: LGPL-2.1-or-later

"""The shop: how boards are sawn and staves are made, its band saw, its bits."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import radians, tan
from typing import ClassVar

from freecad_stacklam.lamination.lengths import size
from freecad_stacklam.lamination.options.kinds import SIZE, VOLUME, angle, length, number, one_of
from freecad_stacklam.lamination.options.rows import NEEDED, Record, option, rows_of, table, tables
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import say

#: Kinds of bit, and how far their points lead where they are not measured, mm: the longer of what is usual (common
#: practice, no source). A twist bit's follows from its angle.
LEADS = {"rim": 4.0, "brad point": 4.0, "twist": 0.0, "spade": 12.0}
#: Kinds that makers know by another word than the settings file's.
SHOWN_KINDS = {"rim": "forstner"}
#: How boards are divided first.
FIRST_CUTS = ("crosscut", "rip", "better")
_GLUE, _CLAMP = (
    "it belongs to [glue] now: write it there.",
    "a shop has clamps of several kinds: write [[clamp]] for each.",
)
_JSON = "kept as JSON"
#: Who asks for one of these wants staves, also without a rack.
_OF_STAVES = ("max_stave", "min_stave", "stave_trim", "stagger", "seam_worth", "spare_staves")


@dataclass(frozen=True)
class BandSaw(Record):
    """The band saw; mm. radius: the least that the blade turns in at this saw, where the maker knows it. height: the
    most wood that passes under its guides. throat: from the blade to the column."""

    blade: float | None = option(
        None, SIZE, "Blade", "Width of the blade; left out, nothing is said about inner curves", by_hand=_JSON
    )
    radius: float | None = option(
        None, SIZE, "Turns in", "Radius that this blade turns in; left out: as blade charts say", by_hand=_JSON
    )
    smallest_part: float = option(
        100.0, SIZE, "Smallest part", "A part whose longest side is shorter is small at the band saw", by_hand=_JSON
    )
    height: float | None = option(
        None, SIZE, "Height", "Thickest wood under its guides; left out, nothing is said about it", by_hand=_JSON
    )
    throat: float | None = option(
        None, SIZE, "Throat", "From the blade to the column; left out, nothing is said about it", by_hand=_JSON
    )

    def who(self) -> str:
        """See Record."""
        return "the band saw"

    def check(self) -> None:
        """See Record."""
        if self.radius is not None and self.blade is None:
            raise Refusal(say("The radius that a blade turns in says nothing without the blade: give its width too."))


@dataclass(frozen=True)
class Bit(Record):
    """A bit that the shop owns; mm. Its point leads its full width by `lead`, so a hole is deeper than its walls."""

    NOUN: ClassVar[str] = "bit"
    UNREAD: ClassVar[Mapping[str, str]] = {"name": "StackLam knows a bit by its diameter: leave this out."}
    diameter: float = option(NEEDED, SIZE, "Diameter", "Diameter of the bit", by_hand=_JSON)
    kind: str = option("rim", one_of(*LEADS), "Kind", "What kind of point the bit has", by_hand=_JSON)
    angle: float = option(
        118.0, angle(30.0, 180.0), "Angle of its point", "Of a twist bit: usually 118° or 135°", by_hand=_JSON
    )
    point: float | None = option(
        None, length(0.0, 100.0), "Length of its point", "From its full width to the tip, as measured; left out: a "
        "twist bit's by its angle, else what is usual", by_hand=_JSON,
    )  # fmt: skip
    length: float | None = option(
        None, SIZE, "Reach", "How deep it bores; left out, nothing is said about it", by_hand=_JSON
    )

    @property
    def lead(self) -> float:
        """How far its tip leads its full width, mm: as measured; a twist bit's (D / 2) / tan(angle / 2); else LEADS."""
        if self.point is not None:
            return self.point
        if self.kind == "twist":
            return self.diameter / 2 / tan(radians(self.angle) / 2)
        return LEADS[self.kind]

    def who(self) -> str:
        """See Record."""
        return "a bit"


@dataclass(frozen=True)
class ShopSettings(Record):
    """How boards are sawn and staves are made; lengths mm. First values are common shop practice, no published source.

    kerf: of the saw. end_trim: lost at each end of a board; end_trim_air: of one that was dried in the air.
    shortest_to_machine: least length of what is jointed, planed or ripped at machines. jointing: added in width for
    every edge that is glued. stave_trim: added at each end of a stave. stagger:
    least distance of a seam from one in the layer below. seam_worth: mm³ that one more seam must save.
    first_cut: "crosscut", "rip", or "better" for the cheaper of the two. planing, least_planing: thickness that may,
    and of a rough board must be planed away.
    spare_staves: how many of the largest staves of each stock are cut once more. glue_spread: g/m² on one face.
    bits: what mortises may be bored with (none: the sizes that shops keep).

    given: names of the options that were asked for; one that is not at its first value always is. Who asks for a
    stave's option wants staves, also without a rack.
    """

    UNREAD: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("open_time", "assembly_time", "close_time"), _GLUE),
        **dict.fromkeys(("clamps", "clamp_opening", "clamp_throat"), _CLAMP),
    }
    kerf: float = option(3.0, length(0.0, 20.0), "Kerf", "Wood that the saw turns into dust at every cut", group="Saw")
    end_trim: float = option(
        25.0, length(0.0, 1000.0), "End trim", "Lost at each end of a board to checks and grit", group="Saw"
    )
    end_trim_air: float = option(
        50.0, length(0.0, 1000.0), "End trim, air-dried", "The same for boards that were dried in the air", group="Saw"
    )
    shortest_to_machine: float = option(
        300.0, length(0.0, 2000.0), "Shortest to machine",
        "Nothing shorter goes over the jointer, through the planer or along the fence: as their manuals ask",
        group="Saw",
    )  # fmt: skip
    jointer_width: float | None = option(
        None, SIZE, "Jointer takes", "Widest face over the jointer's knives; left out, no part is judged too wide",
        group="Saw", nothing="not judged",
    )  # fmt: skip
    planer_width: float | None = option(
        None, SIZE, "Planer takes", "Widest board through the planer; left out, no part is judged too wide",
        group="Saw", nothing="not judged",
    )  # fmt: skip
    jointing: float = option(
        1.5,
        length(0.0, 20.0),
        "Jointing per edge",
        "Added to the width of a stave for every edge that is glued",
        group="Staves",
    )
    stave_trim: float = option(
        5.0, length(0.0, 200.0), "Trim at each end", "Added at each end of a stave", group="Staves"
    )
    stagger: float = option(
        25.0, length(0.0, 500.0), "Stagger", "Least distance of a seam from one in the layer below", group="Staves"
    )
    max_stave: float = option(
        150.0, SIZE, "Widest stave",
        "A stave is at most this wide; a wider board is ripped, unless it takes a blank whole", group="Staves",
    )  # fmt: skip
    min_stave: float = option(40.0, SIZE, "Narrowest stave", "A stave is at least this wide", group="Staves")
    seam_worth: float = option(
        3e5, VOLUME, "A seam saves", "Wood that one more seam must save, else there are fewer, wider staves",
        group="Staves",
    )  # fmt: skip
    seam_margin: float = option(
        8.0, length(0.0, 200.0), "Seams clear by",
        "Least distance of a seam from joints and from the outline's extremes",
        group="Staves",
    )  # fmt: skip
    least_planing: float = option(
        3.0, length(0.0, 100.0), "Planing, at least", "How much thicker than its layer a rough board is", group="Saw"
    )
    planing: float = option(
        8.0, length(0.0, 100.0), "Planing, at most", "How much thicker than its layer a board may be", group="Saw"
    )
    first_cut: str = option(
        "crosscut", one_of(*FIRST_CUTS), "First cut", "How boards are divided first, or whichever costs less (better)",
        group="Saw",
    )  # fmt: skip
    spare_staves: int = option(
        0, number(0, 99, whole=True), "Spare staves", "How many of the largest staves of each stock are cut once more",
        group="Staves",
    )  # fmt: skip
    glue_spread: float = option(180.0, number(0), "Glue", "Glue on one face, g/m²", group="Glue")
    drill_stroke: float | None = option(
        None, SIZE, "Drill stroke", "How far the drill press feeds without moving its table; left out, nothing is said "
        "about it", group="Drill press",
    )  # fmt: skip
    band_saw: BandSaw | None = table(BandSaw, "Band saw", "The band saw that blanks are cut on")
    bits: tuple[Bit, ...] = tables(Bit, "Bits", "Bits for mortises; none: the sizes that shops keep")
    given: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        super().__post_init__()
        named = tuple(
            row.name for row in rows_of(ShopSettings) if row.name in self.given or getattr(self, row.name) != row.first
        )
        object.__setattr__(self, "given", named)

    def who(self) -> str:
        """See Record."""
        return "the shop"

    def check(self) -> None:
        """See Record."""
        if self.least_planing > self.planing:
            raise Refusal(
                say(
                    "Planing cannot take at least {least_planing} and at most {planing}: give a least planing up to "
                    "the most.",
                    least_planing=size(self.least_planing),
                    planing=size(self.planing),
                )
            )
        if self.min_stave > self.max_stave:
            raise Refusal(
                say(
                    "Staves cannot be at least {min_stave} and at most {max_stave} wide: give a least width above 0 "
                    "and below the greatest.",
                    min_stave=size(self.min_stave),
                    max_stave=size(self.max_stave),
                )
            )

    @property
    def wants_staves(self) -> bool:
        """Whether a stave's option was asked for."""
        return any(name in self.given for name in _OF_STAVES)
