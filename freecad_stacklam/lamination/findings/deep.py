# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the deep check of strength found. Lengths mm, forces N, stresses MPa; places are points of the model."""

from __future__ import annotations

from dataclasses import dataclass

from freecad_stacklam.lamination.findings.opinion import SecondOpinion


@dataclass(frozen=True)
class WeakSpot:
    """One place and the load that is worst for it.

    `index` is the stress over the wood's mean strength, 1 where half of all pieces break; `kind` what breaks ("across
    the grain", "along the grain", "shear along the grain", "rolling shear", "glue line"), `stress` and `strength` MPa
    (of a lasting load the strength that is left after years). `scatter_known`: the table says by how much that strength
    scatters. `stack` and `layer` whose wood it is ("" and 0 in a tenon); `load` names the load, `load_place` and
    `force` are where it stands and what it is, N in the model's directions. `rings`: how the rings lie in the layers,
    "R up" (flat-sawn) or "T up" (quarter-sawn). `corner`: other wood stands out within a cell beside it, so that the
    stress there hangs on how sharp the corner is and on the size of the cells.
    """

    place: tuple[float, float, float]
    stack: str
    layer: int
    kind: str
    index: float
    stress: float
    strength: float
    scatter_known: bool
    load: str
    load_place: tuple[float, float, float]
    force: tuple[float, float, float]
    rings: str
    tenon: str = ""  # the joint's name, where the place is on its tenon
    corner: bool = False


@dataclass(frozen=True)
class SurfaceMap:
    """Values at points of the surface, to be drawn: `points` of the model, and as many `values`."""

    points: tuple[tuple[float, float, float], ...]
    values: tuple[float, ...]


@dataclass(frozen=True)
class DeepFindings:
    """`spots`: the worst places, the worst first, no two of them near each other.

    `loose_feet`: the worst again with feet that may lift and slide, where a load presses them onto the floor;
    `without_tenon`: the worst with all mortises empty; `other_rings`: the worst with the rings the other way; `fine`:
    the worst again in finer cells (None where they were not asked for, or there is no tenon). `influence`: by how much
    the worst spot's index grows for every 100 N straight down at points of the surface; `surface`: the greatest index
    at each point under the loads that were solved. `balance`: the part of a load that the floor's forces do not answer.
    `cells` and `fine_cells`: how many. `seconds`: of processor. `tried`: loads looked at, `solved`: those solved.
    `notes`: what it rests on. `untried`: what was left out for want of time, a sentence, else "". `cautions`:
    what makes the figures doubtful, as sentences. `stopped`: the maker stopped it; `refused`: why it could not be done,
    else "".
    `second_opinion`: the worst spot by other programs, None where it was not asked for.
    """

    spots: tuple[WeakSpot, ...] = ()
    without_tenon: WeakSpot | None = None
    other_rings: WeakSpot | None = None
    fine: WeakSpot | None = None
    loose_feet: WeakSpot | None = None
    influence: SurfaceMap | None = None
    surface: SurfaceMap | None = None
    balance: float = 0.0
    cells: int = 0
    fine_cells: int = 0
    seconds: float = 0.0
    tried: int = 0
    solved: int = 0
    notes: tuple[str, ...] = ()
    untried: str = ""
    cautions: tuple[str, ...] = ()
    stopped: bool = False
    refused: str = ""
    second_opinion: SecondOpinion | None = None

    @property
    def worst(self) -> WeakSpot | None:
        """The worst of all that was found with the tenons as they are to be."""
        return max(self.judged, key=lambda s: s.index) if self.judged else None

    @property
    def judged(self) -> tuple[WeakSpot, ...]:
        """All that was found with the tenons as they are to be."""
        return tuple(s for s in (*self.spots, self.other_rings, self.fine, self.loose_feet) if s is not None)
