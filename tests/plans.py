# SPDX-License-Identifier: LGPL-2.1-or-later

"""Plans made by hand with shapely, for tests that need a plan and not the planning of it.

A plant stand: a three-lobed pedestal of ten layers that flares to a foot, and an oval top of two layers with a shallow
dish, joined by a square floating tenon, stopped in the pedestal and through in the top.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from math import pi

import numpy as np
import shapely
from shapely import MultiPolygon, Polygon

from freecad_stacklam.lamination.plan.bill import BillRow
from freecad_stacklam.lamination.plan.boards import BoardsPlan, Stave
from freecad_stacklam.lamination.plan.joints import Boring, JointMember, JointPlan, Tenon, Wedge
from freecad_stacklam.lamination.plan.layers import Containment, Cut, FormFigures, LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import area, area_polygon, circle, rectangle, straight
from freecad_stacklam.lamination.plan.whole import Plan

ALLOWANCE, GUARD, SIDE = 3.0, 0.2, 40.2
BOARD_FOOT = 144 * 25.4**3


def lobed(radius: float, lobes: float, points: int = 720) -> Polygon:
    """A three-lobed outline: radius × (1 + lobes · cos 3θ)."""
    angle = np.arange(points) * 2 * pi / points
    r = radius * (1 + lobes * np.cos(3 * angle))
    return Polygon(np.column_stack([r * np.cos(angle), r * np.sin(angle)]))


def oval(length: float, width: float, points: int = 720) -> Polygon:
    """An ellipse."""
    angle = np.arange(points) * 2 * pi / points
    return Polygon(np.column_stack([length / 2 * np.cos(angle), width / 2 * np.sin(angle)]))


def many(shape: Polygon | MultiPolygon) -> MultiPolygon:
    """Always as islands."""
    return MultiPolygon([p for p in shapely.get_parts(shape) if not p.is_empty])


def layer_of(number: int, bottom: float, top: float, sections: list[Polygon], cuts: tuple[Cut, ...] = ()) -> LayerPlan:
    """A layer around sections of the form from its bottom to its top."""
    shadow = shapely.union_all(sections)
    region = shapely.simplify(shapely.buffer(shadow, ALLOWANCE + GUARD, quad_segs=32), 0.02)
    blank = tuple(straight(p) for p in shapely.get_parts(region))
    return LayerPlan(
        number=number,
        bottom=bottom,
        top=top,
        species="white oak",
        grain=0.0 if number % 2 else 90.0,
        shadow=many(shadow),
        blank=blank,
        finished_bottom=many(sections[0]),
        finished_top=many(sections[-1]),
        blank_area=sum(area(o) for o in blank),
        finished_volume=float(np.mean([s.area for s in sections])) * (top - bottom),
        cuts=cuts,
    )


def stack_of(name: str, layers: tuple[LayerPlan, ...], frame_height: float = 0.0) -> StackPlan:
    """A stack whose frame stands `frame_height` above the model's."""
    frame = (1.0, 0, 0, 0, 0, 1.0, 0, 0, 0, 0, 1.0, frame_height, 0, 0, 0, 1.0)
    volume = sum(layer.finished_volume for layer in layers)
    return StackPlan(
        name=name,
        frame=tuple(map(float, frame)),
        form=FormFigures(volume, layers[-1].top, 12000),
        allowance=ALLOWANCE,
        guard=GUARD,
        species="white oak",
        layers=layers,
        containment=Containment(0.0, 3.05, (10.0, 20.0, 30.0), 100000, "hand-made"),
    )


def mortise(
    layer_bottom: float, layer_top: float, start: float, end: float, name: str = "Pedestal to top"
) -> tuple[Cut, ...]:
    """The part of a mortise from `start` to `end` that lies in a layer."""
    low, high = max(layer_bottom, start), min(layer_top, end)
    return (Cut("mortise", rectangle(SIDE, SIDE), low, high, name),) if low < high else ()


