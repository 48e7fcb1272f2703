# SPDX-License-Identifier: LGPL-2.1-or-later

"""A planned piece as the mesher is told of it, and its mesh as the solver is: whose wood each element is, what the
floor holds, what carries the load. Lengths mm; the mesher works in the model, the solver in the piece's frame."""

from __future__ import annotations

from collections.abc import Callable, Mapping

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.findings.deep import WeakSpot
from freecad_stacklam.lamination.form.frame import direction_to_stack, to_model, to_stack
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.opinion.deck import Deck, Laid
from freecad_stacklam.lamination.opinion.fit import window
from freecad_stacklam.lamination.opinion.script import Job, Prism, stl_of
from freecad_stacklam.lamination.opinion.tetrahedra import Tetrahedra
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.outline import circle, rectangle, sample
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.stress.loads import PAD
from freecad_stacklam.lamination.stress.materials import Timber, elastic_for
from freecad_stacklam.lamination.tolerances import FIT_STIFFENER, PARALLEL
from freecad_stacklam.lamination.voxels.grid import Voxels
from freecad_stacklam.lamination.wood.species import Species
from freecad_stacklam.lamination.words import say

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Elements of a mesh, about: 1e5 unknowns, which the solver takes in half a minute (measured).
ELEMENTS = 22_000
#: Elements of size h that fill h³: 12 / √2 of even ones.
_FILL = 8.5
#: Outlines of voids are drawn with chords this near to them, mm.
_CHORD = 0.5
#: Points within this of the lowest stand on the floor, mm; where they are fewer than that many, those within half a
#: cell, as in the deep check.
FLAT, FEWEST = 0.2, 12


def job_of(
    plan: Plan, meshes: Mapping[str, Mesh], cells: Voxels, timber: Timber, glued: bool, spot: WeakSpot,
    solid: Callable[[str], str | None],
) -> tuple[Job, dict[str, str]]:  # fmt: skip
    """What is meshed, and the files that the script reads. solid: the text of a stack's solid by its name, None where
    there is only a mesh. Raises Refusal where the piece cannot be put together of what there is."""
    volume = sum(s.form.volume - (s.hollow.volume if s.hollow else 0.0) for s in plan.stacks)
    size = float((_FILL * volume / ELEMENTS) ** (1 / 3))
    texts = [solid(stack.name) for stack in plan.stacks]
    voids = [v for stack in plan.stacks for v in _voids(stack, glued)]
    if any(text is None for text in texts):
        if len(plan.stacks) > 1 or voids or (glued and plan.joints):
            raise Refusal(
                say(
                    "A second opinion needs solids where stacks are joined or hollow, and one of the forms is a "
                    "mesh: make a solid of it, or go by the deep check."
                )
            )
        (stack,) = plan.stacks
        mesh = meshes[stack.name]
        return Job(size, spot.place, facets="form.stl"), {"form.stl": stl_of(mesh.vertices, mesh.triangles)}
    files = {f"stack{i}.brep": text for i, text in enumerate(texts) if text is not None}
    tenons = tuple(_tenon(joint) for joint in plan.joints) if glued else ()
    planes = tuple(p for stack in plan.stacks for p in _planes(plan, stack, meshes[stack.name], timber))
    return Job(size, spot.place, tuple(files), "", tuple(voids), tenons, planes), files


def _voids(stack: StackPlan, glued: bool) -> list[Prism]:
    """Hollows, and mortises whose tenon is not glued, as what their outlines sweep. A tilted one is swept between."""
    kinds = ("hollow",) if glued else ("hollow", "mortise")
    found = []
    for cut in (c for layer in stack.layers for c in layer.cuts if c.kind in kinds and c.end > c.start):
        ring = sample(cut.outline.outer, _CHORD)
        low = to_model(stack.frame, np.column_stack([ring, np.full(len(ring), cut.start)]))
        up = to_model(stack.frame, np.array([[0.0, 0.0, cut.end], [0.0, 0.0, cut.start]]))
        found.append(Prism(low, up[0] - up[1]))
    return found


def _tenon(joint: JointPlan) -> Prism:
    size = joint.tenon.size
    outline = circle(size[0]) if joint.tenon.section == "round" else rectangle(size[0], size[-1])
    ring = sample(outline.outer, _CHORD / 2)
    start = joint.axis.model(np.column_stack([ring, np.full(len(ring), joint.start)]))
    return Prism(start, joint.axis.along * (joint.end - joint.start))


def _planes(plan: Plan, stack: StackPlan, mesh: Mesh, timber: Timber) -> list[Floats]:
    """Squares wider than the form at the glue lines where the wood below and above is not the same, or lies another
    way."""
    first = sum(len(s.layers) for s in plan.stacks[: plan.stacks.index(stack)])
    own = to_stack(stack.frame, mesh.vertices)
    low, high = own[:, :2].min(axis=0) - FLAT * 50, own[:, :2].max(axis=0) + FLAT * 50
    corners = np.array([[low[0], low[1]], [high[0], low[1]], [high[0], high[1]], [low[0], high[1]]])
    found = []
    for number, layer in enumerate(stack.layers[:-1]):
        if timber.of_layer[first + number] != timber.of_layer[first + number + 1]:
            found.append(to_model(stack.frame, np.column_stack([corners, np.full(4, layer.top)])))
    return found


