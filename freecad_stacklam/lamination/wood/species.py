# SPDX-License-Identifier: LGPL-2.1-or-later

"""Species and what a maker must know of them. The table itself is data; this room knows what the figures mean.

Equations are those of the Wood Handbook, FPL-GTR-282 (2021), by their numbers there.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from math import isfinite

from freecad_stacklam.lamination.names import any_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import say

#: Fibre saturation point, % moisture content, as the handbook's equations take it.
FIBRE_SATURATION = 30.0
WATER = 1000.0  # kg/m³


@dataclass(frozen=True)
class PrintedCoefficient:
    """Dimensional change coefficients as one edition of the handbook prints them, per % moisture content."""

    edition: str
    radial: float | None = None
    tangential: float | None = None


@dataclass(frozen=True)
class GreenValues:
    """Strengths, MPa, and stiffness, GPa, of green wood, from the table that `source` names. None: not known."""

    bending: float | None = None
    stiffness: float | None = None
    shear: float | None = None
    tension_across: float | None = None
    compression_across: float | None = None
    source: str = ""


@dataclass(frozen=True)
class ElasticRatios:
    """Stiffness across the grain and in shear over stiffness along it, and Poisson's ratios, at about 12 % moisture.

    poisson_lr: strain in R over strain in L of wood that is pulled along L; likewise the others. Only the three large
    ones are kept: measured small ones do not agree with them. None: the table that `source` names does not print it.
    """

    tangential: float
    radial: float
    shear_lr: float | None = None
    shear_lt: float | None = None
    shear_rt: float | None = None
    poisson_lr: float | None = None
    poisson_lt: float | None = None
    poisson_rt: float | None = None
    source: str = ""


@dataclass(frozen=True)
class Species:
    """One species at 12 % moisture content, from the table the source names.

    specific_gravity is oven-dry mass over volume at 12 % (None: unknown); shrink_radial and shrink_tangential are
    percent from green to oven-dry; strengths MPa, stiffness GPa (means of small clear specimens, not design values).
    `printed` keeps the movement coefficients with their edition, because editions differ; `note` says what is unsure.
    `intersection` is the moisture, %, at which drying wood begins to gain strength (Table 5-13; 25 where not printed).
    """

    name: str
    specific_gravity: float | None
    green_gravity: float | None = None
    shrink_radial: float | None = None
    shrink_tangential: float | None = None
    shrink_volume: float | None = None
    bending: float | None = None
    stiffness: float | None = None
    shear: float | None = None
    tension_across: float | None = None
    compression_across: float | None = None
    hardness: float | None = None
    source: str = ""
    printed: tuple[PrintedCoefficient, ...] = ()
    note: str = ""
    intersection: float = 25.0
    green: GreenValues | None = None
    elastic: ElasticRatios | None = None


def find_species(table: Mapping[str, Species], name: str) -> Species:
    """The species of that name, whatever its capitals. Raises Refusal that suggests near names."""
    wanted = " ".join(name.lower().split())
    by_name = {key.lower(): species for key, species in table.items()}
    if wanted in by_name:
        return by_name[wanted]
    near = get_close_matches(wanted, by_name, 3, 0.5) or sorted(n for n in by_name if wanted and wanted in n)[:3]
    hint = (
        say("did you mean {list}?", list=any_of(near))
        if near
        else say("take one of {list}.", list=", ".join(sorted(by_name)))
    )
    raise Refusal(say("There is no species “{name}” in the table: {hint}", name=name, hint=hint))


def must_be_moisture(percent: float) -> None:
    """Raises Refusal for a moisture content at which wood neither shrinks nor swells, or that cannot be."""
    if not isfinite(percent) or not 0 <= percent <= FIBRE_SATURATION:
        raise Refusal(
            say(
                "A moisture content of {percent:g} % is outside 0 to 30 %, where wood shrinks and swells.",
                percent=percent,
            )
        )


def gravity(species: Species, moisture: float = 12.0) -> float:
    """Specific gravity, oven-dry mass over volume at `moisture` %.

    Eq. 4-11 from the tabulated volumetric shrinkage, or Eq. 4-13 from the basic (green) gravity where a row has no
    gravity at 12 % (imported woods). Raises Refusal when the row has neither.
    """
    must_be_moisture(moisture)
    if species.specific_gravity is None:
        basic = species.green_gravity
        if basic is None:
            raise Refusal(
                say("The table has no specific gravity for {species}: choose another species.", species=species.name)
            )
        return basic / (1 - 0.265 * basic * (1 - moisture / FIBRE_SATURATION))
    if moisture == 12.0:
        return species.specific_gravity
    dry = 1 - 12.0 / FIBRE_SATURATION
    now = 1 - moisture / FIBRE_SATURATION
    if species.shrink_volume is not None:
        total = species.shrink_volume / 100
        return species.specific_gravity * (1 - total * dry) / (1 - total * now)
    basic = species.specific_gravity / (1 + 0.265 * species.specific_gravity * dry)  # Eq. 4-13 solved for the basic
    return basic / (1 - 0.265 * basic * now)


def density(species: Species, moisture: float = 12.0) -> float:
    """Mass over volume at `moisture` %, kg/m³ (Eq. 4-14). Expect a coefficient of variation of about 10 %."""
    return WATER * gravity(species, moisture) * (1 + moisture / 100)


def movement_coefficient(shrinkage: float) -> float:
    """Dimensional change per % moisture between 6 and 14 %, from total `shrinkage` in % (Eq. 13-2). Raises
    Refusal for a shrinkage that cannot be."""
    if not isfinite(shrinkage) or not 0 < shrinkage < 100:
        raise Refusal(
            say(
                "A shrinkage of {shrinkage:g} % cannot be: give percent from green to oven-dry, as in 8.6.",
                shrinkage=shrinkage,
            )
        )
    return 1 / (100 * FIBRE_SATURATION / shrinkage - FIBRE_SATURATION + 10)


def movement(size: float, shrinkage: float, start: float, end: float) -> float:
    """Change of a `size` in mm from `start` to `end` % moisture; positive when it swells.

    Within 6 to 14 % by the coefficient (Eq. 13-3), outside by the shrinkage itself (Eq. 13-4).
    """
    must_be_moisture(start)
    must_be_moisture(end)
    if min(start, end) >= 6 and max(start, end) <= 14:
        return size * movement_coefficient(shrinkage) * (end - start)
    movement_coefficient(shrinkage)  # refuses what cannot be
    return size * (end - start) / (100 * FIBRE_SATURATION / shrinkage - FIBRE_SATURATION + start)