def pedestal(stock: float = 45.0, count: int = 10) -> StackPlan:
    """The three-lobed pedestal: a foot of 170 mm radius, a waist of 75, a head of 110."""
    height = stock * count

    def section(z: float) -> Polygon:
        t = z / height
        return lobed(75 + 95 * (1 - t) ** 3 + 35 * t**3, 0.12 * (1 - 0.5 * t))

    layers = []
    for i in range(count):
        bottom, top = i * stock, (i + 1) * stock
        sections = [section(z) for z in np.linspace(bottom, top, 9)]
        layers.append(layer_of(i + 1, bottom, top, sections, mortise(bottom, top, height - 75.0, height)))
    return stack_of("Pedestal", tuple(layers))


def top(stock: float = 27.0, length: float = 560.0, width: float = 400.0, under: float = 450.0) -> StackPlan:
    """The oval top with a shallow dish, 12 mm deep, and its lower edge turned in."""
    dish = oval(length - 60, width - 60)
    lower = layer_of(
        1, 0.0, stock, [oval(length - 120, width - 120), oval(length - 20, width - 20)], mortise(0, stock, 0, 60)
    )
    upper = layer_of(
        2, stock, 2 * stock, [oval(length - 20, width - 20), oval(length, width)], mortise(stock, 2 * stock, 0, 60)
    )
    rim = many(oval(length - 10, width - 10).difference(dish))
    upper = LayerPlan(**{**upper.__dict__, "finished_top": rim})
    return stack_of("Top", (lower, upper), under)


def bill_of(stacks: tuple[StackPlan, ...]) -> tuple[BillRow, ...]:
    """A row for every blank, the tenon, and totals."""
    rows = []
    for stack in stacks:
        for layer in stack.layers:
            x0, y0, x1, y1 = area_polygon(layer.blank).bounds
            rows.append(
                BillRow(
                    "blank", f"{stack.name} {layer.number}", "white oak", stack.copies, layer.thickness, x1 - x0,
                    y1 - y0, layer.blank_area, layer.blank_volume, layer.blank_volume / BOARD_FOOT,
                    layer.blank_volume * 762e-9, "hand-made",
                )
            )  # fmt: skip
    rows.append(BillRow("tenon", "Pedestal to top", "white oak", 1, 40.0, 127.0, 40.0, 1600.0, 203200.0, 0.086, 0.155))
    total = sum(r.volume or 0.0 for r in rows)
    rows.append(
        BillRow("total", "All wood", "white oak", 1, volume=total, board_feet=total / BOARD_FOOT, mass=total * 762e-9)
    )
    return tuple(rows)


@cache
def plant_stand(units: str = "mm") -> Plan:
    """Pedestal, top and joint."""
    stacks = (pedestal(), top())
    joint = JointPlan(
        name="Pedestal to top",
        section="square",
        size=(40.0,),
        point=(0.0, 0.0, 450.0),
        direction=(0.0, 0.0, 1.0),
        clearance=0.1,
        end_room=2.0,
        members=(JointMember("Pedestal", 375.0, 450.0, False, 73.0), JointMember("Top", 0.0, 54.0, True, 54.0)),
        tenon=Tenon(127.0, "square", (40.0,), "white oak"),
        least_cover=31.5,
        cover_place=(0.0, -52.0, 400.0),
    )
    return Plan("Plant stand", units, stacks, (joint,), bill_of(stacks), author="Workshop", date="2025-03-01")


