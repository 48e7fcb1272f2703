# SPDX-License-Identifier: LGPL-2.1-or-later

"""How strong wood is along and across the grain, at its moisture and for as long as it is loaded.

All strengths are means of small clear specimens: half of all pieces hold less, a piece with a knot far less. They are
no design values. Equations by their numbers in the Wood Handbook, FPL-GTR-282 (2021).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, isfinite, radians, sin

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.wood.species import Species, must_be_moisture
from freecad_stacklam.lamination.words import say

#: Rolling shear over shear along the grain: the low end of what the handbook's chapter 5 gives (from memory).
ROLLING_SHEAR = 0.18
#: What wood holds for ten years over what it holds for minutes (FPL-GTR-282, chapter 5: "about 60 %").
TEN_YEARS = 0.6
#: The moisture of the tables, %.
TABLE_MOISTURE = 12.0
#: Drier than this, %, no further gain is counted: some strengths fall again in very dry wood (handbook, from memory).
DRIEST = 6.0


@dataclass(frozen=True)
class Strengths:
    """Mean strengths, MPa, at `moisture` %; None where no table has them. `notes`: what each rests on, where it is not
    simply the table's, as whole sentences."""

    species: str
    moisture: float
    bending: float | None
    tension_across: float | None
    compression_across: float | None
    shear: float | None
    rolling_shear: float | None
    notes: tuple[str, ...]
    source: str

    @property
    def along_over_across(self) -> float | None:
        """How many times stronger the wood is along the grain than across it: bending over tension across."""
        if self.bending is None or self.tension_across is None:
            return None
        return self.bending / self.tension_across


def at_moisture(dry: float, green: float, intersection: float, moisture: float) -> float:
    """A property at `moisture` % from that at 12 % and that of green wood (Eq. 5-3); `intersection` %: where drying
    begins to tell. Wetter than that it is the green value; drier than 6 % no more is counted than at 6 %."""
    must_be_moisture(moisture)
    if moisture >= intersection:
        return green
    exponent: float = (TABLE_MOISTURE - max(moisture, DRIEST)) / (intersection - TABLE_MOISTURE)
    return dry * float((dry / green) ** exponent)


def _one(species: Species, name: str, moisture: float, notes: list[str]) -> float | None:
    dry: float | None = getattr(species, name)
    if dry is None or moisture == TABLE_MOISTURE:
        return dry
    green: float | None = None if species.green is None else getattr(species.green, name)
    if name == "tension_across":
        # The handbook warns against Eq. 5-3 here: this strength follows the moisture erratically.
        notes.append(say("Tension across the grain is taken as at 12 %: it does not follow moisture by any rule."))
        return dry
    if green is None:
        notes.append(
            say(
                "{strength} is taken as at 12 %: the green value is not in the table.",
                strength=say(name.replace("_", " ").capitalize()),
            )
        )
        return dry
    return at_moisture(dry, green, species.intersection, moisture)


def strengths_of(species: Species, moisture: float = TABLE_MOISTURE) -> Strengths:
    """What the table knows of `species`, at `moisture` %. Raises Refusal for a moisture outside 0 to 30 %."""
    must_be_moisture(moisture)
    notes: list[str] = []
    bending, tension, compression, shear = (
        _one(species, name, moisture, notes) for name in ("bending", "tension_across", "compression_across", "shear")
    )
    if tension is None:
        notes.append(
            say("Tension across the grain is not in the table: nothing can be said of a neck loaded across it.")
        )
    if shear is not None:
        notes.append(
            say("Rolling shear is taken as {rolling_shear:g} of shear along the grain.", rolling_shear=ROLLING_SHEAR)
        )
    return Strengths(
        species.name, moisture, bending, tension, compression, shear,
        None if shear is None else ROLLING_SHEAR * shear, tuple(notes), species.source,
    )  # fmt: skip


def hankinson(along: float, across: float, angle: float, exponent: float = 2.0) -> float:
    """Strength at `angle` degrees to the grain, from those along and across it, in their unit (Hankinson's formula).

    `exponent`: 2 in compression; 1.5 to 2 are given in tension (from memory).
    """
    if not (isfinite(along) and isfinite(across) and along > 0 and across > 0):
        raise Refusal(say("A strength at an angle needs a strength along and one across the grain, both above 0."))
    s = float(abs(sin(radians(angle))) ** exponent)
    c = float(abs(cos(radians(angle))) ** exponent)
    return along * across / (along * s + across * c)


def duration_factor(lasting: bool) -> float:
    """What a strength is multiplied by: 0.6 for a load that stays for years, 1 for one of minutes."""
    return TEN_YEARS if lasting else 1.0
