# SPDX-License-Identifier: LGPL-2.1-or-later

"""Mass, centre of mass and inertia of blanks, of glued runs of layers, of each carved stack and of the whole piece.

The carved form is its mesh, slab by slab, each slab with the density of its layer's wood, less mortises, voids and pin
holes, with tenons and dowels in them; a tenon that stands proud counts as trimmed. Glue, wedges and the cones of bit
points are left out: together less than the scatter of the wood by far.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.findings.weight import MODEL, STACK, Body, Triple, WeightFindings
from freecad_stacklam.lamination.form.frame import lying
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.form.moments import Moments, nothing, prism_moments, slab_moments
from freecad_stacklam.lamination.plan.gluing import LAYERS
from freecad_stacklam.lamination.plan.insides import PinPlan
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.plan.layers import Cut, LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import Outline, circle, rectangle, sample
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.tolerances import ARC_SAG
from freecad_stacklam.lamination.wood.scatter import SOURCE, scatter
from freecad_stacklam.lamination.wood.species import Species, must_be_moisture
from freecad_stacklam.lamination.wood.weights import weight_of
from freecad_stacklam.lamination.words import say

Floats = NDArray[np.float64]

#: Arcs are weighed by chords this near to them: a dowel of 10 mm loses a ten-thousandth.
_SAG = ARC_SAG / 10
MORTISE, PIN = "mortise", "pin"


@dataclass(frozen=True, eq=False)
class _Part:
    """Wood of one board, or taken away from it: `moments` of its volume in the body's frame."""

    species: str
    moments: Moments
    board: str

    def moved(self, matrix: Sequence[float] | Floats) -> _Part:
        return _Part(self.species, self.moments.mapped(matrix), self.board)


def weigh(
    plan: Plan, meshes: Mapping[str, Mesh], table: Mapping[str, Species], moisture: float = 12.0
) -> WeightFindings:
    """Weigh everything of a plan at `moisture` %. meshes: of the stacks by name, in the model. Raises Refusal for a
    moisture outside 0 to 30 %."""
    must_be_moisture(moisture)
    weights = {name: weight_of(table, name, moisture) for name in _woods(plan)}
    runs = _runs(plan)
    blanks, glued, finished = [], [], []
    parts: list[_Part] = []
    notes: list[str] = []
    for stack in plan.stacks:
        sawn = {layer.number: _Part(layer.species, _blank(layer), _board(stack, layer)) for layer in stack.layers}
        for layer in stack.layers:
            name = f"{stack.name} {layer.number}"
            body = ("blank", name, stack.name, layer.number, layer.number, STACK)
            blanks.append(_body(body, [sawn[layer.number]], weights))
        for first, last in runs.get(stack.name, ()):
            body = (
                "glued",
                say("{stack} {first} to {last}", stack=stack.name, first=first, last=last),
                stack.name,
                first,
                last,
                STACK,
            )
            glued.append(_body(body, _as_glued(stack, sawn, first, last), weights))
        mesh = meshes.get(stack.name)
        if mesh is None or not stack.layers:
            notes.append(say("{stack} has no form to be weighed: its wood is left out of the whole.", stack=stack.name))
            continue
        carved = [part.moved(stack.frame) for part in _carved(stack, mesh, plan.joints)]
        body = ("finished", stack.name, stack.name, stack.layers[0].number, stack.layers[-1].number, MODEL)
        finished.append(_body(body, carved, weights))
        parts += carved
    tenons = []
    for joint in plan.joints:
        part = _Part(joint.tenon.species, _tenon(joint), say("tenon {joint}", joint=joint.name))
        tenons.append(_body(("tenon", joint.name, "", 0, 0, MODEL), [part], weights))
        parts.append(part)
    unknown = tuple(name for name, weight in weights.items() if weight is None)
    if any(stack.pins for stack in plan.stacks):
        notes.append(say("Dowels are taken to be of the stack's own wood."))
    whole = _body(("whole", plan.title, "", 0, 0, MODEL), parts, weights) if parts else None
    return WeightFindings(
        moisture,
        tuple(blanks),
        tuple(glued),
        tuple(finished),
        tuple(tenons),
        whole,
        unknown,
        tuple(notes),
        say("density by FPL-GTR-282 (2021) Eq. 4-14; scatter of the gravity by {source}", source=say(SOURCE)),
    )


def _woods(plan: Plan) -> list[str]:
    names = [s.species for s in plan.stacks] + [layer.species for s in plan.stacks for layer in s.layers]
    return list(dict.fromkeys([*names, *(joint.tenon.species for joint in plan.joints)]))


def _board(stack: StackPlan, layer: LayerPlan) -> str:
    return f"{stack.name} {layer.number}"


def _runs(plan: Plan) -> dict[str, tuple[tuple[int, int], ...]]:
    """Runs of layers that are handled as one, by stack: those the glue-up makes, and the whole."""
    made: dict[str, dict[tuple[int, int], None]] = {}
    for set_up in plan.glue_up.set_ups if plan.glue_up is not None else ():
        if set_up.kind == LAYERS and set_up.last > set_up.first:
            made.setdefault(set_up.stack, {})[set_up.first, set_up.last] = None
    for stack in plan.stacks:
        if len(stack.layers) > 1:
            all_of_it = stack.layers[0].number, stack.layers[-1].number
            found = made.setdefault(stack.name, {})
            found.pop(all_of_it, None)
            found[all_of_it] = None
    return {name: tuple(found) for name, found in made.items()}