@cache
def worked_stand(units: str = "mm") -> Plan:
    """The plant stand with pins between the pedestal's layers 3 and 4, a void in layer 5, a wedged through tenon, and
    layer 2 glued up from three staves along its grain."""
    plan = plant_stand(units)
    foot, head = plan.stacks
    layers = list(foot.layers)
    for index, start, end in ((2, layers[2].top - 12.0, layers[2].top), (3, layers[3].bottom, layers[3].bottom + 12.0)):
        pins = tuple(Cut("pin", circle(10.0, c), start, end) for c in ((-40.0, 12.0), (35.0, -20.0)))
        layers[index] = replace(layers[index], cuts=pins)
    void = Cut("hollow", circle(60.0, (3.0, -2.0)), layers[4].bottom, layers[4].top)
    layers[4] = replace(layers[4], cuts=(void,))
    foot = replace(foot, layers=tuple(layers))
    x0, y0, x1, y1 = area_polygon(layers[1].blank).bounds
    cuts = [x0 - 5.0, -45.0, 50.0, x1 + 5.0]  # the grain of layer 2 runs along y
    staves = tuple(
        Stave(f"Pedestal 2 {letter}", "Pedestal", 2, ((a, y0), (b, y0), (b, y1), (a, y1)), b - a, y1 - y0, 45.0, 90.0,
              "white oak", 1)
        for letter, a, b in zip("abc", cuts[:-1], cuts[1:])
    )  # fmt: skip
    wedge = Wedge(
        count=2, along_first=True, kerf_turn=90.0, kerf_width=1.5, kerf_depth=33.0, kerf_from_edge=4.5, stop_hole=2.25,
        length=25.0, thickness=2.6, tip=1.13, flare=1.0, flare_depth=25.0, spread=1.1, strain=0.0065,
        strain_limit=0.0068, buried=6.0,
    )  # fmt: skip
    joint = plan.joints[0]
    members = (
        replace(joint.members[0], relief=0.4, movement_along=0.9, movement_across=0.3),
        replace(joint.members[1], wedge=wedge),
    )
    drilling = (
        Boring("Pedestal", 9, 38.0, 30.0, False, ((-1.0, 0.0), (1.0, 0.0)), 0.2, "top", "before glue-up"),
        Boring("Pedestal", 10, 38.0, 45.0, True, ((-1.0, 0.0), (1.0, 0.0)), 0.2, "top", "before glue-up"),
        Boring("Top", None, 38.0, 54.0, True, ((-1.0, 0.0), (1.0, 0.0)), 0.2, "bottom", "after glue-up"),
    )
    tenon = Tenon(132.0, "square", (40.0,), "white oak")
    joint = replace(joint, members=members, drilling=drilling, proud=5.0, swing=4.0, tenon=tenon)
    return replace(plan, stacks=(foot, head), joints=(joint,), boards=BoardsPlan(staves))


def legs() -> Plan:
    """Four square islands far apart with a hole in each: pages that must be held together over empty ones."""
    islands = [
        shapely.box(x - 35, y - 35, x + 35, y + 35).difference(shapely.Point(x, y).buffer(12))
        for x in (-400, 400)
        for y in (-220, 220)
    ]
    layers = tuple(layer_of(i + 1, i * 32.0, (i + 1) * 32.0, [shapely.union_all(islands)] * 2) for i in range(2))
    stacks = (stack_of("Legs", layers),)
    return Plan("Bench", "mm", stacks, (), bill_of(stacks))


def wavy(points: int, number: int, length: float, width: float) -> Polygon:
    """An outline of exactly `points` points that no arc fits."""
    angle = np.arange(points) * 2 * pi / points
    r = 1 + 0.03 * np.sin(7 * angle + number) + 0.002 * np.sin(150 * angle)
    return Polygon(np.column_stack([length / 2 * r * np.cos(angle), width / 2 * r * np.sin(angle)]))


def large_stack(layers: int = 40, points: int = 2000, length: float = 900.0, width: float = 700.0) -> Plan:
    """A stack for benchmarks: `layers` layers, every outline of `points` points, nothing fitted."""
    made = []
    for i in range(layers):
        outline = wavy(points, i, length, width)
        low, high = (shapely.affinity.scale(outline, f, f, origin=(0, 0)) for f in (0.97, 0.98))
        made.append(
            LayerPlan(i + 1, i * 25.0, (i + 1) * 25.0, "white oak", 0.0, many(outline), (straight(outline),), many(low),
                      many(high), outline.area, low.area * 25.0)
        )  # fmt: skip
    return Plan("Benchmark", "mm", (stack_of("Large", tuple(made)),))
