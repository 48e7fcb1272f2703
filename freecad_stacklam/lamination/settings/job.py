# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the maker chooses for a whole job: the records that settings file, panels and document objects all fill.

Lengths mm, angles degrees. A record refuses impossible values when it is made, with a sentence that says what to do; it
is hashable, so that what was planned for it can be kept under it.
"""

from __future__ import annotations

from dataclasses import dataclass

from freecad_stacklam.lamination.options.kinds import DATE, TEXT, length, one_of
from freecad_stacklam.lamination.options.rows import Record, option, table, tables
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.board import Board
from freecad_stacklam.lamination.settings.carving import CarvingSettings
from freecad_stacklam.lamination.settings.glue import GlueSettings
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.presses import PressSettings
from freecad_stacklam.lamination.settings.shop import ShopSettings
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.usage.budget import BudgetSettings
from freecad_stacklam.lamination.usage.climate import ClimateSettings
from freecad_stacklam.lamination.usage.finish import FinishSettings
from freecad_stacklam.lamination.usage.rates import RateSettings
from freecad_stacklam.lamination.usage.use import UseSettings
from freecad_stacklam.lamination.wood.ownspecies import OwnSpecies
from freecad_stacklam.lamination.words import DECIMAL_SIGNS, say

UNITS = ("mm", "in")
#: The language of sheets and sentences; the first is that of FreeCAD's window, and English where there is none.
SHEET_LANGUAGES = ("as FreeCAD", *DECIMAL_SIGNS)


@dataclass(frozen=True)
class Settings(Record):
    """A whole job."""

    title: str = option("Stacked form", TEXT, "Title", "Title on the drawings and the bill", group="Job")
    units: str = option("mm", one_of(*UNITS), "Lengths in", "Units on the drawings and in the bill", group="Job")
    language: str = option(
        SHEET_LANGUAGES[0], one_of(*SHEET_LANGUAGES), "Language of the sheets",
        "Language of drawings, checks and bill; as FreeCAD: as its window speaks, and English without a window",
        group="Job",
    )  # fmt: skip
    paper: str = option("A4", TEXT, "Paper", "Paper of the drawings: A4, Letter, A3 …", group="Job")
    paper_full: str = option(
        "",
        TEXT,
        "Templates on",
        "Paper of full-size templates, such as roll 610mm; left out: the same",
        group="Job",
    )
    date: str = option("", DATE, "Date", "Date on the drawings, as you write it; left out: none", group="Job")
    author: str = option("", TEXT, "Drawn by", "Who made the drawings", group="Job")
    station_step: float = option(
        0.0, length(0.0, 500.0), "Offsets every",
        "Step between the offsets of a cut line on its layer sheet; 0: 20 mm, or 3/4 in where lengths are in inches",
        group="Job",
    )  # fmt: skip
    compass_within: float = option(
        1.0, length(0.0, 10.0), "Compass within",
        "How far outside the cut line at most 8 arcs may stand to be listed for a compass in place of offsets",
        group="Job",
    )  # fmt: skip
    stacks: tuple[StackSettings, ...] = tables(
        StackSettings, "Stacks", "How each form is stacked; none: every form becomes a stack", key="stack"
    )
    joints: tuple[JointSettings, ...] = tables(JointSettings, "Joints", "Floating tenons", key="joint")
    shop: ShopSettings = table(ShopSettings, "Shop", "How boards are sawn", first=ShopSettings())
    boards: tuple[Board, ...] = tables(Board, "Boards", "Boards on hand, and boards that can be bought", key="board")
    carving: CarvingSettings | None = table(CarvingSettings, "Carving", "The carving guide; left out: none")
    glue: GlueSettings | None = table(
        GlueSettings, "Glue", "The glue that the stack is glued with; left out: the usual"
    )
    room: GluingRoom | None = table(GluingRoom, "Room", "Where it is glued, and by whom; left out: as its first values")
    presses: tuple[PressSettings, ...] = tables(
        PressSettings, "Clamps", "What the shop presses with; none: the glue-up is not planned", key="clamp"
    )
    use: UseSettings | None = table(
        UseSettings, "Use", "How the finished piece is used; left out: it is not checked whether it holds and stands"
    )
    climate: ClimateSettings | None = table(
        ClimateSettings, "Climate", "A year in the room where it will stand; left out: it is not followed"
    )
    finish: FinishSettings | None = table(FinishSettings, "Finish", "Finish and sanding; left out: not in the bill")
    rates: RateSettings | None = table(RateSettings, "Rates", "The maker's own rates; left out: there is no quote")
    budget: BudgetSettings | None = table(
        BudgetSettings, "Budget", "What the steps of the work take of the allowance; left out: it is not added up"
    )

    species: tuple[OwnSpecies, ...] = tables(
        OwnSpecies, "Woods", "Woods of the maker's own, beside those of the bundled table", key="species"
    )

    def who(self) -> str:
        """See Record."""
        return "the job"

    def check(self) -> None:
        """See Record."""
        if not self.paper.strip():
            raise Refusal(say("The drawings have no paper: name one, such as A4 or Letter."))
