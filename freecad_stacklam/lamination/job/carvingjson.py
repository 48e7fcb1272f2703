# SPDX-License-Identifier: LGPL-2.1-or-later

"""The carving guide as plain data: the `carving` room of plan.json. mm, mm³, degrees; hours at the maker's own rate."""

from __future__ import annotations

from typing import Any

from freecad_stacklam.lamination.job.jsonfacts import area, maybe, number, numbers
from freecad_stacklam.lamination.plan.carving import CarvingPlan, CarvingStep, DepthMap, Offset, SectionTemplate


def carving_json(carving: CarvingPlan | None) -> dict[str, Any]:
    """Every key present; lists are empty without a guide."""
    carving = carving or CarvingPlan()
    return {
        "depth_holes": [
            {
                "stack": h.stack, "face": h.face, "x": number(h.x), "y": number(h.y), "surface": number(h.surface),
                "depth": number(h.depth), "stop": h.stop, "bit": h.bit,
            }
            for m in carving.depth_maps
            for h in m.holes
        ],
        "stops": [
            {
                "stack": s.stack, "face": s.face, "stop": s.stop, "depth": number(s.depth), "count": s.count,
                "bit": s.bit, "point": number(m.bit.point), "leave": number(m.leave),
            }
            for m in carving.depth_maps
            for s in m.stops
        ],
        "left_out": [_left_out(m) for m in carving.depth_maps],
        "templates": [_template(t) for t in carving.templates],
        "offsets": [_offset(o) for o in carving.offsets],
        "steps": [_step(s) for s in carving.steps],
        "elevations": [
            {
                "stack": v.stack, "side": v.side,
                "corners": [
                    {
                        "interface": c.interface, "height": number(c.height), "side": c.side, "outer": number(c.outer),
                        "inner": number(c.inner), "from_outer": maybe(c.from_outer), "at_inner": maybe(c.at_inner),
                    }
                    for c in v.corners
                ],
            }
            for v in carving.elevations
        ],
        "removed_volume": [
            {"stack": r.stack, "layer": r.layer, "volume": number(r.volume), "hours": maybe(r.hours)}
            for r in carving.removed
        ],
        "rate": maybe(carving.rate),
        "hours": maybe(carving.hours),
    }  # fmt: skip


def _left_out(holes: DepthMap) -> dict[str, Any]:
    return {"stack": holes.stack, "face": holes.face, "places": dict(holes.dropped)}


def _template(template: SectionTemplate) -> dict[str, Any]:
    return {
        "stack": template.stack,
        "name": template.name,
        "kind": template.kind,
        "plane": {
            "origin": numbers(template.origin),
            "across": [float(v) + 0.0 for v in template.across],
            "up": [float(v) + 0.0 for v in template.up],
        },
        "outline": area(template.form),
        "gauges": [{"side": g.side, "outline": area(g.area), "spans": g.spans} for g in template.gauges],
        "marks": [{"name": m.name, "from": numbers(m.start), "to": numbers(m.end)} for m in template.marks],
    }


def _offset(row: Offset) -> dict[str, Any]:
    return {
        "stack": row.stack, "height": number(row.height), "below": row.below, "above": row.above, "piece": row.piece,
        "kind": row.kind, "centre": numbers(row.centre), "about": row.about,
        "azimuth" if row.kind == "azimuth" else "station": number(row.at), "direction": number(row.direction),
        "radius": number(row.radius), "cut": maybe(row.cut),
        "radius_below": maybe(row.radius_below), "radius_above": maybe(row.radius_above),
        "edge_below": maybe(row.edge_below), "edge_above": maybe(row.edge_above),
        "inner": numbers(row.inner), "note": row.note,
    }  # fmt: skip


def _step(step: CarvingStep) -> dict[str, Any]:
    return {
        "stack": step.stack,
        "interface": step.interface,
        "height": number(step.height),
        "ledge": number(step.ledge),
        "outer": None if step.outer is None else numbers(step.outer),
        "inner": None if step.inner is None else numbers(step.inner),
        "corners": [
            {
                "corner": [numbers(p) for p in c.corner],
                "nearest": [numbers(p) for p in c.nearest],
                "distance": numbers(c.distance),
                "closed": c.closed,
            }
            for c in step.corners
        ],
    }
