# SPDX-License-Identifier: LGPL-2.1-or-later

"""What moves with the moisture: heights, widths, the cup of a free layer, tenons in their mortises, pins.

Movement by Eq. 13-3 and 13-4 of FPL-GTR-282 (2021), through `wood.species.movement`: all from the moisture when glued.
Lengths mm, moisture %.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import cos, radians, sin

import numpy as np
import shapely

from freecad_stacklam.lamination.boards.sawncut import FLAT, QUARTER
from freecad_stacklam.lamination.findings.seasons import JointSeason, Movement, PinSeason, Year
from freecad_stacklam.lamination.joints.mortise import grain_side
from freecad_stacklam.lamination.plan.joints import JointMember, JointPlan
from freecad_stacklam.lamination.plan.layers import LayerPlan, StackPlan
from freecad_stacklam.lamination.wood.species import Species, movement

#: Shrinkage through the thickness and across the width of a board, by how it is sawn: which fields of Species.
THICKNESS = {FLAT: "shrink_radial", QUARTER: "shrink_tangential"}
WIDTH = {FLAT: "shrink_tangential", QUARTER: "shrink_radial"}


def change(size: float, shrinkage: float, start: float, year: Sequence[float]) -> Year:
    """Change of a size over the months, from `start` %."""
    return tuple(movement(size, shrinkage, start, month) for month in year)


def added(*years: Sequence[float]) -> Year:
    """Month by month together."""
    return tuple(map(sum, zip(*years)))


def known(wood: Species | None) -> bool:
    """Whether both of a wood's shrinkages are."""
    return wood is not None and bool(wood.shrink_radial) and bool(wood.shrink_tangential)


def _shrinkage(wood: Species, field: str) -> float:
    found = getattr(wood, field)
    assert isinstance(found, float)
    return found


def cut_of(stack: StackPlan) -> str:
    """How all the stack's boards are sawn, "" where that is not known."""
    return stack.movement.cut if stack.movement is not None else ""


def height_change(
    stack: StackPlan, table: Mapping[str, Species], start: float, means: Sequence[Year]
) -> Movement | None:
    """Of a stack's height, its layers with the moistures `means`; None where a shrinkage is not known."""
    if not all(known(table.get(layer.species)) for layer in stack.layers):
        return None

    def with_boards(cut: str) -> Year:
        parts = []
        for layer, mean in zip(stack.layers, means):
            thick = max(min(layer.top, stack.form.height) - layer.bottom, 0.0)
            parts.append(change(thick, _shrinkage(table[layer.species], THICKNESS[cut]), start, mean))
        return added(*parts)

    return Movement(with_boards(FLAT), with_boards(QUARTER), cut_of(stack))


def width_across(layer: LayerPlan) -> float:
    """The finished layer's width square to its grain, mm."""
    points = shapely.get_coordinates(layer.shadow)
    if not len(points):
        return 0.0
    angle = radians(layer.grain)
    return float(np.ptp(points @ np.array([-sin(angle), cos(angle)])))


def width_change(
    stack: StackPlan, layer: LayerPlan, table: Mapping[str, Species], start: float, mean: Year
) -> Movement | None:
    """Of a layer's width across its grain."""
    wood = table.get(layer.species)
    if wood is None or not known(wood):
        return None
    width = width_across(layer)
    flat, quarter = (change(width, _shrinkage(wood, WIDTH[cut]), start, mean) for cut in (FLAT, QUARTER))
    return Movement(flat, quarter, cut_of(stack))


