# SPDX-License-Identifier: LGPL-2.1-or-later

"""The carving guide: the steps at each glue line, the lines to carve to, and how much wood comes off.

An inner corner of the stepped stack is where one blank's outline lies on the face of its neighbour. When the steps are
gone, the corner is the wood that is left longest, and the line on the finished surface nearest to it tells the carver
how much. Time is stated at the maker's own measured rate only: no published rate was found.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon, Polygon

from freecad_stacklam.lamination.carving.depthholes import depth_map
from freecad_stacklam.lamination.carving.elevations import elevations
from freecad_stacklam.lamination.carving.offsets import offsets_by_azimuth, offsets_by_station
from freecad_stacklam.lamination.carving.profiles import job_templates
from freecad_stacklam.lamination.form.frame import lying
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.form.nearest import Surface
from freecad_stacklam.lamination.plan.areas import blank_area
from freecad_stacklam.lamination.plan.boards import Stave
from freecad_stacklam.lamination.plan.carving import CarvingPlan, CarvingStep, CornerLine, Point3, Removed
from freecad_stacklam.lamination.plan.layers import LayerPlan, StackPlan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.carving import CarvingSettings
from freecad_stacklam.lamination.tolerances import COARSE, SAME_HEIGHT, SEAM_TOUCH
from freecad_stacklam.lamination.words import say

Floats = NDArray[np.float64]

#: Blanks whose outlines differ by less than this, mm, are flush there.
FLUSH = 0.5
#: Points along a corner are at most this far apart, mm.
SPACING = 8.0

Seams = Mapping[str, Mapping[int, Sequence[shapely.Geometry]]]


def plan_carving(
    stacks: Sequence[StackPlan],
    meshes: Sequence[Mesh],
    settings: CarvingSettings,
    *,
    units: str = "mm",
    seams: Seams | None = None,
) -> CarvingPlan:
    """All that carving is guided by, for stacks with their joints, pins and voids already cut.

    meshes: the forms, in the model, one for each stack. seams: by stack and layer, the seams between staves as lines in
    plan. Raises Refusal when a setting names a stack that is not there, or a plane misses every form.
    """
    names = [s.name for s in stacks]
    for name, _ in settings.depth_holes:
        if name and name not in names:
            raise Refusal(
                say(
                    "Depth holes are asked for in “{stack}”, which is no stack here: the stacks are {names}.",
                    stack=name,
                    names=", ".join(names),
                )
            )
    offsets = [row for s in stacks for row in offsets_by_azimuth(s, settings.angles())]
    if settings.station is not None:
        offsets += [row for s in stacks for row in offsets_by_station(s, settings.station, settings.stations_along)]
    templates = job_templates(
        stacks, meshes, settings.templates, settings.planes, settings.level_templates, units,
        gauges=settings.gauges, clearance=settings.clearance, margin=settings.margin,
    )  # fmt: skip
    maps = [
        depth_map(s, mesh, face, settings, units=units, seams=(seams or {}).get(s.name))
        for s, mesh in zip(stacks, meshes)
        for face in settings.face_of(s.name)
    ]
    steps = [step for s, mesh in zip(stacks, meshes) for step in carving_steps(s, mesh)]
    removed = [r for s in stacks for r in removed_from(s, settings.rate)]
    views = tuple(view for s, mesh in zip(stacks, meshes) for view in elevations(s, mesh))
    return CarvingPlan(tuple(offsets), templates, tuple(maps), tuple(steps), tuple(removed), settings.rate, views)


def seams_between(staves: Iterable[Stave]) -> dict[str, dict[int, list[shapely.Geometry]]]:
    """By stack and layer, the seams between staves that touch, as lines in plan."""
    by_layer: dict[tuple[str, int], list[Polygon]] = {}
    for stave in staves:
        if stave.stack:
            by_layer.setdefault((stave.stack, stave.layer), []).append(Polygon(stave.region))
    found: dict[str, dict[int, list[shapely.Geometry]]] = {}
    for (stack, layer), regions in by_layer.items():
        pairs = [(a, b) for i, a in enumerate(regions) for b in regions[i + 1 :] if a.distance(b) < SEAM_TOUCH]
        lines = [a.boundary.intersection(b.buffer(SEAM_TOUCH)) for a, b in pairs]
        found.setdefault(stack, {})[layer] = [line for line in lines if not line.is_empty]
    return found


def removed_from(stack: StackPlan, rate: float | None = None) -> tuple[Removed, ...]:
    """Wood to carve off each layer, with the hours at `rate` litres an hour where it is known."""
    rows = []
    for layer in stack.layers:
        row = Removed(stack.name, layer.number, layer.blank_volume, layer.finished_volume)
        hours = None if rate is None else row.volume / 1e6 / rate
        rows.append(Removed(row.stack, row.layer, row.blank, row.finished, hours))
    return tuple(rows)


def carving_steps(stack: StackPlan, mesh: Mesh) -> tuple[CarvingStep, ...]:
    """The steps at every glue line of a stack, in its own frame. mesh: the form in the model."""
    surface = Surface(lying(mesh, stack.frame), mesh.triangles)
    blanks = [blank_area(layer.without_tabs) for layer in stack.layers]
    steps = []
    for k, (lower, upper) in enumerate(zip(stack.layers[:-1], stack.layers[1:])):
        below, above = blanks[k], blanks[k + 1]
        ask = _Nearest(surface, lower, upper)
        rims = [*_part(below.boundary, above, inside=False), *_part(above.boundary, below, inside=False)]
        corners = [*_part(above.boundary, below, inside=True), *_part(below.boundary, above, inside=True)]
        lines = tuple(ask.corner(line) for line in corners)
        outer = [ask.distances(line) for line in rims]
        ledges = [
            float(shapely.distance(shapely.points(shapely.get_coordinates(line)), other).max())
            for boundary, other in ((below.boundary, above), (above.boundary, below))
            for line in _part(boundary, other, inside=False)
        ]
        inner = [d for line in lines for d in line.distance]
        steps.append(
            CarvingStep(
                stack=stack.name,
                interface=lower.number,
                height=lower.top,
                ledge=max(ledges, default=0.0),
                outer=(min(d.min() for d in outer), max(d.max() for d in outer)) if outer else None,
                inner=(min(inner), max(inner)) if inner else None,
                corners=lines,
                glue_line=_rings(lower, upper),
            )
        )
    return tuple(steps)


class _Nearest:
    """Answers for points on one glue line: surface at its own height gives a first bound."""

    def __init__(self, surface: Surface, lower: LayerPlan, upper: LayerPlan) -> None:
        self._surface, self._height = surface, lower.top
        rims = [a.boundary for a in (lower.finished_top, upper.finished_bottom) if not a.is_empty]
        self._rims = shapely.union_all(rims) if rims else None

    def _ask(self, line: shapely.LineString) -> tuple[Floats, Floats, Floats]:
        flat = shapely.get_coordinates(line)
        at = np.column_stack([flat, np.full(len(flat), self._height)])
        within = np.full(len(flat), np.inf)
        if self._rims is not None:
            # Sections at a step lie within PLANE_SNAP of the surface.
            within = shapely.distance(shapely.points(flat), self._rims) + SAME_HEIGHT
        distance, foot = self._surface.nearest(at, within)
        return at, distance, foot

    def distances(self, line: shapely.LineString) -> Floats:
        """From points along a line to the surface, mm."""
        return self._ask(line)[1]

    def corner(self, line: shapely.LineString) -> CornerLine:
        """The line on the surface nearest to an inner corner."""
        at, distance, foot = self._ask(line)
        return CornerLine(_points(at), _points(foot), tuple(map(float, distance)), bool(line.is_ring))


def _part(boundary: shapely.Geometry, other: MultiPolygon, *, inside: bool) -> list[shapely.LineString]:
    """The parts of a boundary that lie more than FLUSH inside, or outside, another blank, in short steps."""
    cut = boundary.intersection(other.buffer(-FLUSH)) if inside else boundary.difference(other.buffer(FLUSH))
    lines = [p for p in shapely.get_parts(cut) if isinstance(p, shapely.LineString) and p.length > 1.0]
    merged = shapely.line_merge(shapely.multilinestrings(lines)) if lines else shapely.MultiLineString()
    parts = [shapely.simplify(p, COARSE) for p in shapely.get_parts(merged)]
    return [shapely.segmentize(p, SPACING) for p in parts if isinstance(p, shapely.LineString)]


def _rings(lower: LayerPlan, upper: LayerPlan) -> tuple[tuple[Point3, ...], ...]:
    area = lower.finished_top if not lower.finished_top.is_empty else upper.finished_bottom
    made = []
    for polygon in area.geoms:
        if isinstance(polygon, Polygon):
            for ring in (polygon.exterior, *polygon.interiors):
                flat = shapely.get_coordinates(ring)
                made.append(_points(np.column_stack([flat, np.full(len(flat), lower.top)])))
    return tuple(made)


def _points(points: Floats) -> tuple[Point3, ...]:
    return tuple((float(x), float(y), float(z)) for x, y, z in points)
