# SPDX-License-Identifier: LGPL-2.1-or-later

"""Section templates: the finished profile at any plane, and gauges that are slid against the piece.

A template lies in its own plane: u along `across`, v along `up`, from its origin. The section is the mesh's own, cut by
the one pass that cuts the layers, with the form turned so that the plane lies level. A gauge holds all of its rectangle
that can be reached from its side without passing wood, so it can always be brought to the piece and taken away.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import cos, pi, sin

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import affinity
from shapely.geometry import MultiPolygon, Polygon

from freecad_stacklam.lamination.form.frame import direction_to_stack, lying, to_stack
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.layers.shadow import slice_surface
from freecad_stacklam.lamination.lengths import format_length
from freecad_stacklam.lamination.plan.carving import DatumLine, Gauge, Point3, SectionTemplate
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.carving import SIDES, PickedPlane
from freecad_stacklam.lamination.tolerances import LEVEL, ROUNDING
from freecad_stacklam.lamination.words import say

Floats = NDArray[np.float64]

#: Sections smaller than this, mm², are a touch and no cut.
_TOUCH = 1.0
#: How far a profile may turn back under itself, mm on average, before a gauge is said to span it.
_UNDERCUT = 0.1
#: Quarter turns to the left that bring a side to the right.
_TURNS = {"right": 0, "above": 3, "left": 2, "below": 1}
_FAR = 1e7
#: Strips of a profile that are viewed at a time, so that memory stays small.
_BATCH = 256


@dataclass(frozen=True)
class SectionPlane:
    """A plane in the stack's frame: a point and two unit directions square to each other."""

    name: str
    kind: str
    origin: Point3
    across: Point3
    up: Point3
    azimuth: float | None = None

    @property
    def normal(self) -> Floats:
        """Across × up."""
        return np.cross(self.across, self.up)


def vertical_plane(azimuth: float, centre: tuple[float, float] = (0.0, 0.0)) -> SectionPlane:
    """The plane through the stack's axis (or another upright through `centre`) that shows `azimuth` (degrees from
    the stack's x) on its right."""
    c, s = cos(azimuth * pi / 180), sin(azimuth * pi / 180)
    return SectionPlane(
        say("at {direction:g}°", direction=azimuth), "vertical", (*centre, 0.0), (c, s, 0.0), (0.0, 0.0, 1.0), azimuth
    )


def level_plane(height: float, name: str = "", units: str = "mm") -> SectionPlane:
    """The plane at a height of the stack, mm, seen from above. units: those that its name is written in."""
    name = name or say("at height {height}", height=format_length(height, units))
    return SectionPlane(name, "level", (0.0, 0.0, height), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0))


def picked_plane(stack: StackPlan, picked: PickedPlane) -> SectionPlane:
    """A plane of the model in a stack's frame. Its `up` is the steepest direction in it, or y where it lies level; its
    origin is the foot of the stack's datum on it."""
    normal = direction_to_stack(stack.frame, picked.normal)
    normal = normal / np.linalg.norm(normal)
    up = np.array([0.0, 0.0, 1.0]) if abs(normal[2]) < 0.999 else np.array([0.0, 1.0, 0.0])
    up = up - normal * (up @ normal)
    up /= np.linalg.norm(up)
    point = to_stack(stack.frame, np.array([picked.point]))[0]
    origin = normal * (point @ normal)
    return SectionPlane(picked.name, "plane", _triple(origin), _triple(np.cross(up, normal)), _triple(up))


def section_by(points: Floats, mesh: Mesh, plane: SectionPlane) -> MultiPolygon:
    """The form's section by a plane, in plane coordinates; empty where it misses.

    points: N × 3 of the mesh in the stack's frame. A face that lies in the plane is part of the section.
    """
    axes = np.stack([plane.across, plane.up, plane.normal])
    turned = (points - np.array(plane.origin)) @ axes.T
    slices = slice_surface(turned, mesh.triangles, mesh.twins, [-_FAR, 0.0, _FAR])
    return max(slices.just_below[1], slices.just_above[1], key=lambda area: float(area.area))


def template(
    stack: StackPlan,
    mesh: Mesh,
    plane: SectionPlane,
    *,
    gauges: Sequence[str] = ("right", "left"),
    clearance: float = 0.0,
    margin: float = 40.0,
) -> SectionTemplate:
    """The section template of one stack at one plane, with the stations of the glue lines marked.

    mesh: the form in the model. gauges: the sides to make gauges for; the profile is grown by `clearance` for them and
    `margin` mm of wood stands around it. Raises Refusal when the plane misses the form.
    """
    form = section_by(lying(mesh, stack.frame), mesh, plane)
    if form.area < _TOUCH:
        raise Refusal(
            say(
                "The plane “{plane}” misses {stack}: move it into the form, or change its direction or height.",
                plane=plane.name,
                stack=stack.name,
            )
        )
    made = [gauge(form, side, clearance=clearance, margin=margin, stands=plane.kind == "vertical") for side in gauges]
    return SectionTemplate(
        stack.name, plane.name, plane.kind, plane.origin, plane.across, plane.up, plane.azimuth, form, tuple(made),
        marks_on(stack, plane, form, margin),
    )  # fmt: skip


