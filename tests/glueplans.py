# SPDX-License-Identifier: LGPL-2.1-or-later

"""A planner of glue-ups that is no more than arithmetic, so that objects and panels are tested without the real one.

Every stack is glued from the bottom up, `LINES` lines at a time; then each joint. Four clamps of the first kind press
every set-up, 20 mm to each side of the middle of its lowest line.
"""

from __future__ import annotations

from collections.abc import Mapping

from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.plan.areas import blank_area
from freecad_stacklam.lamination.plan.gluing import (
    JOINT,
    LAYERS,
    BrokenLimit,
    ClampPlace,
    Clock,
    Condition,
    GlueUpPlan,
    LinePressure,
    SetUp,
)
from freecad_stacklam.lamination.plan.layers import LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.glue import Glue, GlueSettings, glue_of
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.wood.species import Species

#: Lines that one set-up glues, at most; seconds for each.
LINES, EACH = 3, 90.0


def plan_glue_up(
    plan: Plan, settings: Settings, species: Mapping[str, Species], glues: Mapping[str, Glue]
) -> GlueUpPlan:
    """As the contract of the real one."""
    glue = glue_of(settings.glue or GlueSettings(), glues)
    room = settings.room or GluingRoom()
    if not settings.presses:
        raise Refusal("There are no clamps: list yours.")
    if room.temperature < glue.least_temperature:
        raise Refusal("The room is too cold for this glue: warm it.")
    set_ups: list[SetUp] = []
    for stack in plan.stacks:
        for first in range(1, len(stack.layers), LINES):
            last = min(first + LINES, len(stack.layers))
            set_ups.append(_layers(stack, first, last, len(set_ups) + 1, glue, settings))
    for joint in plan.joints:
        names = tuple(member.stack for member in joint.members)
        clock = Clock(glue.open_time, glue.assembly_time, EACH, 2 * EACH)
        set_ups.append(
            SetUp(
                len(set_ups) + 1, len(set_ups) + 1, JOINT, names[0], 0, 0, (), (), clock, 20.0, 5000.0,
                joint=joint.name, stacks=names, why="the stacks are whole by then",
            )
        )  # fmt: skip
    times = (glue.open_time, glue.assembly_time, glue.clamp_time, glue.cure_time)
    conditions = () if room.humidity is None else (Condition("moisture", "go", 8.0, 10.0, "%", "The wood is dry."),)
    return GlueUpPlan(
        glue.name, times, room.temperature, tuple(set_ups), (len(set_ups), len(set_ups)), True, conditions
    )


def _layers(stack: StackPlan, first: int, last: int, number: int, glue: Glue, settings: Settings) -> SetUp:
    press = settings.presses[0]
    run = stack.layers[first - 1 : last]
    below = stack.layers[0].bottom
    lines = tuple(range(first, last))
    areas = {line: _overlap(stack.layers[line - 1], stack.layers[line]) for line in lines}
    middle = areas[first][1]
    places = tuple(
        ClampPlace(press.name, (middle[0] + dx, middle[1] + dy), press.force, press.pad, below, run[-1].top)
        for dx, dy in ((-20, -20), (20, -20), (20, 20), (-20, 20))
    )
    force = sum(place.force for place in places)
    pressures = tuple(
        LinePressure(line, area, force / area, 0.5 * force / area, 0.6 * force / area, 1.0, MultiPolygon(), (0.7, 1.7))
        for line, (area, _) in areas.items()
    )
    needed, opening = EACH * len(lines), run[-1].top - below
    limits = []
    if needed > glue.open_time:
        says = f"The first line waits {needed:.0f} s for its contact, and the glue stays open {glue.open_time:.0f} s."
        limits.append(BrokenLimit("open time", needed, glue.open_time, "s", says))
    if press.opening is not None and opening > press.opening:
        says = f"The run is {opening:.0f} mm high, and the clamps open {press.opening:.0f} mm: take others."
        limits.append(BrokenLimit("opening", opening, press.opening, "mm", says))
    joins = ((1, first), *((n, n) for n in range(first + 1, last + 1)))
    area = sum(a for a, _ in areas.values())
    return SetUp(
        number, number, LAYERS, stack.name, 1 if first > 1 else first, last, joins, lines,
        Clock(glue.open_time, glue.assembly_time, needed, needed + EACH), area / 1e6 * glue.spread * 1.15, area,
        places, pressures, opening=opening, limits=tuple(limits), why=f"{LINES} lines fill the clock",
    )  # fmt: skip


def _overlap(lower: LayerPlan, upper: LayerPlan) -> tuple[float, tuple[float, float]]:
    both = blank_area(lower.blank).intersection(blank_area(upper.blank))
    return both.area, (both.centroid.x, both.centroid.y)
