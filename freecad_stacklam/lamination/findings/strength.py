# SPDX-License-Identifier: LGPL-2.1-or-later

"""What was found of a piece's strength by its sections. Lengths mm, areas mm², second moments mm⁴, stresses MPa, forces
N, moments N·mm; places are points of the model.

A use is stress over mean strength (of small clear specimens, less by what a load that stays takes): at 1 half of all
pieces break.
"""

from __future__ import annotations

from dataclasses import dataclass

from freecad_stacklam.lamination.findings.loads import LoadCase

Point = tuple[float, float, float]

#: Kinds of sections: a level cut through a member, an upright one through an overhang, one between two supports, and a
#: strip of a hollow wall.
KINDS = ("neck", "overhang", "span", "wall")


@dataclass(frozen=True)
class SectionFinding:
    """The worst of one section under the worst load.

    `place` is the fibre that is worst off; `load_place` where the load then stands. `area` is that of the wood;
    `greatest` and `least` the principal second moments of the transformed section, and `modulus` its least modulus.
    `bending` and `axial` add up to the stress at `place` (tension positive), `shear` acts with them. `strength` is the
    mean that the stress is held against, already less for a load that stays; `cov` None where no table has one.
    `tenon_use` is the use of a tenon in the same section, 0 where there is none; `whole` the use as if there were no
    joint. `rings`: which of the two ways of sawing is worse. `angle`: of the stress to the grain. `do`: what size would
    do, mm (0: not told), and `limit` the use that it would have.
    """

    kind: str
    stack: str
    layer: int
    species: str
    place: Point
    load: str
    load_place: Point
    lasting: bool
    area: float
    greatest: float
    least: float
    modulus: float
    bending: float
    axial: float
    shear: float
    strength: float
    cov: float | None
    angle: float
    use: float
    tenon_use: float
    whole: float
    with_tenon: bool
    rings: str
    width: float  # across the section the way it bends, mm
    do: float = 0.0
    limit: float = 0.0
    members: int = 1

    @property
    def height(self) -> float:
        """Of the place, in the model, mm."""
        return self.place[2]


@dataclass(frozen=True)
class Curve:
    """Use against height of one stack under its worst load; `whole`: as if there were no joint. Heights ascend."""

    stack: str
    load: str
    heights: tuple[float, ...]
    use: tuple[float, ...]
    whole: tuple[float, ...]
    tenon_use: tuple[float, ...]


@dataclass(frozen=True)
class LineFinding:
    """The wood that meets wood at one glue line of the finished piece: `overlap` of both layers in plan, `left` of it
    without mortises, voids and pins."""

    stack: str
    interface: int  # number of the lower layer
    height: float  # in the model
    overlap: float
    left: float
    smaller: float = 0.0  # area of the smaller of the two faces, mm²; 0: not told

    @property
    def share(self) -> float:
        """How much of the overlap is left."""
        return self.left / self.overlap if self.overlap > 0 else 0.0

    @property
    def meets(self) -> float:
        """How much of the smaller face meets the other."""
        return self.overlap / self.smaller if self.smaller > 0 else 1.0

    @property
    def least(self) -> float:
        """The lesser of the two shares."""
        return min(self.share, self.meets)


@dataclass(frozen=True)
class JointFinding:
    """What a joint has to carry where its stacks meet under the worst load, and what it holds. `way`: "glued" or "dry".

    By the tenon alone: `bending`, against `strength` and `cov` of its wood along the grain; `bearing`, the greatest
    pressure on the mortise's walls of `member`, against `crush`; `rolling`, the shear on the side-grain walls if the
    tenon is glued, against `rolling_strength`; end-grain walls count nothing. With the shoulder, whose edge is `lever`
    from the axis (0: none): the glued tenon must hold `pull` N, and its side walls hold `holds` N. `withdrawal` is the
    mean screening estimate of what pulls it out, and `design` what may be counted on (None: not known).
    """

    name: str
    place: Point
    load: str
    load_place: Point
    lasting: bool
    way: str
    moment: float
    shear_force: float
    bending: float
    strength: float
    cov: float | None
    bearing: float
    crush: float
    member: str
    rolling: float
    rolling_strength: float
    lever: float
    pull: float
    holds: float
    withdrawal: float | None
    design: float | None

    @property
    def alone(self) -> float:
        """Use of the tenon by itself: in bending, and on its walls, which a glued one both presses and shears."""
        walls = self.bearing / self.crush
        if self.way == "glued":
            walls = min(walls, self.rolling / self.rolling_strength)
        return max(self.bending / self.strength, walls)

    @property
    def use(self) -> float:
        """The use of the joint the way in which it holds more: the tenon alone, or glued with the shoulder."""
        if self.way == "glued" and self.lever > 0:
            return min(self.alone, self.pull / self.holds)
        return self.alone


@dataclass(frozen=True)
class WoodFigure:
    """A strength that was used: its mean, its coefficient of variation, what one piece in twenty does not reach over
    the factor of the standard (`allowable`; None where no table has a variation), and its source."""

    species: str
    what: str
    mean: float
    cov: float | None
    allowable: float | None
    source: str


@dataclass(frozen=True)
class NotJudged:
    """What could not be judged, and the sentence that says why."""

    what: str
    says: str


@dataclass(frozen=True)
class StrengthFindings:
    """All that the sections of a piece say. `tenon`: "glued" or "dry". Sections: the worst first."""

    tenon: str
    kind: str
    sections: tuple[SectionFinding, ...]
    curves: tuple[Curve, ...] = ()
    lines: tuple[LineFinding, ...] = ()
    joints: tuple[JointFinding, ...] = ()
    wood: tuple[WoodFigure, ...] = ()
    left_out: tuple[NotJudged, ...] = ()
    notes: tuple[str, ...] = ()
    loads: tuple[LoadCase, ...] = ()  # that were looked at

    def load_named(self, name: str) -> LoadCase | None:
        """The load that a finding names; None where it is not kept."""
        return next((load for load in self.loads if load.name == name), None)

    def worst(self, stack: str = "") -> SectionFinding | None:
        """The section with the greatest use, of one stack or of all."""
        of = [s for s in self.sections if stack in ("", s.stack)]
        return max(of, key=lambda s: max(s.use, s.tenon_use), default=None)
