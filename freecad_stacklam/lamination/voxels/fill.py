# SPDX-License-Identifier: LGPL-2.1-or-later

"""A plan and its meshes as the cells of one piece. Lengths mm."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from freecad_stacklam.lamination.form.frame import direction_to_stack, to_model, to_stack
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.plan.layers import Cut, StackPlan
from freecad_stacklam.lamination.plan.outline import circle, polygon_of, rectangle, sample
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tolerances import PARALLEL
from freecad_stacklam.lamination.voxels.grid import CellLayer, CellTenon, Grid, Voxels, grid_over
from freecad_stacklam.lamination.voxels.lines import plan_parts, solid_parts
from freecad_stacklam.lamination.words import say

Floats = NDArray[np.float64]

#: Less wood than this part of a cell is air: under half of one line of the 36 through it.
LEAST_PART = 0.01
#: More cells in the box about a piece than this are not made: the arrays would fill the memory.
MOST_CELLS = 30_000_000
#: How far the chords of a round tenon may leave its circle, mm.
_ROUND = 0.05


def size_for(plan: Plan, cells: int) -> float:
    """Width of a cell, mm, with which the piece's wood fills about so many whole cells."""
    volume = sum(s.form.volume - (s.hollow.volume if s.hollow else 0.0) for s in plan.stacks)
    return float((max(volume, 1.0) / cells) ** (1 / 3))


def voxels_of(plan: Plan, meshes: Mapping[str, Mesh], size: float) -> Voxels:
    """The piece as cells `size` mm wide. meshes: the stacks' forms in the model, by name.

    Stacks whose axis is parallel to the first one's have cells that end on their layers' faces; of others a cell
    belongs to the layer in which its middle lies. Copies are not counted. Raises Refusal where the plan has no stack or
    the cells would be too many.
    """
    if not plan.stacks:
        raise Refusal(say("There is no stack to divide into cells: slice a form first."))
    frame = plan.stacks[0].frame
    points = [to_stack(frame, meshes[s.name].vertices) for s in plan.stacks]
    low, high = np.min([p.min(axis=0) for p in points], axis=0), np.max([p.max(axis=0) for p in points], axis=0)
    if float(np.prod((high - low) / size + 1)) > MOST_CELLS:
        raise Refusal(
            say("The piece would have more than {most_cells} cells: make them larger.", most_cells=MOST_CELLS)
        )
    faces = [f for stack, own in zip(plan.stacks, points) for f in _faces(stack, own, frame)]
    grid = grid_over(low, high, [f for f in faces if low[2] < f < high[2]], size)

    layers = tuple(_cell_layer(i, s, n, frame) for i, s in enumerate(plan.stacks) for n in range(len(s.layers)))
    filled, most = np.zeros(grid.shape), np.zeros(grid.shape)
    pins, layer = np.zeros(grid.shape), np.full(grid.shape, -1, dtype=np.int16)
    first = 0
    for stack, own in zip(plan.stacks, points):
        wood = np.clip(solid_parts(own, meshes[stack.name].triangles, grid), 0.0, 1.0)
        for kinds, out in ((("mortise", "hollow"), None), (("pin",), pins)):
            for cut in (c for each in stack.layers for c in each.cuts if c.kind in kinds):
                _take(cut, stack, frame, grid, wood, out)
        index = first + _layer_numbers(stack, frame, grid)
        layer = np.where((wood > most) & (wood > LEAST_PART), index, layer).astype(np.int16)
        most = np.maximum(most, wood)
        filled += wood
        first += len(stack.layers)
    tenons, tenon_part, tenon_of = _tenons(plan.joints, frame, grid)
    filled = np.minimum(filled + tenon_part, 1.0)
    air = filled <= LEAST_PART
    filled[air], layer[air], tenon_of[air], tenon_part[air] = 0.0, -1, -1, 0.0
    _name_bare(layer, ~air)
    full, in_tenon, in_pin = (a.astype(np.float32) for a in (filled, tenon_part, np.minimum(pins, filled)))
    for array in (full, in_tenon, in_pin):
        array.flags.writeable = False
    layer.flags.writeable = tenon_of.flags.writeable = False
    return Voxels(frame, grid.origin, size, grid.heights, full, layer, layers, in_tenon, tenon_of, tenons, in_pin)