def groups_of(middles: Floats, plan: Plan, cells: Voxels, glued: bool) -> Ints:
    """The layer that each of points N × 3 of the piece's frame lies in, or the tenon, counted on from the layers."""
    shape = np.array(cells.shape)
    at = np.column_stack([
        np.floor((middles[:, :2] - cells.origin[:2]) / cells.size).astype(int),
        np.searchsorted(cells.heights, middles[:, 2], side="right") - 1,
    ])  # fmt: skip
    layer = _spread(cells.layer.astype(np.int64))[tuple(np.clip(at, 0, shape - 1).T)]
    if glued:
        model = to_model(cells.frame, middles)
        for number, joint in enumerate(plan.joints):
            own = joint.axis.local(model)
            side, other = joint.tenon.size[0] / 2, joint.tenon.size[-1] / 2
            if joint.tenon.section == "round":
                inside = np.hypot(own[:, 0], own[:, 1]) < side
            else:
                inside = (np.abs(own[:, 0]) < side) & (np.abs(own[:, 1]) < other)
            inside &= (own[:, 2] > joint.start) & (own[:, 2] < joint.end)
            layer[inside] = len(cells.layers) + number
    return np.asarray(layer)


def _spread(layer: Ints) -> Ints:
    """Cells of air get the layer beside them, of their own height first; what is far from all wood is layer 0."""
    found = layer.copy()
    for axis in (0, 1, 0, 1, 0, 1, 2):
        for step in (1, -1):
            beside = np.roll(found, step, axis)
            found = np.where((found < 0) & (beside >= 0), beside, found)
    return np.maximum(found, 0)


def deck_for(
    mesh: Tetrahedra, plan: Plan, cells: Voxels, timber: Timber, table: Mapping[str, Species], glued: bool,
    spot: WeakSpot,
) -> tuple[Deck, Ints]:  # fmt: skip
    """The deck, its mesh in the piece's frame, and the layer or tenon of each element."""
    group = groups_of(mesh.middles, plan, cells, glued)
    of_group = np.array([*timber.of_layer, *(timber.of_tenon if glued else ())])
    woods = [Laid(elastic_for(table, s.species), w.axes) for w, s in zip(timber.woods, timber.strengths)]
    up = np.asarray(direction_to_stack(cells.frame, (0.0, 0.0, 1.0)))
    high = mesh.points @ up
    floor = np.flatnonzero(high <= high.min() + FLAT)
    if len(floor) < FEWEST:
        floor = np.flatnonzero(high <= high.min() + cells.size / 2)
    place = to_stack(cells.frame, np.array([spot.load_place]))[0]
    loaded, share = _pad(mesh, place)
    forces = share[:, None] * np.asarray(direction_to_stack(cells.frame, spot.force))
    at = to_stack(cells.frame, np.array([spot.place]))[0]
    read = read_by(mesh, group, own_group(plan, cells, spot), at, cells)
    return Deck(mesh, woods, of_group[group], floor, loaded, forces, read), group


def own_group(plan: Plan, cells: Voxels, spot: WeakSpot) -> int:
    """The layer that a spot lies in, or its tenon, by the number that groups_of gives."""
    if spot.tenon:
        return len(cells.layers) + [t.joint for t in cells.tenons].index(spot.tenon)
    names = [(plan.stacks[layer.stack].name, layer.number) for layer in cells.layers]
    return names.index((spot.stack, spot.layer))


def read_by(mesh: Tetrahedra, group: Ints, own: int, place: Floats, cells: Voxels) -> Ints:
    """Elements of a group, one at least of whose places the fit may read. Raises Refusal where there are too few."""
    in_tenon = own >= len(cells.layers)
    level = not in_tenon and abs(cells.layers[own].normal[2]) >= 1 - PARALLEL
    at, _ = mesh.integrated()
    near = window(at.reshape(-1, 3), place, cells.size, level, in_tenon).reshape(-1, 4).any(axis=1)
    read = np.flatnonzero(near & (group == own))
    if len(read) < FEWEST:
        raise Refusal(
            say("Their mesh has too little wood about the weak place to read a stress there: go by the deep check.")
        )
    return read


def _pad(mesh: Tetrahedra, place: Floats) -> tuple[Ints, Floats]:
    """Points about a place that carry its load, as far about as in the deep check, each by the wood that it stands for,
    and their shares, whose sum is 1 and whose middle is the place, as nearly as those points allow."""
    _, volume = mesh.integrated()
    each = np.repeat(volume.sum(axis=1) / mesh.corners.shape[1], mesh.corners.shape[1])
    wood = np.bincount(mesh.corners.ravel(), each, len(mesh.points))
    apart = np.linalg.norm(mesh.points - place, axis=1)
    near = np.flatnonzero(apart <= max(PAD, float(np.partition(apart, FEWEST)[FEWEST])))
    ones = np.column_stack([np.ones(len(near)), (mesh.points[near] - place) / PAD])
    square = (ones * wood[near][:, None]).T @ ones
    share = wood[near] * (ones @ (np.linalg.pinv(square, rcond=FIT_STIFFENER) @ np.array([1.0, 0.0, 0.0, 0.0])))
    return near, share / share.sum()