def _body(
    what: tuple[str, str, str, int, int, str], parts: Sequence[_Part], weights: Mapping[str, float | None]
) -> Body:
    """One body of its parts: kind, name, stack, first and last layer, frame."""
    solid = _sum(part.moments for part in parts)
    density = {part.species: weights[part.species] for part in parts}
    if any(weight is None for weight in density.values()):
        return Body(*what, solid.volume, None, None, _triple(solid.middle))
    boards: dict[str, Moments] = {}
    for part in parts:
        weighed = part.moments.times(density[part.species] or 0.0)
        boards[part.board] = boards.get(part.board, nothing()) + weighed
    total = _sum(boards.values())
    varied = scatter("gravity", total.volume)
    levers = [board.first - board.volume * total.middle for board in boards.values()]
    aside = (varied.cov or 0.0) * np.sqrt(np.sum(np.square(levers), axis=0)) / total.volume
    rows = total.inertia
    return Body(
        *what, solid.volume, total.volume, varied.spread, _triple(total.middle), _triple(aside),
        (_triple(rows[0]), _triple(rows[1]), _triple(rows[2])),
    )  # fmt: skip


def _sum(many: Iterable[Moments]) -> Moments:
    total = nothing()
    for one in many:
        total += one
    return total


def _triple(values: Floats) -> Triple:
    x, y, z = (float(v) for v in values)
    return x, y, z


def _blank(layer: LayerPlan) -> Moments:
    return _sum(_prism(outline, layer.bottom, layer.top) for outline in layer.blank)


def _prism(outline: Outline, bottom: float, top: float) -> Moments:
    return prism_moments([sample(loop, _SAG) for loop in (outline.outer, *outline.holes)], bottom, top)


def _cut(cut: Cut, low: float, high: float) -> Moments:
    """What a cut takes between two heights; one on a tilted axis leans from its outline at one end to the other's."""
    prism = _prism(cut.outline, low, high)
    if cut.outline_end is None:
        return prism
    a, b = (sample(outline.outer, _SAG).mean(axis=0) for outline in (cut.outline, cut.outline_end))
    lean = np.eye(4)
    lean[:2, 2] = (b - a) / (cut.end - cut.start)
    lean[:2, 3] = -lean[:2, 2] * cut.start
    return prism.mapped(lean)


def _dowel(pin: PinPlan, stack: StackPlan) -> Moments:
    """It stands on the ground of its lower hole."""
    foot = stack.layers[pin.interface - 1].top - pin.depth_down
    return _prism(circle(pin.diameter, pin.centre), foot, foot + pin.dowel)


def _as_glued(stack: StackPlan, sawn: Mapping[int, _Part], first: int, last: int) -> list[_Part]:
    """Blanks of a run with all that is cut into them, and the dowels of its own lines."""
    parts = []
    for layer in stack.layers:
        if first <= layer.number <= last:
            parts.append(sawn[layer.number])
            for cut in layer.cuts:
                taken = _cut(cut, cut.start, cut.end).times(-1.0)
                parts.append(_Part(layer.species, taken, _board(stack, layer)))
    pins = [pin for pin in stack.pins if first <= pin.interface < last]
    return [*parts, *(_Part(stack.species, _dowel(pin, stack), "dowels") for pin in pins)]


def _carved(stack: StackPlan, mesh: Mesh, joints: Sequence[JointPlan]) -> list[_Part]:
    """The carved form of one stack in its own frame, without tenons."""
    points = lying(mesh, stack.frame)
    # What rounding leaves below the first plane or above the last belongs to their layers.
    planes = [layer.bottom for layer in stack.layers] + [stack.height]
    planes[0] = min(planes[0], float(points[:, 2].min()))
    planes[-1] = max(planes[-1], float(points[:, 2].max()))
    spans = {j.name: (m.start, m.end) for j in joints for m in j.members if m.stack == stack.name}
    parts = []
    for layer, slab in zip(stack.layers, slab_moments(points, mesh.triangles, planes)):
        parts.append(_Part(layer.species, slab, _board(stack, layer)))
        for cut in layer.cuts:
            if cut.kind == PIN:
                continue
            start, end = cut.start, cut.end
            if cut.kind == MORTISE:  # it runs on through waste that is carved away; in the form the joint's run ends it
                start, end = spans.get(cut.joint or "", (start, end))
            low, high = max(cut.start, start), min(cut.end, end)
            if high > low:
                parts.append(_Part(layer.species, _cut(cut, low, high).times(-1.0), _board(stack, layer)))
    return parts + [part for pin in stack.pins if not pin.waste for part in _pinned(pin, stack)]


def _pinned(pin: PinPlan, stack: StackPlan) -> list[_Part]:
    """The holes of a pin that stays in the piece, and its dowel."""
    lower, upper = stack.layers[pin.interface - 1], stack.layers[pin.interface]
    below = _prism(circle(2 * pin.radius_below, pin.centre), lower.top - pin.depth_down, lower.top)
    above = _prism(circle(2 * pin.radius_above, pin.centre), lower.top, lower.top + pin.depth_up)
    return [
        _Part(lower.species, below.times(-1.0), _board(stack, lower)),
        _Part(upper.species, above.times(-1.0), _board(stack, upper)),
        _Part(stack.species, _dowel(pin, stack), "dowels"),
    ]


def _tenon(joint: JointPlan) -> Moments:
    """The tenon in the model, trimmed where it comes through."""
    start = joint.start + (joint.proud if joint.members and joint.members[0].through else 0.0)
    end = joint.end - (joint.proud if joint.members and joint.members[-1].through else 0.0)
    tenon, axis = joint.tenon, joint.axis
    section = circle(tenon.size[0]) if tenon.section == "round" else rectangle(tenon.size[0], tenon.size[-1])
    matrix = np.eye(4)
    matrix[:3, :3] = np.stack([axis.side, axis.other, axis.along], axis=1)
    matrix[:3, 3] = axis.point
    return _prism(section, start, end).mapped(matrix)
