# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is sanded and finished, with how much of what, and what the piece costs. Areas mm², volumes litres, hours, the
maker's own money."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Surface:
    """The carved surface of one stack, of all its copies: its area, the part of it that drinks as end grain, and its
    area by the angle between the surface's square and the grain, in nine bands of 10° from 0° (pure end grain)."""

    stack: str
    area: float
    end: float
    bands: tuple[float, ...]

    @property
    def share(self) -> float:
        """End grain over all."""
        return self.end / self.area if self.area > 0 else 0.0


@dataclass(frozen=True)
class FinishFindings:
    """`litres` of a finish for all `coats`, between `least` and `most`; `sheets` of abrasive by grit.

    How they come about: a litre has a `coverage` in m² of side grain in one coat (0: not told); end grain, within
    `end_within` degrees, drinks `end_grain` times as much; each later coat takes `later` of the first, and `lost` of
    it stays in rag, brush and can. A sheet of abrasive lasts `sheet_lasts` m².
    """

    finish: str
    surfaces: tuple[Surface, ...]
    coats: int
    litres: float
    least: float
    most: float
    sheets: tuple[tuple[int, int], ...]
    cautions: tuple[str, ...] = ()
    coverage: float = 0.0
    end_grain: float = 1.0
    end_within: float = 0.0
    later: float = 1.0
    lost: float = 0.0
    sheet_lasts: float = 0.0

    @property
    def area(self) -> float:
        """Of all surfaces."""
        return sum(s.area for s in self.surfaces)

    @property
    def end(self) -> float:
        """Of what drinks as end grain."""
        return sum(s.end for s in self.surfaces)


@dataclass(frozen=True)
class WorkHours:
    """Hours of one kind of work at the maker's own rate; `how` they come about."""

    what: str
    hours: float
    how: str


@dataclass(frozen=True)
class QuoteLine:
    """One sum of the quote; `cost` None: no price is known."""

    what: str
    cost: float | None
    how: str


@dataclass(frozen=True)
class Quote:
    """What the job costs: its `lines`, `markup` on them, and the `total`. `missing`: what has no price, in sentences;
    the total is short of it."""

    lines: tuple[QuoteLine, ...]
    hours: tuple[WorkHours, ...]
    markup: float
    total: float
    missing: tuple[str, ...] = ()

    @property
    def complete(self) -> bool:
        """Whether nothing lacks its price."""
        return not self.missing