def job_templates(
    stacks: Sequence[StackPlan],
    meshes: Sequence[Mesh],
    azimuths: Sequence[float],
    planes: Sequence[PickedPlane] = (),
    levels: bool = False,
    units: str = "mm",
    *,
    gauges: Sequence[str] = ("right", "left"),
    clearance: float = 0.0,
    margin: float = 40.0,
) -> tuple[SectionTemplate, ...]:
    """All templates of a job: vertical ones through each stack's axis, picked planes in every stack they meet, and
    one at every glue line. azimuths: degrees from the stack's x. clearance, margin: as in `gauge`, mm.
    Raises Refusal when a picked plane, or an azimuth, misses everything.

    A stack whose axis cross lies outside it is cut through its middle instead.
    """
    made: list[SectionTemplate] = []
    missed = {picked.name for picked in planes}
    for stack, mesh in zip(stacks, meshes):
        points = lying(mesh, stack.frame)
        wanted = [_through_middle(stack, points, mesh, a) for a in azimuths]
        if levels:
            wanted += [
                level_plane(low.top, say("glue line {low}/{high}", low=low.number, high=high.number), units)
                for low, high in zip(stack.layers[:-1], stack.layers[1:])
            ]
        made += [template(stack, mesh, p, gauges=gauges, clearance=clearance, margin=margin) for p in wanted]
        for picked in planes:
            plane = picked_plane(stack, picked)
            if section_by(points, mesh, plane).area >= _TOUCH:
                missed.discard(picked.name)
                made.append(template(stack, mesh, plane, gauges=gauges, clearance=clearance, margin=margin))
    if missed:
        raise Refusal(
            say("The plane “{plane}” misses every form: move it, or turn its normal.", plane=sorted(missed)[0])
        )
    return tuple(made)


def _through_middle(stack: StackPlan, points: Floats, mesh: Mesh, azimuth: float) -> SectionPlane:
    plane = vertical_plane(azimuth)
    if section_by(points, mesh, plane).area >= _TOUCH:
        return plane
    low, high = points.min(axis=0), points.max(axis=0)
    moved = vertical_plane(azimuth, (float(low[0] + high[0]) / 2, float(low[1] + high[1]) / 2))
    return replace(moved, name=say("at {direction:g}° through the middle", direction=azimuth))


def gauge(
    form: MultiPolygon, side: str, *, clearance: float = 0.0, margin: float = 40.0, stands: bool = False
) -> Gauge:
    """The gauge for one side of a profile, in the profile's own coordinates.

    The profile is grown by `clearance` mm for it. From the right and the left its rectangle runs from the origin's
    upright, otherwise (and where that lies outside the profile) from the profile's middle, to `margin` mm beyond the
    profile. Where it `stands`, a right or left gauge ends flush with the foot of the profile, to stand on the bench
    beside it. Raises Refusal for an unknown side.
    """
    if side not in SIDES:
        raise Refusal(say("A gauge cannot be held from “{side}”: choose {names}.", side=side, names=", ".join(SIDES)))
    turns = _TURNS[side]
    grown = form if clearance <= 0 else shapely.buffer(form, clearance / cos(pi / 128), quad_segs=32)
    turned = _quarter(grown, turns)
    u0, v0, u1, v1 = turned.bounds
    aside = side in ("right", "left")
    inner = 0.0 if aside and u0 <= 0.0 <= u1 else (u0 + u1) / 2
    # A standing gauge ends at the profile's foot, which in the frame turned by a half circle is above.
    foot = stands and aside
    low = v0 if foot and side == "right" else v0 - margin
    high = v1 if foot and side == "left" else v1 + margin
    edge = np.array([(max(u, inner), v) for u, v in _rightmost(turned)])
    line = np.vstack([[inner, low], [inner, v0], edge, [inner, v1], [inner, high]])
    area = shapely.make_valid(Polygon(np.vstack([line, [u1 + margin, high], [u1 + margin, low]])))
    if foot and clearance > 0:
        _, foot_low, _, foot_high = _quarter(form, turns).bounds
        keep = (foot_low, high) if side == "right" else (low, foot_high)
        area = area.intersection(shapely.box(inner, keep[0], u1 + margin, keep[1]))
    # What lies between the inner edge and the view, and is no wood, is out of reach.
    seen = Polygon(np.vstack([[inner, v0], edge, [inner, v1]])).area
    wood = shapely.clip_by_rect(turned, inner, v0 - 1.0, u1 + 1.0, v1 + 1.0).area
    spans = bool(seen - wood > max(_TOUCH, _UNDERCUT * (v1 - v0)))
    parts = [p for p in shapely.get_parts(_quarter(area, -turns)) if isinstance(p, Polygon) and p.area > 0]
    return Gauge(side, MultiPolygon(parts), spans)