def _name_bare(layer: NDArray[np.int16], wood: NDArray[np.bool_]) -> None:
    """Give cells of a tenon that no layer shares the layer that most cells of their height have."""
    for k in range(layer.shape[2]):
        bare = wood[:, :, k] & (layer[:, :, k] < 0)
        if bare.any():
            named = layer[:, :, k][layer[:, :, k] >= 0]
            near = layer[layer >= 0] if not len(named) else named
            layer[:, :, k][bare] = np.bincount(near).argmax() if len(near) else 0


def _turn(stack: StackPlan, frame: tuple[float, ...]) -> Floats:
    """The stack's three directions in the piece's frame, as columns."""
    own = np.asarray(stack.frame).reshape(4, 4)[:3, :3]
    return np.asarray(direction_to_stack(frame, own.T)).T


def parallel(stack: StackPlan, frame: tuple[float, ...]) -> bool:
    """Whether the stack's layers lie level in the piece's frame."""
    return bool(abs(_turn(stack, frame)[2, 2]) >= 1 - PARALLEL)


def _faces(stack: StackPlan, own: Floats, frame: tuple[float, ...]) -> list[float]:
    """Heights in the piece's frame at which cells should end for this stack: its form's ends, its layers' faces."""
    if not parallel(stack, frame):
        return []
    low, high = float(own[:, 2].min()), float(own[:, 2].max())
    heights = [stack.layers[0].bottom, *(each.top for each in stack.layers)]
    ups = to_stack(frame, to_model(stack.frame, np.array([[0.0, 0.0, z] for z in heights])))[:, 2]
    return [low, high, *(float(z) for z in ups if low < z < high)]


def _cell_layer(place: int, stack: StackPlan, number: int, frame: tuple[float, ...]) -> CellLayer:
    turn, each = _turn(stack, frame), stack.layers[number]
    angle = np.radians(each.grain)
    grain = turn @ np.array([np.cos(angle), np.sin(angle), 0.0])
    return CellLayer(place, each.number, each.species, _three(grain), _three(turn[:, 2]))


def _three(v: Floats) -> tuple[float, float, float]:
    return float(v[0]), float(v[1]), float(v[2])


def _layer_numbers(stack: StackPlan, frame: tuple[float, ...], grid: Grid) -> NDArray[np.int64]:
    """Which layer of the stack a cell's middle lies in, counted from 0, to be spread over all cells."""
    tops = np.array([each.top for each in stack.layers])
    middle = (grid.heights[:-1] + grid.heights[1:]) / 2
    x = grid.origin[0] + (np.arange(grid.count[0]) + 0.5) * grid.size
    y = grid.origin[1] + (np.arange(grid.count[1]) + 0.5) * grid.size
    up = _turn(stack, frame)[:, 2]
    if parallel(stack, frame):
        x, y, up = x[:1], y[:1], np.array([0.0, 0.0, np.sign(up[2])])
    at = to_stack(frame, to_model(stack.frame, np.zeros((1, 3))))[0]
    height = (x[:, None, None] - at[0]) * up[0] + (y[None, :, None] - at[1]) * up[1] + (middle - at[2]) * up[2]
    return np.asarray(np.clip(np.searchsorted(tops, height), 0, len(tops) - 1))


def _take(cut: Cut, stack: StackPlan, frame: tuple[float, ...], grid: Grid, wood: Floats, out: Floats | None) -> None:
    """Take a cut's void out of the wood, or add it to `out` instead."""
    if not parallel(stack, frame):
        _take_turned(cut, stack, frame, grid, wood, out)
        return
    ends = np.array([[0.0, 0.0, cut.start], [0.0, 0.0, cut.end]])
    a, b = sorted(float(z) for z in to_stack(frame, to_model(stack.frame, ends))[:, 2])
    thick = np.diff(grid.heights)
    share = np.clip(np.minimum(grid.heights[1:], b) - np.maximum(grid.heights[:-1], a), 0.0, None) / thick
    plan: tuple[tuple[slice, slice], Floats] | None = None
    for k in np.flatnonzero(share > 0):
        if plan is None or cut.outline_end is not None:
            middle = (grid.heights[k] + grid.heights[k + 1]) / 2
            plan = plan_parts(_plan_at(cut, stack, frame, float(np.clip(middle, a, b))), grid)
        (across, up), parts = plan
        if out is None:
            wood[across, up, k] *= 1.0 - parts * share[k]
        else:
            out[across, up, k] += parts * share[k] * wood[across, up, k]


