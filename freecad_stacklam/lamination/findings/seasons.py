# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a year in the room does to the finished piece. Moisture %, lengths mm, times days.

Twelve figures are those of the middle of each month, January first, in the year when the piece repeats itself
(settled), unless they say `first`: those of its first year, which begins with the month in which it was glued. Movement
counts from the moisture when glued; above 0 wood swells.
"""

from __future__ import annotations

from dataclasses import dataclass

from freecad_stacklam.lamination.words import mark

MONTHS = (
    mark("January"), mark("February"), mark("March"), mark("April"), mark("May"), mark("June"),
    mark("July"), mark("August"), mark("September"), mark("October"), mark("November"), mark("December"),
)  # fmt: skip
Year = tuple[float, ...]
#: Half of the last place in which moisture is told, points: months that differ by less read alike.
ALIKE = 0.05


def even(year: Year, within: float = ALIKE) -> bool:
    """Whether all months of a year are the same as far as they are told. within: of moisture points, else set it."""
    return max(year) - min(year) < within


@dataclass(frozen=True)
class ClimateMonth:
    """One month of the room: temperature °C, relative humidity %, and the moisture that wood comes to there."""

    name: str
    temperature: float
    humidity: float
    equilibrium: float


@dataclass(frozen=True)
class Lag:
    """By how much moisture follows the room later, days: `low` with diffusion faster by the band, `high` with it
    slower."""

    days: float
    low: float
    high: float


@dataclass(frozen=True)
class Following:
    """How a part of the piece follows the room: its mean and its core (the tenth of it that follows least); None for a
    lag where nothing moves."""

    mean: Year
    core: Year
    first: Year
    lag: Lag | None
    core_lag: Lag | None

    @property
    def swing(self) -> float:
        """Of the mean over the year, points."""
        return max(self.mean) - min(self.mean)

    @property
    def core_swing(self) -> float:
        """Of the core over the year, points."""
        return max(self.core) - min(self.core)


@dataclass(frozen=True)
class Movement:
    """A size that moves, mm: with the boards flat sawn and with them quarter sawn. `cut`: how they are sawn, where all
    say the same; "" where that is not known."""

    flat: Year
    quarter: Year
    cut: str = ""

    @property
    def told(self) -> tuple[Year, ...]:
        """The one that holds, or both."""
        return {"flat": (self.flat,), "quarter": (self.quarter,)}.get(self.cut, (self.flat, self.quarter))

    @property
    def worst(self) -> Year:
        """The one that goes farther over the year."""
        return max(self.told, key=lambda year: max(year) - min(year))

    @property
    def range(self) -> tuple[float, float]:
        """The least and the most of all that may be."""
        return min(map(min, self.told)), max(map(max, self.told))


@dataclass(frozen=True)
class LayerSeason:
    """One layer: how it follows, the change of its `width` across the grain, and by how much it would be hollow or
    round across that width if it lay free (above 0: the bark side hollow). In the glued stack that is stress, not
    movement. None where the shrinkage of its wood is not known."""

    stack: str
    number: int
    width: float
    moisture: Following
    change: Movement | None
    cup: Movement | None


@dataclass(frozen=True)
class StackSeason:
    """One stack: how it follows, and the change of its `height`, with all its layers counted."""

    stack: str
    height: float
    moisture: Following
    change: Movement | None


@dataclass(frozen=True)
class JointSeason:
    """A tenon in the mortise of one stack. Above 0 it squeezes, below 0 a gap opens, both faces together.

    `along`: along the layers' grain, where the mortise stays and the tenon moves; `across`: across it, where both move,
    at worst. `height`: by how much the layers grow along the tenon, which does not. `clearance`, `relief`: on each
    face. `wedged`: how much the tenon's width moves where it is wedged; None: it is not. `spread`: what both wedges
    spread it.
    """

    joint: str
    stack: str
    tenon: Year
    around: Year
    along: Year | None
    across: Year | None
    height: Year | None
    clearance: float
    relief: float
    wedged: Year | None = None
    spread: float = 0.0


@dataclass(frozen=True)
class PinSeason:
    """The pins at one glue line: by how much the layers grow along the two holes, `deep` together, while the dowel does
    not; `room` is what it is shorter than they."""

    stack: str
    interface: int
    deep: float
    room: float
    change: Year


@dataclass(frozen=True)
class QuickRule:
    """What the rule of thumb says (all wood follows the whole season) beside what is found with the time that moisture
    takes: changes over the year, in `unit`."""

    what: str
    quick: float
    found: float
    unit: str


@dataclass(frozen=True)
class MonthAdvice:
    """A month for a piece of work ("cut", "glue", "deliver"): the `best` and the `chosen` one, from 0 for January, and
    one sentence why. `cost`: of every month, points of moisture; less is better."""

    work: str
    best: int
    chosen: int
    cost: Year
    says: str


@dataclass(frozen=True)
class SeasonFindings:
    """A year in the room, of a whole piece. `glued`: month from 0; `moisture`: when glued. `years` were run until the
    piece repeated itself, `settled` says whether it does. `across`, `ratio`, `surface`, `band`: as set."""

    months: tuple[ClimateMonth, ...]
    moisture: float
    glued: int
    piece: Following
    stacks: tuple[StackSeason, ...]
    layers: tuple[LayerSeason, ...]
    joints: tuple[JointSeason, ...]
    pins: tuple[PinSeason, ...]
    quick: tuple[QuickRule, ...]
    advice: tuple[MonthAdvice, ...]
    cells: int
    size: float
    years: int
    settled: bool
    across: float
    ratio: float
    surface: float
    band: float
    notes: tuple[str, ...] = ()

    @property
    def equilibrium(self) -> Year:
        """What the room asks for in each month, %."""
        return tuple(month.equilibrium for month in self.months)
