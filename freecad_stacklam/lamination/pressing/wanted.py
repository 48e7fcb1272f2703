# SPDX-License-Identifier: LGPL-2.1-or-later

"""The pressure that a glue line wants, and how near the wood is to being crushed. MPa."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from freecad_stacklam.lamination.settings.glue import Glue
from freecad_stacklam.lamination.wood.species import Species, gravity

#: Pressure for a glue that wants a thin line, MPa, in the lightest and the densest woods usually glued: FPL-GTR-282
#: (2021), chapter 10 (100 and 247 psi).
LIGHT_PRESSURE, DENSE_PRESSURE = 0.7, 1.7
#: Specific gravities of these at 12 %: eastern white pine and shagbark hickory, FPL-GTR-190 (2010), Table 5-3a.
LIGHTEST, DENSEST = 0.35, 0.72
#: Less than this presses no thin line, in whatever wood (common practice, no source).
FLOOR = 0.35
#: The most over the least that such a glue wants: a glue maker's guide gives 100 to 150, 150 to 200 and 200 to 300 psi.
MOST_OVER_LEAST = 1.5
#: Where the table does not know a wood, it is taken as dense as usual cabinet woods.
USUAL_GRAVITY = 0.6


def thin_line_pressure(specific_gravity: float) -> float:
    """The least pressure for a thin glue line, MPa, in wood of a specific gravity at 12 %: linear between the lightest
    and the densest of usual woods and beyond them, never under FLOOR."""
    share = (specific_gravity - LIGHTEST) / (DENSEST - LIGHTEST)
    return max(FLOOR, LIGHT_PRESSURE + share * (DENSE_PRESSURE - LIGHT_PRESSURE))


def wanted_pressure(glue: Glue, species: Iterable[str], table: Mapping[str, Species]) -> tuple[float, float]:
    """The least and the most, MPa, that a line between woods wants: the glue's own figures where it has them, else by
    the denser wood where it wants a thin line; a glue that fills gaps wants contact only."""
    least, most = glue.least_pressure, glue.most_pressure
    if glue.thin:
        thin = max((thin_line_pressure(_gravity(name, table)) for name in species), default=LIGHT_PRESSURE)
        if least is None:
            least = thin if most is None else min(thin, most)
        return least, max(least, MOST_OVER_LEAST * least) if most is None else most
    least = 0.0 if least is None else least
    return least, max(least, FLOOR) if most is None else most


def crush_share(pressure: float, species: Iterable[str], table: Mapping[str, Species]) -> float | None:
    """Mean pressure over the strength in compression across the grain of the softer wood; None where the table does not
    know it. The strength is a mean of small specimens at the limit of proportion, no design value."""
    strengths = [table[name].compression_across if name in table else None for name in species]
    known = [s for s in strengths if s]
    return pressure / min(known) if known and len(known) == len(strengths) else None


def _gravity(name: str, table: Mapping[str, Species]) -> float:
    wood = table.get(name)
    if wood is None or (wood.specific_gravity is None and wood.green_gravity is None):
        return USUAL_GRAVITY
    return gravity(wood)
