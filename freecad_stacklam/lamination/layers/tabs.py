# SPDX-License-Identifier: LGPL-2.1-or-later

"""Tabs of waste on blanks: wood left on for the pads of clamps, as one rectangle through all its layers, and sawn off
after gluing. mm, mm², degrees.

A tab is found in its own frame: x runs outwards along its middle line, y across it to the left.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import shapely
from shapely import affinity
from shapely.geometry import LineString, MultiPolygon, Polygon, box

from freecad_stacklam.lamination.layers.fitting import FITTED
from freecad_stacklam.lamination.plan.areas import areas_of
from freecad_stacklam.lamination.plan.layers import Tab
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.stack import TabSettings
from freecad_stacklam.lamination.tolerances import ARC_SAG, FIT_TOLERANCE, GRID
from freecad_stacklam.lamination.words import say

#: Segments for a quarter circle of a fillet.
_QUARTER = 24
#: Edges as near as this touch: what is left of a turn and of the grid on which areas are joined.
NEAR = ARC_SAG
#: A tab leaves so much room to another part of its blank, mm: a saw passes (common practice, no source).
PASSES = 6.0


@dataclass(frozen=True, eq=False)
class Tabbed:
    """The blank of one layer with its tabs, as areas."""

    region: MultiPolygon
    tabs: tuple[Tab, ...] = ()


def with_tabs(regions: Sequence[MultiPolygon], asked: Sequence[TabSettings]) -> list[Tabbed]:
    """The blanks of a stack's layers, from the bottom, with the tabs that are asked for. Raises Refusal where a tab
    finds no place."""
    found = [Tabbed(region) for region in regions]
    for tab in asked:
        if max(tab.layers) > len(regions):
            raise Refusal(
                say(
                    "There is no layer {layers} for {called}: the stack has {regions}, counted from the bottom.",
                    layers=max(tab.layers),
                    called=tab.called,
                    regions=len(regions),
                )
            )
        for number, made in laid_out(tab, {number: regions[number - 1] for number in tab.layers}).items():
            one = found[number - 1]
            if any(shapely.distance(made.area, other.area) < PASSES for other in one.tabs):
                raise Refusal(
                    say(
                        "Two tabs of layer {number} run into each other: leave one out, or set them apart.",
                        number=number,
                    )
                )
            found[number - 1] = Tabbed(_joined(one.region, made.area), (*one.tabs, made))
    return found


def laid_out(tab: TabSettings, blanks: Mapping[int, MultiPolygon]) -> dict[int, Tab]:
    """What a tab adds to the blanks of its layers, given by their numbers. Raises Refusal where it finds no place."""
    end = max(edge_of(tab, blanks[number], number) for number in tab.layers) + tab.out
    return {number: _tab(tab, blanks[number], number, end) for number in tab.layers}


def edge_of(tab: TabSettings, region: MultiPolygon, number: int) -> float:
    """Where the tab's middle line leaves a blank for the last time, along that line."""
    local = _to_tab(tab, region)
    x0, _, x1, _ = local.bounds
    crossed = shapely.intersection(LineString([(x0 - 1.0, 0.0), (x1 + 1.0, 0.0)]), local)
    if crossed.is_empty:
        raise Refusal(
            say(
                "The middle line of {called} passes beside the blank of layer {number}: give another direction or "
                "aside.",
                called=tab.called,
                number=number,
            )
        )
    return float(crossed.bounds[2])


