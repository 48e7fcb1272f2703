# SPDX-License-Identifier: LGPL-2.1-or-later

"""The second opinion: the worst spot of the deep check again, on a mesh of tetrahedra and by another solver.

The programs are the caller's to find and to run; they are no part of the project, and may be missing.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import replace
from time import monotonic
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.elastic.multigrid import Stopped
from freecad_stacklam.lamination.findings.deep import DeepFindings, WeakSpot
from freecad_stacklam.lamination.findings.opinion import SecondOpinion
from freecad_stacklam.lamination.form.frame import to_stack
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.opinion.deck import Deck, deck_of
from freecad_stacklam.lamination.opinion.fit import fitted, window
from freecad_stacklam.lamination.opinion.piece import deck_for, job_of, own_group
from freecad_stacklam.lamination.opinion.results import Results, balance_of, fault_of, read_results
from freecad_stacklam.lamination.opinion.script import Job, script_of
from freecad_stacklam.lamination.opinion.tetrahedra import Tetrahedra, all_straight, read_mesh, straightened
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.stress.deep import FINE, SCANNED
from freecad_stacklam.lamination.stress.index import KINDS, index_of
from freecad_stacklam.lamination.stress.materials import Timber, timber_of
from freecad_stacklam.lamination.tolerances import PARALLEL
from freecad_stacklam.lamination.usage.use import UseSettings, load_cases
from freecad_stacklam.lamination.voxels.fill import size_for, voxels_of
from freecad_stacklam.lamination.voxels.grid import Voxels
from freecad_stacklam.lamination.wood.species import Species
from freecad_stacklam.lamination.wood.strengths import duration_factor
from freecad_stacklam.lamination.words import mark, say

Floats = NDArray[np.float64]
Going = Callable[[], bool]

#: What every second opinion rests on.
NOTES = (
    mark(
        "Reckoned with the floor, the load and the stiffness of the deep check: it tests its sums, not what it assumes."
    ),
    mark("Tenons are taken to fill their mortises; pins are left out."),
)


class Programs(Protocol):
    """A mesher and a solver, as the caller runs them. Both raise Refusal where a program fails or takes too long, and
    Stopped where `going` says False."""

    def lacking(self) -> str:
        """What is not installed, as a sentence; "" where all is there."""

    def solid(self, stack: str) -> str | None:
        """The text of a stack's solid in the model (BREP), None where its form is a mesh."""

    def mesh(self, script: str, files: Mapping[str, str], going: Going) -> str:
        """What the mesher writes for a script."""

    def solve(self, deck: str, going: Going) -> str:
        """What the solver prints for a deck, whatever it is."""

    def keep(self) -> str:
        """Keep the files of the last run, which came to nothing; where they lie."""

    def close(self) -> None:
        """Throw away the files of the last run, unless they were kept."""


def second_opinion(
    plan: Plan,
    meshes: Mapping[str, Mesh],
    use: UseSettings,
    table: Mapping[str, Species],
    found: DeepFindings,
    programs: Programs,
    tell: Callable[[float, str], bool],
) -> SecondOpinion:
    """The worst spot of `found` by other programs. tell: hears the share done and of what; returns False to stop.

    What cannot be done comes back with its sentence. Raises Stopped.
    """
    spot = found.worst
    if spot is None:
        return SecondOpinion(refused=say("A second opinion needs a deep check that found something: set it to scan."))
    about = SecondOpinion(
        place=spot.place, load=spot.load, load_place=spot.load_place, our_kind=spot.kind, our_index=spot.index,
        our_stress=spot.stress, notes=tuple(map(say, NOTES)),
    )  # fmt: skip
    lacking = programs.lacking()
    if lacking:
        return replace(about, refused=lacking)
    begun = monotonic()
    try:
        told = _told(plan, meshes, use, table, found, spot, programs, tell, about)
    except Refusal as refusal:
        told = replace(about, refused=refusal.sentence)
    finally:
        programs.close()
    return replace(told, seconds=monotonic() - begun)


