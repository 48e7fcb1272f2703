"""Mortise and floating tenon along an axis: where it runs in each stack, what it cuts out of each layer, and its
tenon."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np
import shapely
from numpy.typing import NDArray

from freecad_stacklam.lamination.cover import Prism, cover_of, depths_along
from freecad_stacklam.lamination.frame import direction_to_stack, to_model, to_stack
from freecad_stacklam.lamination.mesh import Mesh
from freecad_stacklam.lamination.outline import Outline, polygon_of, rectangle, sample
from freecad_stacklam.lamination.plan import Cut, JointMember, JointPlan, StackPlan, Tenon
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings import JointSettings
from freecad_stacklam.lamination.shadow import slice_surface
from freecad_stacklam.lamination.tolerances import PLANE_SNAP

Floats = NDArray[np.float64]

#: Forms that are further apart along the axis, or deeper in each other, do not meet there, mm.
MEETING_GAP = 1.0
#: Cosine of the largest angle between a joint's axis and the stacking axis that counts as parallel (0.02°).
_PARALLEL = 1.0 - 6e-8
#: Steps across the mortise at which its mouth is felt for.
_FEELERS = (-0.98, -0.5, 0.0, 0.5, 0.98)


@dataclass(frozen=True)
class _Run:
    """The axis in one member: inside the form from `low` to `high` along the joint's direction (mm from its point)."""

    stack: StackPlan
    points: Floats  # of the mesh, in the stack's frame
    mesh: Mesh
    upward: float  # +1 when the joint's direction points up in the stack, −1 down
    centre: Floats  # plan position of the axis in the stack
    height: float  # stack height of the joint's point
    turn: float  # degrees from the stack's x to the section's first side
    low: float
    high: float

    def z(self, along: float) -> float:
        """Stack height of a place on the axis."""
        return self.height + self.upward * along


def place_joint(settings: JointSettings, stacks: Mapping[str, StackPlan], meshes: Mapping[str, Mesh]) -> JointPlan:
    """Run the joint through its two members and measure it.

    stacks and meshes: by name; the meshes in model coordinates. `size` is the mortise; the tenon is smaller by the
    clearance on each face. Raises Refusal when the joint cannot be made as asked.
    """
    name = settings.name
    if settings.section != "square" or len(settings.size) != 1:
        raise Refusal(
            f"Joint “{name}” asks for a {settings.section} section: only a square one with one side can be cut so far."
        )
    if len(settings.embed) != 2:
        raise Refusal(f"Joint “{name}” needs two stacks to join: give a depth in each of two, or “through”.")
    for stack in settings.embed:
        if stack not in stacks:
            raise Refusal(
                f"Joint “{name}” names “{stack}”, which is no stack here: the stacks are {', '.join(stacks)}."
            )
    side = settings.size[0]
    if 2 * settings.clearance >= side:
        raise Refusal(f"The clearance of joint “{name}” leaves no tenon: make it smaller than half of {side:g} mm.")
    first, second = (_runs(settings, stacks[n], meshes[n]) for n in settings.embed)
    lower, upper = _meeting(name, first, second)
    meet = (lower.high + upper.low) / 2

    members, tenon_ends = [], []
    for run, sign in ((lower, -1.0), (upper, 1.0)):
        depth = settings.embed[run.stack.name]
        face = lower.high if run is lower else upper.low
        length = run.high - run.low
        if depth is None:
            far, hold = (run.low if run is lower else run.high), length
        else:
            hold = depth
            if depth + settings.end_room >= length:
                raise Refusal(
                    f"Joint “{name}” would go {depth + settings.end_room:g} mm deep (end room counted) into "
                    f"{run.stack.name}, "
                    f"which is only {length:.1f} mm thick there: make it shallower, or through."
                )
            far = face + sign * (depth + settings.end_room)
        start, end = sorted((run.z(face), run.z(far)))
        members.append(JointMember(run.stack.name, start, end, depth is None, hold))
        tenon_ends.append(face + sign * hold)
    tenon_side = side - 2 * settings.clearance
    tenon = Tenon(
        length=abs(tenon_ends[1] - tenon_ends[0]),
        section=settings.section,
        size=(tenon_side,),
        species=settings.species or lower.stack.species,
    )
    distance, place = min(
        (_cover(settings, run, member) for run, member in zip((lower, upper), members)), key=lambda found: found[0]
    )
    direction = np.asarray(settings.axis, dtype=np.float64)
    direction = direction / np.linalg.norm(direction)
    point = np.asarray(settings.through, dtype=np.float64) + meet * direction
    return JointPlan(
        name=name,
        section=settings.section,
        size=settings.size,
        point=_triple(point),
        direction=_triple(direction),
        clearance=settings.clearance,
        end_room=settings.end_room,
        members=tuple(members),
        tenon=tenon,
        least_cover=distance,
        cover_place=place,
    )


