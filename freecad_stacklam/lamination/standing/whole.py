# SPDX-License-Identifier: LGPL-2.1-or-later

"""How every piece of a plan stands. z of the model is up, and the floor is the lowest that there is of a piece."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import radians, tan

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from freecad_stacklam.lamination.findings.loads import LoadCase
from freecad_stacklam.lamination.findings.standing import (
    DIRECTIONS,
    TOUCHING,
    Levelling,
    PieceStanding,
    StandingFindings,
    Tipping,
    TopFound,
)
from freecad_stacklam.lamination.findings.weight import WeightFindings
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.form.pieces import pieces_of, told_apart
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.standing.floor import NEAR_FLOOR, Contact, contacts_of, feet_of, support_of
from freecad_stacklam.lamination.standing.resting import over_floor, resting_plane, tilt_of
from freecad_stacklam.lamination.standing.tipping import (
    GRAVITY,
    Base,
    base_of,
    edge_towards,
    tip_angles,
    tipping_of,
    unloaded,
)
from freecad_stacklam.lamination.standing.weight import weigh
from freecad_stacklam.lamination.tolerances import ROUNDING
from freecad_stacklam.lamination.tops.outlines import Stood, tops_of
from freecad_stacklam.lamination.usage.use import UseSettings, load_cases
from freecad_stacklam.lamination.wood.species import Species

Floats = NDArray[np.float64]

#: A piece that comes to rest further from upright than this, degrees, does not stand as it was modelled: it falls.
FALLS = 3.0
#: A support polygon that holds no larger circle than this radius, mm, is a point or a line: the piece rolls.
ROLLS = 5.0
#: Least angle at which an empty piece may tip, degrees; common practice, no source.
LEAST_ANGLE = 10.0
#: Feet that stand steady on any floor.
STEADY = 3


@dataclass(frozen=True)
class Weighed:
    """Wood of a piece: its mass, kg (None: not known), its centre of mass in the model, mm, and its volume, mm³."""

    mass: float | None
    centre: tuple[float, float, float]
    volume: float


def plan_standing(
    plan: Plan, meshes: Mapping[str, Mesh], use: UseSettings, table: Mapping[str, Species]
) -> StandingFindings:
    """How the pieces of a plan stand. meshes: of the stacks by their names, in the model."""
    return standing_of(plan, meshes, use, weights_from(plan, weigh(plan, meshes, table)))


def weights_from(plan: Plan, found: WeightFindings) -> dict[str, tuple[Weighed, ...]]:
    """The carved wood of each stack by its name; a tenon goes with the first stack of its joint."""
    parts: dict[str, list[Weighed]] = {stack.name: [] for stack in plan.stacks}
    for body in found.finished:
        parts[body.stack].append(Weighed(body.mass, body.middle, body.volume))
    for joint, body in zip(plan.joints, found.tenons):
        if joint.members and joint.members[0].stack in parts:
            parts[joint.members[0].stack].append(Weighed(body.mass, body.middle, body.volume))
    return {name: tuple(some) for name, some in parts.items() if some}


def standing_of(
    plan: Plan, meshes: Mapping[str, Mesh], use: UseSettings, weights: Mapping[str, tuple[Weighed, ...]],
    least_angle: float = LEAST_ANGLE,
) -> StandingFindings:  # fmt: skip
    """How the pieces of a plan stand, their stacks weighing what `weights` say by their names."""
    known = {s.name: meshes[s.name] for s in plan.stacks if s.name in meshes and s.name in weights}
    joined = [[member.stack for member in joint.members] for joint in plan.joints]
    apart = told_apart(joined, known)
    pieces, left_out = [], [apart] if apart else []
    for names in pieces_of(joined, known):
        whole = len(names) > 1 and len(names) == len(known)
        name = plan.title if whole and plan.title else " and ".join(names)
        try:
            pieces.append(piece_standing(name, {n: known[n] for n in names}, use, weights, least_angle))
        except Refusal as refusal:
            left_out.append(f"{name}: {refusal.sentence}")
    return StandingFindings(
        tuple(pieces), use.short_foot, use.soft_floor, use.least_ratio, least_angle, tuple(left_out)
    )


def piece_standing(
    name: str,
    meshes: Mapping[str, Mesh],
    use: UseSettings,
    weights: Mapping[str, tuple[Weighed, ...]],
    least_angle: float,
) -> PieceStanding:
    """How one piece stands. meshes: of its stacks."""
    mass, middle = _together(meshes, weights)
    points = np.vstack([mesh.vertices for mesh in meshes.values()])
    floor = float(points[:, 2].min())
    plane = resting_plane(points, middle)
    falls = tilt_of(plane) > FALLS
    rested = (0.0, 0.0, floor) if falls else plane
    forms = [Stood(n, over_floor(mesh.vertices, rested), mesh) for n, mesh in meshes.items()]
    centre = over_floor(middle[None, :], rested)[0]
    contacts = contacts_of(forms)
    tops = tops_of(forms)
    bases = [
        one
        for reach in (TOUCHING, NEAR_FLOOR)
        if (one := _base(contacts, reach, (mass or 0.0) * GRAVITY, centre, use)) is not None
    ]
    cases = [load for load in load_cases(use) if load.place != "back"]  # that tips backward over no top's edge
    stands = [_stand(base, cases, tops, floor, use.least_ratio) for base in bases]
    best = max(stands, key=lambda stand: stand.worst, default=None)
    support = support_of(contacts)
    inside = -float(shapely.distance(support, shapely.Point(centre[:2]))) if best is None else best.inside
    scribe, heights = _scribe(contacts, rested, floor)
    feet = feet_of(contacts, (support.centroid.x, support.centroid.y), heights, scribe)
    touching = tuple(foot.number for foot in feet if foot.touches)
    high = max(float(form.points[:, 2].max()) for form in forms)
    rock = 0.0 if best is None else use.short_foot / _least_depth(best.base) * tops[0].height
    return PieceStanding(
        name=name, stacks=tuple(meshes), mass=mass, centre=(float(centre[0]), float(centre[1]), float(centre[2])),
        floor=floor, height=high, feet=feet, inside=inside,
        support=_ring(support) if best is None else _points(best.base.corners),
        tip_angle=0.0 if best is None else max(best.angle, 0.0),
        tip_direction=0.0 if best is None else best.direction,
        tip_edge=None if best is None else edge_towards(best.base.corners, best.direction),
        wider=max(float(centre[2]) * tan(radians(least_angle)) - inside, 0.0),
        rolls=best is None, falls=falls, tops=tops, loads=() if best is None else best.loads,
        levelling=Levelling(tilt_of(plane), touching, scribe, rock, len(touching) != STEADY),
        gap=0.0 if best is None else best.base.short - use.short_foot,
        tip_angles=() if best is None else tuple(tip_angles(best.base, np.array(DIRECTIONS)).tolist()),
    )  # fmt: skip


@dataclass(frozen=True, eq=False)
class _Stand:
    """How a piece stands on one base: when it tips empty, and under each load."""

    base: Base
    angle: float
    direction: float
    inside: float
    loads: tuple[Tipping, ...]

    @property
    def worst(self) -> tuple[float, float]:
        """To tell which of two holds better: the least ratio, then the angle."""
        return min((one.ratio for one in self.loads if one.ratio is not None), default=np.inf), self.angle


def _base(contacts: Sequence[Contact], reach: float, weight: float, centre: Floats, use: UseSettings) -> Base | None:
    """What it stands on, feet counted in that hang up to `reach` over the floor; None where that is no more than a
    point or a line. A piece that rocks onto them leans by the most of their gaps."""
    support = support_of(contacts, reach)
    if not isinstance(support, Polygon) or _half_width(support) < ROLLS:
        return None
    gap = max((c.gap for c in contacts if TOUCHING < c.gap <= reach), default=0.0)
    return base_of(support, weight, centre, use.short_foot + gap, use.soft_floor)


def _stand(base: Base, cases: Sequence[LoadCase], tops: tuple[TopFound, ...], floor: float, least: float) -> _Stand:
    loads = tuple(tipping_of(base, load, tops, floor, least) for load in cases if load.tips)
    return _Stand(base, *unloaded(base), loads)


def _together(meshes: Mapping[str, Mesh], weights: Mapping[str, tuple[Weighed, ...]]) -> tuple[float | None, Floats]:
    """Mass and centre of several stacks; the centre by volume where a mass is not known."""
    parts = [part for name in meshes for part in weights[name]]
    known = [part.mass for part in parts if part.mass is not None]
    mass = sum(known) if len(known) == len(parts) else None
    shares = np.array(known if mass is not None else [part.volume for part in parts])
    return mass, np.asarray(shares @ np.array([part.centre for part in parts]) / shares.sum())


def _scribe(
    contacts: Sequence[Contact], rested: tuple[float, float, float], floor: float
) -> tuple[float, tuple[float, ...]]:
    """Height of a scribe line that all feet are cut to, with the piece wedged up as level as it was modelled: that of
    the shortest foot. And how high each foot ends then, above the lowest."""
    a, b, c = rested
    heights = [max(one.gap + a * one.at[0] + b * one.at[1] + c - floor, 0.0) for one in contacts]
    scribe = max(heights, default=0.0)
    return (scribe if scribe > ROUNDING else 0.0), tuple(heights)


def _half_width(area: BaseGeometry) -> float:
    if not isinstance(area, Polygon) or area.is_empty:
        return 0.0
    return float(shapely.maximum_inscribed_circle(area, tolerance=1.0).length)


def _least_depth(base: Base) -> float:
    """Least width of the support polygon: over one of its edges, for it is convex."""
    along = np.roll(base.corners, -1, axis=0) - base.corners
    out = np.column_stack([along[:, 1], -along[:, 0]]) / np.linalg.norm(along, axis=1)[:, None]
    reach = base.corners @ out.T
    return float((reach.max(axis=0) - reach.min(axis=0)).min())


def _points(corners: Floats) -> tuple[tuple[float, float], ...]:
    return tuple((float(x), float(y)) for x, y in corners)


def _ring(area: BaseGeometry) -> tuple[tuple[float, float], ...]:
    line = area.exterior.coords[:-1] if isinstance(area, Polygon) else shapely.get_coordinates(area)
    return tuple((float(x), float(y)) for x, y, *_ in line)
