# SPDX-License-Identifier: LGPL-2.1-or-later

"""How far wood lies about the mean of its table: coefficients of variation, and the bounds that come of them.

The figures are averages over species of clear wood (FPL-GTR-190, 2010, Table 5-6), not those of one species: two pieces
in three lie within one standard deviation of the mean, nineteen in twenty above the mean less 1.645 of them.
"""

from __future__ import annotations

from dataclasses import dataclass

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import mark, say

SOURCE = mark("FPL-GTR-190 (2010) Table 5-6")
MOVEMENT_SOURCE = mark("FPL-GTR-282 (2021), chapter 4: transverse shrinkage")

#: Standard deviation over mean. What is not here has no figure in the table: tension across the grain above all.
VARIATION = {
    "bending": 0.16,
    "stiffness": 0.22,
    "shear": 0.14,
    "compression_across": 0.28,
    "hardness": 0.20,
    "gravity": 0.10,
    "movement": 0.15,
}
#: Of a normal distribution, one in twenty lies lower than the mean less this many standard deviations.
FIFTH = 1.645


#: Where no table has a variation: the widest that it has of any strength.
WIDEST = max(VARIATION[name] for name in ("bending", "shear", "compression_across"))


def twentieth(cov: float | None) -> float:
    """The share of a mean strength that one piece in twenty does not reach, 1 − 1.645 COV; of a variation that no table
    has (None) as if it were the widest of any strength there: 0.54."""
    return max(1 - FIFTH * (WIDEST if cov is None else cov), 0.0)


@dataclass(frozen=True)
class Scatter:
    """A mean `figure`, and its coefficient of variation `cov` as a fraction; None where no table has one.

    Where `cov` is None the bounds are None too: a mean is all that is known.
    """

    figure: float
    cov: float | None

    @property
    def spread(self) -> float | None:
        """One standard deviation, in the unit of the figure: what stands behind ±."""
        return None if self.cov is None else abs(self.figure) * self.cov

    @property
    def low(self) -> float | None:
        """The figure less one standard deviation."""
        return None if self.spread is None else self.figure - self.spread

    @property
    def high(self) -> float | None:
        """The figure and one standard deviation."""
        return None if self.spread is None else self.figure + self.spread

    @property
    def fifth(self) -> float | None:
        """What one piece in twenty does not reach; never below 0 for a figure above 0."""
        if self.cov is None:
            return None
        return (
            max(self.figure * (1 - FIFTH * self.cov), 0.0) if self.figure > 0 else self.figure * (1 + FIFTH * self.cov)
        )


def scatter(name: str, figure: float) -> Scatter:
    """`figure` with the variation that the table gives to `name`, a field of Species, "gravity" or "movement". Raises
    Refusal for a name that no table could have."""
    if name not in (*VARIATION, "tension_across", "rolling_shear"):
        raise Refusal(
            say("Nothing is known of how “{name}” varies: take one of {list}.", name=name, list=", ".join(VARIATION))
        )
    return Scatter(figure, VARIATION.get(name))
