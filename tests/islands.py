# SPDX-License-Identifier: LGPL-2.1-or-later

"""Outlines with islands inside and beside each other, and racks to cut them from, made by chance from a seed."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import plans
import shapely
from shapely import affinity
from shapely.geometry import Point, Polygon

from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.outline import straight
from freecad_stacklam.lamination.settings.board import Board, Rack

THICK = 30.0


def layer_stack(outlines: list[shapely.Geometry], grain: float, copies: int = 1, name: str = "Body") -> StackPlan:
    """A stack whose blanks are these outlines, mm, one on the other."""
    layers = [replace(plans.layer_of(i + 1, THICK * i, THICK * (i + 1), [Point(0, 0).buffer(50)]), grain=grain,
                      blank=tuple(straight(p) for p in shapely.get_parts(o)), blank_area=o.area)
              for i, o in enumerate(outlines)]  # fmt: skip
    return replace(plans.plant_stand().stacks[0], name=name, layers=tuple(layers), copies=copies)


def pocket_and_post() -> StackPlan:
    """A box 200 × 120 × 60 with a pocket 160 × 80 × 30 in its top and a post 40 × 40 × 30 in the pocket."""
    box = shapely.box(0, 0, 200, 120)
    ring = box.difference(shapely.box(20, 20, 180, 100)).union(shapely.box(80, 40, 120, 80))
    return layer_stack([box, ring], 0.0)


def _ring(rng: np.random.Generator) -> shapely.Geometry:
    """A frame or a hoop with up to three others, each inside the last."""
    size, inside = rng.uniform(90, 420, 2), shapely.Polygon()
    square = rng.random() < 0.5
    for _ in range(int(rng.integers(1, 4))):
        wall = rng.uniform(12, 60)
        whole = shapely.box(*(-size / 2), *(size / 2)) if square else _oval(size)
        hole = whole.buffer(-wall, join_style="mitre" if square else "round")
        inside = inside.union(whole.difference(hole))
        size = size - 2 * (wall + rng.uniform(2, 30))
        if size.min() < 25:
            break
    if size.min() > 25 and rng.random() < 0.6:
        inside = inside.union(_oval(size * rng.uniform(0.3, 0.95)))
    return inside


def _oval(size: np.ndarray) -> Polygon:
    return affinity.scale(Point(0, 0).buffer(0.5, quad_segs=24), *size)


def _star(rng: np.random.Generator) -> shapely.Geometry:
    lobes, radius, deep = int(rng.integers(3, 9)), rng.uniform(50, 220), rng.uniform(0.1, 0.6)
    turn = np.linspace(0, 2 * np.pi, 120, endpoint=False)
    r = radius * (1 + deep * np.cos(lobes * turn)) / (1 + deep)
    return Polygon(np.c_[r * np.cos(turn), r * np.sin(turn)]).buffer(0)


def _hooks(rng: np.random.Generator) -> shapely.Geometry:
    """Two hooks that reach into each other and do not touch."""
    long, wide, arm = rng.uniform(150, 500), rng.uniform(90, 260), rng.uniform(15, 35)
    hook = Polygon([(0, 0), (long, 0), (long, wide), (long - arm, wide), (long - arm, arm), (0, arm)])
    other = affinity.rotate(hook, 180, origin=(0, 0))
    gap = rng.uniform(3, 20)
    other = affinity.translate(other, long - arm - gap, wide + gap)
    return hook.union(other)


def _comb(rng: np.random.Generator) -> shapely.Geometry:
    teeth = int(rng.integers(2, 6))
    pitch, arm, deep = rng.uniform(40, 110), rng.uniform(14, 30), rng.uniform(60, 260)
    parts = [shapely.box(i * pitch, 0, i * pitch + arm, deep) for i in range(teeth)]
    comb = shapely.union_all([*parts, shapely.box(0, 0, (teeth - 1) * pitch + arm, arm)])
    gap = (pitch - arm) * rng.uniform(0.2, 0.8)
    keys = [shapely.box(i * pitch + arm + (pitch - arm - gap) / 2, arm + rng.uniform(4, 20), i * pitch + arm
                        + (pitch - arm + gap) / 2, deep + rng.uniform(-20, 60)) for i in range(teeth - 1)]  # fmt: skip
    return shapely.union_all([comb, *(k for k in keys if k.is_valid and k.area > 100)])


def _legs(rng: np.random.Generator) -> shapely.Geometry:
    """Legs and rails of a seat: islands in a plan that nearly meet."""
    size, place = rng.uniform(30, 90), rng.uniform(120, 520, 2)
    legs = [affinity.translate(_oval(np.array([size, size])) if rng.random() < 0.4 else
                               shapely.box(-size / 2, -size / 2, size / 2, size / 2), x, y)
            for x in (0, place[0]) for y in (0, place[1])]  # fmt: skip
    gap = size / 2 + rng.uniform(2, 25)
    rails = [shapely.box(gap, -size / 3, place[0] - gap, size / 4)]
    if rng.random() < 0.5:
        rails.append(shapely.box(-size / 4, gap, size / 3, place[1] - gap))
    return shapely.union_all(legs + [r for r in rails if r.area > 0])


def _scatter(rng: np.random.Generator) -> shapely.Geometry:
    """Blots near each other."""
    blots = [affinity.translate(affinity.rotate(_oval(rng.uniform(30, 160, 2)), rng.uniform(0, 180)),
                                *rng.uniform(-250, 250, 2)) for _ in range(int(rng.integers(2, 7)))]  # fmt: skip
    return shapely.union_all(blots)


KINDS = (_ring, _star, _hooks, _comb, _legs, _scatter)


def outline(rng: np.random.Generator) -> shapely.Geometry:
    """One blank, of one or several islands, some of them inside others."""
    made = KINDS[int(rng.integers(len(KINDS)))](rng)
    if rng.random() < 0.3:
        other = KINDS[int(rng.integers(len(KINDS)))](rng)
        made = made.union(affinity.translate(other, *rng.uniform(-300, 300, 2)))
    made = affinity.rotate(made, rng.uniform(0, 360), origin=(0, 0)) if rng.random() < 0.5 else made
    return shapely.union_all([p for p in shapely.get_parts(made.buffer(0)) if p.area > 50])


def rack(rng: np.random.Generator) -> Rack:
    """Boards on hand, some knotty, and one or two that can be bought, long enough for anything here."""
    boards = []
    for i in range(int(rng.integers(0, 4))):
        width, length = rng.uniform(80, 320), rng.uniform(600, 2600)
        boards.append(Board(f"Own {i}", width, length, THICK, "white oak", cost=float(rng.uniform(10, 90)),
                            count=int(rng.integers(1, 3))))  # fmt: skip
    for i in range(int(rng.integers(1, 3))):
        boards.append(Board(f"Yard {i}", float(rng.uniform(90, 300)), float(rng.uniform(1900, 3200)), THICK,
                            "white oak", cost=float(rng.uniform(20, 120)), count=0, for_sale=True))  # fmt: skip
    return Rack(tuple(boards))


def case(seed: int) -> tuple[StackPlan, Rack]:
    """A stack of one to three layers of like outlines, and a rack."""
    rng = np.random.default_rng([10, seed])
    outlines = [outline(rng) for _ in range(int(rng.integers(1, 4)))]
    return layer_stack(outlines, float(rng.choice([0.0, 90.0, rng.uniform(0, 180)]))), rack(rng)
