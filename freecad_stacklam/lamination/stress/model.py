# SPDX-License-Identifier: LGPL-2.1-or-later

"""One body with all that is asked of it: loads are solved on it, places read, influence maps drawn. Lengths mm."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination import lengths
from freecad_stacklam.lamination.elastic.solve import Known, Solver
from freecad_stacklam.lamination.findings.deep import WeakSpot
from freecad_stacklam.lamination.findings.loads import LoadCase
from freecad_stacklam.lamination.form.frame import to_model
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.stress.index import KINDS, SCATTER_KNOWN, index_of, refuse_unknown, slope_of
from freecad_stacklam.lamination.stress.loads import Load, Pads
from freecad_stacklam.lamination.stress.materials import Body, body_of
from freecad_stacklam.lamination.stress.readings import Readings, readings_on
from freecad_stacklam.lamination.stress.samples import Places, places_on
from freecad_stacklam.lamination.tolerances import COMPARED
from freecad_stacklam.lamination.voxels.grid import Voxels
from freecad_stacklam.lamination.wood.species import Species
from freecad_stacklam.lamination.wood.strengths import duration_factor
from freecad_stacklam.lamination.words import say

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Nothing is read nearer to a load than this, mm, nor nearer to the floor than this and so many cells: there the sum
#: shows what was assumed of the load and of the floor, and grows without end in finer cells.
NEAR_LOAD, NEAR_FLOOR, FLOOR_CELLS = 45.0, 15.0, 1.5
#: How many cells a wall wants at least to bend as it should.
WALL = 3.0
#: Weak spots nearer to each other than this, mm, are one.
SAME_SPOT = 60.0


@dataclass(frozen=True, eq=False)
class Model:
    """`body` and its `readings`; `points` (P × 3) are the places in the model, `lines` (P × 3) the normal of the glue
    line at each that lies at one, else 0. `going` says False to stop."""

    cells: Voxels
    body: Body
    readings: Readings
    solver: Solver
    pads: Pads
    points: Floats
    lines: Floats
    going: Callable[[], bool]
    known: Known = field(default_factory=Known)

    def solve(self, load: Load) -> tuple[Floats, float]:
        """Movements under a load, and what the floor's forces lack of it."""
        force = self.pads.forces(load)
        found = self.solver(force, COMPARED, self.going, self.known.start(force))
        if found.steps:
            self.known.add(force, found.moved)
        return found.moved, found.balance

    def index(self, moved: Floats, load: Load, lasting: bool) -> tuple[Floats, Ints, Floats]:
        """Index, kind and stress at every place under a load; 0 where it is too near to the load."""
        index, kind, size = self.of_stress(self.readings.stresses(moved))
        near = np.linalg.norm(self.points - np.array(load.place), axis=1) < NEAR_LOAD
        return np.where(near, 0.0, index / duration_factor(lasting)), kind, size

    def of_stress(self, stress: Floats) -> tuple[Floats, Ints, Floats]:
        """Index, kind and stress at every place, of its six stresses."""
        timber = self.body.timber
        wood = self.body.lattice.wood[self.readings.places.brick]
        return index_of(stress, wood, timber.woods, timber.strengths, self.lines)

    def influence(self, place: int, moved: Floats, solved: float = COMPARED) -> Floats:
        """The influence map, N × 3 movements: what 1 N at each of the bricks' points adds to the index at a place, as
        it stands under a load that moves them so."""
        timber = self.body.timber
        wood = int(self.body.lattice.wood[self.readings.places.brick[place]])
        stress = self.readings.stresses(moved)[place]
        parts = slope_of(stress, wood, timber.woods, timber.strengths, self.lines[place])
        return self.solver(self.readings.load_of(place, parts), solved, self.going).moved

    def wall(self, place: int) -> float:
        """How many cells thick the wood is inward of a place, up to WALL of them and one more; a cell that is
        wood in part counts as one."""
        places = self.readings.places
        away = np.arange(0.125, WALL + 1, 0.25)
        part = self._filled(places.points[place] - places.outward[place] * (away * self.cells.size)[:, None])
        ends = np.flatnonzero(part == 0.0)
        return float(ends[0] if len(ends) else len(part)) / 4

    def corner(self, place: int) -> bool:
        """Whether a place lies in an inner corner: out from it there is air, and a cell or so further wood, ahead or
        beside."""
        places, size = self.readings.places, self.cells.size
        out, at = places.outward[place] * size, places.points[place]
        turns = np.radians(np.arange(0.0, 360.0, 45.0))
        around = np.column_stack([np.cos(turns), np.sin(turns)]) @ np.linalg.svd(out[None])[2][1:] * size
        near, full, far, *walls = self._filled(at + np.vstack([out / 2, out, 1.5 * out, out + around])).tolist()
        ahead = near < 0.5 and max(full, far) >= 0.5
        return bool(ahead or (full < 0.5 and max(walls) >= 0.5))

    def _filled(self, points: Floats) -> Floats:
        """How much of the cell about each of points of the piece's frame is wood; 0 beside the cells."""
        cells = self.cells
        plan = np.floor((points[:, :2] - cells.origin[:2]) / cells.size).astype(int)
        at = np.column_stack([plan, np.searchsorted(cells.heights, points[:, 2]) - 1])
        there = ((at >= 0) & (at < np.array(cells.shape))).all(axis=1)
        return np.where(there, cells.filled[tuple(np.clip(at, 0, np.array(cells.shape) - 1).T)], 0.0)

    def spot(self, plan: Plan, place: int, load: Load, case: LoadCase, found: tuple[Floats, Ints, Floats]) -> WeakSpot:
        """A place under a load as a record."""
        index, kind, size = float(found[0][place]), int(found[1][place]), float(found[2][place])
        group = int(self.body.group[self.readings.places.brick[place]])
        layers = len(self.cells.layers)
        layer = self.cells.layers[group] if group < layers else None
        x, y, z = (float(v) for v in self.points[place])
        return WeakSpot(
            (x, y, z), plan.stacks[layer.stack].name if layer else "", layer.number if layer else 0, KINDS[kind], index,
            size, size / index if index > 0 else 0.0, kind in SCATTER_KNOWN, case.name, load.place, load.force,
            self.body.rings, "" if layer else self.cells.tenons[group - layers].joint,
            self.corner(place),
        )  # fmt: skip


