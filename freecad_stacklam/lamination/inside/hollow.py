# SPDX-License-Identifier: LGPL-2.1-or-later

"""Hollow layers: voids that save weight, with a wall that is never thinner than asked, in any direction.

A void goes through its layer. Its plan is the region that is wood at every height of this layer and of as much of its
neighbours as lies within the wall's thickness above and below (`inside`), offset inwards by the wall. By the reasoning
given there no point of the surface comes nearer than the wall. The region is then opened so that a saw can turn in
every corner, kept clear of joints, parted by a web where one is asked for, and drawn with lines and arcs that stay
inside it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import cos, pi, sin

import numpy as np
import shapely
from shapely.geometry import MultiPolygon, Polygon
from shapely.ops import polylabel

from freecad_stacklam.lamination.form.frame import lying
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.inside.waysin import ways_in
from freecad_stacklam.lamination.inside.wood import Inside, cuts_between, inset, kept_clear
from freecad_stacklam.lamination.layers.fitting import fit_outside
from freecad_stacklam.lamination.lengths import format_length, format_small_area
from freecad_stacklam.lamination.plan.areas import areas_of, blank_area, cut_plan
from freecad_stacklam.lamination.plan.insides import GlueLine, HollowPlan, VoidPlan
from freecad_stacklam.lamination.plan.layers import Cut, LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import Loop, Outline, area, circle, polygon_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.hollow import HollowSettings
from freecad_stacklam.lamination.words import say

#: Voids that overlap by less than this, mm², are not one room.
_MEET = 1.0


def hollow_stack(
    stack: StackPlan, mesh: Mesh, settings: HollowSettings, grain: float = 0.0, units: str = "mm"
) -> StackPlan:
    """The same stack with voids cut into its inner layers and told in `hollow`.

    mesh: the form in the model. Joints must be cut already: voids keep clear of them. grain: degrees from the stack's x
    to the grain, for the web. units: those of refusals. Raises Refusal when no void can be made.
    """
    layers = [replace(n, cuts=tuple(c for c in n.cuts if c.kind != "hollow")) for n in stack.layers]
    stack = replace(stack, layers=tuple(layers), hollow=None)
    regions, walls = _regions(stack, mesh, settings, grain, units)
    voids = {k: fit_inside(region) for k, region in regions.items()}
    voids = {k: v for k, v in voids.items() if v}
    least = min(_least_wall(voids[k], walls[k]) for k in voids)
    rooms = _rooms(stack, voids, settings)
    for k, outlines in voids.items():
        cuts = [Cut("hollow", o, layers[k].bottom, layers[k].top) for o in outlines]
        layers[k] = replace(layers[k], cuts=(*layers[k].cuts, *cuts))
    for room in rooms:
        if room.vent and room.vent_place is not None:
            _bore(layers, room, voids)
    done = replace(stack, layers=tuple(layers))
    return replace(
        done,
        hollow=HollowPlan(
            settings.wall,
            settings.caps,
            sum(r.volume for r in rooms),
            least,
            tuple(rooms),
            glue_lines(done),
            ways_in(done, settings),
            settings.cut_worth,
        ),
    )


def _regions(
    stack: StackPlan, mesh: Mesh, settings: HollowSettings, grain: float, units: str
) -> tuple[dict[int, MultiPolygon], dict[int, tuple[MultiPolygon, float]]]:
    """For each hollow layer (by its index) the plan its void may take, and what its wall is measured by: the region of
    wood and how far that reaches above and below."""
    count, reach = len(stack.layers), settings.wall + stack.guard
    chosen = range(settings.caps, count - settings.caps)
    if not len(chosen):
        raise Refusal(
            say(
                "{stack} has {count} layers, and {caps} solid ones at each end leave none to hollow: give fewer "
                "solid end layers.",
                stack=stack.name,
                count=count,
                caps=settings.caps,
            )
        )
    slabs = {k: (stack.layers[k].bottom - reach, stack.layers[k].top + reach) for k in chosen}
    inside = Inside(lying(mesh, stack.frame), mesh, [h for slab in slabs.values() for h in slab])
    wood = {k: inside.region(*slab) for k, slab in slabs.items()}
    shells = {k: inset(w, reach) for k, w in wood.items()}
    if not any(s.area > 0 for s in shells.values()):
        raise _too_thick(stack, wood, settings, units)
    webs = _webs(list(shells.values()), settings.web, grain)
    found = {}
    for k, shell in shells.items():
        layer = stack.layers[k]
        joints = cuts_between(stack, layer.bottom - settings.margin, layer.top + settings.margin, ("mortise",))
        kept = [*(kept_clear(j, settings.margin) for j in joints), *webs]
        free = areas_of(shell.difference(shapely.union_all(kept))) if kept else shell
        opened = areas_of(inset(free, settings.turn).buffer(settings.turn, quad_segs=24))
        good = areas_of(MultiPolygon([p for p in opened.geoms if p.area >= settings.least]))
        if not good.is_empty:
            found[k] = good
    if not found:
        raise Refusal(
            say(
                "No void is left in {stack}: what wall, joints and web leave is smaller than {least} or too "
                "narrow for a saw that turns in {turn}; give a thinner wall or leave it solid.",
                stack=stack.name,
                least=format_small_area(settings.least, units),
                turn=format_length(settings.turn, units),
            )
        )
    return found, {k: (wood[k], reach) for k in found}


def _too_thick(stack: StackPlan, wood: Mapping[int, MultiPolygon], settings: HollowSettings, units: str) -> Refusal:
    wall = format_length(settings.wall, units)
    radius = max((_widest(w) for w in wood.values()), default=0.0)
    if radius <= 0:
        says = say(
            "A wall of {wall} is thicker than the body: nothing of {stack} lies {wall} below its surface in the layers "
            "to be hollowed; give a thinner wall.",
            stack=stack.name,
            wall=wall,
        )
    else:
        says = say(
            "A wall of {wall} is thicker than the body: {stack} is at most {width} wide inside there; give a thinner "
            "wall.",
            wall=wall,
            stack=stack.name,
            width=format_length(2 * radius, units),
        )
    return Refusal(says)


def _widest(region: MultiPolygon) -> float:
    """Radius of the largest circle in a region, to 0.5 mm."""
    parts = [p for p in shapely.get_parts(region).tolist() if not p.is_empty]
    return max((p.boundary.distance(polylabel(p, 0.5)) for p in parts), default=0.0)


def _webs(shells: Sequence[MultiPolygon], width: float, grain: float) -> list[Polygon]:
    """Bars of wood across the grain, in the same place in all layers, through the middle of every room."""
    if width <= 0:
        return []
    along = (-sin(grain * pi / 180), cos(grain * pi / 180))
    webs = []
    for room in areas_of(shapely.union_all(list(shells))).geoms:
        x, y = room.centroid.x, room.centroid.y
        reach = room.length
        line = shapely.LineString(
            [(x - along[0] * reach, y - along[1] * reach), (x + along[0] * reach, y + along[1] * reach)]
        )
        webs.append(shapely.intersection(line.buffer(width / 2, cap_style="flat"), room))
    return webs


def fit_inside(region: MultiPolygon) -> tuple[Outline, ...]:
    """Line-and-arc outlines that stay inside `region`: what is left around it is drawn so that no wood is lost."""
    if region.is_empty:
        return ()
    around = shapely.box(*region.bounds).buffer(60.0, join_style="mitre")
    frame, islands = None, []
    for outline in fit_outside(areas_of(around.difference(region))):
        if polygon_of(outline).covers(around.exterior):
            frame = outline
        else:
            islands.append((outline, shapely.Point(outline.outer.points[0][:2])))
    if frame is None:
        return ()
    found = []
    for hole in frame.holes:
        outer = reversed_loop(hole)
        plan = polygon_of(Outline(outer))
        found.append(Outline(outer, tuple(reversed_loop(o.outer) for o, at in islands if plan.contains(at))))
    return tuple(found)


def reversed_loop(loop: Loop) -> Loop:
    """The same loop run the other way round."""
    back = loop.points[::-1]
    bulges = [-p[2] for p in (*back[1:], back[0])]
    return Loop(tuple((p[0], p[1], b) for p, b in zip(back, bulges)))


def _least_wall(outlines: Sequence[Outline], wall: tuple[MultiPolygon, float]) -> float:
    """A lower bound of the distance from a layer's voids to the form's surface: in plan to the region of wood, in
    height to where that ends."""
    wood, reach = wall
    return min(reach, *(float(polygon_of(o).distance(wood.boundary)) for o in outlines))


def _rooms(stack: StackPlan, voids: Mapping[int, Sequence[Outline]], settings: HollowSettings) -> list[VoidPlan]:
    """Voids of neighbouring layers that open into each other are one room."""
    parts = [(k, o, polygon_of(o)) for k in sorted(voids) for o in voids[k]]
    label = list(range(len(parts)))
    for i, (k, _, one) in enumerate(parts):
        for j, (m, _, other) in enumerate(parts):
            if m == k + 1 and one.intersection(other).area > _MEET:
                a, b = label[i], label[j]
                label = [min(a, b) if n in (a, b) else n for n in label]
    rooms = []
    for name in sorted(set(label)):
        members = [parts[i] for i in range(len(parts)) if label[i] == name]
        lowest = min(k for k, _, _ in members)
        floor = areas_of(shapely.union_all([p for k, _, p in members if k == lowest]))
        volume = sum(area(o) * stack.layers[k].thickness for k, o, _ in members)
        numbers = tuple(sorted({stack.layers[k].number for k, _, _ in members}))
        rooms.append(VoidPlan(numbers, volume, settings.vent, _vent_place(stack, lowest, floor, settings)))
    return rooms


def _vent_place(
    stack: StackPlan, lowest: int, floor: MultiPolygon, settings: HollowSettings
) -> tuple[float, float] | None:
    """Where a hole can be bored up into a room from the underside, clear of joints and of the form's sides."""
    radius = max(settings.vent, 6.0) / 2
    free = inset(floor, radius)
    for layer in stack.layers[:lowest]:
        through = layer.finished_bottom.intersection(layer.finished_top)
        if not through.is_empty:
            free = areas_of(free.intersection(inset(areas_of(through), radius + settings.margin)))
    start = stack.layers[lowest].bottom
    joints = cuts_between(stack, 0.0, start, ("mortise",))
    if joints:
        free = areas_of(free.difference(kept_clear(shapely.union_all(joints), radius + settings.margin)))
    if free.is_empty:
        return None
    middle = free.centroid
    place = middle if free.contains(middle) else free.representative_point()
    whole = shapely.Point(np.rint(place.x) + 0.0, np.rint(place.y) + 0.0)
    place = whole if free.contains(whole) else place
    return float(place.x), float(place.y)