def free_cup(
    stack: StackPlan,
    layer: LayerPlan,
    table: Mapping[str, Species],
    start: float,
    mean: Year,
    slope: Sequence[float],
    ring_radius: float,
) -> Movement | None:
    """How hollow a layer would lie if it were free, w² / 8 over its curvature: (C_T − C_R) ΔM / r of flat-sawn wood
    whose rings curve at r, and C dM/dz of wood that is wetter on one face (`slope`, points a mm), the two taken in one
    sense. Above 0: hollow on the bark side, as it dries. Arithmetic of a bent strip."""
    wood = table.get(layer.species)
    if wood is None or not known(wood):
        return None
    span = width_across(layer) ** 2 / 8
    rings = [
        -(
            movement(1.0, _shrinkage(wood, "shrink_tangential"), start, month)
            - movement(1.0, _shrinkage(wood, "shrink_radial"), start, month)
        )
        / ring_radius
        for month in mean
    ]

    def bent(cut: str, ring: float, tilt: float, month: float) -> float:
        # The strain per point of moisture, near the moisture of the month.
        each = movement(1.0, _shrinkage(wood, WIDTH[cut]), month, month + 0.1) / 0.1
        bow = each * abs(tilt)
        return span * (ring + (bow if ring >= 0 else -bow))

    flat = tuple(bent(FLAT, *three) for three in zip(rings, slope, mean))
    quarter = tuple(bent(QUARTER, 0.0, tilt, month) for tilt, month in zip(slope, mean))
    return Movement(flat, quarter, cut_of(stack))


def joint_season(
    joint: JointPlan, member: JointMember, stack: StackPlan, table: Mapping[str, Species], start: float, tenon: Year,
    around: Year,
) -> JointSeason:  # fmt: skip
    """A tenon in one stack's mortise; `tenon` and `around`: their moistures there. How the tenon's own faces lie to its
    rings is not known: along the layers' grain it is taken tangential, across it as is worst."""
    wood, layers = table.get(joint.tenon.species), table.get(stack.species)
    side = grain_side(joint.axis, stack)
    sizes = joint.tenon.size if len(joint.tenon.size) == 2 else joint.tenon.size * 2
    along = across = height = wedged = None
    if wood is not None and known(wood):
        along = change(sizes[side], _shrinkage(wood, WIDTH[FLAT]), start, tenon)
        wedged = along if member.wedge is not None else None
    if layers is not None and known(layers):
        height = change(member.embed, _shrinkage(layers, THICKNESS[cut_of(stack) or QUARTER]), start, around)
    if wood is not None and layers is not None and known(wood) and known(layers):
        faces = [_shrinkage(wood, field) for field in WIDTH.values()]
        walls = [_shrinkage(layers, field) for cut, field in WIDTH.items() if cut_of(stack) in ("", cut)]
        pairs = [
            tuple(a - b for a, b in zip(change(sizes[1 - side], mine, start, tenon),
                                        change(sizes[1 - side], theirs, start, around)))
            for mine in faces for theirs in walls
        ]  # fmt: skip
        across = max(pairs, key=lambda year: max(map(abs, year)))
    return JointSeason(
        joint.name, stack.name, tenon, around, along, across, height, joint.clearance, member.relief, wedged,
        2 * member.wedge.spread if member.wedge is not None else 0.0,
    )  # fmt: skip


def pin_seasons(
    stack: StackPlan, table: Mapping[str, Species], start: float, means: Sequence[Year]
) -> tuple[PinSeason, ...]:
    """The deepest pins of every glue line of a stack that keeps some; none where a shrinkage is not known."""
    wood = table.get(stack.species)
    if wood is None or not known(wood):
        return ()
    shrinkage = _shrinkage(wood, THICKNESS[cut_of(stack) or QUARTER])
    found = []
    for interface in sorted({pin.interface for pin in stack.pins if not pin.waste}):
        pins = [pin for pin in stack.pins if pin.interface == interface and not pin.waste]
        pin = max(pins, key=lambda one: one.depth_down + one.depth_up)
        deep = pin.depth_down + pin.depth_up
        below, above = means[interface - 1], means[interface]
        moved = added(change(pin.depth_down, shrinkage, start, below), change(pin.depth_up, shrinkage, start, above))
        found.append(PinSeason(stack.name, interface, deep, deep - (pin.dowel or deep), moved))
    return tuple(found)
