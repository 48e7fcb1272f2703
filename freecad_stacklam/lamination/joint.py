"""Mortise and floating tenon along an axis: where it runs in each stack, its tenon, and the wood left around it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise, product

import numpy as np
import shapely
from numpy.typing import NDArray

from freecad_stacklam.lamination.boring import borings_of, wedge_of
from freecad_stacklam.lamination.cover import Mouth, Prism, cover_of, depths_along, mouth_of
from freecad_stacklam.lamination.frame import direction_to_stack
from freecad_stacklam.lamination.jointaxis import JointAxis, convex_plan, joint_axis, section_outline
from freecad_stacklam.lamination.mesh import Mesh
from freecad_stacklam.lamination.mortise import grain_side, mortise_span, movements, relief_for
from freecad_stacklam.lamination.outline import polygon_of
from freecad_stacklam.lamination.plan import JointMember, JointPlan, StackPlan, Tenon
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings import JointSettings
from freecad_stacklam.lamination.shadow import slice_surface
from freecad_stacklam.lamination.wood import Species

Floats = NDArray[np.float64]

#: Forms that are further apart along the axis, or deeper in each other, do not meet there, mm.
MEETING_GAP = 1.0
#: An axis nearer than this to the plane of the layers (sine of 30°) is no mortise across them.
_ACROSS = 0.5
#: Steps across the mortise at which its mouth is felt for.
_FEELERS = (-0.98, -0.5, 0.0, 0.5, 0.98)
#: More stretches of an axis inside one form than this are not sorted out.
_MOST_RUNS = 6


@dataclass(frozen=True, eq=False)
class _Run:
    """The axis in one member: inside the form from `low` to `high` along the joint's direction (mm from its point)."""

    stack: StackPlan
    mesh: Mesh
    points: Floats  # of the mesh, in the joint's frame
    low: float
    high: float
    alone: bool  # no other stretch of the axis lies in this form


def place_joint(
    settings: JointSettings,
    stacks: Mapping[str, StackPlan],
    meshes: Mapping[str, Mesh],
    table: Mapping[str, Species] | None = None,
) -> JointPlan:
    """Run the joint through its members and measure it.

    stacks and meshes: by name; the meshes in model coordinates. table: species, for the movement of the tenon in its
    mortise; without it no relief is cut. Raises Refusal when the joint cannot be made as asked.
    """
    name = settings.name
    if len(settings.embed) < 2:
        raise Refusal(f"Joint “{name}” needs two stacks to join: give a depth in each of them, or “through”.")
    for stack in settings.embed:
        if stack not in stacks:
            raise Refusal(
                f"Joint “{name}” names “{stack}”, which is no stack here: the stacks are {', '.join(stacks)}."
            )
    axis = joint_axis(settings.through, settings.axis, settings.turn)
    chain = _chain(name, [_runs(settings, axis, stacks[n], meshes[n]) for n in settings.embed])
    plan = section_outline(settings.section, settings.size)
    feelers = _feelers(convex_plan(plan))

    spans, members, covers = [], [], []
    for i, (run, mouths) in enumerate(zip(chain, _mouths(chain, feelers))):
        span, hold, tenon = _span(settings, run, mouths, first=i == 0, last=i == len(chain) - 1)
        spans.append((*span, *tenon))
        through = settings.embed[run.stack.name] is None
        low, high = mortise_span(run.stack, axis, plan, span)
        member = JointMember(run.stack.name, low, high, through, hold)
        members.append(_moving(settings, axis, run.stack, member, stacks[chain[0].stack.name].species, table))
        open_ends = [
            m for m, face in zip(mouths, (run.low, run.high)) if min(abs(face - s) for s in span) < 1e-6 or through
        ]
        covers.append(_cover(name, run, axis, plan, span, open_ends))

    meet = (chain[0].high + chain[1].low) / 2
    start, end = spans[0][2], spans[-1][3]
    proud = settings.proud if settings.ends != "flush" else 0.0
    start -= proud if members[0].through else 0.0
    end += proud if members[-1].through else 0.0
    distance, place = min(covers, key=lambda found: found[0])
    joint = JointPlan(
        name=name,
        section=settings.section,
        size=settings.size,
        point=_triple(axis.point + meet * axis.along),
        direction=_triple(axis.along),
        clearance=settings.clearance,
        end_room=settings.end_room,
        members=tuple(members),
        tenon=Tenon(
            length=end - start,
            section=settings.section,
            size=tuple(s - 2 * settings.clearance for s in settings.size),
            species=settings.species or chain[0].stack.species,
        ),
        least_cover=distance,
        cover_place=place,
        turn=settings.turn,
        start=start - meet,
        end=end - meet,
        proud=proud,
        swing=settings.swing,
    )
    if settings.ends == "wedged":
        joint = replace(
            joint,
            members=tuple(_wedged(joint, m, stacks[m.stack], axis, m in (members[0], members[-1])) for m in members),
        )
    return replace(
        joint, drilling=borings_of(joint, [stacks[m.stack] for m in members], settings.bits, settings.chisel_reach)
    )


