# SPDX-License-Identifier: LGPL-2.1-or-later

"""The maker's own rates. None is guessed: work without a rate of the maker's own is not put into hours.

Carving has its rate with the carving guide.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, ClassVar

from freecad_stacklam.lamination.options.kinds import number
from freecad_stacklam.lamination.options.rows import Record, option

_HOURS = number(0.0, 10_000.0, unit="h")
#: Slower than this no work is done in an hour, m or m²: a slip of the pen, that would make a quote of any length.
_SLOWEST = 0.01
#: Most that anything costs, in any money.
_MOST_MONEY = 1e8


def _rate(kind: Any, caption: str, tip: str, group: str = "Hours") -> Any:
    return option(None, kind, caption, f"{tip}; left out: not counted", group=group)


@dataclass(frozen=True)
class RateSettings(Record):
    """What the maker's work takes and costs, as measured by himself."""

    NOUN: ClassVar[str] = "set of rates"

    hour_price: float | None = option(
        None,
        number(0.0, _MOST_MONEY),
        "An hour costs",
        "In your own money; left out: hours have no price",
        group="Quote",
    )
    markup: float = option(
        0.0, number(0.0, 500.0, unit="%"), "On top of all", "Added to the sum for waste, risk and profit, %",
        group="Quote",
    )  # fmt: skip
    layer_hours: float | None = _rate(_HOURS, "Hours a layer", "To lay out one layer, and to plane and drill it")
    sawing_rate: float | None = _rate(
        number(_SLOWEST, 1000.0, unit="m/h"),
        "Sawn in an hour",
        "Metres of blank outline that you saw in an hour",
    )
    set_up_hours: float | None = _rate(_HOURS, "Hours a glue-up", "At the bench, for one set-up of the glue-up")
    joint_hours: float | None = _rate(_HOURS, "Hours a joint", "To make the tenon, and to cut and fit its mortises")
    sanding_rate: float | None = _rate(
        number(_SLOWEST, 1000.0, unit="m²/h"), "Sanded in an hour", "m² that you sand in an hour with one grit"
    )
    coating_rate: float | None = _rate(
        number(_SLOWEST, 1000.0, unit="m²/h"), "Finished in an hour", "m² that you give one coat in an hour"
    )
    other_hours: float | None = _rate(_HOURS, "Other hours", "Once for the whole job: talks, drawings, delivery")

    def who(self) -> str:
        """See Record."""
        return "your rates"
