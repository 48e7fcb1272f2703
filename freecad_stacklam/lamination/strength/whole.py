# SPDX-License-Identifier: LGPL-2.1-or-later

"""The strength of a whole piece by its sections: necks, overhangs, spans, walls, glue lines and joints."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from freecad_stacklam.lamination.findings.loads import LoadCase
from freecad_stacklam.lamination.findings.strength import Curve, NotJudged, SectionFinding, StrengthFindings
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.form.pieces import told_apart
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.strength.across import examine_overhangs
from freecad_stacklam.lamination.strength.along import Body, body_of, glue_lines, heights_of
from freecad_stacklam.lamination.strength.composite import DRY, GLUED, Piece
from freecad_stacklam.lamination.strength.examine import acting_on, examine, on_members
from freecad_stacklam.lamination.strength.joint import examine_joints
from freecad_stacklam.lamination.strength.loads import Edges, Surface
from freecad_stacklam.lamination.strength.members import ON_FLOOR, Level, levels_of
from freecad_stacklam.lamination.strength.planes import areas_at, level_plane
from freecad_stacklam.lamination.strength.spans import examine_spans, examine_walls
from freecad_stacklam.lamination.strength.timber import woods_of
from freecad_stacklam.lamination.tops.seat import seat_of
from freecad_stacklam.lamination.usage.back import with_backs
from freecad_stacklam.lamination.usage.touching import on_piece
from freecad_stacklam.lamination.usage.use import UseSettings, load_cases
from freecad_stacklam.lamination.wood.species import Species
from freecad_stacklam.lamination.words import say

#: Sections that are told of each kind and stack, the worst first.
TOLD = 4
#: Two sections nearer than this in height, mm, are one place of weakness.
SAME_PLACE = 20.0


def plan_strength(
    plan: Plan, meshes: Mapping[str, Mesh], use: UseSettings, table: Mapping[str, Species]
) -> StrengthFindings:
    """What the sections of the finished piece say of its strength under the loads of its use.

    meshes: of the forms, in the model, by the stacks' names; table: the woods. Stacks whose wood is not known well
    enough are left out with a sentence, and so are loads beside the piece.
    """
    timbers, left_out, figures = woods_of(plan, table)
    judged = [s for s in plan.stacks if all(layer.species in timbers for layer in s.layers) and s.name in meshes]
    bodies = tuple(body_of(s, meshes[s.name]) for s in judged)
    lines = tuple(line for body in bodies for line in glue_lines(body))
    way = DRY if use.tenon == DRY else GLUED
    if not bodies:
        return StrengthFindings(way, use.kind, (), (), lines, (), figures, left_out)
    piece = Piece(bodies, plan.joints, timbers)
    bending = [load for load in load_cases(use) if load.bends]
    forms = [meshes[s.name] for s in plan.stacks if s.name in meshes]
    if any(load.place == "back" for load in bending):
        bending = list(with_backs(bending, forms, seat_of(forms).sat))
    loads, beside = on_piece(bending, forms)
    left_out += tuple(NotJudged(name, says) for name, says in beside)
    apart = told_apart([[m.stack for m in j.members] for j in plan.joints], {s.name: meshes[s.name] for s in judged})
    left_out += (NotJudged("parts", apart),) if apart else ()
    levels = _levels(piece)
    edges = Edges(Surface([(b.mesh.vertices, b.mesh.triangles) for b in bodies]))
    necks = examine_necks(piece, levels, loads, edges, way)
    others = [
        *examine_overhangs(piece, levels, loads, edges, way),
        *examine_spans(piece, levels, loads, way),
        *examine_walls(piece, levels, loads, edges, way),
    ]
    told = [*_worst_places([f for _, f in necks]), *_worst_places(others)]
    told.sort(key=_use, reverse=True)
    notes = []
    if any(f.members > 1 for f in told):
        notes.append(say("How several legs share a load is an estimate: each stands on a foot that can turn."))
    if any(not b.upright for b in bodies):
        notes.append(say("A stack that does not stand upright is cut level like the others."))
    joints = examine_joints(piece, levels, loads, edges, way)
    curves = _curves(bodies, necks)
    return StrengthFindings(
        way, use.kind, tuple(told), curves, lines, joints, figures, left_out, tuple(notes), tuple(loads)
    )


def _use(finding: SectionFinding) -> float:
    return max(finding.use, finding.tenon_use)


def _levels(piece: Piece) -> tuple[Level, ...]:
    heights = heights_of(piece.bodies, piece.joints)
    areas = [areas_at(b.mesh.vertices, b.mesh.triangles, heights) for b in piece.bodies]
    return levels_of(heights, list(zip(*areas)))


def examine_necks(
    piece: Piece, levels: Sequence[Level], loads: Sequence[LoadCase], edges: Edges, way: str
) -> list[tuple[float, SectionFinding]]:
    """Of every member at every height and every load, the worst of its section: heights and findings."""
    found = []
    floor = levels[0].height if levels else 0.0
    for k, level in enumerate(levels):
        if level.height < floor + ON_FLOOR:
            continue  # pressed by the floor, in lines and points that no section knows
        plane = level_plane(level.height)
        for group in level.groups:
            acting = acting_on(group, level.height, loads, edges)
            if not acting or not group.members:
                continue
            for m, of in zip(group.members, on_members(levels, k, group, acting), strict=True):
                areas = [(i.stack, i.area) for i in level.members[m].islands]
                findings = examine("neck", piece, areas, plane, of, way, len(group.members))
                found += [(level.height, f) for f in findings]
    return found


def _worst_places(findings: Sequence[SectionFinding]) -> list[SectionFinding]:
    """Of each kind and stack the few worst places, each under its worst load."""
    kept: list[SectionFinding] = []
    count: dict[tuple[str, str], int] = {}
    for finding in sorted(findings, key=_use, reverse=True):
        key = finding.kind, finding.stack
        if count.get(key, 0) >= TOLD:
            continue
        near = (
            other for other in kept
            if (other.kind, other.stack) == key
            and (finding.kind != "neck" or abs(other.height - finding.height) < SAME_PLACE)
            and (finding.kind == "neck" or _apart(other, finding) < 2 * SAME_PLACE)
        )  # fmt: skip
        if next(near, None) is None:
            kept.append(finding)
            count[key] = count.get(key, 0) + 1
    return kept


def _apart(one: SectionFinding, other: SectionFinding) -> float:
    return float(np.linalg.norm(np.subtract(one.place, other.place)))


def _curves(bodies: Sequence[Body], necks: Sequence[tuple[float, SectionFinding]]) -> tuple[Curve, ...]:
    """Of each stack the use at every height under the load that is worst for it, of the worst member there."""
    found = []
    for body in bodies:
        mine = [(z, f) for z, f in necks if f.stack == body.stack.name]
        if not mine:
            continue
        load = max(mine, key=lambda one: _use(one[1]))[1].load
        at: dict[float, SectionFinding] = {}
        for z, f in mine:
            if f.load == load and (z not in at or _use(f) > _use(at[z])):
                at[z] = f
        heights = sorted(at)
        found.append(
            Curve(
                body.stack.name, load, tuple(heights), tuple(at[z].use for z in heights),
                tuple(at[z].whole for z in heights), tuple(at[z].tenon_use for z in heights),
            )
        )  # fmt: skip
    return tuple(found)
