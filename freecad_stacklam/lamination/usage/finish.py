# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the finished piece is sanded and finished with.

Every first value is common practice without a source, and the can's own sheet wins.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from freecad_stacklam.lamination.options.kinds import BOOLEAN, TEXT, angle, number, several
from freecad_stacklam.lamination.options.rows import Record, option
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import say

#: Most that anything costs, in any money.
_MOST_MONEY = 1e8
_MONEY = "in your own money; left out: not known"


@dataclass(frozen=True)
class FinishSettings(Record):
    """Finish and abrasives. coverage: m² that a litre covers once, on side grain. Shares are of one."""

    NOUN: ClassVar[str] = "finish"

    finish: str = option("oil", TEXT, "Finish", "What it is finished with", group="Finish")
    coats: int = option(3, number(1, 20, whole=True), "Coats", "How many coats", group="Finish")
    coverage: float = option(
        12.0,
        number(0.5, 100.0, unit="m²/l"),
        "A litre covers",
        "m² of side grain in one coat, by the can",
        group="Finish",
    )
    later_coats: float = option(
        0.6, number(0.05, 1.0), "Later coats take", "What each coat after the first takes, as a share of the first",
        group="Finish",
    )  # fmt: skip
    end_grain: float = option(
        2.0, number(1.0, 10.0), "End grain drinks", "How many times as much as side grain", group="Finish"
    )
    end_within: float = option(
        30.0, angle(1.0, 89.0), "End grain within",
        "A face whose square stands within this angle of the grain drinks as end grain", group="Finish",
    )  # fmt: skip
    finish_lost: float = option(
        0.15, number(0.0, 2.0), "Lost", "Share that stays in rag, brush and can", group="Finish"
    )
    give_or_take: float = option(
        0.25, number(0.0, 0.9), "Give or take", "How far wood and hand may be off these figures, as a share",
        group="Finish",
    )  # fmt: skip
    heats_itself: bool = option(
        True, BOOLEAN, "Rags heat themselves", "It cures by taking up oxygen, as oils do: damp rags may catch fire",
        group="Finish",
    )  # fmt: skip
    litre_price: float | None = option(
        None, number(0.0, _MOST_MONEY), "A litre costs", f"Of finish, {_MONEY}", group="Finish"
    )
    grits: tuple[int, ...] = option(
        (80, 120, 180, 240), several(number(12, 5000, whole=True), property="IntegerList"), "Grits",
        "The grits that all of it is sanded with, in turn", group="Sanding",
    )  # fmt: skip
    sheet_lasts: float = option(
        0.3, number(0.01, 20.0, unit="m²"), "A sheet lasts", "m² sanded with one sheet or disc of one grit",
        group="Sanding",
    )  # fmt: skip
    sheet_price: float | None = option(
        None, number(0.0, _MOST_MONEY), "A sheet costs", f"Of abrasive, {_MONEY}", group="Sanding"
    )

    def who(self) -> str:
        """See Record."""
        return "the finish"

    def check(self) -> None:
        """See Record."""
        if not self.finish.strip():
            raise Refusal(say("The finish has no name: give it one, such as oil."))
        if list(self.grits) != sorted(set(self.grits)):
            raise Refusal(say("The grits must grow finer from one to the next: give them as in [80, 120, 180]."))