def _bore(layers: list[LayerPlan], room: VoidPlan, voids: Mapping[int, Sequence[Outline]]) -> None:
    assert room.vent_place is not None
    hole = circle(room.vent, room.vent_place)
    plan = polygon_of(hole)
    lowest = min(room.layers)
    for k, layer in enumerate(layers):
        open_already = any(polygon_of(o).covers(plan) for o in voids.get(k, ()))
        if layer.number < lowest and not open_already and blank_area(layer.blank).covers(plan):
            layers[k] = replace(layer, cuts=(*layer.cuts, Cut("hollow", hole, layer.bottom, layer.top)))


def glue_lines(stack: StackPlan) -> tuple[GlueLine, ...]:
    """What is glued at each glue line of the finished piece, without and with the voids."""
    found = []
    for lower, upper in zip(stack.layers[:-1], stack.layers[1:]):
        both = lower.finished_top.intersection(upper.finished_bottom)
        touching = [c for c in lower.cuts if c.opens_top(lower)]
        touching += [c for c in upper.cuts if c.opens_bottom(upper)]
        joints = [cut_plan(c) for c in touching if c.kind == "mortise"]
        whole = both.difference(shapely.union_all(joints)) if joints else both
        voids = [cut_plan(c) for c in touching if c.kind == "hollow"]
        left = whole.difference(shapely.union_all(voids)) if voids else whole
        found.append(GlueLine(lower.number, float(whole.area), float(left.area)))
    return tuple(found)