def _tab(tab: TabSettings, region: MultiPolygon, number: int, end: float) -> Tab:
    """The tab on one blank, which ends at `end` along its middle line."""
    local, half = _to_tab(tab, region), tab.width / 2
    edge = edge_of(tab, region, number)
    face = LineString([(end, -half), (end, half)])
    own, others = _pieces(local, edge)
    if shapely.distance(box(edge, -half, end, half), others) < PASSES:
        raise _into_another(tab, number)
    if shapely.distance(face, local) < PASSES:
        raise Refusal(
            say(
                "{called} ends inside the outline of layer {number}: let it stand out more, or give another direction.",
                called=_first_up(tab.called),
                number=number,
            )
        )
    back = _back(own, edge, tab.width)
    strip = areas_of(shapely.difference(box(back, -half, end, half), local, grid_size=GRID))
    waste = next(p for p in strip.geoms if shapely.distance(p, face) < NEAR)
    whole = shapely.union(waste, _fillets(own, waste, tab.fillet), grid_size=GRID)
    if shapely.distance(whole, others) < PASSES:
        raise _into_another(tab, number)
    seat = shapely.get_coordinates(_from_tab(tab, shapely.Point(end - min(half, (end - edge) / 2), 0.0)))[0]
    area = areas_of(shapely.set_precision(_from_tab(tab, whole), GRID))
    return Tab(area, tab.direction, tab.width, end - edge, (float(seat[0]), float(seat[1])))


def _back(piece: Polygon, edge: float, width: float) -> float:
    """How far inwards a tab goes: one width behind the piece's edge on its middle line, and half through the piece at
    the most, so that a tab that is wider than its piece takes that between its shoulders."""
    x0 = float(piece.bounds[0])
    crossed = shapely.get_parts(shapely.intersection(LineString([(x0 - 1.0, 0.0), (edge + 1.0, 0.0)]), piece)).tolist()
    last = max(crossed, key=lambda part: part.bounds[2])
    return edge - min(width, (edge - float(last.bounds[0])) / 2)


def _pieces(local: shapely.Geometry, edge: float) -> tuple[Polygon, MultiPolygon]:
    """The piece of a blank that a tab stands on, and the others."""
    pieces = sorted(shapely.get_parts(local).tolist(), key=lambda p: shapely.distance(p, shapely.Point(edge, 0.0)))
    return pieces[0], MultiPolygon(pieces[1:])


def _into_another(tab: TabSettings, number: int) -> Refusal:
    return Refusal(
        say(
            "{called} runs into another piece of layer {number}: make it narrower, or give another direction or aside.",
            called=_first_up(tab.called),
            number=number,
        )
    )


def _fillets(blank: Polygon, waste: Polygon, radius: float) -> MultiPolygon:
    """What rounds the inner corners between a tab and its blank, so that a saw turns in `radius` on the drawn line."""
    if radius <= 0.0:
        return MultiPolygon()
    round_by = radius + FITTED * FIT_TOLERANCE
    near = shapely.buffer(waste, 4 * round_by)
    both = shapely.union(shapely.intersection(blank, near), waste, grid_size=GRID)
    closed = shapely.buffer(shapely.buffer(both, round_by, quad_segs=_QUARTER), -round_by, quad_segs=_QUARTER)
    new = areas_of(
        shapely.difference(closed, shapely.union(blank, waste, grid_size=GRID), grid_size=GRID), FIT_TOLERANCE
    )
    touching = [p for p in new.geoms if max(shapely.distance(p, waste), shapely.distance(p, blank)) < NEAR]
    return MultiPolygon(touching)


def _joined(region: MultiPolygon, tab: MultiPolygon) -> MultiPolygon:
    """A blank and its tab as one area, without a crack where their rounded corners meet."""
    both = shapely.union(region, tab, grid_size=GRID)
    return areas_of(shapely.buffer(shapely.buffer(both, NEAR, join_style="mitre"), -NEAR, join_style="mitre"))


def _to_tab(tab: TabSettings, area: shapely.Geometry) -> shapely.Geometry:
    """An area of the stack's frame in the tab's."""
    turned = affinity.rotate(area, -tab.direction, origin=(0.0, 0.0))
    return affinity.translate(turned, 0.0, -tab.aside)


def _from_tab(tab: TabSettings, area: shapely.Geometry) -> shapely.Geometry:
    return affinity.rotate(affinity.translate(area, 0.0, tab.aside), tab.direction, origin=(0.0, 0.0))


def _first_up(text: str) -> str:
    return text[0].upper() + text[1:]
