# SPDX-License-Identifier: LGPL-2.1-or-later

"""One section under several loads, with the tenon as it is set, both ways of sawing: what is told of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np
import shapely
from numpy.typing import NDArray

from freecad_stacklam.lamination.findings.loads import LoadCase
from freecad_stacklam.lamination.findings.strength import Point, SectionFinding
from freecad_stacklam.lamination.form.frame import to_stack
from freecad_stacklam.lamination.strength.along import layer_at
from freecad_stacklam.lamination.strength.composite import DRY, GLUED, WHOLE, Composite, Piece, composite_of, holes_on
from freecad_stacklam.lamination.strength.loads import Edges, Pushes, pushes_of, shared
from freecad_stacklam.lamination.strength.members import Group, Level, feet_of
from freecad_stacklam.lamination.strength.necks import LIMIT, Judged, judge, round_that_does
from freecad_stacklam.lamination.strength.planes import Plane
from freecad_stacklam.lamination.strength.timber import RINGS
from freecad_stacklam.lamination.wood.scatter import VARIATION
from freecad_stacklam.lamination.wood.strengths import duration_factor

Floats = NDArray[np.float64]
#: What a plane cuts: numbers of stacks, and their areas on it.
Areas = Sequence[tuple[int, shapely.Geometry]]
#: Within this angle, degrees, of the grain or square to it a strength is the table's own, with its variation.
NEARLY = 1.0


@dataclass(frozen=True, eq=False)
class Acting:
    """A load, the ways in which it acts on a section, and the couples with them (None: none)."""

    load: LoadCase
    pushes: Pushes
    couples: Floats | None = None


def examine(
    kind: str, piece: Piece, areas: Areas, plane: Plane, acting: Sequence[Acting], way: str, members: int = 1
) -> list[SectionFinding]:
    """The worst of the section under each of the loads, in their order; none where there is no wood, or it is not known
    well enough. way: GLUED or DRY."""
    holes = {i: holes_on(piece.bodies[i], plane) for i, _ in areas}
    mortised = any(not one.mortises.is_empty for one in holes.values())
    made = [(RINGS[0], composite_of(piece, areas, plane, RINGS[0], way if mortised else DRY, holes))]
    several = made[0][1] is not None and len({m.layer for m in made[0][1].materials}) > 1
    if several:
        made.append((RINGS[1], composite_of(piece, areas, plane, RINGS[1], way if mortised else DRY, holes)))
    whole = composite_of(piece, areas, plane, RINGS[0], WHOLE, holes) if mortised else None
    found = []
    for one in acting:
        factor = duration_factor(one.load.lasting)
        cases = [(judge(m, plane, one.pushes, factor, one.couples), m, rings) for rings, m in made if m is not None]
        if not cases:
            return []
        judged, composite, rings = max(cases, key=lambda case: max(case[0].use, case[0].tenon_use))
        tenon = max(case[0].tenon_use for case in cases)
        bare = judge(whole, plane, one.pushes, factor, one.couples).use if whole is not None else judged.use
        found.append(_told(kind, piece, plane, one, judged, composite, rings, tenon, bare, factor, members, way))
    return found


def _told(
    kind: str, piece: Piece, plane: Plane, acting: Acting, judged: Judged, made: Composite, rings: str,
    tenon: float, bare: float, factor: float, members: int, way: str,
) -> SectionFinding:  # fmt: skip
    material, section = made.materials[judged.part], made.section
    greatest, least, _ = section.principal
    width = _width(kind, made, plane, judged)
    do = 0.0
    if judged.use > LIMIT:
        does_round = kind == "neck"
        do = round_that_does(judged, material.grade, factor) if does_round else width * sqrt(judged.use / LIMIT)
    at = acting.pushes.places[judged.load]
    body = next(b for b in piece.bodies if b.stack.name == material.stack)
    layer = material.layer or layer_at(body, float(to_stack(body.stack.frame, judged.place[None, :])[0, 2])).number
    return SectionFinding(
        kind, material.stack, layer, material.species, _point(judged.place), acting.load.name, _point(at),
        acting.load.lasting, section.area, greatest, least, section.modulus, judged.bending, judged.axial, judged.shear,
        judged.strength, _variation(material.grade.angle, judged.bending + judged.axial), material.grade.angle,
        judged.use, tenon, bare, made.tenon and way == GLUED, rings, width, do, LIMIT if do else 0.0, members,
    )  # fmt: skip


def _variation(angle: float, stress: float) -> float | None:
    """Of the strength that was used: known along the grain, and across it in compression; not of tension across, and of
    what Hankinson mixes neither."""
    if angle < NEARLY:
        return VARIATION.get("bending")
    if angle > 90.0 - NEARLY:
        return VARIATION.get("tension_across" if stress > 0 else "compression_across")
    return None


def _width(kind: str, made: Composite, plane: Plane, judged: Judged) -> float:
    """Of a neck from the worst fibre over its middle to the other side; of what overhangs or spans its depth; of a wall
    its thickness the weak way, mm."""
    corners = np.concatenate([p.corners for p in made.section.parts])
    if kind in ("overhang", "span"):
        return float(np.ptp(corners[:, 1]))
    if kind == "wall":
        return 2 * made.section.principal[1] / made.section.modulus
    at = plane.local(judged.place[None, :])[0, :2] - np.array(made.section.centre)
    away = float(np.hypot(*at))
    return float(np.ptp(corners @ (at / away))) if away > 0 else 0.0


def _point(at: Floats) -> Point:
    return float(at[0]), float(at[1]), float(at[2])


def acting_on(group: Group, height: float, loads: Sequence[LoadCase], edges: Edges) -> list[Acting]:
    """The loads that stand on a group, and how."""
    pushes = ((load, pushes_of(load, group, height, edges)) for load in loads)
    return [Acting(load, one) for load, one in pushes if one is not None]


def on_members(levels: Sequence[Level], k: int, group: Group, acting: Sequence[Acting]) -> list[list[Acting]]:
    """Of each member of the group, what acts on its section."""
    if len(group.members) == 1:
        return [list(acting)]
    feet = np.array([[*at, height] for at, height, _ in feet_of(levels, k, group)])
    shares = [(one.load, shared(one.pushes, feet)) for one in acting]
    return [[Acting(load, *of[i]) for load, of in shares] for i in range(len(feet))]