def _told(
    plan: Plan, meshes: Mapping[str, Mesh], use: UseSettings, table: Mapping[str, Species], found: DeepFindings,
    spot: WeakSpot, programs: Programs, tell: Callable[[float, str], bool], about: SecondOpinion,
) -> SecondOpinion:  # fmt: skip
    cells = voxels_of(plan, meshes, size_for(plan, FINE if spot is found.fine else SCANNED))
    timber = timber_of(cells, table, spot.rings)
    glued = bool(plan.joints) and use.tenon == "glued"

    def going(share: float, what: str) -> Going:
        if not tell(share, what):
            raise Stopped
        return lambda: tell(share, what)

    job, files = job_of(plan, meshes, cells, timber, glued, spot, programs.solid)
    read = _meshed(job, files, programs, going(0.0, say("a second opinion: the mesh")))
    mesh = replace(read, points=to_stack(cells.frame, read.points))
    fault = ""
    for share, shaped in ((0.3, straightened), (0.65, all_straight)):
        deck, group = deck_for(shaped(mesh), plan, cells, timber, table, glued, spot)
        printed = programs.solve(deck_of(deck), going(share, say("a second opinion: the solver")))
        results = read_results(printed, deck)
        fault = fault_of(results, deck)
        if not fault:
            reading = _reading(deck, results, plan, cells, spot)
            return _beside(reading, deck, results, timber, group, use, spot, about)
    raise Refusal(
        say(
            "The second opinion came to nothing: {fault}; go by the deep check (what the programs wrote is in {keep}).",
            fault=fault,
            keep=programs.keep(),
        )
    )


def _meshed(job: Job, files: Mapping[str, str], programs: Programs, going: Going) -> Tetrahedra:
    """The mesh; where the piece cannot be meshed with its glue lines cut, that without cuts: an element then has the
    wood of its middle."""
    if job.planes:
        text = programs.mesh(script_of(job), files, going)
        with suppress(Refusal):
            return read_mesh(text)
    text = programs.mesh(script_of(replace(job, planes=())), files, going)
    try:
        return read_mesh(text)
    except Refusal as refusal:
        raise Refusal(
            say("{sentence} What the programs wrote is in {keep}.", sentence=refusal.sentence, keep=programs.keep())
        ) from refusal


def _reading(deck: Deck, results: Results, plan: Plan, cells: Voxels, spot: WeakSpot) -> Floats:
    """(6,) the stress at the spot, in the piece's frame."""
    own = own_group(plan, cells, spot)
    in_tenon = own >= len(cells.layers)
    level = not in_tenon and abs(cells.layers[own].normal[2]) >= 1 - PARALLEL
    place = to_stack(cells.frame, np.array([spot.place]))[0]
    at, wood = (v[deck.read] for v in deck.mesh.integrated())
    at, wood, stress = at.reshape(-1, 3), wood.ravel(), results.stress.reshape(-1, 6)
    near = window(at, place, cells.size, level, in_tenon)
    return fitted(at[near], stress[near], wood[near], place, cells.size)


def _beside(
    stress: Floats, deck: Deck, results: Results, timber: Timber, group: NDArray[np.int64], use: UseSettings,
    spot: WeakSpot, about: SecondOpinion,
) -> SecondOpinion:  # fmt: skip
    """Their figures beside ours."""
    wood = deck.wood[deck.read[:1]]
    line = np.array([[0.0, 0.0, 1.0 if spot.kind == "glue line" else 0.0]])
    index, kind, size = index_of(stress[None], wood, timber.woods, timber.strengths, line)
    lasting = next((case.lasting for case in load_cases(use) if case.name == spot.load), False)
    theirs = float(index[0]) / duration_factor(lasting)
    force = deck.forces.sum(axis=0)
    share = np.linalg.norm(deck.forces, axis=1)
    moved = (results.moved * share[:, None]).sum(axis=0) / share.sum()
    return replace(
        about, kind=KINDS[int(kind[0])], index=theirs, stress=float(size[0]), difference=theirs / spot.index - 1,
        moved=float(moved @ force / np.linalg.norm(force)), balance=balance_of(results, deck),
        elements=len(deck.mesh.corners), points=len(deck.mesh.points), straight=deck.mesh.straight,
    )  # fmt: skip
