# SPDX-License-Identifier: LGPL-2.1-or-later

"""Directed segments into areas: close them into loops, and keep what winds around more often to the left than to the
right.

The segments lie on an integer grid, so that ends either meet exactly or not at all. Most loops only nest, and their
winding is a count; only loops that cross are noded and each face counted by itself.
"""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.form.spans import pairs_of
from freecad_stacklam.lamination.refusal import Refusal, either
from freecad_stacklam.lamination.tolerances import GRID, NO_AREA
from freecad_stacklam.lamination.words import say

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

EMPTY = MultiPolygon()
#: Pairs of a segment and a point that are looked at together: some tens of megabytes.
_MOST_PAIRS = 1_000_000


def fill(start: Floats, end: Floats) -> MultiPolygon:
    """The area around which a closed chain of directed segments winds a positive number of times.

    start, end: S × 2, mm, each segment with its material on the left. Raises Refusal when the chain does not close,
    which means that the mesh is open or torn.
    """
    return fill_all(np.zeros(len(start), dtype=np.int64), start, end, 1)[0]


def fill_all(owner: Ints, start: Floats, end: Floats, count: int) -> tuple[MultiPolygon, ...]:
    """The areas of `count` chains at once; segment i belongs to chain owner[i]. As fill, chain by chain.

    owner: S numbers; start, end: S × 2, mm. Raises Refusal as fill does, and for a form more than 200 m wide.
    """
    found = [EMPTY] * count
    if not len(start):
        return tuple(found)
    a, b = np.rint(start / GRID).astype(np.int64), np.rint(end / GRID).astype(np.int64)
    # The chains are laid side by side on the grid, so that one pass closes them all and none touches another.
    low = min(int(a[:, 0].min()), int(b[:, 0].min()))
    width = max(int(a[:, 0].max()), int(b[:, 0].max())) - low + 2
    if width * count >= 1 << 31:
        if count == 1:
            raise Refusal(say("The form is more than {either} wide: check its unit.", either=either("200 m", "656 ft")))
        return _filled_in_turn(owner, start, end, count, max(1, (1 << 31) // width - 1))
    shift = owner * width - low
    a[:, 0] += shift
    b[:, 0] += shift
    corners, sizes = _close(a, b)
    if not len(sizes):
        return tuple(found)
    starts = np.cumsum(sizes) - sizes
    chain = corners[starts, 0] // width
    corners[:, 0] += low - np.repeat(chain, sizes) * width
    coordinates = corners * GRID
    # Each ring ends where it began.
    closed = np.arange(len(corners) + len(sizes)) - np.repeat(np.arange(len(sizes)), sizes + 1)
    closed[np.cumsum(sizes + 1) - 1] = starts
    rings = shapely.linearrings(coordinates[closed], indices=np.repeat(np.arange(len(sizes)), sizes + 1))
    areas = _signed_areas(coordinates, sizes, starts)
    simple = shapely.is_simple(rings)
    alone = (np.bincount(chain, minlength=count)[chain] == 1) & simple & (areas > NO_AREA)
    if alone.any():
        one = np.flatnonzero(alone)
        for i, area in zip(chain[one], shapely.multipolygons(shapely.polygons(rings[one])[:, None])):
            found[i] = area
    for i in np.unique(chain[~alone]):
        mine = np.flatnonzero(chain == i)
        if simple[mine].all() and not _any_touch(rings[mine]):
            real = mine[np.abs(areas[mine]) > NO_AREA]
            found[i] = _nest(rings[real], areas[real])
        else:
            kept = np.concatenate([np.arange(starts[m], starts[m] + sizes[m]) for m in mine])
            found[i] = _count_faces(rings[mine], coordinates[kept], sizes[mine])
    return tuple(found)


def _filled_in_turn(owner: Ints, start: Floats, end: Floats, count: int, most: int) -> tuple[MultiPolygon, ...]:
    """As fill_all, with no more than `most` chains side by side."""
    order = np.argsort(owner, kind="stable")
    sorted_owners = owner[order]
    found: list[MultiPolygon] = []
    for first in range(0, count, most):
        here = min(most, count - first)
        mine = order[slice(*np.searchsorted(sorted_owners, (first, first + here)))]
        found += fill_all(owner[mine] - first, start[mine], end[mine], here)
    return tuple(found)


def _close(a: Ints, b: Ints) -> tuple[Ints, Ints]:
    """Chain grid segments into loops that visit no point twice: their corners, laid end to end (K × 2), and how many
    each has. Opposite pairs and points cancel first."""
    moved = (a != b).any(axis=1)
    a, b = a[moved], b[moved]
    if not len(a):
        return np.empty((0, 2), dtype=np.int64), np.empty(0, dtype=np.int64)
    keys = (np.concatenate([a[:, 0], b[:, 0]]) << 32) + np.concatenate([a[:, 1], b[:, 1]])
    names, node = np.unique(keys, return_inverse=True)
    node = node.reshape(-1)
    here, there = node[: len(a)], node[len(a) :]
    if len(here) == len(names) and (np.bincount(here) == 1).all() and (np.bincount(there) == 1).all():
        # Nearly always: one way into each point and one way out, so the chain is loops already.
        follow = np.empty(len(names), dtype=np.int64)
        follow[here] = there
        order, sizes = _rounds(follow.tolist())
    else:
        order, sizes = _untangled(here, there, len(names))
    points = np.stack([names >> 32, (names & 0xFFFFFFFF)], axis=1)
    # Undo the carry of a negative y in the packed key.
    wrapped = points[:, 1] >= 1 << 31
    points[wrapped, 1] -= 1 << 32
    points[wrapped, 0] += 1
    return points[order], sizes


def _untangled(here: Ints, there: Ints, count: int) -> tuple[Ints, Ints]:
    """Loops of a chain that passes some points several times, or runs to and fro: their nodes, laid end to end, and how
    many each has."""
    low, high = np.minimum(here, there), np.maximum(here, there)
    pair, which = np.unique(low * count + high, return_inverse=True)
    net = np.bincount(which.reshape(-1), weights=np.where(here < there, 1.0, -1.0)).astype(np.int64)
    one, two = pair // count, pair % count
    here = np.repeat(np.where(net > 0, one, two), np.abs(net))
    there = np.repeat(np.where(net > 0, two, one), np.abs(net))
    leave, arrive = np.argsort(here, kind="stable"), np.argsort(there, kind="stable")
    if not np.array_equal(here[leave], there[arrive]):
        raise Refusal(
            say("The form's surface is torn: a section of it does not close; check the form and slice again.")
        )
    follow = np.empty(len(here), dtype=np.int64)
    follow[arrive] = leave
    order, sizes = _rounds(follow.tolist())
    nodes = here[order]
    # Few rounds come back to a point: only those are walked step by step.
    again = np.bincount(here, minlength=count)[nodes] > 1
    ends = np.cumsum(sizes)
    knotted = np.unique(np.searchsorted(ends, np.flatnonzero(again), side="right"))
    rounds = np.split(nodes, ends[:-1])
    loops: list[Ints] = []
    done = 0
    for number in knotted.tolist():
        loops += rounds[done:number]
        loops += [np.array(loop, dtype=np.int64) for loop in _cut_off(rounds[number].tolist())]
        done = number + 1
    loops += rounds[done:]
    return np.concatenate([nodes[:0], *loops]), np.array([len(loop) for loop in loops if len(loop)], dtype=np.int64)


def _rounds(follow: list[int]) -> tuple[Ints, Ints]:
    """The rounds of a permutation that are longer than a step to and fro, laid end to end, and their lengths."""
    order: list[int] = []
    sizes: list[int] = []
    add = order.append
    for first in range(len(follow)):
        step = follow[first]
        if step < 0:
            continue
        begin = len(order)
        add(first)
        follow[first] = -1
        while step != first:
            add(step)
            after = follow[step]
            follow[step] = -1
            step = after
        if len(order) - begin > 2:
            sizes.append(len(order) - begin)
        else:
            del order[begin:]
    return np.array(order, dtype=np.int64), np.array(sizes, dtype=np.int64)


def _cut_off(round_: list[int]) -> list[list[int]]:
    """The loops of a round of node numbers. Where it comes back to a node a loop is cut off, so loops touch but do not
    knot."""
    loops: list[list[int]] = []
    path: list[int] = []
    at: dict[int, int] = {}
    for name in round_:
        if name in at:
            loop = path[at[name] :]
            for passed in loop:
                del at[passed]
            del path[len(path) - len(loop) :]
            if len(loop) > 2:
                loops.append(loop)
        at[name] = len(path)
        path.append(name)
    if len(path) > 2:
        loops.append(path)
    return loops


def _signed_areas(coordinates: Floats, sizes: Ints, starts: Ints) -> Floats:
    nxt = coordinates[_following(sizes, starts)]
    cross = coordinates[:, 0] * nxt[:, 1] - coordinates[:, 1] * nxt[:, 0]
    return np.asarray(np.add.reduceat(cross, starts) / 2.0)


def _following(sizes: Ints, starts: Ints) -> Ints:
    """For every corner of the loops, laid end to end, the number of the next corner of its own loop."""
    following = np.arange(1, int(sizes.sum()) + 1)
    following[starts + sizes - 1] = starts
    return following


def _any_touch(rings: NDArray[np.object_]) -> bool:
    if len(rings) == 1:
        return False
    one, other = shapely.STRtree(rings).query(rings, predicate="intersects")
    return bool((one != other).any())


def _nest(rings: NDArray[np.object_], areas: Floats) -> MultiPolygon:
    """Loops that do not touch: each is a wall only where the count around it changes between none and some."""
    if len(rings) == 0:
        return EMPTY
    if len(rings) == 1:
        return MultiPolygon([shapely.polygons(rings[0])]) if areas[0] > 0 else EMPTY
    faces = shapely.polygons(rings)
    starts = shapely.points(shapely.get_coordinates([shapely.get_point(r, 0) for r in rings]))
    inside, around = shapely.STRtree(faces).query(starts, predicate="intersects")
    other = inside != around
    inside, around = inside[other], around[other]
    turn = np.sign(areas).astype(np.int64)
    outside = np.zeros(len(rings), dtype=np.int64)
    np.add.at(outside, inside, turn[around])
    shell = (outside <= 0) & (outside + turn > 0)
    hole = (outside > 0) & (outside + turn <= 0)
    holes: dict[int, list[object]] = {int(i): [] for i in np.flatnonzero(shell)}
    for h in np.flatnonzero(hole):
        owners = [int(o) for o in around[inside == h] if shell[o]]
        owner = min(owners, key=lambda o: abs(float(areas[o])))
        holes[owner].append(rings[h])
    return MultiPolygon([shapely.polygons(rings[s], holes=list(h) or None) for s, h in holes.items()])


def _count_faces(rings: NDArray[np.object_], coordinates: Floats, sizes: Ints) -> MultiPolygon:
    """Loops that cross: node them on the grid, and count the winding of every face they part the plane into."""
    # Snap-rounding noding: exact on the grid, and free of the losses of floating overlay.
    noded = shapely.union_all(
        shapely.linestrings(shapely.get_coordinates(rings), indices=np.repeat(np.arange(len(sizes)), sizes + 1)),
        grid_size=GRID,
    )
    faces = shapely.get_parts(shapely.polygonize(shapely.get_parts(noded)))
    faces = faces[shapely.area(faces) > NO_AREA]
    if not len(faces):
        return EMPTY
    inner = shapely.get_coordinates(shapely.point_on_surface(faces))
    nxt = coordinates[_following(sizes, np.cumsum(sizes) - sizes)]
    kept = faces[winding(inner, coordinates, nxt) > 0]
    merged = shapely.coverage_union_all(kept)
    if not shapely.is_valid(merged):
        merged = shapely.union_all(kept, grid_size=GRID)
    return MultiPolygon([p for p in shapely.get_parts(merged) if shapely.get_type_id(p) == 3])


def winding(points: Floats, start: Floats, end: Floats) -> Ints:
    """Winding number of the closed chain start → end around each point (P × 2; S × 2), by signed ray crossings."""
    order = np.argsort(points[:, 1], kind="stable")
    levels = points[order, 1]
    # Segment by segment, the points on whose level it lies: those that a ray along x could meet it from.
    first = np.searchsorted(levels, np.minimum(start[:, 1], end[:, 1]))
    past = np.searchsorted(levels, np.maximum(start[:, 1], end[:, 1]))
    so_far = np.cumsum(past - first)
    total = np.zeros(len(points), dtype=np.int64)
    blocks = np.searchsorted(so_far, np.arange(_MOST_PAIRS, so_far[-1] if len(so_far) else 0, _MOST_PAIRS))
    for block in np.split(np.arange(len(start)), blocks):
        row, place = pairs_of(first[block], past[block] - 1)
        segment, point = block[row], order[place]
        (xa, ya), (xb, yb), (x, y) = start[segment].T, end[segment].T, points[point].T
        side = (xb - xa) * (y - ya) - (x - xa) * (yb - ya)
        total += np.bincount(point[(ya < yb) & (side > 0)], minlength=len(points))
        total -= np.bincount(point[(ya > yb) & (side < 0)], minlength=len(points))
    return total
