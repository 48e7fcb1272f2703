# SPDX-License-Identifier: LGPL-2.1-or-later

"""How a mortise is made at the bench: which bit, where, how deep, and what is left for the chisel."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import ceil

import numpy as np
import shapely
from numpy.typing import NDArray

from freecad_stacklam.lamination.form.frame import direction_to_stack, to_stack
from freecad_stacklam.lamination.joints.axis import section_outline
from freecad_stacklam.lamination.joints.cover import Cylinder
from freecad_stacklam.lamination.joints.mortise import ends_on_glue_line, mortise_span, through_waste
from freecad_stacklam.lamination.lengths import INCH
from freecad_stacklam.lamination.plan.jointaxis import JointAxis
from freecad_stacklam.lamination.plan.joints import Boring, JointMember, JointPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.settings.shop import Bit
from freecad_stacklam.lamination.tolerances import LEAST_CUT, PARALLEL, ROUNDING, WHOLE

Floats = NDArray[np.float64]

#: Diameters that shops keep, mm, where the maker names none (common practice, no source).
COMMON_BITS = tuple(Bit(diameter) for diameter in (
    6.0, 8.0, 10.0, 12.0, 15.0, 16.0, 18.0, 20.0, 22.0, 25.0, 26.0, 28.0, 30.0, 32.0, 35.0, 38.0, 40.0, 45.0, 50.0,
))  # fmt: skip
#: The same of a shop that works in inches, in sixteenths.
INCH_BITS = tuple(Bit(n * INCH / 16) for n in (4, 5, 6, 7, 8, 9, 10, 11, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30, 32))
#: A rim bit's or brad point's tip lies within this radius, mm; a spade's within this part of its diameter.
_SPIKE, _SPADE = 3.0, 0.25
#: A cone stands as so many cylinders around it.
_STEPS = 16
#: A bit that is this part of itself narrower than the mortise bores one hole, and the chisel does the rest.
_NEARLY = 0.125


def borings_of(
    joint: JointPlan,
    stacks: Sequence[StackPlan],
    bits: Sequence[Bit] = (),
    chisel_reach: float = 100.0,
    units: str = "mm",
    stroke: float | None = None,
    before: bool = True,
) -> tuple[Boring, ...]:
    """The drilling table of a joint.

    Where the axis stands square to the layers the mortise is cut layer by layer before glue-up, each layer from its own
    datum, and a waxed dummy tenon keys them (`before`: as the trade prefers it). Otherwise one within the chisel's
    reach (from both faces when it goes through) is bored in the assembled stack; a deeper one, and a stopped one that
    ends on a glue line, layer by layer: there each layer is bored through and no point goes deeper. Depths are those of
    the bit's way: along the axis, from where it passes the bored face; a layer that only a corner of a leaning
    mortise's bottom reaches is left to the chisel. bits: those at hand (none: the common ones of shops that work in
    `units`); chisel_reach: mm; stroke: of the drill press, mm, if known.
    """
    axis = joint.axis
    bit = bit_for(joint.size, bits, units)
    places = bored_at(joint.section, joint.size, bit.diameter)
    chisel = _left(joint, places, bit.diameter)
    rows: list[Boring] = []
    for member, stack in zip(joint.members, stacks):
        start, end = through_waste(stack, joint, member)
        open_top = _opens_upwards(stack, joint, member)
        floor, rise = _floor(joint, stack, member, open_top), abs(float(direction_to_stack(stack.frame, axis.along)[2]))
        reach = (end - start) / (2 if member.through else 1)
        square = rise > 1.0 - PARALLEL
        if not (before and square) and reach <= chisel_reach and not ends_on_glue_line(stack, member):
            height = end if open_top else start
            whole = member.through
            centres = _centres(axis, stack, places, height)
            side = "top" if open_top else "bottom"
            depth = (end - start if whole else abs(height - floor)) / rise
            rows.append(_row(bit, stack.name, None, depth, whole, centres, chisel, side, "after glue-up"))
            continue
        for layer in stack.layers:
            low, high = max(start, layer.bottom), min(end, layer.top)
            if high - low <= LEAST_CUT:
                continue
            whole = high - low > layer.thickness - LEAST_CUT
            side = "top" if high > layer.top - LEAST_CUT else "bottom"
            height = high if side == "top" else low
            deep = high - low
            if not (whole or member.through):
                deep = height - floor if open_top else floor - height
                if deep <= LEAST_CUT:
                    continue
            centres = _centres(axis, stack, places, height)
            rows.append(
                _row(bit, stack.name, layer.number, deep / rise, whole, centres, chisel, side, "before glue-up")
            )
    return tuple(replace(row, stroke=stroke, owned=not bits or bit in bits) for row in rows)


def _opens_upwards(stack: StackPlan, joint: JointPlan, member: JointMember) -> bool:
    meet = float(to_stack(stack.frame, np.array([joint.point]))[0, 2])
    return abs(member.end - meet) <= abs(member.start - meet)


def _floor(joint: JointPlan, stack: StackPlan, member: JointMember, open_top: bool) -> float:
    """Height at which the axis meets the bottom of a stopped mortise: a leaning one's corners reach beyond it by half
    of what its section spans in height."""
    low, high = mortise_span(stack, joint.axis, section_outline(joint.section, joint.size), (0.0, 0.0))
    hang = (high - low) / 2
    return member.start + hang if open_top else member.end - hang


def _row(
    bit: Bit, stack: str, layer: int | None, depth: float, through: bool, centres: tuple[tuple[float, float], ...],
    chisel: float, side: str, when: str,
) -> Boring:  # fmt: skip
    return Boring(
        stack, layer, bit.diameter, depth, through, centres, chisel, side, when, bit.kind, bit.lead, bit.length
    )


def bit_for(size: Sequence[float], bits: Sequence[Bit] = (), units: str = "mm") -> Bit:
    """The largest bit that fits a mortise of that size: of `bits`, else of those that shops which work in `units` keep,
    else one as wide as the mortise. None is ever wider than that, for it would bore into the walls."""
    for shop in (bits, INCH_BITS if units == "in" else COMMON_BITS, (Bit(min(size)),)):
        fitting = [b for b in shop if b.diameter <= min(size) + ROUNDING]
        if fitting:
            break
    return max(fitting, key=lambda b: b.diameter)


def point_bodies(bit: Bit, places: Floats, bottom: float, down: bool) -> list[Cylinder]:
    """What the bit's point takes out beyond the bottom of a mortise, as cylinders about the joint's axis.

    places: centres of the holes, K × 2; bottom: along the axis, mm; down: the point goes towards smaller values. The
    cone of a twist bit stands in its cylinders; the tips of other kinds are no wider than theirs.
    """
    steps = _STEPS if bit.kind == "twist" else 1
    if bit.kind == "twist":
        radii = [bit.diameter / 2 * (1 - i / steps) for i in range(steps)]
    else:
        radii = [bit.diameter * _SPADE if bit.kind == "spade" else min(_SPIKE, bit.diameter / 2)]
    bodies = []
    for x, y in places.tolist():
        for i, radius in enumerate(radii):
            near, far = bit.lead * i / steps, bit.lead * (i + 1) / steps
            ends = (bottom - far, bottom - near) if down else (bottom + near, bottom + far)
            bodies.append(Cylinder((x, y), radius, *ends))
    return bodies


def bored_at(section: str, size: Sequence[float], bit: float) -> Floats:
    """Centres of the holes about the axis: as few as touch every wall with no gap wider than half a bit between
    them."""
    if section == "round":
        return np.zeros((1, 2))
    lines = []
    for side in (size[0], size[-1]):
        room = max(0.0, side - bit)
        if room < bit * _NEARLY:
            room = 0.0
        count = 1 if room == 0.0 else 1 + ceil(room / (bit * 0.75) - WHOLE)
        lines.append(np.linspace(-room / 2, room / 2, count) if count > 1 else np.zeros(1))
    return np.array([(x, y) for y in lines[1] for x in lines[0]])


def _left(joint: JointPlan, places: Floats, bit: float) -> float:
    """The part of the section that the bit does not reach."""
    holes = shapely.union_all(shapely.buffer(shapely.points(places), bit / 2, quad_segs=90))
    whole = np.pi * joint.size[0] ** 2 / 4 if joint.section == "round" else joint.size[0] * joint.size[-1]
    return max(0.0, 1.0 - float(holes.area) / whole)


def _centres(axis: JointAxis, stack: StackPlan, places: Floats, height: float) -> tuple[tuple[float, float], ...]:
    """Where the holes' axes pass a height of the stack, x and y from its datum."""
    start = to_stack(stack.frame, axis.model(np.column_stack([places, np.zeros(len(places))])))
    along = direction_to_stack(stack.frame, axis.along)
    at = start + ((height - start[:, 2]) / along[2])[:, None] * along
    return tuple((float(x), float(y)) for x, y, _ in at)