def cut_layers(stack: StackPlan, joint: JointPlan) -> StackPlan:
    """The same stack with the joint's mortise cut into each layer that it crosses.

    In the layer that holds the meeting face the mortise runs on through the waste, so that it can be cut from the
    open side.
    """
    member = next((m for m in joint.members if m.stack == stack.name), None)
    if member is None:
        return stack
    centre, turn = _section_in(stack, joint.point, joint.direction)
    outline = rectangle(joint.size[0], joint.size[-1], (float(centre[0]), float(centre[1])), turn)
    start, end = _through_waste(stack, joint, member)
    layers = []
    for layer in stack.layers:
        low, high = max(start, layer.bottom), min(end, layer.top)
        if high - low > PLANE_SNAP:
            cut = Cut("mortise", outline, low, high, joint.name)
            layer = replace(layer, cuts=(*(c for c in layer.cuts if c.joint != joint.name), cut))
        layers.append(layer)
    return replace(stack, layers=tuple(layers))


def _through_waste(stack: StackPlan, joint: JointPlan, member: JointMember) -> tuple[float, float]:
    """Heights of the mortise with the waste beyond the form's own faces counted in, to the layer's face."""
    meet = float(to_stack(stack.frame, np.array([joint.point]))[0, 2])
    start, end = member.start, member.end
    open_low = member.through or abs(start - meet) < abs(end - meet)
    open_high = member.through or not open_low
    if open_low:
        start = max((layer.bottom for layer in stack.layers if layer.bottom <= start + 1e-9), default=start)
    if open_high:
        end = min((layer.top for layer in stack.layers if layer.top >= end - 1e-9), default=end)
    return start, end


def _triple(values: Floats) -> tuple[float, float, float]:
    return float(values[0]), float(values[1]), float(values[2])


def _section_in(stack: StackPlan, point: tuple[float, ...], direction: tuple[float, ...]) -> tuple[Floats, float]:
    """Plan position of the axis in a stack, and degrees from the stack's x to the first side of the section.

    The first side lies along the model's x, or along its y when the axis runs along x, so that all members agree.
    """
    d = np.asarray(direction, dtype=np.float64) / np.linalg.norm(direction)
    across = np.array([1.0, 0.0, 0.0]) if abs(d[0]) < 0.9 else np.array([0.0, 1.0, 0.0])
    side = direction_to_stack(stack.frame, across - d * (across @ d))
    centre = to_stack(stack.frame, np.array([point]))[0, :2]
    return centre, float(np.degrees(np.arctan2(side[1], side[0])))


def _runs(settings: JointSettings, stack: StackPlan, mesh: Mesh) -> list[_Run]:
    """Every stretch of the axis that lies inside the form."""
    direction = np.asarray(settings.axis, dtype=np.float64)
    direction = direction / np.linalg.norm(direction)
    local = direction_to_stack(stack.frame, direction)
    if abs(local[2]) < _PARALLEL:
        raise Refusal(
            f"Joint “{settings.name}” runs across the layers of {stack.name}: give it the stacking axis, or stack "
            f"along the joint."
        )
    points = to_stack(stack.frame, mesh.vertices)
    centre, turn = _section_in(stack, settings.through, tuple(direction))
    height = float(to_stack(stack.frame, np.array([settings.through]))[0, 2])
    upward = 1.0 if local[2] > 0 else -1.0
    (hits,) = depths_along(points, mesh.triangles, centre[None, :])
    along = np.sort((hits - height) * upward)
    if len(along) < 2:
        raise Refusal(
            f"The axis of joint “{settings.name}” misses {stack.name}: choose a point on the axis that both pieces "
            f"share."
        )
    return [
        _Run(stack, points, mesh, upward, centre, height, turn, float(low), float(high))
        for low, high in zip(along[0::2], along[1::2])
    ]


