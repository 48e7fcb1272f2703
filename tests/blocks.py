# SPDX-License-Identifier: LGPL-2.1-or-later

"""Blocks as stacks, and tenons between them, for tests that reckon their seats by hand."""

from __future__ import annotations

from dataclasses import replace
from math import cos, radians, sin

import numpy as np
from plans import layer_of, stack_of
from shapely import box

from freecad_stacklam.lamination.plan.boards import Stave
from freecad_stacklam.lamination.plan.joints import JointMember, JointPlan, Tenon
from freecad_stacklam.lamination.plan.layers import StackPlan

GROWN = 3.2  # what plans.layer_of adds all round to the form


def block(name: str, x: float, y: float, heights: tuple[float, ...], at: float, grain: float = 0.0) -> StackPlan:
    """A block of `x` by `y` as sawn about the axis, with square corners, standing `at` above the floor."""
    form = box(-x / 2 + GROWN, -y / 2 + GROWN, x / 2 - GROWN, y / 2 - GROWN)
    layers = [
        replace(layer_of(i + 1, a, b, [form, form]), grain=grain)
        for i, (a, b) in enumerate(zip((0.0, *heights[:-1]), heights))
    ]
    return stack_of(name, tuple(layers), at)


def joint_of(low: StackPlan, high: StackPlan, embed: float = 30.0, through: bool = False, section: str = "square",
             size: tuple[float, ...] = (40.0,), height: float | None = None) -> JointPlan:  # fmt: skip
    """A tenon between two blocks whose seat lies at `height` in the model, as is where they stand."""
    seat = low.height if height is None else height
    top = high.height if through else embed
    return JointPlan(
        name=f"{low.name} to {high.name}", section=section, size=size, point=(0.0, 0.0, seat),
        direction=(0.0, 0.0, 1.0), clearance=0.1, end_room=2.0,
        members=(JointMember(low.name, low.height - embed, low.height, False, embed - 2),
                 JointMember(high.name, 0.0, top, through, top - (0 if through else 2))),
        tenon=Tenon(embed + top, section, size, "white oak"), least_cover=20.0, cover_place=(0, 0, 0),
        start=-embed + 2, end=top - (0 if through else 2),
    )  # fmt: skip


def strips(*widths: float, length: float = 600.0, grain: float = 0.0, layer: int = 1, thick: float = 45.0,
           stack: str = "Seat", copies: int = 1) -> list[Stave]:  # fmt: skip
    """Staves side by side from y = 0 up, turned by `grain`."""
    edges = np.concatenate([[0.0], np.cumsum(widths)])
    c, s = cos(radians(grain)), sin(radians(grain))
    made = []
    for i, (low, high) in enumerate(zip(edges[:-1], edges[1:])):
        corners = ((0.0, low), (length, low), (length, high), (0.0, high))
        region = tuple((u * c - v * s, u * s + v * c) for u, v in corners)
        made.append(
            Stave(f"{stack} {layer} {'abcdefgh'[i]}", stack, layer, region, float(high - low), length, thick, grain,
                  "white oak", 2, copies)
        )  # fmt: skip
    return made
