# SPDX-License-Identifier: LGPL-2.1-or-later

"""How stiff wood is along the grain (L), across it through the rings (R) and along the rings (T).

The tables give ratios to the stiffness along the grain, which is 1.10 times the one of bending tests: those sag by
shear too (Wood Handbook, chapter 5). Of the six Poisson's ratios the three large ones are taken; the small ones follow
from them, because a printed set of six is not that of any elastic body.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.wood.species import Species, must_be_moisture
from freecad_stacklam.lamination.wood.strengths import TABLE_MOISTURE, at_moisture
from freecad_stacklam.lamination.words import say

#: Stiffness along the grain over that of bending tests.
SHEAR_OF_BENDING = 1.10
MPA = 1000.0  # in a GPa
#: Where a table has no ratio for rolling shear: hardwoods of Table 5-1 have 0.011 to 0.028 (from memory).
ROLLING = 0.02
#: Where a table has no shear beside the radial or tangential face: middle of the hardwoods of Table 5-1 (from memory).
BESIDE = {"shear_lr": 0.09, "shear_lt": 0.07}
#: Where a table has no Poisson's ratios: middle of the hardwoods of Table 5-2 (from memory).
POISSON = {"poisson_lr": 0.37, "poisson_lt": 0.45, "poisson_rt": 0.65}


@dataclass(frozen=True)
class Elastic:
    """Stiffness of one wood at one moisture; moduli MPa. `assumed`: what is not in the table, as sentences.

    poisson_lr is the strain in R over that in L of wood pulled along L; the others likewise.
    """

    along: float
    radial: float
    tangential: float
    shear_lr: float
    shear_lt: float
    shear_rt: float
    poisson_lr: float
    poisson_lt: float
    poisson_rt: float
    assumed: tuple[str, ...]
    source: str = ""

    def compliance(self) -> NDArray[np.float64]:
        """(6, 6) strains for stresses, 1/MPa, in the order LL, RR, TT, RT, LT, LR (shear strains as angles)."""
        lr, lt, rt = (
            -self.poisson_lr / self.along,
            -self.poisson_lt / self.along,
            -self.poisson_rt / self.radial,
        )
        found = np.diag(
            [1 / self.along, 1 / self.radial, 1 / self.tangential, 1 / self.shear_rt, 1 / self.shear_lt,
             1 / self.shear_lr]
        )  # fmt: skip
        found[0, 1] = found[1, 0] = lr
        found[0, 2] = found[2, 0] = lt
        found[1, 2] = found[2, 1] = rt
        return found

    def stiffness(self) -> NDArray[np.float64]:
        """(6, 6) stresses for strains, MPa, in the same order."""
        found: NDArray[np.float64] = np.linalg.inv(self.compliance())
        return (found + found.T) / 2


def is_a_body(elastic: Elastic) -> bool:
    """Whether every strain costs energy: the compliance is positive definite, as that of any body must be."""
    compliance = elastic.compliance()
    diagonal = np.diag(compliance)
    if not np.isfinite(diagonal).all() or (diagonal <= 0).any():
        return False
    scale = np.sqrt(diagonal)
    return bool(np.linalg.eigvalsh(compliance / np.outer(scale, scale)).min() > 0)


def elastic_of(species: Species, moisture: float = TABLE_MOISTURE) -> Elastic | None:
    """Stiffness of `species` at `moisture` %; None where the table has no stiffness, or no ratio across the grain.

    Off 12 % all moduli follow the bending stiffness (Eq. 5-3). Raises Refusal for a moisture outside 0 to 30 %, and
    for ratios that no body can have.
    """
    must_be_moisture(moisture)
    ratios = species.elastic
    if ratios is None or species.stiffness is None:
        return None
    assumed: list[str] = []
    bending = species.stiffness
    if moisture != TABLE_MOISTURE:
        green = None if species.green is None else species.green.stiffness
        if green is None:
            assumed.append(say("Stiffness is taken as at 12 %: the green value is not in the table."))
        else:
            bending = at_moisture(bending, green, species.intersection, moisture)
            assumed.append(say("Stiffness across the grain and in shear is taken to follow moisture as that along it."))
    along = SHEAR_OF_BENDING * MPA * bending
    if "memory" in ratios.source:
        assumed.append(say("Ratios of stiffness: {source}.", source=ratios.source))
    if ratios.shear_rt is None:
        assumed.append(
            say("Rolling shear modulus is taken as {rolling:g} of the stiffness along the grain.", rolling=ROLLING)
        )
    beside = {name: getattr(ratios, name) for name in BESIDE}
    poisson = {name: getattr(ratios, name) for name in POISSON}
    for what, held, instead in ((say("Shear modulus"), beside, BESIDE), (say("Poisson's ratio"), poisson, POISSON)):
        for name in [n for n, value in held.items() if value is None]:
            held[name] = instead[name]
            letters = name.rsplit("_", 1)[1].upper()
            assumed.append(
                say(
                    "{what} {letters} is not in the table and taken as {instead:g}.",
                    what=what,
                    letters=letters,
                    instead=instead[name],
                )
            )
    found = Elastic(
        along, ratios.radial * along, ratios.tangential * along, beside["shear_lr"] * along, beside["shear_lt"] * along,
        (ROLLING if ratios.shear_rt is None else ratios.shear_rt) * along, **poisson, assumed=tuple(assumed),
        source=ratios.source,
    )  # fmt: skip
    if not is_a_body(found):
        raise Refusal(
            say(
                "The ratios of stiffness of {species} cannot be those of any body: its Poisson's ratios are too "
                "large for them: correct them in the table of species.",
                species=species.name,
            )
        )
    return found