def _quarter(shape: shapely.Geometry, turns: int) -> shapely.Geometry:
    """Turned to the left by exact quarter circles."""
    c, s = ((1, 0), (0, 1), (-1, 0), (0, -1))[turns % 4]
    return affinity.affine_transform(shape, (c, -s, s, c, 0.0, 0.0))


def _rightmost(area: shapely.Geometry) -> Floats:
    """The profile as seen from the far right: points (u, v) from the lowest to the highest v, with steps where the
    view jumps, far to the left where there is no wood. Between two corners' heights one edge is outermost."""
    rings = [
        shapely.get_coordinates(r)
        for p in shapely.get_parts(area)
        if isinstance(p, Polygon)
        for r in (p.exterior, *p.interiors)
    ]
    a = np.concatenate([r[:-1] for r in rings])
    b = np.concatenate([r[1:] for r in rings])
    sloped = a[:, 1] != b[:, 1]
    a, b = a[sloped], b[sloped]
    rising = (a[:, 1] < b[:, 1])[:, None]
    low, high = np.where(rising, a, b), np.where(rising, b, a)
    levels = np.unique(np.concatenate([low[:, 1], high[:, 1]]))
    levels = levels[np.append(True, np.diff(levels) > ROUNDING)]
    slope = (high[:, 0] - low[:, 0]) / (high[:, 1] - low[:, 1])
    view: list[tuple[float, float]] = []
    for first in range(0, len(levels) - 1, _BATCH):
        v0, v1 = levels[first:-1][:_BATCH], levels[first + 1 :][:_BATCH]
        middle = ((v0 + v1) / 2)[:, None]
        there = (low[:, 1] < middle) & (middle < high[:, 1])
        u = np.where(there, low[:, 0] + slope * (middle - low[:, 1]), -_FAR)
        out = u.argmax(axis=1)
        for k, i in enumerate(out.tolist()):
            for v in (float(v0[k]), float(v1[k])):
                point = (float(low[i, 0] + slope[i] * (v - low[i, 1])) if there[k, i] else -_FAR, v)
                if not view or abs(view[-1][0] - point[0]) > ROUNDING or abs(view[-1][1] - point[1]) > ROUNDING:
                    view.append(point)
    return np.array(view)


def marks_on(stack: StackPlan, plane: SectionPlane, form: MultiPolygon, margin: float) -> tuple[DatumLine, ...]:
    """Where each glue line crosses the template, and the stack's axis where it lies in the plane; as far as `margin` mm
    beyond the form's section."""
    u0, v0, u1, v1 = form.bounds
    window = shapely.box(u0 - margin, v0 - margin, u1 + margin, v1 + margin)
    rise = np.array([plane.across[2], plane.up[2]])
    marks: list[DatumLine] = []
    if np.hypot(*rise) > LEVEL:
        downhill = rise / (rise @ rise)
        level = np.array([-rise[1], rise[0]]) / np.hypot(*rise)
        for low, high in zip(stack.layers[:-1], stack.layers[1:]):
            foot = downhill * (low.top - plane.origin[2])
            line = shapely.LineString([foot - _FAR * level, foot + _FAR * level]).intersection(window)
            marks += _mark(say("glue line {low}/{high}", low=low.number, high=high.number), line)
    if plane.kind == "vertical":
        marks += _mark("axis" if plane.origin[:2] == (0.0, 0.0) else "middle",
                       shapely.LineString([(0.0, v0 - margin), (0.0, v1 + margin)]).intersection(window))  # fmt: skip
    return tuple(marks)


def _mark(name: str, line: shapely.Geometry) -> list[DatumLine]:
    ends = shapely.get_coordinates(line)
    if len(ends) < 2 or np.allclose(ends[0], ends[-1]):
        return []
    first, last = sorted(((float(x), float(y)) for x, y in (ends[0], ends[-1])))
    return [DatumLine(name, first, last)]


def _triple(values: Floats) -> Point3:
    return float(values[0]), float(values[1]), float(values[2])
