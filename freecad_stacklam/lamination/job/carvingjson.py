# SPDX-License-Identifier: LGPL-2.1-or-later

"""The carving guide as plain data: the `carving` room of plan.json. mm, mm³, degrees; hours at the maker's own rate."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import shapely
from shapely.geometry import Polygon
from shapely.geometry.polygon import orient

from freecad_stacklam.lamination.plan.carving import CarvingPlan, CarvingStep, DepthMap, Offset, SectionTemplate


def _n(value: float) -> float:
    return round(float(value), 6) + 0.0


def _maybe(value: float | None) -> float | None:
    return None if value is None else _n(value)


def _numbers(values: Iterable[float]) -> list[float]:
    return [_n(v) for v in values]


def _area(area: shapely.Geometry) -> list[dict[str, Any]]:
    made = []
    for part in shapely.get_parts(area):
        if isinstance(part, Polygon) and not part.is_empty:
            turned = orient(part)
            loops = (turned.exterior, *turned.interiors)
            rings = [[_numbers(p) for p in shapely.get_coordinates(loop)[:-1]] for loop in loops]
            made.append({"outer": rings[0], "holes": rings[1:]})
    return made


def carving_json(carving: CarvingPlan | None) -> dict[str, Any]:
    """Every key present; lists are empty without a guide."""
    carving = carving or CarvingPlan()
    return {
        "depth_holes": [
            {
                "stack": h.stack, "face": h.face, "x": _n(h.x), "y": _n(h.y), "surface": _n(h.surface),
                "depth": _n(h.depth), "stop": h.stop, "bit": h.bit,
            }
            for m in carving.depth_maps
            for h in m.holes
        ],
        "stops": [
            {
                "stack": s.stack, "face": s.face, "stop": s.stop, "depth": _n(s.depth), "count": s.count, "bit": s.bit,
                "point": _n(m.bit.point), "leave": _n(m.leave),
            }
            for m in carving.depth_maps
            for s in m.stops
        ],
        "left_out": [_left_out(m) for m in carving.depth_maps],
        "templates": [_template(t) for t in carving.templates],
        "offsets": [_offset(o) for o in carving.offsets],
        "steps": [_step(s) for s in carving.steps],
        "removed_volume": [
            {"stack": r.stack, "layer": r.layer, "volume": _n(r.volume), "hours": _maybe(r.hours)}
            for r in carving.removed
        ],
        "rate": _maybe(carving.rate),
        "hours": _maybe(carving.hours),
    }  # fmt: skip


def _left_out(holes: DepthMap) -> dict[str, Any]:
    return {"stack": holes.stack, "face": holes.face, "places": dict(holes.dropped)}


def _template(template: SectionTemplate) -> dict[str, Any]:
    return {
        "stack": template.stack,
        "name": template.name,
        "kind": template.kind,
        "plane": {
            "origin": _numbers(template.origin),
            "across": [float(v) + 0.0 for v in template.across],
            "up": [float(v) + 0.0 for v in template.up],
        },
        "outline": _area(template.form),
        "gauges": [{"side": g.side, "outline": _area(g.area), "spans": g.spans} for g in template.gauges],
        "marks": [{"name": m.name, "from": _numbers(m.start), "to": _numbers(m.end)} for m in template.marks],
    }


def _offset(row: Offset) -> dict[str, Any]:
    return {
        "stack": row.stack, "height": _n(row.height), "below": row.below, "above": row.above, "piece": row.piece,
        "kind": row.kind, "centre": _numbers(row.centre), "about": row.about,
        "azimuth" if row.kind == "azimuth" else "station": _n(row.at), "direction": _n(row.direction),
        "radius": _n(row.radius), "cut": _maybe(row.cut),
        "radius_below": _maybe(row.radius_below), "radius_above": _maybe(row.radius_above),
        "edge_below": _maybe(row.edge_below), "edge_above": _maybe(row.edge_above),
        "inner": _numbers(row.inner), "note": row.note,
    }  # fmt: skip


def _step(step: CarvingStep) -> dict[str, Any]:
    return {
        "stack": step.stack,
        "interface": step.interface,
        "height": _n(step.height),
        "ledge": _n(step.ledge),
        "outer": None if step.outer is None else _numbers(step.outer),
        "inner": None if step.inner is None else _numbers(step.inner),
        "corners": [
            {
                "corner": [_numbers(p) for p in c.corner],
                "nearest": [_numbers(p) for p in c.nearest],
                "distance": _numbers(c.distance),
                "closed": c.closed,
            }
            for c in step.corners
        ],
    }