def _meeting(name: str, first: list[_Run], second: list[_Run]) -> tuple[_Run, _Run]:
    """The two stretches that meet, the earlier along the joint's direction first."""
    pairs = [
        (abs(b.low - a.high), a, b) for one, other in ((first, second), (second, first)) for a in one for b in other
    ]
    gap, lower, upper = min(pairs, key=lambda p: p[0])
    if gap > MEETING_GAP:
        apart = upper.low - lower.high
        how = f"{apart:.1f} mm apart" if apart > 0 else f"{-apart:.1f} mm inside each other"
        raise Refusal(
            f"Joint “{name}”: {lower.stack.name} and {upper.stack.name} are {how} on its axis; move them until they "
            f"touch."
        )
    return lower, upper


def _cover(settings: JointSettings, run: _Run, member: JointMember) -> tuple[float, tuple[float, float, float]]:
    """Least wood around the mortise in one member, and the place in the model. Negative: the mortise breaks out by
    that much."""
    plan = rectangle(settings.size[0], settings.size[0], (float(run.centre[0]), float(run.centre[1])), run.turn)
    mouths = _mouths(run, member, plan)
    out, where = _break_out(run, member, plan, mouths)
    if out > 0:
        return -out, _triple(to_model(run.stack.frame, np.array([where]))[0])
    found = cover_of(run.points, run.mesh.triangles, Prism(sample(plan.outer), member.start, member.end), mouths)
    return found.distance, _triple(to_model(run.stack.frame, np.array([found.place]))[0])


def _mouths(run: _Run, member: JointMember, plan: Outline) -> list[tuple[float, float]]:
    """Ranges of height in which the mortise leaves the form on purpose, felt for across its section."""
    corner = sample(plan.outer)
    middle = corner.mean(axis=0)
    one, two = (corner[1] - corner[0]) / 2, (corner[3] - corner[0]) / 2
    feelers = np.array([middle + i * one + j * two for i in _FEELERS for j in _FEELERS])
    hits = depths_along(run.points, run.mesh.triangles, feelers)
    meet_low = run.z(run.low), run.z(run.high)
    faces = [z for z in meet_low if abs(z - member.start) < 1e-6 or abs(z - member.end) < 1e-6]
    ranges = []
    for face in faces:
        near = [float(h[np.abs(h - face).argmin()]) for h in hits if len(h)]
        ranges.append((min(near), max(near)))
    return ranges


def _break_out(
    run: _Run, member: JointMember, plan: Outline, mouths: list[tuple[float, float]]
) -> tuple[float, tuple[float, float, float]]:
    """How far the mortise stands out of the form anywhere but at its mouths, mm, and where."""
    levels = np.linspace(member.start, member.end, 12)[1:-1]
    levels = np.array([z for z in levels if not any(low <= z <= high for low, high in mouths)])
    if not len(levels):
        levels = np.array([(member.start + member.end) / 2])
    slices = slice_surface(run.points, run.mesh.triangles, run.mesh.twins, [-1e6, *levels.tolist(), 1e6])
    polygon = polygon_of(plan)
    worst, place = 0.0, (0.0, 0.0, 0.0)
    for z, section in zip(levels, slices.just_above[1:-1]):
        outside = polygon.difference(section)
        if outside.area < 1e-3:
            continue
        corners = shapely.get_coordinates(outside)
        distance = (
            shapely.distance(shapely.points(corners), section)
            if not section.is_empty
            else np.full(len(corners), np.inf)
        )
        i = int(np.argmax(distance))
        if distance[i] > worst:
            worst, place = float(distance[i]), (float(corners[i, 0]), float(corners[i, 1]), float(z))
    if not np.isfinite(worst):
        worst = float(plan.outer.points[1][0] - plan.outer.points[0][0])
    return worst, place
