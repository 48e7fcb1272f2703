# SPDX-License-Identifier: LGPL-2.1-or-later

"""Stacks of plain plates for tests of gluing: no form, only blanks, cuts and thicknesses. mm."""

from __future__ import annotations

from collections.abc import Sequence

from shapely import MultiPolygon, Point, Polygon, box

from freecad_stacklam.lamination.plan.layers import Containment, Cut, FormFigures, LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import Outline, circle, rectangle, straight
from freecad_stacklam.lamination.settings.presses import PressSettings


def plate(
    number: int,
    bottom: float,
    thickness: float,
    blank: Sequence[Outline],
    cuts: tuple[Cut, ...] = (),
    species: str = "white oak",
) -> LayerPlan:
    """One layer with a blank of any outlines."""
    none = MultiPolygon()
    return LayerPlan(number, bottom, bottom + thickness, species, 0.0, none, tuple(blank), none, none, 0.0, 0.0, cuts)


def pile(blanks: Sequence[Sequence[Outline]], thickness: float = 45.0, cuts: dict[int, tuple[Cut, ...]] | None = None
         ) -> StackPlan:  # fmt: skip
    """Plates of one thickness, from the bottom; cuts by the number of the layer."""
    layers = tuple(
        plate(i + 1, i * thickness, thickness, blank, (cuts or {}).get(i + 1, ())) for i, blank in enumerate(blanks)
    )
    frame = tuple(float(i % 5 == 0) for i in range(16))
    figures = FormFigures(0.0, thickness * len(layers), 0)
    return StackPlan("Pile", frame, figures, 3.0, 0.2, "white oak", layers, Containment(0.0, 0.0, (0, 0, 0), 0, ""))


def boxes(count: int, width: float, depth: float, thickness: float = 45.0) -> StackPlan:
    """Equal rectangles about the axis."""
    return pile([[rectangle(width, depth)]] * count, thickness)


def discs(diameters: Sequence[float], thickness: float = 45.0, hole: float = 0.0) -> StackPlan:
    """Discs about the axis, each with a hole of one diameter."""
    bore = circle(hole) if hole else None
    return pile([[ring(d, hole) if bore else circle(d)] for d in diameters], thickness)


def ring(outer: float, inner: float, points: int = 720) -> Outline:
    """A ring of straight lines."""
    return straight(Point(0, 0).buffer(outer / 2, points // 4).difference(Point(0, 0).buffer(inner / 2, points // 4)))


def outline(area: Polygon) -> Outline:
    """Any polygon as a blank."""
    return straight(area)


def legs(apart: float = 300.0, side: float = 80.0) -> list[Outline]:
    """Two squares beside each other."""
    return [straight(box(x - side / 2, -side / 2, x + side / 2, side / 2)) for x in (-apart / 2, apart / 2)]


def clamps(count: int = 24, force: float = 4670.0, **more: object) -> PressSettings:
    """Clamps alike; a pipe clamp's force where none is given."""
    return PressSettings("pipe clamp", count=count, force=force, **more)  # type: ignore[arg-type]
