# SPDX-License-Identifier: LGPL-2.1-or-later

"""How stiff and how strong the wood of a stack is square to any plane through it.

The boards' rings are not known, so both ways of sawing are asked and the worse told: with R up the board is flat sawn
(its thickness radial), with T up quarter sawn. Stiffnesses and strengths MPa, means of small clear specimens.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import acos, cos, degrees, radians, sin

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.findings.strength import NotJudged, WoodFigure
from freecad_stacklam.lamination.names import each_of
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.wood.elastic import Elastic, elastic_of
from freecad_stacklam.lamination.wood.scatter import SOURCE as SCATTER_SOURCE
from freecad_stacklam.lamination.wood.scatter import VARIATION
from freecad_stacklam.lamination.wood.species import Species
from freecad_stacklam.lamination.wood.strengths import Strengths, hankinson, strengths_of
from freecad_stacklam.lamination.wood.unknown import not_judged
from freecad_stacklam.lamination.words import mark, say

Floats = NDArray[np.float64]

#: Which of the rings' directions stands up in the layers.
RINGS = ("R up", "T up")
#: Hankinson's exponent here: 2 in compression, 1.5 to 2 in tension (from memory); 2 is the higher at small angles and
#: the lower beyond, and what the formula was made with.
EXPONENT = 2.0
#: Allowable stress of ASTM D245, hardwood in bending: a twentieth of all pieces may be weaker than the mean less so
#: many standard deviations, and that over this factor (from memory).
FACTOR = 2.3


@dataclass(frozen=True)
class Timber:
    """One wood. `elastic` is None where the table has no stiffness across the grain."""

    name: str
    strengths: Strengths
    elastic: Elastic | None

    @property
    def judged(self) -> bool:
        """Whether the table has what a section across the grain is judged by."""
        s = self.strengths
        return None not in (s.bending, s.tension_across, s.compression_across, s.shear, s.rolling_shear)


@dataclass(frozen=True)
class Grade:
    """Strengths square to one plane: in tension, in compression, and in shear in the plane. `angle`: between the
    plane's normal and the grain, degrees."""

    tension: float
    compression: float
    shear: float
    angle: float


def timber_of(table: Mapping[str, Species], name: str) -> Timber | None:
    """The wood of that name at 12 % moisture; None where the table does not have it. Raises Refusal as the table's
    figures do when they cannot be."""
    species = table.get(name)
    if species is None:
        return None
    return Timber(name, strengths_of(species), elastic_of(species))


def grain_angle(normal: Floats, grain: float) -> float:
    """Between a direction of the stack's frame and grain that runs in its layers, degrees from its x: 0 to 90."""
    along = abs(float(normal[0]) * cos(radians(grain)) + float(normal[1]) * sin(radians(grain)))
    return degrees(acos(min(1.0, along)))


def grade_at(timber: Timber, angle: float) -> Grade:
    """Strengths square to a plane whose normal stands `angle` degrees off the grain, by Hankinson's formula.

    Along the grain it is the bending strength on either side, as the handbook's is that of a beam, whichever side of it
    gives way. Shear in a plane across the grain is that along the grain; in a plane along the grain the weak way is
    rolling shear. The timber must be `judged`.
    """
    s = timber.strengths
    assert s.bending and s.tension_across and s.compression_across and s.shear and s.rolling_shear
    return Grade(
        hankinson(s.bending, s.tension_across, angle, EXPONENT),
        hankinson(s.bending, s.compression_across, angle, EXPONENT),
        hankinson(s.shear, s.rolling_shear, angle, EXPONENT),
        angle,
    )


def stiffness_at(elastic: Elastic, normal: Floats, grain: float, rings: str) -> float:
    """Stiffness along a direction of the stack's frame, MPa, by Hankinson's formula for stiffness:
    1/E = Σ (direction cosine)² / E of grain, radius and ring."""
    g = radians(grain)
    along = float(normal[0]) * cos(g) + float(normal[1]) * sin(g)
    across = -float(normal[0]) * sin(g) + float(normal[1]) * cos(g)
    up, side = (elastic.radial, elastic.tangential) if rings == "R up" else (elastic.tangential, elastic.radial)
    return 1.0 / (along**2 / elastic.along + across**2 / side + float(normal[2]) ** 2 / up)


def woods_of(
    plan: Plan, table: Mapping[str, Species]
) -> tuple[dict[str, Timber], tuple[NotJudged, ...], tuple[WoodFigure, ...]]:
    """Woods that can be judged, sentences on those that cannot, and the figures that are used."""
    wanted: dict[str, list[str]] = {}
    for stack in plan.stacks:
        for layer in stack.layers:
            wanted.setdefault(layer.species, []).append(stack.name)
    for joint in plan.joints:
        wanted.setdefault(joint.tenon.species, [])
    timbers: dict[str, Timber] = {}
    left: list[NotJudged] = []
    for name, stacks in wanted.items():
        where = each_of(list(dict.fromkeys(stacks))) or say("the tenons")
        try:
            timber = timber_of(table, name)
        except Refusal as refusal:
            left.append(
                NotJudged(
                    where,
                    say("The strength of {where} is not judged: {sentence}", where=where, sentence=refusal.sentence),
                )
            )
            continue
        if timber is None or not timber.judged:
            lacks = "" if timber is None else _lacks(timber)
            left.append(NotJudged(where, not_judged(say("The strength of {where}", where=where), name, lacks)))
            continue
        timbers[name] = timber
    return timbers, tuple(left), tuple(f for t in timbers.values() for f in _figures(t))


def _lacks(timber: Timber) -> str:
    words = {
        "bending": say("bending strength"),
        "tension_across": say("strength across the grain in tension"),
        "compression_across": say("strength across the grain in compression"),
        "shear": say("shear strength"),
    }
    return say(" and no ").join(word for name, word in words.items() if getattr(timber.strengths, name) is None)


def _figures(timber: Timber) -> list[WoodFigure]:
    s = timber.strengths
    rows = (
        (mark("bending along the grain"), "bending", s.bending),
        (mark("tension across the grain"), "tension_across", s.tension_across),
        (mark("compression across the grain"), "compression_across", s.compression_across),
        (mark("shear along the grain"), "shear", s.shear),
        (mark("rolling shear"), "rolling_shear", s.rolling_shear),
    )
    found = []
    for what, name, mean in rows:
        if mean is None:
            continue
        cov = VARIATION.get(name)
        source = s.source if name != "rolling_shear" else say("0.18 of shear along the grain, from memory")
        source = (
            source
            if cov is None
            else say("{source}; variation: {scatter_source}", source=source, scatter_source=say(SCATTER_SOURCE))
        )
        found.append(WoodFigure(timber.name, what, mean, cov, allowable(mean, cov), source))
    return found


def allowable(mean: float, cov: float | None, factor: float = FACTOR) -> float | None:
    """Allowable stress from the mean of small clear specimens and their coefficient of variation, ASTM D245 (from
    memory): mean · (1 − 1.645 · COV) / 2.3; None without a variation."""
    return None if cov is None else mean * max(0.0, 1 - 1.645 * cov) / factor