def _triple(values: Floats) -> tuple[float, float, float]:
    return float(values[0]), float(values[1]), float(values[2])


def _runs(settings: JointSettings, axis: JointAxis, stack: StackPlan, mesh: Mesh) -> list[_Run]:
    """Every stretch of the axis that lies inside the form."""
    if abs(direction_to_stack(stack.frame, axis.along)[2]) < _ACROSS:
        raise Refusal(
            f"Joint “{settings.name}” runs across the layers of {stack.name}, less than 30° to them: give it an axis "
            "nearer to the stacking axis, or stack along the joint."
        )
    points = axis.local(mesh.vertices)
    (hits,) = depths_along(points, mesh.triangles, np.zeros((1, 2)))
    if len(hits) < 2:
        raise Refusal(
            f"The axis of joint “{settings.name}” misses {stack.name}: choose a point on the axis that both pieces "
            f"share."
        )
    pairs = list(zip(hits[0::2], hits[1::2]))
    if len(pairs) > _MOST_RUNS:
        raise Refusal(
            f"The axis of joint “{settings.name}” passes in and out of {stack.name} {len(pairs)} times: move it into "
            f"solid wood."
        )
    return [_Run(stack, mesh, points, float(a), float(b), len(pairs) == 1) for a, b in pairs]


def _chain(name: str, choices: Sequence[Sequence[_Run]]) -> list[_Run]:
    """One stretch of each member, in their order along the axis, such that neighbours meet."""
    best: tuple[float, list[_Run]] | None = None
    for picked in product(*choices):
        chain = sorted(picked, key=lambda run: run.low + run.high)
        gap = max(abs(b.low - a.high) for a, b in pairwise(chain))
        if best is None or gap < best[0]:
            best = gap, chain
    assert best is not None
    gap, chain = best
    if gap > MEETING_GAP:
        one, two = max(pairwise(chain), key=lambda pair: abs(pair[1].low - pair[0].high))
        apart = two.low - one.high
        how = f"{apart:.1f} mm apart" if apart > 0 else f"{-apart:.1f} mm inside each other"
        raise Refusal(
            f"Joint “{name}”: {one.stack.name} and {two.stack.name} are {how} on its axis; move them until they touch."
        )
    return chain


def _feelers(plan: Floats) -> Floats:
    low, high = plan.min(axis=0), plan.max(axis=0)
    middle, half = (low + high) / 2, (high - low) / 2
    grid = np.array([middle + half * (i, j) for i in _FEELERS for j in _FEELERS])
    inside = shapely.contains_xy(shapely.Polygon(plan), grid[:, 0], grid[:, 1])
    return np.vstack([np.zeros((1, 2)), grid[inside], plan])


def _faces(run: _Run, feelers: Floats) -> Floats:
    """Where the section's feelers meet the form nearest to its low and to its high face, F × 2; NaN where they miss."""
    hits = depths_along(run.points, run.mesh.triangles, feelers)
    return np.array(
        [[h[np.abs(h - face).argmin()] if len(h) else np.nan for face in (run.low, run.high)] for h in hits]
    )


def _mouths(chain: Sequence[_Run], feelers: Floats) -> list[list[Mouth]]:
    """For each member the depths at which the joint passes its low and its high face on purpose.

    Between two members that is where both faces are: a corner of the section that passes one piece's edge is no
    mouth. At
    the free ends it is wherever the surface lies across the axis, less than 60° to it.
    """
    felt = [_faces(run, feelers) for run in chain]
    reach = np.hypot(*feelers.T) * np.tan(np.radians(60))
    mouths = []
    for i, run in enumerate(chain):
        ends = []
        for face, column, neighbour in ((run.low, 0, i - 1), (run.high, 1, i + 1)):
            depth = felt[i][:, column]
            if 0 <= neighbour < len(chain):
                own = np.abs(depth - felt[neighbour][:, 1 - column]) <= MEETING_GAP
            else:
                own = np.abs(depth - face) <= reach + 1e-6
            own &= ~np.isnan(depth)
            ends.append(mouth_of(np.vstack([[0.0, 0.0, face], np.column_stack([feelers[own], depth[own]])])))
        mouths.append(ends)
    return mouths


