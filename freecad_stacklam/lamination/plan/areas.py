# SPDX-License-Identifier: LGPL-2.1-or-later

"""Areas in plan: of a cut, of a blank, and what is left of any geometry when its lines and points are dropped. mm²."""

from __future__ import annotations

from collections.abc import Sequence

import shapely
from shapely.geometry import MultiPolygon, Polygon

from freecad_stacklam.lamination.plan.layers import Cut
from freecad_stacklam.lamination.plan.outline import Outline, polygon_of
from freecad_stacklam.lamination.tolerances import NO_AREA


def areas_of(shape: shapely.Geometry, least: float = NO_AREA) -> MultiPolygon:
    """The areas in any geometry; lines and points left by an overlay are dropped, and areas up to `least` mm²."""
    return MultiPolygon([p for p in shapely.get_parts(shape) if isinstance(p, Polygon) and p.area > least])


def blank_area(blank: Sequence[Outline]) -> MultiPolygon:
    """All islands of a blank as one area, for overlays."""
    return areas_of(shapely.union_all([polygon_of(o) for o in blank]))


def cut_plan(cut: Cut) -> Polygon:
    """Everything a cut takes in plan; a tilted one sweeps from its outline at one end to that at the other."""
    plan = polygon_of(cut.outline)
    if cut.outline_end is None:
        return plan
    return shapely.convex_hull(shapely.union(plan, polygon_of(cut.outline_end)))