def model_of(
    plan: Plan, meshes: Mapping[str, Mesh], cells: Voxels, table: Mapping[str, Species], rings: str,
    tenons: bool = True, going: Callable[[], bool] = lambda: True, about: Sequence[tuple[float, float, float]] = (),
) -> Model:  # fmt: skip
    """A body made ready. about: read only within SAME_SPOT of these points of the model (none given: everywhere).
    Raises Refusal for woods that are not known well enough, and where no place is left."""
    body = body_of(cells, table, rings, tenons)
    refuse_unknown([body.timber.strengths[w] for w in np.unique(body.lattice.wood)])
    places = places_on(plan, meshes, cells, body)
    high = body.lattice.points @ body.up
    near_floor = max(NEAR_FLOOR, FLOOR_CELLS * cells.size)
    free = places.points @ body.up > high.min() + near_floor
    points = to_model(cells.frame, places.points)
    if not free.any():
        raise Refusal(
            say(
                "All of the piece lies within {near_floor} of its floor, where the deep check cannot look: set it to "
                "none and go by the sections.",
                near_floor=lengths.size(near_floor),
            )
        )
    if about:
        free &= (np.linalg.norm(points[:, None] - np.array(about)[None], axis=2) < SAME_SPOT).any(axis=1)
        if not free.any():
            raise Refusal(say("Near the weak places nothing can be read in finer cells: go by the scan."))
    places = Places(places.points[free], places.brick[free], places.outward[free], places.in_tenon[free])
    readings = readings_on(body, places)
    return Model(
        cells, body, readings, Solver(body.lattice, going), Pads(body, cells.frame), points[free],
        _lines(cells, body, places), going,
    )  # fmt: skip


def _lines(cells: Voxels, body: Body, places: Places) -> Floats:
    """The normal of the glue line beside each place: its cell ends on one, or on a joint between two stacks."""
    lattice = body.lattice
    cell = lattice.cell[places.brick]
    own = body.group[places.brick]
    found = np.zeros((len(own), 3))
    padded = np.pad(cells.layer, 1, constant_values=-1)
    for normal in np.vstack([np.eye(3), -np.eye(3)]).astype(int):
        beside = padded[tuple((cell + 1 + normal).T)]
        other = (beside >= 0) & (beside != own) & ~places.in_tenon
        here = other & body.level[places.brick] & (normal[2] != 0)
        found[here] = np.abs(normal)
    return found