def _span(
    settings: JointSettings, run: _Run, mouths: list[Mouth], *, first: bool, last: bool
) -> tuple[tuple[float, float], float, tuple[float, float]]:
    """Where the mortise runs in one member, how much tenon it holds, and where the tenon begins and ends there."""
    depth, length = settings.embed[run.stack.name], run.high - run.low
    if depth is None:
        if not run.alone:
            raise Refusal(
                f"Joint “{settings.name}” cannot go through {run.stack.name}: its axis passes a void there; give it "
                f"a depth, "
                "or move it."
            )
        return (
            (run.low, run.high),
            length,
            (min(run.low, mouths[0].low) if first else run.low, max(run.high, mouths[1].high)),
        )
    if not (first or last):
        raise Refusal(
            f"Joint “{settings.name}” must go through {run.stack.name}, which lies between the others: write “through”."
        )
    deep = depth + settings.end_room
    if deep >= length:
        raise Refusal(
            f"Joint “{settings.name}” would go {deep:g} mm deep (end room counted) into {run.stack.name}, "
            f"which is only {length:.1f} mm thick there: make it shallower, or through."
        )
    if first:
        return (run.high - deep, run.high), depth, (run.high - depth, run.high)
    return (run.low, run.low + deep), depth, (run.low, run.low + depth)


def _moving(
    settings: JointSettings,
    axis: JointAxis,
    stack: StackPlan,
    member: JointMember,
    species: str,
    table: Mapping[str, Species] | None,
) -> JointMember:
    """The member with its movement over the season and the relief for it."""
    if table is None:
        return replace(member, relief=settings.relief or 0.0)
    side = grain_side(axis, stack)
    across_grain = settings.size[side if len(settings.size) == 2 else 0]
    other = settings.size[1 - side if len(settings.size) == 2 else 0]
    along, across = movements(
        across_grain, other, table.get(settings.species or species), table.get(stack.species), settings.swing
    )
    relief = settings.relief if settings.relief is not None else relief_for(along, settings.clearance)
    return replace(
        member,
        movement_along=along,
        movement_across=across,
        relief=0.0 if settings.section == "round" and settings.relief is None else relief,
    )


def _wedged(joint: JointPlan, member: JointMember, stack: StackPlan, axis: JointAxis, at_end: bool) -> JointMember:
    if not (member.through and at_end):
        return member
    return replace(member, wedge=wedge_of(joint, member, stack, axis))


def _cover(
    name: str,
    run: _Run,
    axis: JointAxis,
    plan: shapely.Geometry,
    span: tuple[float, float],
    mouths: list[Mouth],
) -> tuple[float, tuple[float, float, float]]:
    """Least wood around the mortise in one member, and the place in the model. Negative: it breaks out by that much."""
    out, where, everywhere = _break_out(run, plan, span, mouths)
    if everywhere:
        raise Refusal(f"The mortise of joint “{name}” is wider than {run.stack.name} all along it: make it smaller.")
    if out > 0:
        return -out, _triple(axis.model(np.array([where]))[0])
    found = cover_of(run.points, run.mesh.triangles, Prism(convex_plan(plan), *span), mouths)
    return found.distance, _triple(axis.model(np.array([found.place]))[0])


def _break_out(
    run: _Run, plan: shapely.Geometry, span: tuple[float, float], mouths: list[Mouth]
) -> tuple[float, tuple[float, float, float], bool]:
    """How far the mortise stands out of the form anywhere but at its mouths, mm, where, and whether it does so
    everywhere."""
    levels = np.linspace(*span, 14)[1:-1]
    inner = np.array([z for z in levels if not any(m.low <= z <= m.high for m in mouths)])
    levels = inner if len(inner) else np.array([sum(span) / 2])
    slices = slice_surface(run.points, run.mesh.triangles, run.mesh.twins, [-1e6, *levels.tolist(), 1e6])
    polygon = polygon_of(plan)
    worst, place, short = 0.0, (0.0, 0.0, 0.0), 0
    for z, section in zip(levels, slices.just_above[1:-1]):
        outside = polygon.difference(section)
        if outside.area < 1e-3:
            continue
        short += 1
        corners = shapely.get_coordinates(outside)
        distance = shapely.distance(shapely.points(corners), section)
        i = int(np.argmax(np.nan_to_num(distance, nan=np.inf)))
        if distance[i] > worst:
            worst, place = float(distance[i]), (float(corners[i, 0]), float(corners[i, 1]), float(z))
    return worst, place, short == len(levels)