def _plan_at(cut: Cut, stack: StackPlan, frame: tuple[float, ...], height: float) -> Polygon:
    """The cut's plan in the piece's frame at a height of that frame."""
    start = polygon_of(cut.outline)
    own = to_stack(stack.frame, to_model(frame, np.array([[0.0, 0.0, height]])))[0, 2]
    if cut.outline_end is not None:
        one, two = sample(cut.outline.outer), sample(cut.outline_end.outer)
        share = (own - cut.start) / (cut.end - cut.start)
        start = Polygon(one + share * (two - one)) if one.shape == two.shape else polygon_of(cut.outline_end)

    def turned(points: Floats) -> Floats:
        return to_stack(frame, to_model(stack.frame, np.column_stack([points, np.full(len(points), own)])))[:, :2]

    return shapely.transform(start, turned)


def _take_turned(
    cut: Cut, stack: StackPlan, frame: tuple[float, ...], grid: Grid, wood: Floats, out: Floats | None
) -> None:
    """The same for a stack that leans: by the middles of cells."""
    cells = np.argwhere(wood > LEAST_PART)
    plan = grid.origin[:2] + (cells[:, :2] + 0.5) * grid.size
    middle = ((grid.heights[:-1] + grid.heights[1:]) / 2)[cells[:, 2]]
    own = to_stack(stack.frame, to_model(frame, np.column_stack([plan, middle])))
    there = (own[:, 2] > cut.start) & (own[:, 2] < cut.end)
    cells, own = cells[there], own[there]
    area = shapely.convex_hull(shapely.union(polygon_of(cut.outline), polygon_of(cut.outline_end))) \
        if cut.outline_end is not None else polygon_of(cut.outline)  # fmt: skip
    cells = cells[shapely.contains_xy(area, own[:, 0], own[:, 1])]
    where = tuple(cells.T)
    if out is None:
        wood[where] = 0.0
    else:
        out[where] += wood[where]


def _tenons(
    joints: tuple[JointPlan, ...], frame: tuple[float, ...], grid: Grid
) -> tuple[tuple[CellTenon, ...], Floats, NDArray[np.int16]]:
    """Every tenon, the part of each cell that is tenon, and whose it is."""
    part, of = np.zeros(grid.shape), np.full(grid.shape, -1, dtype=np.int16)
    tenons = []
    for number, joint in enumerate(joints):
        points, triangles = tenon_surface(joint)
        own = np.clip(solid_parts(to_stack(frame, points), triangles, grid), 0.0, 1.0)
        of[own > np.maximum(part, LEAST_PART)] = number
        part = np.minimum(part + own, 1.0)
        grain = _three(np.asarray(direction_to_stack(frame, joint.axis.along)))
        tenons.append(CellTenon(joint.name, joint.tenon.species, grain))
    return tuple(tenons), part, of


def tenon_surface(joint: JointPlan) -> tuple[Floats, NDArray[np.int64]]:
    """A tenon as a closed surface in the model: points N × 3 mm, triangles M × 3."""
    size = joint.tenon.size
    outline = circle(size[0]) if joint.tenon.section == "round" else rectangle(size[0], size[-1])
    ring = sample(outline.outer, _ROUND)
    n = len(ring)
    ends = [np.column_stack([ring, np.full(n, z)]) for z in (joint.start, joint.end)]
    i = np.arange(n)
    j = (i + 1) % n
    sides = np.concatenate([np.column_stack([i, j, j + n]), np.column_stack([i, j + n, i + n])])
    fan = np.column_stack([np.zeros(n - 2, dtype=np.int64), i[1:-1], i[2:]])
    return joint.axis.model(np.concatenate(ends)), np.concatenate([sides, fan[:, ::-1], fan + n])
